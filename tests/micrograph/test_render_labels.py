"""Labels and masks of every family in every arrangement agree with each other."""

from dataclasses import replace
from functools import cache

import numpy as np
import pytest
from scipy import ndimage

from strandproof.micrograph.render import (
    GRAIN_FAMILIES,
    STRAND_ARRANGEMENTS,
    Etch,
    GrainFamily,
    GrainPopulation,
    Groove,
    Preparation,
    SectionParameters,
    StrandArrangement,
    StrandLayout,
    SyntheticSection,
    TwinHabit,
    render_section,
)

CASES = [(f, a) for f in GRAIN_FAMILIES for a in STRAND_ARRANGEMENTS]
WIDTHS = {"round": 150.0, "long": 40.0, "tape": 160.0, "bundle": 60.0}


def population(family: GrainFamily) -> GrainPopulation:
    if family == "single":
        return GrainPopulation(family=family, mean_intercept_um=None)
    return GrainPopulation(
        family=family,
        mean_intercept_um=50 if family == "bamboo" else 16,
        elongation=6 if family == "drawn" else 1,
        direction_deg=20,
        twins=None if family in {"drawn", "equiaxed"} else TwinHabit(grain_fraction=1),
    )


@cache
def rendered(family: GrainFamily, arrangement: StrandArrangement) -> SyntheticSection:
    parameters = SectionParameters(
        population=population(family),
        layout=StrandLayout(
            arrangement=arrangement,
            width_um=WIDTHS.get(arrangement),
            thickness_um=70 if arrangement == "tape" else None,
            axis_deg=20,
            count={"long": 3, "bundle": 6}.get(arrangement, 1),
        ),
        etch=Etch(slip_traces=0.6, etch_pits_per_mpx=300),
        preparation=Preparation(
            scratches_per_mpx=200,
            comet_tails_per_mpx=100,
            pores_per_mpx=100,
            stain_fraction=0.1,
        ),
        shape=(176, 208),
    )
    return render_section(parameters, seed=5)


def labels_inside(inner: np.ndarray, outer: np.ndarray) -> bool:
    """Whether each label of `inner` (0 apart) lies in exactly one of `outer`."""
    held = inner > 0
    pairs = np.unique(np.column_stack((inner[held], outer[held])), axis=0)
    return bool(np.all(np.bincount(pairs[:, 0])[1:] == 1))


@pytest.mark.parametrize(("family", "arrangement"), CASES)
def test_every_metal_pixel_has_one_strand_and_one_grain(
    family: GrainFamily, arrangement: StrandArrangement
) -> None:
    section = rendered(family, arrangement)
    assert np.array_equal(section.grain_labels > 0, section.strand_labels > 0)
    assert labels_inside(section.grain_labels, section.strand_labels)
    assert (section.strand_labels > 0).any()


@pytest.mark.parametrize(("family", "arrangement"), CASES)
def test_labels_are_numbered_without_gaps(
    family: GrainFamily, arrangement: StrandArrangement
) -> None:
    section = rendered(family, arrangement)
    for labels in (section.strand_labels, section.grain_labels, section.twin_labels):
        present = np.unique(labels[labels > 0])
        assert np.array_equal(present, np.arange(1, present.size + 1))
        assert labels.dtype == np.int32


@pytest.mark.parametrize(("family", "arrangement"), CASES)
def test_twins_lie_inside_one_grain(
    family: GrainFamily, arrangement: StrandArrangement
) -> None:
    section = rendered(family, arrangement)
    assert labels_inside(section.twin_labels, section.grain_labels)
    assert (section.twin_labels > 0).any() == (
        section.parameters.population.twins is not None
    )


@pytest.mark.parametrize(("family", "arrangement"), CASES)
def test_boundary_pixels_are_those_with_another_grain_beside_them(
    family: GrainFamily, arrangement: StrandArrangement
) -> None:
    section = rendered(family, arrangement)
    grains, strands = section.grain_labels, section.strand_labels
    expected = np.zeros(grains.shape, np.bool_)
    for axis in (0, 1):
        for step in (-1, 1):
            other, strand = np.roll(grains, step, axis), np.roll(strands, step, axis)
            differ = (grains != other) & (strands == strand) & (strands > 0)
            edge = [slice(None), slice(None)]
            edge[axis] = slice(0, 1) if step == 1 else slice(-1, None)
            differ[tuple(edge)] = False
            expected |= differ
    assert np.array_equal(section.boundary, expected)
    assert section.boundary.any() == (grains.max() > strands.max())


