"""Balances in words; the numbers of E1 are those of the product brief, M7."""

import pytest

from strandproof.errors import ParameterError
from strandproof.records.case_facts.portions import PortionBalance
from strandproof.report.portion_words import (
    Tolerances,
    balance_in_words,
    usual_tolerances,
)

PARTS = (("test", 0.600), ("maker", 0.325), ("referee", 0.325))


def length(whole: float | None, waste: tuple[float | None, ...] = (0.048,)) -> str:
    return balance_in_words(PortionBalance("length", "m", whole, PARTS, waste, 0.005))


def test_balance_reads_as_in_the_brief() -> None:
    assert length(1.300) == (
        "length 1.300 m; test 0.600, maker 0.325, referee 0.325, waste 0.048 m: "
        "2 mm unexplained, within 5 mm."
    )


def test_too_much_unexplained_is_an_alarm() -> None:
    assert "12 mm unexplained, BEYOND 5 mm" in length(1.310)


def test_parts_longer_than_the_whole_are_called_so() -> None:
    assert "8 mm more in the parts than in the whole, BEYOND" in length(1.290)


def test_size_not_entered_leaves_the_balance_open() -> None:
    assert "cannot be told, one size is not entered" in length(None)
    words = length(None, (None,))
    assert "waste not entered" in words
    assert "2 sizes are not entered" in words


def test_waste_that_was_never_entered_is_said() -> None:
    words = length(1.300, ())
    assert "waste not entered" in words
    assert "50 mm unexplained, BEYOND 5 mm" in words


def test_mass_is_told_in_grams() -> None:
    masses = (("test", 4.08), ("maker", 2.21), ("referee", 2.21))
    words = balance_in_words(PortionBalance("mass", "g", 8.84, masses, (0.33,), 0.05))
    assert words == (
        "mass 8.84 g; test 4.08, maker 2.21, referee 2.21, waste 0.33 g: "
        "0.01 g unexplained, within 0.05 g."
    )


def test_piece_that_is_whole_is_not_split_yet() -> None:
    words = balance_in_words(PortionBalance("length", "m", 1.3, (), (), 0.005))
    assert words.endswith("not split yet.")


def test_usual_tolerances_are_those_of_the_table() -> None:
    assert usual_tolerances() == Tolerances(0.005, 0.05)


def test_tolerance_below_zero_is_refused() -> None:
    with pytest.raises(ParameterError, match="mass_g was given as -0.1"):
        Tolerances(0.005, -0.1)
