"""The spacing of a stage scale's lines, on synthetic scales of known spacing."""

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from stage_scales import DrawnScale, drawn

from strandproof.errors import (
    ParameterError,
    TooFewDivisionsError,
    UnevenSpacingError,
    UnresolvedDivisionsError,
)
from strandproof.micrograph.calibration import (
    RulingFit,
    StageScale,
    calibration_from_rulings,
    fit_ruling,
)
from strandproof.quantity import expanded_interval

PLAIN = DrawnScale(spacing_px=23.7, angle_deg=12.3)
SCALE = StageScale(division_um=10.0, certificate_um=0.05)


@pytest.fixture(scope="module")
def fit() -> RulingFit:
    return fit_ruling(drawn(PLAIN, np.random.default_rng(1)))


def test_spacing_and_direction_are_found(fit: RulingFit) -> None:
    assert fit.spacing_px == pytest.approx(23.7, rel=5e-4, abs=0)
    assert fit.across_deg == pytest.approx(12.3, rel=0, abs=0.1)
    assert fit.lines == fit.divisions + 1 >= 18
    assert len(fit.readings_px) >= 3
    assert (fit.width_px, fit.height_px) == (480, 360)


def test_bright_lines_and_colour_give_the_same(fit: RulingFit) -> None:
    grey = drawn(PLAIN, np.random.default_rng(1))
    colour = np.repeat((1 - grey)[..., None], 3, axis=2).astype(np.float32)
    assert fit_ruling(colour).spacing_px == pytest.approx(
        fit.spacing_px, rel=1e-4, abs=0
    )


@settings(max_examples=12, deadline=None)
@given(
    spacing=st.floats(8, 40),
    angle=st.floats(0, 180),
    blur=st.floats(0.3, 2.0),
    levels=st.booleans(),
)
def test_any_angle_and_blur(
    spacing: float, angle: float, blur: float, *, levels: bool
) -> None:
    scale = DrawnScale(
        spacing_px=spacing,
        angle_deg=angle,
        blur_px=blur,
        levels=levels,
        line_px=0.25 * spacing,
    )
    fit = fit_ruling(drawn(scale, np.random.default_rng(7)))
    assert fit.spacing_px == pytest.approx(spacing, rel=2e-3, abs=0)


def test_interval_of_95_percent_covers_the_truth() -> None:
    """Forty scales at random; 400 were drawn when this was made (docs/pictures.md)."""
    inside = 0
    for seed in range(40):
        chance = np.random.default_rng(5000 + seed)
        spacing = chance.uniform(8, 40)
        scale = DrawnScale(
            spacing_px=spacing,
            angle_deg=chance.uniform(0, 180),
            blur_px=chance.uniform(0.3, 2),
            noise=chance.uniform(0, 0.15),
            line_px=chance.uniform(0.15, 0.4) * spacing,
            placing_px=chance.uniform(0, 0.01) * spacing,
            height=chance.uniform(0.4, 0.9),
            shape=(240, 320),
        )
        # A scale without certificate or tilt: only what the picture brings.
        exact = StageScale(division_um=10.0, certificate_um=0.0, tilt_deg=0.0)
        found = calibration_from_rulings([fit_ruling(drawn(scale, chance))], exact)
        interval = expanded_interval(found.pixel_size)
        assert interval.lower is not None
        assert interval.upper is not None
        inside += interval.lower <= 10.0 / spacing <= interval.upper
    # Chance of fewer than 34 of 40 at a true coverage of 95 %: 0.3 %.
    assert inside >= 34


def test_budget_names_scatter_certificate_and_tilt(fit: RulingFit) -> None:
    found = calibration_from_rulings([fit], SCALE)
    assert found.pixel_size.value == pytest.approx(10 / fit.spacing_px, rel=1e-3, abs=0)
    names = {line.name.split(" (")[0] for line in found.pixel_size.budget}
    assert names == {
        "spacing of the lines",
        "true over nominal length of the scale",
        "tilt of the scale",
    }
    certificate = next(
        line for line in found.pixel_size.budget if "nominal" in line.name
    )
    share = 0.05 / (10.0 * fit.divisions)
    assert certificate.component == pytest.approx(
        share * found.pixel_size.value, rel=1e-6, abs=0
    )
    assert found.flags == ()
    assert len(found.readings_um) == len(fit.readings_px)


def test_without_certificate_it_is_flagged(fit: RulingFit) -> None:
    found = calibration_from_rulings([fit], StageScale(division_um=10.0))
    assert [flag.name for flag in found.flags] == ["scale_not_certified"]


def test_several_pictures_are_readings_of_their_own(fit: RulingFit) -> None:
    wide = replace(fit, spacing_px=fit.spacing_px * 1.002)
    found = calibration_from_rulings([fit, wide, fit], SCALE)
    assert len(found.readings_um) == 3
    assert found.pixel_size.budget[0].name == "spacing of the lines (scatter)"
    assert found.pixel_size.budget[0].degrees_of_freedom == 2


