"""All procedures on whole structures: bamboo, round face, duplex, elongated, even."""

from collections.abc import Callable
from dataclasses import replace

import numpy as np
import numpy.typing as npt
import pytest

from strandproof.errors import ParameterError
from strandproof.grainsize.procedures.counting import PROCEDURES, count_structure
from strandproof.grainsize.procedures.given_labels import (
    share_outside,
    with_given_labels,
    with_twins_apart,
)
from strandproof.grainsize.procedures.settings import procedure_settings
from strandproof.quantity import Quantity
from strandproof.records import Flag, LabelledStructure
from strandproof.records.plain_data import as_plain_data
from strandproof.records.procedures import AreaCount, LineCount
from strandproof.records.structure_findings import StrandCounts

Labels = npt.NDArray[np.int32]
OneStrand = Callable[..., LabelledStructure]
SCALED = procedure_settings(Quantity(0.5, "um", 0.001))


def _strand(
    structure: LabelledStructure,
    *,
    procedures: tuple[str, ...] = PROCEDURES,
    with_twins: LabelledStructure | None = None,
) -> StrandCounts:
    (strand,) = count_structure(
        structure, SCALED, procedures=procedures, with_twins=with_twins
    ).strands
    return strand


def _all(strand: StrandCounts) -> list[AreaCount | LineCount]:
    return [*strand.areas, *strand.lines]


def _bamboo(height: int = 100) -> tuple[Labels, npt.NDArray[np.bool_]]:
    """A strand 50 um wide, its boundaries straight across it, 31 um apart."""
    metal = np.zeros((height + 40, 900), np.bool_)
    metal[20 : 20 + height] = True
    labels = 1 + np.arange(900)[None, :] // 62
    return np.where(metal, labels, 0).astype(np.int32), metal


def test_an_even_field_is_counted_by_every_procedure(
    voronoi: Callable[..., Labels], one_strand: OneStrand
) -> None:
    labels = voronoi(1, expected_grains=150, side=400)
    strand = _strand(one_strand(labels))
    names = [each.procedure for each in _all(strand)]
    assert sorted(names) == sorted(PROCEDURES)
    assert strand.standing.may_state_mean
    for each in _all(strand):
        assert each.g is not None
    assert strand.density is not None
    assert strand.largest is not None
    assert strand.difference is not None
    assert strand.twins is None
    assert strand.crossings is not None
    # Every interval of a G covers the truth of its own definition.
    density = 150 / (400 * 0.5e-3) ** 2
    for area in strand.areas:
        assert area.grains_per_area is not None
        interval = area.grains_per_area.interval95
        assert interval is not None
        assert interval.lower is not None
        assert interval.upper is not None
        assert interval.lower <= density <= interval.upper


def test_bamboo_gives_no_mean_and_boundaries_along_the_length(
    one_strand: OneStrand,
) -> None:
    labels, metal = _bamboo()
    strand = _strand(one_strand(labels, metal=metal, shape="long"))
    assert not strand.standing.may_state_mean
    assert strand.standing.sentence.startswith(
        "1.0 grains across: average grain size not meaningful; count boundaries along "
        "the length. A round face without a boundary says nothing between X1 and X8."
    )
    assert all(each.g is None for each in _all(strand))
    assert all(effect.g is None for line in strand.lines for effect in line.effects)
    assert strand.difference is None
    assert strand.crossings is not None
    # 14 boundaries on each line along; 900 px of 0.5 um are 0.45 mm.
    per_mm = strand.crossings.rate.quantity.value
    assert per_mm == pytest.approx(14 / 0.45, rel=1e-9, abs=0)


def test_a_round_face_of_one_grain_decides_nothing(one_strand: OneStrand) -> None:
    rows, cols = np.indices((160, 160)) - 79.5
    metal = np.hypot(rows, cols) <= 70
    strand = _strand(
        one_strand(metal.astype(np.int32), metal=metal, shape="round", axis_deg=None)
    )
    assert strand.standing.sentence == (
        "A round face without a boundary says nothing between X1 and X8."
    )
    assert strand.crossings is None
    assert strand.density is None


def test_elongated_grains_are_stated_both_ways(
    voronoi: Callable[..., Labels], one_strand: OneStrand
) -> None:
    labels = voronoi(3, expected_grains=200, side=300).repeat(3, axis=1)
    strand = _strand(one_strand(labels))
    assert strand.standing.may_state_mean
    assert strand.standing.needs_both_directions
    assert "um along and" in strand.standing.sentence


