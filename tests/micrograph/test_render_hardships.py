"""Hardships change the picture, never the labels, and are told by their masks."""

import json
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from strandproof.errors import ParameterError
from strandproof.micrograph.render import (
    SAMPLING_RANGES,
    Camera,
    Deformation,
    Dots,
    Etch,
    GrainPopulation,
    Groove,
    Preparation,
    Resin,
    SectionParameters,
    StrandLayout,
    SyntheticSection,
    TwinHabit,
    Unreadable,
    Wear,
    render_section,
)
from strandproof.micrograph.render.hardships import Ranged
from strandproof.micrograph.render.wear import deep_scratches

LABELS = (
    "strand_labels",
    "grain_labels",
    "twin_labels",
    "boundary",
    "twin_boundary",
)
PLAIN = SectionParameters(
    population=GrainPopulation(
        family="twinned", mean_intercept_um=18, twins=TwinHabit()
    ),
    layout=StrandLayout(arrangement="long", width_um=110, axis_deg=10),
    shape=(160, 176),
)
SINGLE = SectionParameters(
    population=GrainPopulation(family="single", mean_intercept_um=None),
    preparation=Preparation(scratches_per_mpx=0, pits_per_mpx=0),
    camera=Camera(shot_noise=0, read_noise=0, vignetting=0, light_gradient=0),
    shape=(200, 200),
)


def etched(**changed: object) -> SectionParameters:
    return replace(PLAIN, etch=replace(PLAIN.etch, **changed))  # type: ignore[arg-type]


def prepared(**changed: object) -> SectionParameters:
    preparation = replace(PLAIN.preparation, **changed)  # type: ignore[arg-type]
    return replace(PLAIN, preparation=preparation)


HARDER = {
    "bands": etched(deformation=Deformation(bands=1, band_spacing_px=20)),
    "kinks": etched(deformation=Deformation(kinks=1, band_spacing_px=20)),
    "slip": etched(slip_traces=0.8, deformation=Deformation(slip_persistence=1)),
    "dots": etched(dots=Dots(coverage=0.05, rim=1, clustering=1)),
    "soft": etched(soft_transition_px=4.0),
    "polishing relief": etched(relief=0.5, relief_softness_px=4.0),
    "hollow": etched(groove=Groove(width_px=8, hollow=1)),
    "one-sided": etched(groove=Groove(one_sided=1)),
    "beaded": etched(groove=Groove(beaded=1)),
    "offset": etched(groove=Groove(offset_px=1)),
    "dark pore rims": prepared(pores_per_mpx=100, pore_rim=-2.0),
    "deep scratches": prepared(wear=Wear(deep_scratches=8)),
    "fine scratches": prepared(wear=Wear(fine_scratches=0.3)),
    "stringers": prepared(wear=Wear(stringers_per_mpx=60)),
    "defocus": prepared(unreadable=Unreadable(defocus_fraction=0.3)),
    "glare": prepared(unreadable=Unreadable(glare_fraction=0.2)),
    "smears": prepared(unreadable=Unreadable(smear_fraction=0.2)),
    "fillers": prepared(resin=Resin(fillers_per_mpx=2000)),
    "bright halo": prepared(resin=Resin(halo=1)),
    "dark gap": prepared(resin=Resin(halo=-1)),
    "structure": prepared(resin=Resin(structure=1)),
}


@pytest.fixture(scope="module")
def plain() -> SyntheticSection:
    return render_section(PLAIN, seed=4)


@pytest.mark.parametrize("name", HARDER)
def test_a_hardship_leaves_all_labels(name: str, plain: SyntheticSection) -> None:
    harder = render_section(HARDER[name], seed=4)
    assert not np.array_equal(harder.picture, plain.picture)
    assert harder.picture.dtype == np.float32
    assert np.isfinite(harder.picture).all()
    assert 0 <= harder.picture.min() <= harder.picture.max() <= 1
    for plane in LABELS:
        assert np.array_equal(getattr(harder, plane), getattr(plain, plane))
    for mask in (harder.scratch, harder.defect, harder.slip_trace, harder.unreadable):
        assert not mask[harder.strand_labels == 0].any()


