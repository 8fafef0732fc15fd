from collections.abc import Callable
from dataclasses import fields, is_dataclass, replace
from math import isfinite, log, sqrt

import numpy as np
import numpy.typing as npt
import pytest

from strandproof.errors import ParameterError, UnitError
from strandproof.grainsize import counting_rules, measure
from strandproof.quantity import Quantity
from strandproof.records import (
    Flag,
    GrainMeasurement,
    LabelledStructure,
    StructureMeasurement,
)

Labels = npt.NDArray[np.int32]
Squares = Callable[[int, int], Labels]
OneStrand = Callable[..., LabelledStructure]
Voronoi = Callable[..., Labels]
PIXEL = Quantity(0.2, "um", 0.002)


def _picture(measurement: StructureMeasurement) -> GrainMeasurement:
    assert measurement.picture is not None
    return measurement.picture


def _values_of_g(measurement: StructureMeasurement) -> tuple[float, float]:
    picture = _picture(measurement)
    assert picture.g_planimetric is not None
    assert picture.g_intercept is not None
    return picture.g_planimetric.quantity.value, picture.g_intercept.quantity.value


def _names(measurement: StructureMeasurement) -> list[str]:
    return [flag.name for flag in measurement.flags]


def _without_boundary(one_strand: OneStrand, shape: str) -> LabelledStructure:
    labels = np.pad(np.ones((40, 300), np.int32), ((10, 10), (0, 0)))
    axis_deg = None if shape == "round" else 0.0
    return one_strand(labels, metal=labels > 0, shape=shape, axis_deg=axis_deg)


def test_squares_give_their_side_and_their_number(
    squares: Squares, one_strand: OneStrand
) -> None:
    rules = counting_rules(frame_rule="half_and_quarter_corners")
    picture = _picture(
        measure(one_strand(squares(20, 12)), pixel_size=PIXEL, rules=rules)
    )
    assert picture.count.equivalent == 144.0
    assert picture.count.area.value == pytest.approx(0.048**2, rel=1e-12, abs=0)
    assert picture.grains_per_area is not None
    assert picture.grains_per_area.quantity.value == pytest.approx(
        1 / 0.004**2, rel=1e-9, abs=0
    )
    along = picture.intercepts.directions[0].mean_intercept
    assert along is not None
    assert along.quantity.value == pytest.approx(4.0, rel=1e-9, abs=0)
    assert along.quantity.unit == "um"


def test_half_the_scale_raises_both_g_by_two(
    squares: Squares, one_strand: OneStrand
) -> None:
    structure = one_strand(squares(20, 12))
    coarse = _values_of_g(measure(structure, pixel_size=Quantity(0.4, "um")))
    fine = _values_of_g(measure(structure, pixel_size=Quantity(0.2, "um")))
    # The printed slopes are rounded in the seventh digit.
    assert fine[0] - coarse[0] == pytest.approx(2.0, rel=0, abs=1e-6)
    assert fine[1] - coarse[1] == pytest.approx(2.0, rel=0, abs=1e-6)


def test_without_a_scale_there_are_counts_and_pixels_and_no_g(
    squares: Squares, one_strand: OneStrand
) -> None:
    measurement = measure(one_strand(squares(20, 12)), pixel_size=None)
    picture = _picture(measurement)
    assert picture.g_planimetric is None
    assert picture.g_intercept is None
    assert picture.count.area.unit == "px^2"
    assert picture.grains_per_area is not None
    assert picture.grains_per_area.quantity.unit == "1/px^2"
    assert picture.intercepts.mean_intercept is not None
    assert picture.intercepts.mean_intercept.quantity.unit == "px"
    assert picture.intercepts.length.unit == "px"
    assert picture.axial_crossings is not None
    assert picture.axial_crossings.rate.quantity.unit == "1/px"
    assert "no_scale" in _names(measurement)


def test_the_scale_adds_to_the_sampling_uncertainty_in_squares(
    voronoi: Voronoi, one_strand: OneStrand
) -> None:
    structure = one_strand(voronoi(7, expected_grains=120.0, side=300))
    pixels = _picture(measure(structure, pixel_size=None))
    scaled = _picture(measure(structure, pixel_size=PIXEL))
    for in_px, in_um, power in (
        (pixels.intercepts.mean_intercept, scaled.intercepts.mean_intercept, 1),
        (pixels.grains_per_area, scaled.grains_per_area, 2),
    ):
        assert in_px is not None
        assert in_um is not None
        sampling = in_px.quantity.standard_uncertainty / in_px.quantity.value
        together = in_um.quantity.standard_uncertainty / in_um.quantity.value
        assert together == pytest.approx(
            sqrt(sampling**2 + (power * 0.01) ** 2), rel=1e-6, abs=0
        )


