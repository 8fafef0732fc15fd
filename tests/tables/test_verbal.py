from math import inf, nan

import pytest

from strandproof.errors import ParameterError
from strandproof.tables import package_table, verbal_strength

LOWER_EDGES = [
    (2, "weak"),
    (10, "moderate"),
    (100, "moderately strong"),
    (1000, "strong"),
    (10000, "very strong"),
]


@pytest.mark.parametrize(("edge", "word"), LOWER_EDGES)
def test_an_edge_belongs_to_the_band_above_it(edge: float, word: str) -> None:
    assert verbal_strength(edge).word == word
    assert verbal_strength(edge * (1 - 1e-9)).word != word


@pytest.mark.parametrize(("edge", "word"), LOWER_EDGES)
def test_the_reciprocal_is_worded_for_the_other_side(edge: float, word: str) -> None:
    strength = verbal_strength(1 / edge)
    assert strength.reciprocal_word == word
    assert strength.word == "no support"


@pytest.mark.parametrize("ratio", [0.51, 1.0, 1.9, 1.99])
def test_near_one_supports_neither_side(ratio: float) -> None:
    strength = verbal_strength(ratio)
    assert (strength.word, strength.reciprocal_word) == ("no support", "no support")


def test_the_scale_is_printed_beside_the_word() -> None:
    text = str(verbal_strength(190))
    assert text.startswith("moderately strong (scale: European guideline")
    assert "second-hand" in text
    assert "lower edge of each band included" in text


@pytest.mark.parametrize("ratio", [0.0, -3.0, inf, nan])
def test_a_ratio_that_is_none_is_refused(ratio: float) -> None:
    with pytest.raises(ParameterError, match="ratio was given as"):
        verbal_strength(ratio)


def test_a_scale_without_a_lowest_band_is_refused() -> None:
    bands = {
        key: row
        for key, row in package_table("verbal_scale").items()
        if key != "no_support"
    }
    with pytest.raises(ParameterError, match="bands whose lowest edge is 0"):
        verbal_strength(1.5, table=bands)