@pytest.mark.parametrize("name", HARDER)
def test_a_hardship_is_marked_only_in_its_own_mask(
    name: str, plain: SyntheticSection
) -> None:
    harder = render_section(HARDER[name], seed=4)
    own = {
        "slip": "slip_trace",
        "dots": "defect",
        "stringers": "defect",
        "dark pore rims": "defect",
        "deep scratches": "scratch",
        "fine scratches": "scratch",
        "defocus": "unreadable",
        "glare": "unreadable",
        "smears": "unreadable",
    }.get(name)
    for mask in ("scratch", "slip_trace", "defect", "unreadable"):
        before, after = getattr(plain, mask), getattr(harder, mask)
        if mask == own:
            assert after.sum() > before.sum()
            assert after[before].all()
        else:
            assert np.array_equal(after, before)


@pytest.mark.parametrize(
    "idle",
    [
        etched(deformation=Deformation(band_spacing_px=20, slip_darkness=0.9)),
        etched(dots=Dots(radius_px=4, rim=1, clustering=1)),
        prepared(wear=Wear(deep_scratch_depth=0.9, fine_scratch_spacing_px=3)),
        prepared(unreadable=Unreadable(defocus_blur_px=12)),
    ],
)
def test_a_hardship_of_no_strength_changes_no_byte(
    idle: SectionParameters, plain: SyntheticSection
) -> None:
    assert np.array_equal(render_section(idle, seed=4).picture, plain.picture)


def test_metadata_tell_a_hardship_only_where_there_is_one(
    plain: SyntheticSection,
) -> None:
    def etch_of(section: SyntheticSection) -> dict[str, object]:
        etch: dict[str, object] = json.loads(section.metadata()["parameters"])["etch"]
        return etch

    assert "deformation" not in etch_of(plain)
    told = etch_of(render_section(HARDER["bands"], seed=4))["deformation"]
    assert isinstance(told, dict)
    assert told["bands"] == 1


@pytest.mark.parametrize("vignetting", [0.0, 0.4])
@pytest.mark.parametrize("name", ["glare", "smears"])
def test_hidden_metal_shows_no_boundary(name: str, vignetting: float) -> None:
    """Grooves drawn black or not at all look the same under the mask."""
    pictures = []
    for depth in (0.0, 0.9):
        groove = Groove(depth=depth, gap_fraction=0, faint_fraction=0)
        parameters = replace(
            HARDER[name],
            etch=Etch(groove=groove, relief=0),
            camera=Camera(shot_noise=0, read_noise=0, vignetting=vignetting),
        )
        section = render_section(parameters, seed=9)
        pictures.append(section.picture)
    lost = np.abs(pictures[1] - pictures[0]).max(axis=-1)
    hidden, open_metal = section.unreadable, section.strand_labels > 0
    # The camera's blur carries light over the rim of a patch.
    assert hidden.sum() > 300
    assert np.quantile(lost[hidden], 0.99) < 0.12
    assert np.quantile(lost[open_metal & ~hidden & section.boundary], 0.5) > 0.15


def test_defocus_takes_the_fine_structure() -> None:
    section = render_section(HARDER["defocus"], seed=9)
    grey = section.picture.mean(axis=-1)
    steps = np.abs(np.diff(grey, axis=1))[:, :-1]
    hidden = section.unreadable[:, 1:-1]
    on_boundary = section.boundary[:, 1:-1]
    assert hidden[on_boundary].sum() > 50
    blurred = np.quantile(steps[hidden & on_boundary], 0.9)
    assert blurred < 0.4 * np.quantile(steps[~hidden & on_boundary], 0.9)


