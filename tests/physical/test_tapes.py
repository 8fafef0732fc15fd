"""Flat tape against rectangles drawn at any angle."""

import numpy as np
import numpy.typing as npt
import pytest

from strandproof.errors import NotResolvedError, ParameterError
from strandproof.physical import tape_section
from strandproof.quantity import Quantity
from strandproof.records.physical import EdgeKnowledge

EDGE = EdgeKnowledge(pixel_size=Quantity(0.5, "um", 0.001), resolution_um=1.0)


def rectangle(
    width: float, thickness: float, *, degrees: float = 0.0, taper: float = 0.0
) -> npt.NDArray[np.bool_]:
    """A tape about the middle; `taper` thins it from one end to the other."""
    rows, columns = np.indices((600, 600)) - 299.6
    turn = np.deg2rad(degrees)
    along = columns * np.cos(turn) - rows * np.sin(turn)
    across = columns * np.sin(turn) + rows * np.cos(turn)
    half = thickness / 2 * (1 + taper * along / width)
    return np.asarray((np.abs(along) <= width / 2) & (np.abs(across) <= half))


@pytest.mark.parametrize("degrees", [0.0, 1.0, 17.0, 45.0, 88.0])
def test_rectangles_at_any_angle(degrees: float) -> None:
    found = tape_section(rectangle(400.3, 60.7, degrees=degrees), edge=EDGE)
    # A level edge is off by up to half a pixel, alike all along it.
    off = 0.5 if degrees == 0 else 0.1
    np.testing.assert_allclose(found.thickness.value, 0.5 * 60.7, rtol=0, atol=off)
    np.testing.assert_allclose(found.width.value, 0.5 * 400.3, rtol=0, atol=0.5)
    true = 0.25 * 400.3 * 60.7 * 1e-6
    np.testing.assert_allclose(
        found.area.value, true, rtol=0.015 if degrees == 0 else 0.005, atol=0
    )
    assert abs(found.area.value - true) < found.area.standard_uncertainty
    assert (
        abs(found.thickness.value - 0.5 * 60.7) < found.thickness.standard_uncertainty
    )


def test_uneven_thickness_shows_in_its_range() -> None:
    found = tape_section(rectangle(400, 60, taper=0.5), edge=EDGE)
    # A tenth at each end is left out: from 1 - 0.5 x 0.4 to 1 + 0.5 x 0.4.
    np.testing.assert_allclose(found.smallest_um, 30 * 0.8, rtol=0.03, atol=0)
    np.testing.assert_allclose(found.largest_um, 30 * 1.2, rtol=0.03, atol=0)
    assert found.places in {79, 80}


def test_round_ends_do_not_thin_the_tape() -> None:
    rows, columns = np.indices((100, 500)) - 49.5
    from_axis = np.maximum(np.abs(columns - 200) - 150, 0)
    found = tape_section(np.hypot(rows, from_axis) <= 30, edge=EDGE)
    np.testing.assert_allclose(found.thickness.value, 30, rtol=0.02, atol=0)
    np.testing.assert_allclose(found.smallest_um, 30, rtol=0.02, atol=0)


def test_both_edges_are_in_the_budget() -> None:
    found = tape_section(rectangle(400, 60), edge=EDGE).thickness
    line = next(one for one in found.budget if "edge" in one.name)
    np.testing.assert_allclose(line.component, 2 * 0.5 / np.sqrt(3), rtol=1e-9, atol=0)


def test_refusals() -> None:
    with pytest.raises(ParameterError, match="twice as wide as thick"):
        tape_section(rectangle(80, 60), edge=EDGE)
    with pytest.raises(ParameterError, match="both ends"):
        tape_section(np.ones((60, 300), dtype=np.bool_), edge=EDGE)
    with pytest.raises(NotResolvedError, match="at least 5 um"):
        tape_section(rectangle(400, 8), edge=EDGE)
