"""Text of numbers: digits follow the uncertainty."""

from decimal import Context, Decimal
from math import inf, nan

import pytest
from hypothesis import given
from hypothesis import strategies as st

from strandproof.errors import ParameterError
from strandproof.quantity import (
    Interval,
    Quantity,
    format_interval,
    format_plus_minus,
    format_quantity,
    unit_text,
)
from strandproof.quantity.show import last_decimal_place

VALUE = st.floats(-1e15, 1e15, allow_subnormal=False)
WIDTH = st.floats(1e-12, 1e12)


def interval(lower: float | None, upper: float | None, unit: str = "1") -> Interval:
    return Interval(lower=lower, upper=upper, unit=unit, confidence=0.95, method="t")


@pytest.mark.parametrize(
    ("value", "half_width", "unit", "text"),
    [
        (8.444, 0.783, "um", "8.4 ± 0.8 \N{MICRO SIGN}m"),
        (100.93, 0.40, "% IACS", "100.9 ± 0.4 % IACS"),
        (1.9, 0.3, "um", "1.9 ± 0.3 \N{MICRO SIGN}m"),
        (8.567, 2.965, "um", "8.6 ± 3.0 \N{MICRO SIGN}m"),
        (1.7084e-8, 0.0152e-8, "ohm m", "(1.708 ± 0.015) × 10⁻⁸ Ω m"),
        (123456.0, 2300.0, "m", "(1.235 ± 0.023) × 10⁵ m"),
        (0.0, 0.05, "1", "0.00 ± 0.05"),
        (-0.001, 5.0, "V", "0 ± 5 V"),
        (0.5, 0.95, "1", "0.5 ± 1.0"),
        (0.5, 0.996, "1", "0.5 ± 1.0"),
        (3.2, 0.0, "um", "3.2 ± 0 \N{MICRO SIGN}m"),
        (1.2e12, 0.0, "m", "(1.2 ± 0) × 10¹² m"),
        (20.0, 0.5, "degC", "20.0 ± 0.5 °C"),
    ],
)
def test_plus_minus_cases(
    value: float, half_width: float, unit: str, text: str
) -> None:
    assert format_plus_minus(value, half_width, unit=unit) == text


@pytest.mark.parametrize(
    ("quantity", "text"),
    [
        (Quantity(127.7322, "ohm", 0.07107), "127.732 ohm (u = 0.071 ohm)"),
        (Quantity(0.0, "V", 0.0123), "0.000 V (u = 0.012 V)"),
        (Quantity(-3.1, "V", 0.996), "-3.1 V (u = 1.0 V)"),
        (
            Quantity(50000838.0, "nm", 31.66, 16.75),
            "50000838 nm (u = 32 nm, 16 degrees of freedom)",
        ),
        (
            Quantity(5.0, "um", 1.04, 1.0),
            "5.0 um (u = 1.0 um, 1 degree of freedom)",
        ),
        (
            Quantity(1.7e-8, "ohm m", 2.5e-11),
            "1.7000 x 10^-8 ohm m (u = 0.0025 x 10^-8 ohm m)",
        ),
        (Quantity(58.0, "MS/m"), "58 MS/m (no uncertainty stated)"),
        (Quantity(0.1 + 0.2, "1"), "0.3 (no uncertainty stated)"),
        (Quantity(0.0, "V"), "0 V (no uncertainty stated)"),
        (Quantity(12000.0, "m"), "12000 m (no uncertainty stated)"),
        (Quantity(1.25e-9, "m"), "1.25 x 10^-9 m (no uncertainty stated)"),
    ],
)
def test_quantity_cases(quantity: Quantity, text: str) -> None:
    assert format_quantity(quantity, ascii_only=True) == text


@pytest.mark.parametrize(
    ("shown", "text"),
    [
        (interval(7.661, 9.227, "um"), "7.7 to 9.2 um (95 %)"),
        (interval(10.23, 10.77), "10.23 to 10.77 (95 %)"),
        (interval(0.0, 3.6889), "0.0 to 3.7 (95 %)"),
        (interval(2.5, 2.5, "V"), "2.5 to 2.5 V (95 %)"),
        (interval(1.5e-9, 2.5e-9, "m"), "(1.5 to 2.5) x 10^-9 m (95 %)"),
        (interval(None, 0.0832, "1/mm"), "at most 0.083 1/mm (95 %, one-sided)"),
        (interval(12.017, None, "mm"), "at least 12.0 mm (95 %, one-sided)"),
        (interval(None, 0.0), "at most 0 (95 %, one-sided)"),
        (interval(-2.345, None), "at least -2.34 (95 %, one-sided)"),
        (interval(None, None), "no limit on either side (95 %)"),
    ],
)
def test_interval_cases(shown: Interval, text: str) -> None:
    assert format_interval(shown, ascii_only=True) == text


