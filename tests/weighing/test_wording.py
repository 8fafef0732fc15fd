import pytest
from hypothesis import given
from hypothesis import strategies as st

from strandproof.weighing.wording import (
    count_word,
    listed,
    of_hundred,
    plain_digits,
    ratio_digits,
    ratio_with_word,
    ratio_word,
    scale_name,
    short_digits,
)


@pytest.mark.parametrize(
    ("ratio", "text"),
    [
        (8.0973, "8.1"),
        (1.9061, "1.9"),
        (0.4242, "0.42"),
        (1.0, "1.0"),
        (24.7, "24.7"),
        (60.0, "60"),
        (10.0, "10"),
        (2.0, "2.0"),
        (1.9999999999, "1.9999999999"),
        (95.55, "95.5"),
        (190.0, "190"),
        (1234.5, "1230"),
        (123456.0, "123000"),
        (0.0, "0"),
        # Fewer digits would carry these into the next band.
        (1.96, "1.96"),
        (9.96, "9.96"),
        (99.96, "99.96"),
        (999.6, "999.6"),
    ],
)
def test_digits_of_a_ratio(ratio: float, text: str) -> None:
    assert ratio_digits(ratio) == text


@given(st.floats(1e-6, 1e9))
def test_the_digits_shown_never_change_the_word(ratio: float) -> None:
    assert ratio_word(float(ratio_digits(ratio))) == ratio_word(ratio)


def test_words_of_ratios() -> None:
    assert ratio_with_word(190) == "190, moderately strong"
    assert ratio_word(0.0) == "no support"
    assert "second-hand" in scale_name()


def test_plain_numbers() -> None:
    assert plain_digits(12.016, 3) == "12.0"
    assert plain_digits(2.9957e-7, 2) == "0.00000030"
    assert short_digits(299.57) == "300"
    assert short_digits(36.0, 4) == "36"
    assert of_hundred(0.0095) == "0.95 of 100"
    assert of_hundred(0) == "0 of 100"


def test_counts_and_lists() -> None:
    assert [count_word(number) for number in (0, 9, 12, 13)] == [
        "no",
        "nine",
        "twelve",
        "13",
    ]
    assert listed([]) == ""
    assert listed(["a"]) == "a"
    assert listed(["a", "b"], joined_by="or") == "a or b"
