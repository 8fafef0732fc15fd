"""Agreement of boundaries on masks whose figures follow by hand."""

import numpy as np
import pytest

from strandproof.errors import ParameterError
from strandproof.micrograph.agreement import (
    boundary_agreement,
    label_changes,
    without_boundary_pixels,
)

LINE = np.zeros((21, 40), np.bool_)
LINE[10] = True


@pytest.mark.parametrize(("shift", "f1"), [(0, 1.0), (3, 1.0), (4, 0.0)])
def test_a_shifted_line_agrees_up_to_the_tolerance(shift: int, f1: float) -> None:
    moved = np.roll(LINE, shift, axis=0)
    assert boundary_agreement(moved, LINE, tolerance_px=3).f1 == f1


def test_half_of_a_line_has_full_precision_and_half_recall() -> None:
    half = LINE.copy()
    half[:, 20:] = False
    found = boundary_agreement(half, LINE, tolerance_px=0)
    assert (found.precision, found.recall) == (1.0, 0.5)
    assert found.f1 == pytest.approx(2 / 3, rel=1e-12)


def test_found_and_reference_exchanged_exchange_precision_and_recall() -> None:
    more = LINE.copy()
    more[2, :20] = True
    one = boundary_agreement(more, LINE, tolerance_px=2)
    other = boundary_agreement(LINE, more, tolerance_px=2)
    assert (one.precision, one.recall) == (other.recall, other.precision)
    assert one.precision == pytest.approx(40 / 60, rel=1e-12)


def test_nothing_found_misses_all_and_nothing_there_is_no_fault() -> None:
    none = np.zeros_like(LINE)
    missed = boundary_agreement(none, LINE, tolerance_px=3)
    assert (missed.precision, missed.recall, missed.f1) == (1.0, 0.0, 0.0)
    assert boundary_agreement(none, none, tolerance_px=3).f1 == 1.0


@pytest.mark.parametrize("tolerance", [-1.0, float("nan")])
def test_impossible_tolerance_is_refused(tolerance: float) -> None:
    with pytest.raises(ParameterError, match="tolerance_px"):
        boundary_agreement(LINE, LINE, tolerance_px=tolerance)


def test_masks_of_two_shapes_are_refused() -> None:
    with pytest.raises(ParameterError, match="found"):
        boundary_agreement(LINE[1:], LINE, tolerance_px=1)


def test_boundary_pixels_go_to_the_nearest_grain() -> None:
    labels = np.array([[1, 1, 0, 2, 2]])
    filled = without_boundary_pixels(labels)
    assert set(filled.ravel().tolist()) == {1, 2}
    assert label_changes(filled).sum() == 1


def test_a_plane_without_grains_stays_empty() -> None:
    assert not without_boundary_pixels(np.zeros((3, 3), np.int32)).any()
