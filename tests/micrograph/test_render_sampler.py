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
            ("resin_brightness", one.preparation.resin_brightness),
        ):
            limits = SAMPLING_RANGES[name]
            assert limits.low <= value <= limits.high


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
