import numpy as np
import pytest

from strandproof.errors import ParameterError
from strandproof.grainsize.orientations.axis_direction import axis_directions
from strandproof.grainsize.orientations.textures import (
    fibre_orientations,
    texture_in_words,
    texture_shares,
)
from strandproof.records.orientation_results import FibreTexture

Z = np.array([0.0, 0.0, 1.0])


@pytest.mark.parametrize(
    ("share_111", "direction"),
    [(1.0, [1.0, 1.0, 1.0]), (0.0, [1.0, 0.0, 0.0])],
)
def test_fibre_grains_have_their_direction_along_the_axis(
    share_111: float, direction: list[float]
) -> None:
    texture = FibreTexture(share_111=share_111, share_100=1.0 - share_111)
    drawn = fibre_orientations(texture, 50, np.random.default_rng(1))
    expected = np.array(direction) / np.linalg.norm(direction)
    np.testing.assert_allclose(
        axis_directions(drawn, Z), np.tile(expected, (50, 1)), rtol=0, atol=1e-9
    )


def test_tilt_has_the_deviation_asked_for() -> None:
    texture = FibreTexture(share_111=0.0, share_100=1.0, tilt_deg=4.0)
    drawn = fibre_orientations(texture, 20_000, np.random.default_rng(2))
    tilt = np.rad2deg(np.arccos(axis_directions(drawn, Z)[:, 0]))
    # Two normal parts of 4 deg: a mean square of 32 deg2.
    assert np.mean(tilt**2) == pytest.approx(32.0, rel=0.03)


def test_texture_in_words_leaves_out_what_is_not_there() -> None:
    mixed = FibreTexture(share_111=0.5, share_100=0.2)
    assert texture_in_words(mixed) == (
        "50 % <111> fibre and 20 % <100> fibre and 30 % random, no tilt"
    )
    only = FibreTexture(share_111=0.0, share_100=1.0, tilt_deg=2.5)
    assert texture_in_words(only) == "100 % <100> fibre, 2.5° tilt"


@pytest.mark.parametrize(
    ("texture", "named"),
    [
        (FibreTexture(share_111=1.2, share_100=0.0), "share_111"),
        (FibreTexture(share_111=0.0, share_100=-0.1), "share_100"),
        (FibreTexture(share_111=0.7, share_100=0.6), "at most 1 together"),
        (FibreTexture(share_111=0.7, share_100=0.1, tilt_deg=60.0), "tilt_deg"),
        (FibreTexture(share_111=float("nan"), share_100=0.1), "share_111"),
    ],
)
def test_textures_that_are_none(texture: FibreTexture, named: str) -> None:
    with pytest.raises(ParameterError, match=named):
        texture_shares(texture)
