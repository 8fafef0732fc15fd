"""Bands of the verbal scale for likelihood ratios.

Source: European guideline for evaluative reporting in forensic science, 2015.
The guideline itself was not read.
Status: read (secondary): the ratios below and their words stand in the tests of a
statistics package; "moderate" and "moderately strong" also in a public glossary.
Printed: words, so the comparison is exact. Numbers only, no text is copied.

The source's last word, from a million on, is not used by this project, which
calls everything from 10 000 on "very strong"; that ratio is therefore not here.
"""

import pytest

from strandproof.tables import verbal_strength

READ_SECONDARY = [
    (5, "weak"),
    (50, "moderate"),
    (500, "moderately strong"),
    (5_000, "strong"),
    (500_000, "very strong"),
]


@pytest.mark.parametrize(("ratio", "word"), READ_SECONDARY)
def test_word_of_a_ratio_inside_each_band(ratio: float, word: str) -> None:
    assert verbal_strength(ratio).word == word


@pytest.mark.parametrize(("ratio", "word"), READ_SECONDARY)
def test_word_of_the_reciprocal_for_the_other_hypothesis(
    ratio: float, word: str
) -> None:
    assert verbal_strength(1 / ratio).reciprocal_word == word