def test_pictures_of_different_sizes_are_refused(fit: RulingFit) -> None:
    with pytest.raises(ParameterError, match="same width and height"):
        calibration_from_rulings([fit, replace(fit, width_px=960)], SCALE)
    with pytest.raises(ParameterError, match="one or more"):
        calibration_from_rulings([], SCALE)


def test_a_wrong_division_is_caught_by_the_expected_size(fit: RulingFit) -> None:
    right = 10 / 23.7
    found = calibration_from_rulings([fit], SCALE, expected_um_per_px=1.05 * right)
    assert found.pixel_size.value == pytest.approx(right, rel=1e-3, abs=0)
    with pytest.raises(UnresolvedDivisionsError, match="false pattern"):
        calibration_from_rulings([fit], SCALE, expected_um_per_px=right / 2)
    with pytest.raises(ParameterError, match="expected_um_per_px"):
        calibration_from_rulings([fit], SCALE, expected_um_per_px=0.0)


def test_a_moire_of_finer_lines_is_caught_only_by_the_expected_size() -> None:
    """Lines of 1.09 px, as pixels see them, make an even pattern of 12.1 px."""
    columns = np.arange(480)
    row = 0.5 + 0.3 * np.cos(2 * np.pi * columns / 1.09)
    noise = np.random.default_rng(3).normal(0, 0.02, (360, 480))
    fit = fit_ruling(row[None, :] + noise)
    assert fit.spacing_px == pytest.approx(1.09 / 0.09, rel=0.01, abs=0)
    with pytest.raises(UnresolvedDivisionsError):
        calibration_from_rulings([fit], SCALE, expected_um_per_px=10 / 1.09)


def test_lines_too_close_are_refused() -> None:
    row = 0.5 + 0.3 * np.cos(2 * np.pi * np.arange(480) / 4.2)
    with pytest.raises(UnresolvedDivisionsError, match=r"4.2 px apart"):
        fit_ruling(np.tile(row, (360, 1)))


@pytest.mark.parametrize("seed", range(3))
def test_noise_grains_and_a_blank_picture_are_refused(seed: int) -> None:
    chance = np.random.default_rng(seed)
    with pytest.raises(TooFewDivisionsError, match="at least 6"):
        fit_ruling(chance.normal(0.5, 0.1, (240, 320)))
    with pytest.raises(TooFewDivisionsError):
        fit_ruling(np.full((240, 320), 0.5))


def test_too_few_lines_are_refused() -> None:
    with pytest.raises(TooFewDivisionsError, match="mark a length by hand"):
        fit_ruling(
            drawn(DrawnScale(spacing_px=110.0, levels=False), np.random.default_rng(2))
        )


def test_a_spacing_that_changes_is_refused() -> None:
    """Distortion: the spacing grows by 6 % from one edge to the other."""
    columns = np.arange(480)
    phase = 2 * np.pi * (columns / 20 - 0.06 * columns**2 / (2 * 480 * 20))
    with pytest.raises(UnevenSpacingError, match=r"changes by [56].\d %"):
        fit_ruling(np.tile(0.5 + 0.3 * np.cos(phase), (240, 1)))


def test_a_line_out_of_place_is_refused() -> None:
    columns = np.arange(480.0)
    places = 20.0 * np.arange(1, 24)
    places[10] += 5.0
    row = 0.8 - sum(0.5 * np.exp(-0.5 * ((columns - p) / 1.5) ** 2) for p in places)
    with pytest.raises(UnevenSpacingError, match=r"2\d % of a spacing off"):
        fit_ruling(np.tile(row, (240, 1)))


def test_one_line_hidden_by_dust_does_no_harm() -> None:
    columns = np.arange(480.0)
    places = 20.0 * np.delete(np.arange(1, 24), 10)
    row = 0.8 - sum(0.5 * np.exp(-0.5 * ((columns - p) / 1.5) ** 2) for p in places)
    fit = fit_ruling(np.tile(row, (240, 1)))
    assert fit.spacing_px == pytest.approx(20.0, rel=1e-4, abs=0)
    assert fit.divisions == fit.lines


@pytest.mark.parametrize(
    "picture",
    [np.zeros((8, 80)), np.full((40, 40), np.nan), np.zeros(100)],
    ids=["small", "no number", "one row"],
)
def test_what_is_no_picture_is_refused(picture: np.ndarray) -> None:
    with pytest.raises(ParameterError, match="at least 16 by 16"):
        fit_ruling(picture)


@pytest.mark.parametrize(
    ("changes", "parameter"),
    [
        ({"division_um": 0.0}, "division_um"),
        ({"division_um": float("nan")}, "division_um"),
        ({"certificate_um": -0.1}, "certificate_um"),
        ({"tilt_deg": 45.0}, "tilt_deg"),
    ],
)
def test_scales_that_cannot_be_are_refused(
    changes: dict[str, float], parameter: str
) -> None:
    with pytest.raises(ParameterError, match=parameter):
        StageScale(**{"division_um": 10.0, **changes})