def test_confidence_keeps_its_digits() -> None:
    shown = Interval(lower=0.0, upper=1.0, unit="1", confidence=0.9545, method="t")
    assert format_interval(shown).endswith("(95.45 %)")


def shown_numbers(text: str) -> tuple[Decimal, ...]:
    """Read the numbers of an ASCII plus-minus text back."""
    body, _, power = text.partition(" x 10^")
    # Enough digits for the largest float beside the smallest.
    exact = Context(prec=800)
    parts = body.strip("()").split(" +/- ")
    return tuple(Decimal(part).scaleb(int(power or 0), exact) for part in parts)


@given(VALUE, WIDTH)
def test_what_is_shown_differs_by_half_a_unit_of_the_last_digit_at_most(
    value: float, half_width: float
) -> None:
    text = format_plus_minus(value, half_width, unit="1", ascii_only=True)
    for number, shown in zip((value, half_width), shown_numbers(text), strict=True):
        exponent = shown.as_tuple().exponent
        assert isinstance(exponent, int)
        half_unit = Decimal(1).scaleb(exponent) / 2
        assert abs(Decimal(repr(number)) - shown) <= half_unit


@given(VALUE, WIDTH)
def test_both_numbers_end_at_the_same_place(value: float, half_width: float) -> None:
    text = format_plus_minus(value, half_width, unit="1", ascii_only=True)
    shown = shown_numbers(text)
    assert shown[0].as_tuple().exponent == shown[1].as_tuple().exponent


@given(WIDTH)
def test_a_half_width_is_good_to_a_sixth_of_itself(half_width: float) -> None:
    # Worst where one digit is kept: 3.5 is shown as 4.
    text = format_plus_minus(0.0, half_width, unit="1", ascii_only=True)
    shown = shown_numbers(text)[1]
    assert len(shown.as_tuple().digits) <= 2
    assert abs(float(shown) / half_width - 1.0) <= 1.0 / 6.0


@given(VALUE, st.one_of(st.just(0.0), WIDTH), st.floats(1.0, 1e6) | st.just(inf))
def test_ascii_text_is_ascii_and_showing_changes_nothing(
    value: float, u: float, freedom: float
) -> None:
    quantity = Quantity(value, "um", u, freedom)
    text = format_quantity(quantity, ascii_only=True)
    assert text.isascii()
    assert " um (" in text
    assert quantity == Quantity(value, "um", u, freedom)


@given(st.floats(5e-324, 1.7e308))
def test_the_smallest_and_largest_floats_can_be_shown(number: float) -> None:
    text = format_plus_minus(number, number, unit="1", ascii_only=True)
    value, half_width = shown_numbers(text)
    assert value == half_width > 0


@pytest.mark.parametrize(
    ("uncertainty", "digits", "place"),
    [(0.0711, 2, -3), (0.0996, 2, -2), (0.0994, 2, -3), (35.8, 2, 0), (35.8, 1, 1)],
)
def test_last_decimal_place(uncertainty: float, digits: int, place: int) -> None:
    assert last_decimal_place(uncertainty, digits) == place


@pytest.mark.parametrize("uncertainty", [0.0, -1.0, inf, nan])
def test_no_place_without_an_uncertainty(uncertainty: float) -> None:
    with pytest.raises(ParameterError, match="uncertainty was given as"):
        last_decimal_place(uncertainty, 2)


def test_no_place_without_a_digit() -> None:
    with pytest.raises(ParameterError, match="significant_digits was given as 0"):
        last_decimal_place(1.0, 0)


@pytest.mark.parametrize(
    ("value", "half_width", "fault"),
    [
        (nan, 1.0, "value was given as nan"),
        (1.0, -1.0, "half_width was given as -1.0"),
        (1.0, inf, "half_width was given as inf"),
    ],
)
def test_numbers_out_of_range_are_refused(
    value: float, half_width: float, fault: str
) -> None:
    with pytest.raises(ParameterError, match=fault):
        format_plus_minus(value, half_width, unit="1")


@pytest.mark.parametrize(
    ("unit", "text"),
    [
        ("um", "\N{MICRO SIGN}m"),
        ("ohm g/m^2", "Ω g/m²"),
        ("1/mm", "/mm"),
        ("nohm m", "nΩ m"),
        ("mm^-1", "mm⁻¹"),
        ("% IACS", "% IACS"),
        ("drum", "drum"),
    ],
)
def test_unit_text(unit: str, text: str) -> None:
    assert unit_text(unit) == text
