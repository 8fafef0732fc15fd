"""Numbers in words: digits by the uncertainty, and never more certain than stated."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from strandproof.records.entries import ClaimKind, MeasuredValue, MeasurementResult
from strandproof.report import result_in_words, value_in_words
from strandproof.report.wording import (
    KIND_WORDS,
    as_sentence,
    number_in_words,
    ratio_text,
    result_name,
)

NUMBERS: dict[str, tuple[dict[str, object], str]] = {
    "symmetric": (
        {"value": 8.444, "unit": "um", "lower": 7.661, "upper": 9.227},
        "8.4 ± 0.8 µm (95 %)",
    ),
    "symmetric, pure number": (
        {"value": 10.49, "unit": "1", "lower": 10.0, "upper": 10.98},
        "10.5 ± 0.5 (95 %)",
    ),
    "asymmetric": (
        {"value": 10.49, "unit": "1", "lower": 10.23, "upper": 10.77},
        "10.49; 10.23 to 10.77 (95 %)",
    ),
    "far limit on one side": (
        {"value": 3000.0, "unit": "um", "lower": 1000.0, "upper": 80000.0},
        "3.0 × 10³ µm; (0 to 8) × 10⁴ µm (95 %)",
    ),
    "value outside of its interval": (
        {"value": 3.0, "unit": "um", "lower": 4.0, "upper": 6.0},
        "3.0; 4.0 to 6.0 µm (95 %)",
    ),
    "asymmetric, small unit": (
        {"value": 1.7084e-8, "unit": "ohm m", "lower": 1.70e-8, "upper": 1.73e-8},
        "1.708 × 10⁻⁸ Ω m; (1.700 to 1.730) × 10⁻⁸ Ω m (95 %)",
    ),
    "upper limit only": (
        {"value": 0.0, "unit": "1/mm", "upper": 0.0832},
        "at most 0.083 /mm (95 %, one-sided)",
    ),
    "lower limit only": (
        {"value": 12.0, "unit": "mm", "lower": 12.018},
        "at least 12.0 mm (95 %, one-sided)",
    ),
    "no limit": (
        {"value": 5.0, "unit": "um"},
        "5 µm; no limit on either side (95 %)",
    ),
    "interval of no width": (
        {"value": 8.4, "unit": "um", "lower": 8.4, "upper": 8.4},
        "8.4; 8.4 to 8.4 µm (95 %)",
    ),
    "zero in the middle": (
        {"value": 0.0, "unit": "K", "lower": -0.5, "upper": 0.5},
        "0.0 ± 0.5 K (95 %)",
    ),
}


@pytest.mark.parametrize("name", NUMBERS)
def test_number_with_interval(name: str) -> None:
    fields, words = NUMBERS[name]
    value = MeasuredValue.model_validate({**fields, "confidence": 0.95})
    assert value_in_words(value) == words


@pytest.mark.parametrize(
    ("value", "words"),
    [
        (MeasuredValue(value=1.9, unit="um", standard_uncertainty=0.15), "u = 0.15 µm"),
        (MeasuredValue(value=0, unit="um", standard_uncertainty=0.1), "0.00 µm (u = "),
    ],
)
def test_number_with_standard_uncertainty_only(
    value: MeasuredValue, words: str
) -> None:
    assert words in value_in_words(value)
    assert "±" not in value_in_words(value)


@pytest.mark.parametrize(
    ("number", "unit", "words"),
    [
        (9.26864, "%", "9.269 %"),
        (0, "1/mm", "0 /mm"),
        (1049, "1", "1049"),
        (123456, "1", "123500"),
        (0.128756, "mm^2", "0.1288 mm²"),
        (1e-8, "ohm m", "1e-08 Ω m"),
        (-3, "K", "-3 K"),
    ],
)
def test_number_without_uncertainty_has_four_digits_at_most(
    number: float, unit: str, words: str
) -> None:
    assert value_in_words(MeasuredValue(value=number, unit=unit)) == words


def test_uncertainty_of_zero_is_no_uncertainty() -> None:
    value = MeasuredValue(value=8.4, unit="um", standard_uncertainty=0)
    assert value_in_words(value) == "8.4 µm"


@given(
    st.floats(1e-12, 1e9, allow_subnormal=False),
    st.floats(0, 2),
    st.floats(0, 2),
)
def test_any_number_with_any_interval_can_be_said(
    number: float, below: float, above: float
) -> None:
    value = MeasuredValue(
        value=number,
        unit="um",
        lower=number * (1 - below),
        upper=number * (1 + above),
        confidence=0.95,
    )
    words = value_in_words(value)
    assert words.endswith("(95 %)")
    # "±" says symmetric; 2 % of the half-width is what it may be off.
    assert ("±" in words) == (below + above > 0 and _is_symmetric(value))


def _is_symmetric(value: MeasuredValue) -> bool:
    assert value.lower is not None
    assert value.upper is not None
    half = (value.upper - value.lower) / 2
    middle = (value.upper + value.lower) / 2
    return half > 0 and abs(middle - value.value) <= 0.02 * half


@pytest.mark.parametrize(
    ("ratio", "words"),
    [
        (None, "not stated"),
        (190.0, "190"),
        (24.7, "24.7"),
        (8.0987, "8.1"),
        (0.9997, "1.0"),
        (0.42, "0.42"),
        (0.0, "0"),
        (99.96, "99.96"),
        (99.5, "99.5"),
        (1e6, "1000000"),
    ],
)
def test_ratio_never_gains_strength_by_rounding(
    ratio: float | None, words: str
) -> None:
    assert ratio_text(ratio) == words


def test_result_says_why_there_is_no_number() -> None:
    without = MeasurementResult(name="g_intercept", value=None, words="no scale")
    assert result_in_words(without) == "no scale"
    assert number_in_words(without) == "no scale"
    silent = MeasurementResult(name="g_intercept", value=None)
    assert result_in_words(silent) == "not stated"


def test_result_with_number_and_words() -> None:
    value = MeasuredValue(value=26, unit="1")
    result = MeasurementResult(name="grains", value=value, words="Two are cut.")
    assert result_in_words(result) == "26. Two are cut."
    assert number_in_words(result) == "26"


def test_result_name_falls_back_to_its_own_words() -> None:
    assert result_name("copper_area") == "copper area by diameter and count"
    assert result_name("orientation_spread") == "orientation spread"


def test_sentence_keeps_names_as_they_were_typed() -> None:
    assert as_sentence("kept at Ostrea College") == "Kept at Ostrea College"
    assert as_sentence("") == ""


def test_every_kind_of_claim_has_words() -> None:
    assert set(KIND_WORDS) == set(ClaimKind)


@pytest.mark.parametrize(
    "name",
    [
        "mean_intercept_with_twins",
        "mean_intercept_with_uncertain_marks",
        "parts_of_the_interval",
        "intervals_by_level",
        "scatter_by_level",
        "what_more_would_bring",
        "events_per_mm",
        "mean_event_distance",
        "places_of_the_events",
    ],
)
def test_names_of_grain_size_results_are_plain_words(name: str) -> None:
    assert result_name(name) != name.replace("_", " ")


def test_words_after_a_number_begin_a_sentence() -> None:
    value = MeasuredValue(value=9.3, unit="%")
    result = MeasurementResult(name="x", value=value, words="half of it")
    assert result_in_words(result) == "9.3 %. Half of it"
