"""The scene: what cannot be drawn at a scale is refused."""

from dataclasses import replace

import pytest

from strandproof.app.workflow.expected_looks.scene import Scene
from strandproof.errors import ParameterError

LONG = Scene(
    shape=(560, 800),
    um_per_px=0.1726,
    direction="longitudinal",
    strand_um=80.0,
    axis_deg=0.0,
    mean_intercept_um=8.4,
    colour=True,
)


@pytest.mark.parametrize("mean_um", [0.0, 0.69, float("nan")])
def test_grains_that_no_pixel_could_show_are_refused(mean_um: float) -> None:
    with pytest.raises(ParameterError, match="would not be resolved at this scale"):
        replace(LONG, mean_intercept_um=mean_um)


@pytest.mark.parametrize("shape", [(8000, 8000), (79, 500), (500, 79)])
def test_very_large_and_very_small_pictures_are_refused(shape: tuple[int, int]) -> None:
    with pytest.raises(ParameterError, match="at most 30 million pixels"):
        replace(LONG, shape=shape)
