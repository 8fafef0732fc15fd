"""Random parameters stay within the printed ranges and cover them."""

from pathlib import Path

import numpy as np
import pytest

from strandproof.errors import ParameterError
from strandproof.micrograph.render import (
    GRAIN_FAMILIES,
    SAMPLING_RANGES,
    STRAND_ARRANGEMENTS,
    GrainFamily,
    SamplingRange,
    StrandArrangement,
    random_section_parameters,
    render_section,
)

PAGE = Path(__file__).parents[2] / "docs" / "synthetic-sections.md"


def test_the_same_state_gives_the_same_parameters() -> None:
    first, second = (
        random_section_parameters(np.random.default_rng(9)) for _ in range(2)
    )
    assert first == second


def test_every_family_and_arrangement_turns_up() -> None:
    generator = np.random.default_rng(0)
    drawn = [random_section_parameters(generator) for _ in range(300)]
    assert {one.population.family for one in drawn} == set(GRAIN_FAMILIES)
    assert {one.layout.arrangement for one in drawn} == set(STRAND_ARRANGEMENTS)
    assert {one.camera.colour for one in drawn} == {True, False}
    assert any(one.camera.jpeg_quality is None for one in drawn)
    assert any(one.scale_bar is not None for one in drawn)


def test_drawn_values_stay_in_their_ranges() -> None:
    generator = np.random.default_rng(1)
    for _ in range(200):
        one = random_section_parameters(generator)
        for name, value in (
            ("um_per_px", one.um_per_px),
            ("groove depth", one.etch.groove.depth or 0.5),
            ("exposure", one.camera.exposure),
            ("blur_px", one.camera.blur_px),
        ):
            limits = SAMPLING_RANGES[name]
            assert limits.low <= value <= limits.high
        dark, bright = (
            SAMPLING_RANGES[name]
            for name in ("resin_brightness", "bright resin_brightness")
        )
        resin = one.preparation.resin_brightness
        assert dark.low <= resin <= dark.high or bright.low <= resin <= bright.high


@pytest.mark.parametrize("family", GRAIN_FAMILIES)
@pytest.mark.parametrize("arrangement", STRAND_ARRANGEMENTS)
def test_what_was_asked_for_is_drawn_and_renders(
    family: GrainFamily, arrangement: StrandArrangement
) -> None:
    generator = np.random.default_rng(2)
    parameters = random_section_parameters(
        generator, family=family, arrangement=arrangement, shape=(96, 128)
    )
    assert parameters.population.family == family
    assert parameters.layout.arrangement == arrangement
    section = render_section(parameters, seed=generator)
    assert section.picture.shape == (96, 128, 3)
    assert (section.grain_labels > 0).any()


def test_grooves_never_bury_the_grains() -> None:
    generator = np.random.default_rng(3)
    for _ in range(200):
        one = random_section_parameters(generator, family="drawn")
        assert one.population.mean_intercept_um is not None
        thickness = one.population.mean_intercept_um / one.population.elongation**0.5
        assert one.etch.groove.width_px <= max(1.0, 0.34 * thickness / one.um_per_px)


def test_single_crystals_look_hard_most_often() -> None:
    generator = np.random.default_rng(6)
    drawn = [random_section_parameters(generator, family="single") for _ in range(300)]
    scratched = [
        one.preparation.wear.deep_scratches > 0
        or one.preparation.wear.fine_scratches > 0
        for one in drawn
    ]
    assert np.mean(scratched) > 0.7
    assert np.mean([one.etch.slip_traces > 0 for one in drawn]) > 0.5
    assert np.mean([one.etch.deformation.draws_bands() for one in drawn]) > 0.5


def test_polycrystals_look_hard_in_a_quarter() -> None:
    generator = np.random.default_rng(7)
    drawn = [
        random_section_parameters(generator, family="equiaxed") for _ in range(300)
    ]
    for shown in (
        [one.preparation.wear.deep_scratches > 0 for one in drawn],
        [one.etch.slip_traces > 0 for one in drawn],
        [one.etch.deformation.draws_bands() for one in drawn],
    ):
        assert 0.2 < np.mean(shown) < 0.5


def test_what_nobody_could_see_is_not_drawn() -> None:
    """Hue needs a colour camera; a twin needs lines or contrast; a kink no twin."""
    generator = np.random.default_rng(8)
    hue_only = lines_only = 0
    for _ in range(400):
        one = random_section_parameters(generator, family="twinned")
        assert one.etch.deformation.kinks == 0
        if one.etch.soft_transition_px > 0:
            hue_only += 1
            assert one.camera.colour
            assert one.etch.hue_contrast >= 0.5
            assert one.etch.groove.depth == 0
        if one.etch.twin_contrast < 0.1:
            lines_only += 1
            assert one.etch.groove.twin_share >= 0.5
            assert one.etch.groove.depth >= 0.3
        if one.etch.groove.twin_share == 0:
            assert one.etch.grey_contrast >= 0.1 or one.etch.hue_contrast > 0
    assert hue_only > 5
    assert lines_only > 20


def test_all_patches_and_boxes_turn_up() -> None:
    generator = np.random.default_rng(9)
    drawn = [random_section_parameters(generator) for _ in range(200)]
    patches = [one.preparation.unreadable for one in drawn]
    assert any(one.defocus_fraction > 0 for one in patches)
    assert any(one.glare_fraction > 0 for one in patches)
    assert any(one.smear_fraction > 0 for one in patches)
    boxes = [one.scale_bar.box for one in drawn if one.scale_bar is not None]
    assert {"white", "black"} == set(boxes)


def test_an_unknown_family_is_refused() -> None:
    with pytest.raises(ParameterError, match="family"):
        random_section_parameters(
            np.random.default_rng(0),
            family="cast",  # type: ignore[arg-type]  # the point
        )


def test_logarithmic_ranges_draw_as_often_below_the_geometric_mean() -> None:
    generator = np.random.default_rng(5)
    drawn = [
        SamplingRange(1, 100, logarithmic=True).draw(generator) for _ in range(999)
    ]
    assert np.mean(np.array(drawn) < 10) == pytest.approx(0.5, rel=0.0, abs=0.06)


def test_the_manual_prints_the_ranges_of_the_code() -> None:
    lines = PAGE.read_text(encoding="utf-8").splitlines()
    for name, limits in SAMPLING_RANGES.items():
        scale = "log" if limits.logarithmic else "linear"
        assert f"| {name} | {limits.low:g} | {limits.high:g} | {scale} |" in lines