@pytest.mark.parametrize("shape", ["long", "round", "field"])
def test_one_crystal_has_no_grain_size_and_no_infinite_number(
    one_strand: OneStrand, shape: str
) -> None:
    measurement = measure(_without_boundary(one_strand, shape), pixel_size=PIXEL)
    (strand,) = measurement.strands
    assert strand.values.count.grains == 1
    for values in (strand.values, _picture(measurement)):
        assert values.grains_per_area is None
        assert values.intercepts.mean_intercept is None
        assert values.g_planimetric is None
        assert values.g_intercept is None
    assert strand.grains_across is None
    assert "few_grains" in _names(measurement)
    assert all(isfinite(number) for number in _numbers(measurement))


def _numbers(record: object) -> list[float]:
    """All floats of a record, but degrees of freedom, which may be infinite."""
    if isinstance(record, float):
        return [record]
    if isinstance(record, tuple):
        return [number for part in record for number in _numbers(part)]
    if is_dataclass(record):
        names = [field.name for field in fields(record)]
        return [
            number
            for name in names
            if name != "degrees_of_freedom"
            for number in _numbers(getattr(record, name))
        ]
    return []


def test_a_round_face_has_no_axial_rate(one_strand: OneStrand) -> None:
    measurement = measure(_without_boundary(one_strand, "round"), pixel_size=PIXEL)
    assert _picture(measurement).axial_crossings is None
    assert "axis_assumed" not in _names(measurement)
    assert "few_grains_across" in _names(measurement)


def test_a_long_section_without_a_boundary_gets_its_bound(
    one_strand: OneStrand,
) -> None:
    measurement = measure(
        _without_boundary(one_strand, "long"), pixel_size=Quantity(0.2, "um")
    )
    found = _picture(measurement).axial_crossings
    assert found is not None
    assert len(found.traverses) == 1
    assert found.rate.interval95 is not None
    # 300 px of 0.2 um are 0.06 mm.
    assert found.rate.interval95.upper == pytest.approx(
        -log(0.05) / 0.06, rel=1e-9, abs=0
    )
    assert _names(measurement).count("few_grains_across") == 1


def test_bamboo_grains_are_flagged_and_counted_along(one_strand: OneStrand) -> None:
    labels = np.tile(np.repeat(np.arange(1, 31), 60), (40, 1)).astype(np.int32)
    labels = np.pad(labels, ((10, 10), (0, 0)))
    structure = one_strand(labels, metal=labels > 0, shape="long")
    measurement = measure(structure, pixel_size=PIXEL)
    found = measurement.strands[0].values.axial_crossings
    assert found is not None
    assert found.crossings == 29
    assert {"few_grains", "few_grains_across", "elongated_grains"} <= set(
        _names(measurement)
    )


def test_grains_across_are_counted_across(
    squares: Squares, one_strand: OneStrand
) -> None:
    labels = np.pad(squares(20, 12), ((10, 10), (0, 0)))
    metal = np.zeros(labels.shape, np.bool_)
    metal[10:-10] = True
    (strand,) = measure(
        one_strand(labels, metal=metal, shape="long"), pixel_size=PIXEL
    ).strands
    assert strand.grains_across == pytest.approx(12.0, rel=0.01, abs=0)
    assert "few_grains_across" not in [flag.name for flag in strand.flags]


def test_a_field_without_an_axis_says_what_was_assumed(
    squares: Squares, one_strand: OneStrand
) -> None:
    measurement = measure(one_strand(squares(20, 12), axis_deg=None), pixel_size=PIXEL)
    assert "axis_assumed" in _names(measurement)
    assert measurement.strands[0].axis_deg == 0.0


def test_every_picture_says_that_it_is_one_field(
    squares: Squares, one_strand: OneStrand
) -> None:
    measurement = measure(one_strand(squares(20, 12)), pixel_size=PIXEL)
    assert _names(measurement) == ["one_field"]
    mean = _picture(measurement).intercepts.mean_intercept
    assert mean is not None
    assert mean.interval95 is not None
    assert "within this picture" in mean.interval95.method


def test_flags_of_the_labels_are_carried_and_stand_first(
    squares: Squares, one_strand: OneStrand
) -> None:
    flags = (Flag("synthetic"), Flag("blurred", "3 px"))
    measurement = measure(one_strand(squares(20, 12), flags=flags), pixel_size=PIXEL)
    assert measurement.flags[:2] == flags


