"""Marks of an operator on a stage scale."""

from math import sqrt

import pytest
from hypothesis import given
from hypothesis import strategies as st

from strandproof.errors import ParameterError
from strandproof.micrograph.calibration import (
    StageScale,
    calibration_from_marks,
    marked_length_px,
)

SCALE = StageScale(division_um=10.0, certificate_um=0.0, tilt_deg=0.0)


@given(
    length=st.floats(50, 5000),
    off=st.lists(st.floats(-0.04, 0.04), min_size=2, max_size=9),
    divisions=st.integers(1, 100),
)
def test_value_is_true_length_over_mean_length(
    length: float, off: list[float], divisions: int
) -> None:
    lengths = [length * (1 + part / 2) for part in off]
    found = calibration_from_marks(lengths, SCALE, divisions=divisions)
    mean = sum(lengths) / len(lengths)
    assert found.pixel_size.value == pytest.approx(
        10.0 * divisions / mean, rel=1e-4, abs=0
    )
    assert len(found.readings_um) == len(lengths)


def test_equal_readings_keep_the_steps_of_the_marks() -> None:
    """Type A is zero; two rectangular steps of 1 px leave 1 / sqrt(6) px."""
    found = calibration_from_marks((500.0, 500.0, 500.0), SCALE, divisions=10)
    steps = next(line for line in found.pixel_size.budget if "steps" in line.name)
    assert steps.standard_uncertainty == pytest.approx(1 / sqrt(6), rel=1e-12, abs=0)
    assert found.pixel_size.standard_uncertainty > steps.component


def test_a_finer_step_lowers_the_uncertainty() -> None:
    coarse, fine = (
        calibration_from_marks(
            (500.0, 500.1, 499.9), SCALE, divisions=10, resolution_px=step
        ).pixel_size.standard_uncertainty
        for step in (1.0, 0.1)
    )
    assert fine < coarse


def test_size_of_the_picture_is_kept() -> None:
    found = calibration_from_marks(
        (500.0, 501.0), SCALE, divisions=10, size_px=(2736, 1824)
    )
    assert (found.width_px, found.height_px) == (2736, 1824)


def test_marks_are_points_of_the_picture() -> None:
    assert marked_length_px((0, 0), (3, 4)) == pytest.approx(5, rel=1e-12, abs=0)


@pytest.mark.parametrize(
    ("lengths", "divisions", "resolution", "message"),
    [
        ((500.0,), 10, 1.0, "two readings or more"),
        ((500.0, 501.0), 0, 1.0, "divisions"),
        ((500.0, 501.0), 10, -1.0, "resolution_px"),
        ((500.0, 501.0, 551.0), 10, 1.0, "Count the divisions again"),
        ((500.0, 500.0, float("nan")), 10, 1.0, "above 0 px"),
        ((-500.0, -500.0), 10, 1.0, "above 0 px"),
    ],
)
def test_marks_that_cannot_be_are_refused(
    lengths: tuple[float, ...], divisions: int, resolution: float, message: str
) -> None:
    with pytest.raises(ParameterError, match=message):
        calibration_from_marks(
            lengths, SCALE, divisions=divisions, resolution_px=resolution
        )
