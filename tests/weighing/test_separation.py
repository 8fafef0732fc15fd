from dataclasses import replace
from itertools import combinations

import pytest

from strandproof.errors import ParameterError, UnknownTableError
from strandproof.tables import package_table
from strandproof.weighing import (
    Expectation,
    Prediction,
    SeparationTable,
    bench_tests,
    predictions,
    separation_table,
)

ALL = [f"X{number}" for number in range(1, 9)]

APPENDIX_C = {
    "many_equiaxed_grains": "only by blunder|rare|usual|usual|usual|rare",
    "one_grain_fills_round_face": "usual|possible|rare|rare|rare|usual",
    "annealing_twins": "only by blunder|rare|usual|usual|usual|usual",
    "fibrous_hard": "no|usual|rare|rare|rare|no",
    "oxide_dots_in_lines": "no|no|no|no|usual|no",
    "no_boundary_over_some_cm": "usual|possible|rare|rare|rare|rare",
    "about_101_iacs_when_soft": "yes|lower|yes|yes|yes|yes",
    "one_orientation_over_cm": "yes|no|no|no|no|no",
}


@pytest.fixture(scope="module")
def m5() -> SeparationTable:
    return separation_table(["etched_section", "resistance"], hypotheses=ALL)


def test_the_table_holds_the_words_of_appendix_c() -> None:
    columns = ["X1", "X2", "X3", "X4", "X5", "X8"]
    for observation, words in APPENDIX_C.items():
        found = {
            each.hypothesis: each.word
            for each in predictions()
            if each.observation == observation
        }
        assert [found[label] for label in columns] == words.split("|"), observation


def test_qualifications_are_kept_apart_from_the_word() -> None:
    cells = {(each.observation, each.hypothesis): each for each in predictions()}
    cell = cells["no_boundary_over_some_cm", "X2"]
    assert (cell.word, cell.because) == ("possible", "cells not resolved")
    assert cell.expectation is Expectation.OPEN
    assert cell.status == "judgement"


def test_every_test_shows_observations_that_exist() -> None:
    known = {each.observation for each in predictions()}
    shown = {key for test in bench_tests().values() for key in test.shows}
    assert shown == known


def test_nothing_separates_x3_from_x4(m5: SeparationTable) -> None:
    pair = m5.pair("X3", "X4")
    assert not pair.separated
    assert pair.words.startswith("X3-X4: nothing on your list separates these")


def test_no_test_of_appendix_c_separates_x3_from_x4() -> None:
    # Derived: with every test ticked but the paper there is still nothing.
    tests = [key for key in bench_tests() if key != "casting_record"]
    table = separation_table(tests, hypotheses=ALL)
    assert not table.pair("X4", "X3").separated


def test_x1_and_x4_are_separable(m5: SeparationTable) -> None:
    assert m5.pair("X1", "X4").words == "X1-X4: long section or transverse section"


def test_x1_and_x8_need_the_long_section(m5: SeparationTable) -> None:
    assert m5.pair("X1", "X8").words == "X1-X8: long section only"


def test_x4_and_x5_need_a_look_for_oxide(m5: SeparationTable) -> None:
    words = m5.pair("X4", "X5").words
    assert words.startswith("X4-X5: as-polished oxide look or hydrogen test")
    assert "not on your list" in words


def test_ticking_the_oxide_look_separates_x4_from_x5() -> None:
    table = separation_table(["as_polished"], hypotheses=["X4", "X5"])
    pair = table.pair("X4", "X5")
    assert pair.words == "X4-X5: as-polished oxide look"
    assert pair.by[0].expected.hypothesis == "X5"
    assert pair.by[0].not_expected.word == "no"


def test_resistance_separates_no_pair_and_that_is_said(m5: SeparationTable) -> None:
    assert m5.warnings == (
        "On your list, but separating no pair of these: resistance.",
    )


def test_transverse_sections_alone_are_warned_of() -> None:
    table = separation_table(["etched_section.transverse"], hypotheses=["X1", "X8"])
    assert not table.pair("X1", "X8").separated
    assert "Transverse sections only" in table.warnings[0]
    assert "would separate X1-X8" in table.warnings[0]


def test_transverse_sections_alone_are_fine_where_they_separate_all() -> None:
    table = separation_table(["etched_section.transverse"], hypotheses=["X1", "X4"])
    assert table.warnings == ()


def test_a_hypothesis_without_predictions_stays_a_blank(m5: SeparationTable) -> None:
    assert m5.pair("X1", "X7").words == (
        "X1-X7: nothing on your list separates these; no prediction on record for X7"
    )


def test_every_pair_is_in_the_table_once(m5: SeparationTable) -> None:
    pairs = [(each.first, each.second) for each in m5.pairs]
    assert pairs == list(combinations(ALL, 2))


def test_the_table_follows_from_the_predictions() -> None:
    # Were tough-pitch to show no oxide, the look for it would separate nothing.
    changed = [_without_oxide(each) for each in predictions()]
    before = separation_table(["as_polished"], hypotheses=["X4", "X5"])
    after = separation_table(["as_polished"], hypotheses=["X4", "X5"], expected=changed)
    assert before.pair("X4", "X5").separated
    assert not after.pair("X4", "X5").separated


def _without_oxide(each: Prediction) -> Prediction:
    if each.observation != "oxide_dots_in_lines":
        return each
    return replace(each, word="no", expectation=Expectation.NOT_EXPECTED)


def test_words_in_between_separate_from_nothing() -> None:
    # X1 usual, X2 possible: one grain on a round face tells nothing.
    table = separation_table(["etched_section.transverse"], hypotheses=["X1", "X2"])
    assert table.pair("X1", "X2").by == ()


def test_an_unknown_test_is_named_with_the_known_ones() -> None:
    with pytest.raises(UnknownTableError, match=r"no test named 'etched'.*hardness"):
        separation_table(["etched"], hypotheses=["X1", "X4"])


def test_a_pair_outside_of_the_table_is_refused(m5: SeparationTable) -> None:
    with pytest.raises(ParameterError, match="a pair of the table"):
        m5.pair("X1", "X9")


def test_a_word_off_the_scale_is_refused() -> None:
    rows = dict(package_table("predictions"))
    key = "annealing_twins.x4"
    rows[key] = replace(rows[key], conditions="often")
    with pytest.raises(ParameterError, match="often"):
        predictions(rows)


def test_a_class_that_is_not_the_words_is_refused() -> None:
    rows = dict(package_table("predictions"))
    key = "annealing_twins.x4"
    rows[key] = replace(rows[key], value=0.0, printed="0")
    with pytest.raises(ParameterError, match="the scale's value"):
        predictions(rows)


def test_an_observation_without_a_statement_is_refused() -> None:
    rows = dict(package_table("predictions"))
    del rows["annealing_twins.statement"]
    with pytest.raises(ParameterError, match="observations with a statement"):
        predictions(rows)