def test_two_sizes_give_no_mean(one_strand: OneStrand) -> None:
    row, col = np.indices((480, 480))
    labels = 1 + (row // 6) * 80 + col // 6
    coarse = 20_000 + (row // 40) * 12 + col // 40
    labels = np.where((row // 80) % 2 == 0, coarse, labels).astype(np.int32)
    strand = _strand(one_strand(labels), procedures=("heyn_lines",))
    assert not strand.standing.may_state_mean
    assert "Duplex, two sizes: no mean describes it" in strand.standing.sentence
    assert strand.areas == ()
    assert strand.lines[0].g is None


def test_without_a_scale_there_is_no_g_and_a_flag(
    voronoi: Callable[..., Labels], one_strand: OneStrand
) -> None:
    structure = one_strand(voronoi(2, expected_grains=60, side=250))
    counts = count_structure(structure, procedure_settings(None))
    assert [flag.name for flag in counts.flags] == ["no_scale", "one_field"]
    assert all(line.g is None for line in counts.strands[0].lines)
    assert counts.strands[0].difference is not None


def test_twins_are_counted_apart(
    voronoi: Callable[..., Labels], one_strand: OneStrand
) -> None:
    merged = voronoi(5, expected_grains=40, side=300)
    twinned = merged.copy()
    band = (np.arange(300) // 12) % 5 == 0
    twinned[:, band] = np.where(merged[:, band] > 0, merged[:, band] + 1000, 0)
    strand = _strand(one_strand(merged), procedures=(), with_twins=one_strand(twinned))
    assert strand.twins is not None
    assert strand.twins.twin_crossings > 0
    assert strand.twins.mean_intercept is not None
    assert strand.twins.mean_intercept_with_twins is not None
    assert (
        strand.twins.mean_intercept_with_twins.value < strand.twins.mean_intercept.value
    )


def test_twin_boundaries_that_were_found_are_used(one_strand: OneStrand) -> None:
    structure = one_strand(1 + np.indices((300, 300))[0].astype(np.int32) // 100)
    lines = np.zeros((300, 300), np.bool_)
    lines[:, 29::60] = True
    assert with_twins_apart(structure) is None
    none = _strand(replace(structure, twin_boundary=np.zeros_like(lines)))
    some = _strand(replace(structure, twin_boundary=lines))
    assert none.twins is not None
    assert some.twins is not None
    assert none.twins.twin_crossings == 0
    # Level lines cross five each; upright ones none.
    assert some.twins.twin_crossings >= 5
    assert some.twins.grain_crossings == none.twins.grain_crossings
    assert some.standing == none.standing


def test_an_unknown_procedure_is_refused(one_strand: OneStrand) -> None:
    structure = one_strand(np.ones((60, 60), np.int32))
    with pytest.raises(ParameterError, match="jeffries_circle, saltykov_rectangle"):
        count_structure(structure, SCALED, procedures=("chart",))


def test_everything_is_plain_data(
    voronoi: Callable[..., Labels], one_strand: OneStrand
) -> None:
    structure = one_strand(voronoi(2, expected_grains=60, side=250))
    data = as_plain_data(count_structure(structure, SCALED))
    assert isinstance(data, dict)
    assert data["scoring"]["tangent"]["status"] == "read"  # type: ignore[index,call-overload]


def test_given_labels_take_the_place_of_found_ones(one_strand: OneStrand) -> None:
    labels, metal = _bamboo()
    found = one_strand(
        metal.astype(np.int32),
        metal=metal,
        shape="long",
        flags=(Flag("no_boundary_found"), Flag("blurred")),
    )
    given = with_given_labels(found, labels, method="labels given")
    assert [flag.name for flag in given.flags] == ["blurred"]
    assert given.strands[0].verdict == "poly"
    assert given.strands[0].verdict_reason == "15 grains in the labels given."
    assert share_outside(found, labels) == 0.0
    everywhere = np.ones_like(labels)
    assert share_outside(found, everywhere) == pytest.approx(40 / 140, rel=1e-9)
    with pytest.raises(ParameterError, match="two arrays of one shape"):
        with_given_labels(found, labels[1:], method="labels given")
    with pytest.raises(ParameterError, match="labels of 1 or above"):
        share_outside(found, np.zeros_like(labels))


@pytest.mark.parametrize("size", [(2, 3), (3, 9), (5, 5)])
@pytest.mark.parametrize("shape", ["piece", "long", "round"])
def test_the_smallest_pieces_of_metal_are_survived(
    one_strand: OneStrand, size: tuple[int, int], shape: str
) -> None:
    metal = np.zeros((30, 40), np.bool_)
    metal[10 : 10 + size[0], 12 : 12 + size[1]] = True
    labels = np.where(np.arange(40)[None, :] < 15, 1, 2) * metal
    strand = _strand(one_strand(labels.astype(np.int32), metal=metal, shape=shape))
    assert not strand.standing.may_state_mean
    assert all(each.g is None for each in _all(strand))


def test_without_metal_there_is_nothing_to_count(one_strand: OneStrand) -> None:
    structure = replace(
        one_strand(np.ones((60, 60), np.int32)),
        grain_labels=np.zeros((60, 60), np.int32),
        strand_labels=np.zeros((60, 60), np.int32),
        strands=(),
        flags=(Flag("no_metal"),),
    )
    counts = count_structure(structure, SCALED)
    assert counts.strands == ()
    assert [flag.name for flag in counts.flags] == ["no_metal"]