@pytest.mark.parametrize(("family", "arrangement"), CASES)
def test_masks_lie_within_metal_and_twin_sides_within_grains(
    family: GrainFamily, arrangement: StrandArrangement
) -> None:
    section = rendered(family, arrangement)
    metal = section.strand_labels > 0
    masks = (
        section.boundary,
        section.twin_boundary,
        section.scratch,
        section.slip_trace,
        section.defect,
    )
    assert all(not (mask & ~metal).any() for mask in masks)
    assert section.scratch.any()
    assert section.defect.any()
    assert section.slip_trace.any()
    assert not section.overlay.any()
    twins = section.twin_labels > 0
    beside = ndimage.binary_dilation(twins)
    assert not (section.twin_boundary & ~beside).any()


@pytest.mark.parametrize(("family", "arrangement"), CASES)
def test_picture_is_float32_between_0_and_1(
    family: GrainFamily, arrangement: StrandArrangement
) -> None:
    section = rendered(family, arrangement)
    assert section.picture.dtype == np.float32
    assert section.picture.shape == (176, 208, 3)
    assert float(section.picture.min()) >= 0
    assert float(section.picture.max()) <= 1
    assert float(section.picture.std()) > 0.01


def test_grains_are_connected() -> None:
    section = rendered("equiaxed", "field")
    for number in range(1, int(section.grain_labels.max()) + 1):
        assert ndimage.label(section.grain_labels == number)[1] == 1


def test_touching_strands_share_an_edge_that_is_no_grain_boundary() -> None:
    parameters = SectionParameters(
        population=GrainPopulation(family="single", mean_intercept_um=None),
        layout=StrandLayout(
            arrangement="bundle", width_um=60, count=5, touching_fraction=1
        ),
        shape=(200, 200),
    )
    section = render_section(parameters, seed=2)
    strands = section.strand_labels
    right = (strands[:, 1:] != strands[:, :-1]) & (strands[:, 1:] > 0)
    down = (strands[1:] != strands[:-1]) & (strands[1:] > 0) & (strands[:-1] > 0)
    assert (right & (strands[:, :-1] > 0)).any() or down.any()
    assert not section.boundary.any()


def test_metal_is_brighter_than_the_mount() -> None:
    section = rendered("equiaxed", "round")
    grey = section.picture.mean(axis=2)
    metal = section.strand_labels > 0
    inner = ndimage.binary_erosion(metal, iterations=8)
    outer = ~ndimage.binary_dilation(metal, iterations=8)
    assert np.median(grey[inner]) > 3 * np.median(grey[outer])


def test_grooves_are_darker_than_the_grains_beside_them() -> None:
    parameters = SectionParameters(
        population=GrainPopulation(family="equiaxed", mean_intercept_um=30),
        etch=Etch(grey_contrast=0.0, relief=0.0),
        preparation=Preparation(scratches_per_mpx=0, pits_per_mpx=0),
        shape=(256, 256),
    )
    section = render_section(parameters, seed=8)
    grey = section.picture.mean(axis=2)
    interior = ~ndimage.binary_dilation(section.boundary, iterations=4)
    assert grey[section.boundary].mean() < grey[interior].mean() - 0.1


def test_no_groove_depth_leaves_no_line() -> None:
    flat = SectionParameters(
        population=GrainPopulation(family="equiaxed", mean_intercept_um=30),
        etch=Etch(
            grey_contrast=0.0,
            relief=0.0,
            groove=Groove(depth=0.0),
        ),
        preparation=Preparation(scratches_per_mpx=0, pits_per_mpx=0),
        shape=(256, 256),
    )
    section = render_section(flat, seed=8)
    grey = section.picture.mean(axis=2)
    interior = ~ndimage.binary_dilation(section.boundary, iterations=4)
    assert grey[section.boundary].mean() == pytest.approx(
        grey[interior].mean(), rel=0.0, abs=0.02
    )


def test_twins_differ_in_shade_from_their_parent() -> None:
    parameters = SectionParameters(
        population=replace(population("twinned"), mean_intercept_um=30),
        etch=Etch(grey_contrast=0.3, relief=0.0),
        preparation=Preparation(scratches_per_mpx=0, pits_per_mpx=0),
        shape=(256, 256),
    )
    section = render_section(parameters, seed=4)
    grey = section.picture.mean(axis=2)
    clear = ~ndimage.binary_dilation(
        section.boundary | section.twin_boundary, iterations=2
    )
    steps = []
    for grain in np.unique(section.grain_labels):
        inside = (section.grain_labels == grain) & clear
        twin, parent = (
            inside & (section.twin_labels > 0),
            inside & (section.twin_labels == 0),
        )
        if twin.sum() > 20 and parent.sum() > 20:
            steps.append(abs(grey[twin].mean() - grey[parent].mean()))
    assert len(steps) > 10
    assert np.median(steps) > 0.03
