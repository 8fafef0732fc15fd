"""Repeatability, independence of the steps, and what a section says of itself."""

import json
from dataclasses import fields, replace

import numpy as np
import pytest

from strandproof.micrograph.render import (
    Camera,
    Etch,
    GrainPopulation,
    Groove,
    Preparation,
    ScaleBar,
    SectionParameters,
    StrandLayout,
    SyntheticSection,
    TwinHabit,
    render_section,
)

PARAMETERS = SectionParameters(
    population=GrainPopulation(
        family="twinned", mean_intercept_um=12, twins=TwinHabit(crossing_fraction=0.5)
    ),
    layout=StrandLayout(arrangement="round", width_um=70),
    etch=Etch(
        interior="mottled",
        slip_traces=0.4,
        deformation_bands=0.5,
        etch_pits_per_mpx=100,
        hue_contrast=0.3,
    ),
    preparation=Preparation(
        scratches_per_mpx=100,
        comet_tails_per_mpx=60,
        pores_per_mpx=60,
        stain_fraction=0.1,
    ),
    camera=Camera(jpeg_quality=60, sharpening=0.5),
    scale_bar=ScaleBar(),
    shape=(160, 176),
    um_per_px=0.5,
)
LABELS = ("strand_labels", "grain_labels", "twin_labels")


def arrays(section: SyntheticSection) -> dict[str, bytes]:
    values = {item.name: getattr(section, item.name) for item in fields(section)}
    return {
        name: value.tobytes()
        for name, value in values.items()
        if isinstance(value, np.ndarray)
    }


def test_same_seed_gives_the_same_bytes() -> None:
    first, second = (arrays(render_section(PARAMETERS, seed=11)) for _ in range(2))
    assert len(first) == 11
    assert first == second


def test_another_seed_gives_another_picture_and_other_labels() -> None:
    first, second = (arrays(render_section(PARAMETERS, seed=s)) for s in (11, 12))
    for name in ("picture", *LABELS):
        assert first[name] != second[name]


def test_a_generator_gives_a_seed_that_repeats_the_section() -> None:
    drawn = render_section(PARAMETERS, seed=np.random.default_rng(3))
    again = render_section(PARAMETERS, seed=drawn.seed)
    assert arrays(drawn) == arrays(again)


@pytest.mark.parametrize(
    "changed",
    [
        replace(PARAMETERS, etch=Etch(groove=Groove(width_px=6))),
        replace(PARAMETERS, preparation=Preparation(scratches_per_mpx=0)),
        replace(PARAMETERS, camera=Camera(colour=False, blur_px=2)),
    ],
)
def test_etching_and_photographing_leave_the_grains(
    changed: SectionParameters,
) -> None:
    first, second = (
        arrays(render_section(item, seed=11)) for item in (PARAMETERS, changed)
    )
    assert first["picture"] != second["picture"]
    for name in LABELS:
        assert first[name] == second[name]


def test_one_artefact_more_leaves_the_others() -> None:
    plain = render_section(PARAMETERS, seed=11)
    stained = replace(PARAMETERS.preparation, stain_fraction=0.3, pits_per_mpx=500)
    other = render_section(replace(PARAMETERS, preparation=stained), seed=11)
    assert np.array_equal(plain.scratch, other.scratch)
    assert np.array_equal(plain.slip_trace, other.slip_trace)
    assert not np.array_equal(plain.defect, other.defect)


def test_a_grey_camera_gives_three_equal_planes() -> None:
    grey = replace(PARAMETERS, camera=Camera(colour=False))
    picture = render_section(grey, seed=11).picture
    assert np.array_equal(picture[..., 0], picture[..., 1])
    assert np.array_equal(picture[..., 0], picture[..., 2])
    colour = render_section(replace(PARAMETERS, camera=Camera()), seed=11).picture
    assert not np.array_equal(colour[..., 0], colour[..., 2])


def test_bytes_round_the_picture() -> None:
    section = render_section(PARAMETERS, seed=11)
    quantised = section.as_bytes()
    assert quantised.dtype == np.uint8
    np.testing.assert_allclose(
        quantised / 255, section.picture, rtol=0.0, atol=0.5 / 255 + 1e-6
    )


def test_metadata_says_synthetic_and_holds_the_parameters() -> None:
    section = render_section(PARAMETERS, seed=11)
    said = section.metadata()
    assert said["origin"] == "synthetic" == section.origin
    assert "no real metal" in said["statement"]
    assert said["seed"] == "11"
    assert float(said["um_per_px"]) == 0.5
    assert float(said["mean_intercept_um_population"]) == 12
    assert float(said["mean_intercept_um_on_labels"]) == section.measured.mean_um
    told = json.loads(said["parameters"])
    assert told["population"]["twins"]["crossing_fraction"] == 0.5
    assert told["layout"]["arrangement"] == "round"


def test_metadata_of_one_crystal_has_no_intercept() -> None:
    single = SectionParameters(
        population=GrainPopulation(family="single", mean_intercept_um=None),
        shape=(64, 64),
    )
    section = render_section(single, seed=0)
    assert section.metadata()["mean_intercept_um_population"] == "none"
    assert section.metadata()["mean_intercept_um_on_labels"] == "none"
    assert int(section.grain_labels.max()) == 1


def test_the_scale_bar_is_told_as_overlay_and_labels_stay() -> None:
    with_bar = render_section(PARAMETERS, seed=11)
    without = render_section(replace(PARAMETERS, scale_bar=None), seed=11)
    assert with_bar.overlay.any()
    assert not without.overlay.any()
    clear = ~with_bar.overlay
    assert np.array_equal(with_bar.picture[clear], without.picture[clear])
    assert np.array_equal(with_bar.grain_labels, without.grain_labels)


def test_noise_grows_with_the_camera_noise() -> None:
    flat = SectionParameters(
        population=GrainPopulation(family="single", mean_intercept_um=None),
        preparation=Preparation(scratches_per_mpx=0, pits_per_mpx=0),
        camera=Camera(exposure=0.4, shot_noise=0, read_noise=0, vignetting=0),
        shape=(128, 128),
    )
    noisy = replace(flat, camera=replace(flat.camera, read_noise=0.05))
    quiet, loud = (render_section(item, seed=1).picture for item in (flat, noisy))
    assert np.std(loud - quiet) == pytest.approx(0.05, rel=0.05, abs=0.0)


def test_compression_rounds_within_blocks() -> None:
    plain = render_section(replace(PARAMETERS, camera=Camera()), seed=11).picture
    errors = []
    for quality in (90, 40, 10):
        camera = Camera(jpeg_quality=quality)
        picture = render_section(replace(PARAMETERS, camera=camera), seed=11).picture
        errors.append(float(np.std((picture - plain)[~_bar(PARAMETERS)])))
    assert 0 < errors[0] < errors[1] < errors[2] < 0.1


def _bar(parameters: SectionParameters) -> np.ndarray:
    return render_section(parameters, seed=11).overlay


def test_a_picture_without_metal_is_drawn_without_grains() -> None:
    far_apart = SectionParameters(
        population=GrainPopulation(family="equiaxed", mean_intercept_um=20),
        layout=StrandLayout(
            arrangement="long",
            width_um=5000,
            count=2,
            touching_fraction=0,
            gap_fraction=1,
        ),
        shape=(64, 64),
    )
    section = render_section(far_apart, seed=1)
    assert int(section.strand_labels.max()) == 0
    assert section.measured.mean_um is None