def test_a_blocking_flag_of_the_labels_blocks_g(
    squares: Squares, one_strand: OneStrand
) -> None:
    structure = one_strand(squares(20, 12), flags=(Flag("no_metal"),))
    picture = _picture(measure(structure, pixel_size=PIXEL))
    assert picture.g_intercept is None
    assert picture.intercepts.mean_intercept is not None


def test_a_scale_given_here_settles_the_missing_scale_of_the_labels(
    squares: Squares, one_strand: OneStrand
) -> None:
    structure = one_strand(squares(20, 12), flags=(Flag("no_scale"),))
    measurement = measure(structure, pixel_size=PIXEL)
    assert "no_scale" not in _names(measurement)
    assert _picture(measurement).g_intercept is not None
    unscaled = measure(structure, pixel_size=None)
    assert _names(unscaled).count("no_scale") == 1


def test_a_picture_without_metal_has_no_values() -> None:
    empty = LabelledStructure(
        grain_labels=np.zeros((5, 5), np.int32),
        strand_labels=np.zeros((5, 5), np.int32),
        strands=(),
        flags=(Flag("no_metal"),),
        method="drawn",
        method_version="1",
    )
    measurement = measure(empty, pixel_size=PIXEL)
    assert measurement.picture is None
    assert measurement.strands == ()
    assert _names(measurement) == ["no_metal"]


def _two_strands(one_strand: OneStrand, second: Labels) -> LabelledStructure:
    rows, cols = np.indices((40, 300)) // 10
    first = np.pad((rows * 30 + cols + 1).astype(np.int32), ((5, 55), (0, 0)))
    other = np.pad(second + 1000, ((55, 5), (0, 0)), constant_values=0)
    other[:55], other[95:] = 0, 0
    upper = one_strand(first, metal=first > 0, shape="long")
    lower = one_strand(other, metal=other > 0, shape="long")
    strand = replace(lower.strands[0], number=2)
    return replace(
        upper,
        grain_labels=upper.grain_labels + lower.grain_labels,
        strand_labels=upper.strand_labels + 2 * lower.strand_labels,
        strands=(*upper.strands, strand),
    )


def test_strands_are_measured_apart_and_pooled(one_strand: OneStrand) -> None:
    rows, cols = np.indices((40, 300)) // 20
    structure = _two_strands(one_strand, (rows * 15 + cols + 1).astype(np.int32))
    measurement = measure(structure, pixel_size=PIXEL)
    first, second = measurement.strands
    picture = _picture(measurement)
    assert (first.number, second.number) == (1, 2)
    assert picture.count.grains == (
        first.values.count.grains + second.values.count.grains
    )
    assert picture.intercepts.intercepts == (
        first.values.intercepts.intercepts + second.values.intercepts.intercepts
    )
    assert picture.axial_crossings is not None
    assert picture.axial_crossings.crossings == sum(
        strand.values.axial_crossings.crossings
        for strand in measurement.strands
        if strand.values.axial_crossings is not None
    )
    numbers = {flag.strand for flag in measurement.flags if flag.name == "few_grains"}
    assert numbers == {2}


def test_strands_that_disagree_have_no_common_axial_rate(
    one_strand: OneStrand,
) -> None:
    structure = _two_strands(one_strand, np.ones((40, 300), np.int32))
    measurement = measure(structure, pixel_size=PIXEL)
    assert _picture(measurement).axial_crossings is None
    assert all(
        strand.values.axial_crossings is not None for strand in measurement.strands
    )


def test_options_are_kept_with_the_result(
    squares: Squares, one_strand: OneStrand
) -> None:
    rules = counting_rules(line_ends="whole_at_strand_edge")
    measurement = measure(one_strand(squares(20, 12)), pixel_size=PIXEL, rules=rules)
    assert measurement.rules == rules
    assert measurement.relation_form == "e112"
    assert (measurement.method, measurement.method_version) == ("drawn", "1")


def test_a_pixel_size_must_be_a_length(squares: Squares, one_strand: OneStrand) -> None:
    structure = one_strand(squares(20, 4))
    with pytest.raises(UnitError, match="micrometres per pixel"):
        measure(structure, pixel_size=Quantity(0.2, "mm"))
    with pytest.raises(ParameterError, match="above 0 um per pixel"):
        measure(structure, pixel_size=Quantity(0.0, "um"))
