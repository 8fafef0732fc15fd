from dataclasses import replace
from types import MappingProxyType

import pytest

from strandproof.errors import ParameterError, StrandproofError, TooFewHypothesesError
from strandproof.records.entries import ClaimKind, Hypothesis
from strandproof.tables import package_table
from strandproof.weighing import (
    one_sided,
    stands_for,
    structure_of,
    usual_hypotheses,
    usual_rivals_missing,
    weighed_hypotheses,
)

USUAL = usual_hypotheses()

GENUINE = Hypothesis(
    id="genuine", statement="It is genuine.", kind=ClaimKind.CRYSTAL_STATE
)
NOT = Hypothesis(id="not", statement="It is not.", kind=ClaimKind.CRYSTAL_STATE)


def test_the_usual_hypotheses_are_x1_to_x8_each_with_statement_and_kind() -> None:
    assert list(USUAL) == [f"X{number}" for number in range(1, 9)]
    assert all(each.statement.endswith(".") for each in USUAL.values())
    assert USUAL["X3"].kinds == (ClaimKind.CASTING_ROUTE, ClaimKind.CRYSTAL_STATE)


def test_every_row_about_hypotheses_and_predictions_is_judgement() -> None:
    for name in ("hypotheses", "predictions", "test_abilities"):
        assert {row.status for row in package_table(name).values()} == {"judgement"}


def test_controls_inform_one_crystal_and_fine_polycrystals_only() -> None:
    structures = {label: each.structure for label, each in USUAL.items()}
    assert structures == {
        "X1": "single_crystal",
        "X2": None,
        "X3": "polycrystal",
        "X4": "polycrystal",
        "X5": "polycrystal",
        "X6": None,
        "X7": None,
        "X8": None,
    }


def test_genuine_or_not_gets_the_two_usual_rivals() -> None:
    # M4 of the brief, word for word.
    check = usual_rivals_missing([GENUINE, NOT])
    assert check.missing == ("X3", "X5")
    assert check.sentence == (
        "Two more are usual: heated-mould rod drawn and annealed (X3); "
        "tough-pitch (X5). Add, or say why not."
    )


def test_one_missing_rival_is_named_alone() -> None:
    check = usual_rivals_missing([GENUINE, NOT, USUAL["X5"].as_record()])
    assert check.sentence == (
        "One more is usual: heated-mould rod drawn and annealed (X3). "
        "Add, or say why not."
    )


def test_leaving_x3_out_prints_a_line_with_the_reason() -> None:
    left_out = USUAL["X3"].as_record(left_out_because="the claim names no route.")
    check = usual_rivals_missing([GENUINE, NOT, left_out, USUAL["X5"].as_record()])
    assert (check.missing, check.sentence) == ((), "")
    (line,) = check.report_lines
    assert line == (
        "Not weighed: heated-mould rod drawn and annealed (X3); reason given: "
        "the claim names no route."
    )


def test_leaving_x3_out_silently_prints_that_no_reason_was_given() -> None:
    check = usual_rivals_missing([GENUINE, NOT, USUAL["X5"].as_record()])
    assert check.report_lines == (
        "Not weighed, and no reason given: heated-mould rod drawn and annealed (X3).",
    )


def test_a_rival_under_another_name_counts_by_what_it_stands_for() -> None:
    own = Hypothesis(
        id="recrystallised",
        statement="Cast in a heated mould, drawn, annealed.",
        kind=ClaimKind.CASTING_ROUTE,
        stands_for="X3",
    )
    assert stands_for(own) == "X3"
    assert stands_for(GENUINE) == "genuine"
    assert usual_rivals_missing([GENUINE, NOT, own]).missing == ("X5",)
    assert structure_of(own, USUAL) == "polycrystal"
    assert structure_of(GENUINE, USUAL) is None


def test_the_rivals_come_from_the_table_given() -> None:
    changed = {**USUAL, "X8": replace(USUAL["X8"], usual_rival=True)}
    check = usual_rivals_missing([GENUINE, NOT], usual=changed)
    assert check.missing == ("X3", "X5", "X8")
    assert check.sentence.startswith("Three more are usual:")


@pytest.mark.parametrize("given", [[], [GENUINE]])
def test_fewer_than_two_are_refused(given: list[Hypothesis]) -> None:
    with pytest.raises(TooFewHypothesesError, match="two or more, from both sides"):
        weighed_hypotheses(given)


def test_the_refusal_is_a_value_error_of_this_project() -> None:
    assert issubclass(TooFewHypothesesError, ValueError)
    assert issubclass(TooFewHypothesesError, StrandproofError)


def test_one_left_out_does_not_count_as_the_second() -> None:
    left_out = USUAL["X4"].as_record(left_out_because="too dull")
    with pytest.raises(TooFewHypothesesError, match="Hypotheses to weigh: genuine"):
        weighed_hypotheses([GENUINE, left_out])


def test_the_same_name_twice_is_refused() -> None:
    with pytest.raises(ParameterError, match="each name once"):
        weighed_hypotheses([GENUINE, GENUINE])


def test_both_sides_of_a_claim_are_asked_for() -> None:
    for_k1 = USUAL["X1"].as_record(speaks_for=("K1",))
    rival = USUAL["X4"].as_record()
    assert one_sided([for_k1, rival], "K1") == ""
    assert "speaks for K2" in one_sided([for_k1, rival], "K2")
    assert "add a rival" in one_sided([for_k1], "K1")


def test_an_incomplete_table_is_refused() -> None:
    rows = dict(package_table("hypotheses"))
    del rows["x2.offer"]
    with pytest.raises(ParameterError, match="statement, offer and kind"):
        usual_hypotheses(MappingProxyType(rows))
