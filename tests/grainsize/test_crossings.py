from collections.abc import Callable
from math import log, sqrt

import numpy as np
import numpy.typing as npt
import pytest

from strandproof.grainsize import counting_rules
from strandproof.grainsize.crossings import axial_crossings, axial_lines
from strandproof.grainsize.patch import strand_patches
from strandproof.grainsize.traverses import WalkedLine
from strandproof.quantity import Quantity, poisson_interval
from strandproof.records import LabelledStructure

RULES = counting_rules()
OneStrand = Callable[..., LabelledStructure]


def _lines(
    structure: LabelledStructure, mean_px: float | None, axis_deg: float = 0.0
) -> tuple[WalkedLine, ...]:
    (patch,) = strand_patches(structure)
    return axial_lines(
        patch,
        structure.strands[0],
        axis_deg=axis_deg,
        mean_intercept_px=mean_px,
        rules=RULES,
    )


def _long(labels: npt.NDArray[np.int32], one_strand: OneStrand) -> LabelledStructure:
    padded = np.pad(labels, ((10, 10), (0, 0)))
    return one_strand(padded, metal=padded > 0, shape="long")


def _bamboo(one_strand: OneStrand) -> LabelledStructure:
    # Five grains of 80 px, each as wide as the strand of 40 px.
    labels = np.tile(np.repeat(np.arange(1, 6), 80), (40, 1)).astype(np.int32)
    return _long(labels, one_strand)


def test_without_a_boundary_only_the_centre_line_counts(one_strand: OneStrand) -> None:
    structure = _long(np.ones((40, 500), np.int32), one_strand)
    (line,) = _lines(structure, None)
    assert line.traverse.start_px == pytest.approx((29.5, -0.5), rel=0, abs=1e-9)
    assert line.traverse.length_px == pytest.approx(500.0, rel=1e-12, abs=0)


def test_more_lines_that_see_nothing_are_no_more_length(one_strand: OneStrand) -> None:
    structure = _long(np.ones((40, 500), np.int32), one_strand)
    assert len(_lines(structure, 8.0)) == 1


def test_boundaries_across_the_strand_are_counted_once(one_strand: OneStrand) -> None:
    lines = _lines(_bamboo(one_strand), 80.0)
    assert len(lines) == 1
    found = axial_crossings(lines, pixel_size=None)
    assert found is not None
    assert found.crossings == 4


def test_lines_stand_a_mean_intercept_apart(one_strand: OneStrand) -> None:
    rows, cols = np.indices((40, 400)) // 8
    structure = _long((rows * 50 + cols + 1).astype(np.int32), one_strand)
    lines = _lines(structure, 8.0)
    at = sorted(line.traverse.start_px[0] for line in lines)
    assert np.diff(at) == pytest.approx([8.0] * (len(at) - 1), rel=0, abs=1e-9)
    # 40 px wide: the centre line and two on each side.
    assert len(at) == 5


def test_a_slanting_strand_is_followed(one_strand: OneStrand) -> None:
    rows, cols = np.indices((300, 300))
    along = (cols - rows) / sqrt(2)
    across = (cols + rows - 299) / sqrt(2)
    metal = np.abs(across) < 20
    labels = np.where(along > 0, 1, 2).astype(np.int32)
    structure = one_strand(labels, metal=metal, shape="long", axis_deg=45.0)
    lines = _lines(structure, None, axis_deg=45.0)
    assert sum(line.traverse.crossings for line in lines) == 1
    assert lines[0].traverse.length_px == pytest.approx(300 * sqrt(2), rel=0.01, abs=0)


def test_the_rate_has_exact_limits(one_strand: OneStrand) -> None:
    found = axial_crossings(
        _lines(_bamboo(one_strand), 80.0), pixel_size=Quantity(2.0, "um")
    )
    assert found is not None
    limits = poisson_interval(4, exposure=0.8, unit="1/mm")
    assert found.length.value == pytest.approx(0.8, rel=1e-12, abs=0)
    assert found.rate.quantity.value == pytest.approx(5.0, rel=1e-12, abs=0)
    assert found.rate.quantity.standard_uncertainty == pytest.approx(
        2.5, rel=1e-12, abs=0
    )
    assert found.rate.interval95 is not None
    assert found.rate.interval95.lower == pytest.approx(limits.lower, rel=1e-9, abs=0)
    assert found.rate.interval95.upper == pytest.approx(limits.upper, rel=1e-9, abs=0)
    assert limits.lower is not None
    assert found.mean_spacing95.upper == pytest.approx(
        1 / limits.lower, rel=1e-9, abs=0
    )
    assert found.sentence.startswith("4 boundaries were crossed over 0.8 mm along")


def test_none_resolved_is_a_bound_and_never_none(one_strand: OneStrand) -> None:
    structure = _long(np.ones((40, 500), np.int32), one_strand)
    found = axial_crossings(_lines(structure, None), pixel_size=Quantity(2.0, "um"))
    assert found is not None
    assert found.rate.quantity.value == 0
    assert found.rate.interval95 is not None
    assert found.rate.interval95.lower is None
    assert found.rate.interval95.upper == pytest.approx(-log(0.05), rel=1e-9, abs=0)
    assert found.mean_spacing95.lower == pytest.approx(-1 / log(0.05), rel=1e-9, abs=0)
    assert found.mean_spacing95.upper is None
    assert found.sentence == (
        "No boundary was resolved by this method over 1 mm along the axis: "
        "at most 3.00 per mm, mean distance at least 0.33 mm (95 %, one-sided)."
    )


def test_without_a_scale_the_bound_is_per_pixel(one_strand: OneStrand) -> None:
    structure = _long(np.ones((40, 500), np.int32), one_strand)
    found = axial_crossings(_lines(structure, None), pixel_size=None)
    assert found is not None
    assert found.rate.quantity.unit == "1/px"
    assert "over 500 px along the axis" in found.sentence


def test_no_line_in_metal_gives_no_rate() -> None:
    assert axial_crossings((), pixel_size=None) is None
