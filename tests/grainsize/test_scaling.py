from math import sqrt

import pytest

from strandproof.errors import ParameterError, UnitError
from strandproof.grainsize.scaling import (
    MICROMETRES,
    PER_MILLIMETRE,
    PER_SQUARE_MILLIMETRE,
    SQUARE_MILLIMETRES,
    ScaledUnit,
    relative_accuracy_of,
    require_pixel_size,
    scaled_estimate,
    scaled_interval,
    scaled_quantity,
)
from strandproof.quantity import Interval, Quantity, coverage_factor
from strandproof.records import Estimate

PIXEL = Quantity(0.2, "um", 0.002)


def _interval(lower: float | None, upper: float | None) -> Interval:
    return Interval(
        lower=lower, upper=upper, unit="px", confidence=0.95, method="counted"
    )


@pytest.mark.parametrize(
    ("target", "value", "relative"),
    [
        (MICROMETRES, 10.0, 0.01),
        (SQUARE_MILLIMETRES, 2e-6, 0.02),
        (PER_MILLIMETRE, 50 / 2e-4, 0.01),
        (PER_SQUARE_MILLIMETRE, 50 / 4e-8, 0.02),
    ],
)
def test_the_scale_enters_with_the_power_of_the_length(
    target: ScaledUnit, value: float, relative: float
) -> None:
    scaled = scaled_quantity(Quantity(50.0, "px", 1.0), PIXEL, target)
    assert scaled.unit == target.unit
    assert scaled.value == pytest.approx(value, rel=1e-12, abs=0)
    # One pixel in 50 is 2 % of sampling; the two add in squares.
    assert scaled.standard_uncertainty == pytest.approx(
        value * sqrt(0.02**2 + relative**2), rel=1e-9, abs=0
    )


def test_the_budget_names_both_sources() -> None:
    scaled = scaled_quantity(Quantity(50.0, "px", 1.0, 8.0), PIXEL, MICROMETRES)
    assert [line.name for line in scaled.budget] == ["reading in pixels", "pixel size"]
    # nu_eff = u^4 / (u_sampling^4 / 8), by Welch and Satterthwaite.
    effective = 8 * (0.02**2 + 0.01**2) ** 2 / 0.02**4
    assert scaled.degrees_of_freedom == pytest.approx(effective, rel=1e-9, abs=0)


def test_interval_halves_add_in_squares_side_by_side() -> None:
    scaled = scaled_interval(_interval(46.0, 57.0), 50.0, PIXEL, MICROMETRES)
    scale = 1.959964 * 0.01 * 50
    assert scaled.lower == pytest.approx(0.2 * (50 - sqrt(16 + scale**2)), rel=1e-6)
    assert scaled.upper == pytest.approx(0.2 * (50 + sqrt(49 + scale**2)), rel=1e-6)
    assert scaled.unit == "um"
    assert scaled.method == "counted; with the uncertainty of the pixel size"


def test_few_calibrations_widen_by_their_own_factor() -> None:
    pixel = Quantity(0.2, "um", 0.002, 4.0)
    scaled = scaled_interval(_interval(50.0, 50.0), 50.0, pixel, MICROMETRES)
    assert scaled.upper is not None
    assert scaled.upper / 0.2 / 50 - 1 == pytest.approx(
        0.01 * coverage_factor(0.95, degrees_of_freedom=4), rel=1e-9, abs=0
    )


def test_a_scale_without_uncertainty_only_scales_and_says_so() -> None:
    scaled = scaled_interval(
        _interval(46.0, 57.0), 50.0, Quantity(0.2, "um"), MICROMETRES
    )
    assert (scaled.lower, scaled.upper) == pytest.approx((9.2, 11.4), rel=1e-12)
    assert scaled.method == "counted; without the uncertainty of the pixel size"


def test_a_one_sided_limit_of_a_count_of_zero_keeps_its_open_side() -> None:
    scaled = scaled_interval(_interval(None, 0.03), 0.0, PIXEL, PER_MILLIMETRE)
    assert scaled.lower is None
    # The scale's share of the limit itself, in squares: 1 + (1.96 x 0.01)^2 / 2.
    assert scaled.upper == pytest.approx(150 * sqrt(1 + 0.0196**2), rel=1e-6, abs=0)


def test_a_lower_limit_never_falls_below_zero() -> None:
    pixel = Quantity(0.2, "um", 0.1)
    assert scaled_interval(_interval(1.0, 90.0), 50.0, pixel, MICROMETRES).lower == 0


def test_without_a_scale_everything_stays_in_pixels() -> None:
    estimate = Estimate(
        quantity=Quantity(50.0, "px", 1.0),
        interval95=_interval(46.0, 57.0),
        relative_accuracy_percent=11.0,
    )
    assert scaled_estimate(estimate, None, MICROMETRES) is estimate
    assert scaled_quantity(estimate.quantity, None, MICROMETRES) is estimate.quantity


def test_an_estimate_without_an_interval_stays_without() -> None:
    estimate = Estimate(
        quantity=Quantity(50.0, "px", 1.0),
        interval95=None,
        relative_accuracy_percent=None,
    )
    scaled = scaled_estimate(estimate, PIXEL, MICROMETRES)
    assert scaled.quantity.value == pytest.approx(10.0, rel=1e-12, abs=0)
    assert scaled.interval95 is None
    assert scaled.relative_accuracy_percent is None


def test_relative_accuracy_is_half_the_width() -> None:
    quantity = Quantity(50.0, "px")
    assert relative_accuracy_of(quantity, _interval(45.0, 55.0)) == pytest.approx(
        10.0, rel=1e-12, abs=0
    )
    assert relative_accuracy_of(quantity, _interval(None, 55.0)) is None
    assert relative_accuracy_of(Quantity(0.0, "px"), _interval(0.0, 1.0)) is None


def test_a_pixel_size_must_be_in_micrometres() -> None:
    with pytest.raises(UnitError, match="'mm' does not fit here"):
        require_pixel_size(Quantity(0.2, "mm"))


@pytest.mark.parametrize("value", [0.0, -0.2])
def test_a_pixel_has_a_size(value: float) -> None:
    with pytest.raises(ParameterError, match="a length above 0 um per pixel"):
        require_pixel_size(Quantity(value, "um"))