@pytest.mark.parametrize("depth", [0.3, 0.9])
def test_deep_scratches_are_as_dark_as_asked(depth: float) -> None:
    wear = Wear(
        deep_scratches=12,
        deep_scratch_depth=depth,
        deep_scratch_width_px=5,
        deep_scratch_flank=0,
    )
    preparation = replace(SINGLE.preparation, wear=wear)
    scratched = render_section(replace(SINGLE, preparation=preparation), seed=3)
    clean = render_section(SINGLE, seed=3)
    left = scratched.picture.min() / clean.picture.min()
    assert 1 - 1.2 * depth < left < 1 - 0.6 * depth
    # What is much darker than before lies on the mask.
    darker = scratched.picture.mean(-1) < (1 - 0.5 * depth) * clean.picture.mean(-1)
    assert darker.sum() > 100
    assert scratched.scratch[darker].mean() > 0.97


def test_scratches_bend_by_less_than_asked() -> None:
    found = deep_scratches((300, 400), Wear(deep_scratches=40), seed=2)
    straight = deep_scratches(
        (300, 400), Wear(deep_scratches=40, deep_scratch_bow=0), seed=2
    )
    assert len(found) == len(straight) > 20
    assert {one.bow_px for one in straight} == {0.0}
    for one in found:
        reach = np.hypot(one.stop[0] - one.start[0], one.stop[1] - one.start[1])
        assert abs(one.bow_px) <= 0.1 * reach


def test_sharp_bands_end_inside_and_have_a_step() -> None:
    banded = Deformation(bands=1, band_spacing_px=30, band_edge_px=2, banded_fraction=1)
    harder = replace(SINGLE, etch=replace(SINGLE.etch, deformation=banded))
    with_bands = render_section(harder, seed=5).picture.mean(axis=-1)
    ratio = with_bands / render_section(SINGLE, seed=5).picture.mean(axis=-1)
    # No more than weak grain contrast, and ground is left between the bands.
    assert 0.72 < ratio.min() < 0.95
    assert ratio.max() < 1.28
    assert 0.1 < np.mean(np.abs(ratio - 1) < 0.01) < 0.95


@given(
    coverage=st.floats(0, 0.3),
    radius=st.floats(0.8, 6),
    rim=st.floats(-1, 1),
    clustering=st.floats(0, 1),
)
def test_records_within_their_ranges_are_accepted(
    coverage: float, radius: float, rim: float, clustering: float
) -> None:
    dots = Dots(coverage=coverage, radius_px=radius, rim=rim, clustering=clustering)
    assert dots.radius_px == radius


@pytest.mark.parametrize("record", [Deformation, Dots, Wear, Unreadable, Resin])
def test_values_outside_are_refused(record: type[Ranged]) -> None:
    for name, (low, high) in record.RANGES.items():
        for wrong in (low - 0.01, high + 0.01, float("nan")):
            with pytest.raises(ParameterError, match=name):
                record(**{name: wrong})


@pytest.mark.parametrize("record", [Deformation, Dots, Wear, Unreadable, Resin])
def test_what_is_drawn_at_random_is_allowed(record: type[Ranged]) -> None:
    prefix = {Dots: "dots ", Resin: "resin "}.get(record, "")
    drawn = 0
    for name, (low, high) in record.RANGES.items():
        limits = SAMPLING_RANGES.get(prefix + name)
        if limits is not None:
            drawn += 1
            assert low <= limits.low < limits.high <= high
    assert drawn >= 3


# Regression values of our own code, from the renderer before hardships existed.
@pytest.mark.parametrize(
    ("seed", "mean", "deviation"),
    [(1, 0.42117, 0.27913), (2, 0.41627, 0.274989)],
)
def test_plain_pictures_are_as_they_were(
    seed: int, mean: float, deviation: float
) -> None:
    picture = render_section(PLAIN, seed=seed).picture
    assert float(picture.mean(dtype=np.float64)) == pytest.approx(mean, rel=0, abs=2e-6)
    assert float(picture.std(dtype=np.float64)) == pytest.approx(
        deviation, rel=0, abs=2e-6
    )
