"""Five sentences, drawn from the records and never beyond them."""

from typing import Any

import pytest
from report_examples import example_state, like, state_of

from strandproof.records.case_state import CaseState
from strandproof.records.entries import (
    CaseRecord,
    Claim,
    ClaimKind,
    Control,
    Exhibit,
    Hypothesis,
    Measurement,
    Micrograph,
    Observation,
    Section,
    Specimen,
    Weighing,
)
from strandproof.report import answer_in_five_sentences
from strandproof.report.answer import deciding_pair, final_weighings


def strand(name: str, exhibit: str = "E1") -> list[CaseRecord]:
    return [
        like(Specimen, id=name, exhibit=exhibit),
        like(Section, id=f"{name}-L", specimen=name),
        like(Micrograph, id=f"{name}-1", section=f"{name}-L"),
    ]


def measured(
    label: str, on: str, name: str = "mean_intercept", **value: object
) -> Measurement:
    number = {"value": 8.4, "unit": "um", **value}
    results = [{"name": name, "value": number, "words": ""}]
    return like(Measurement, id=label, measures=on, results=results)


def found(*bodies: CaseRecord) -> str:
    state = state_of(like(Exhibit), *strand("s1"), *bodies)
    return answer_in_five_sentences(state).found


def test_there_are_exactly_five_sentences_in_order() -> None:
    answer = answer_in_five_sentences(example_state())
    sentences = answer.sentences()
    assert len(sentences) == 5
    assert sentences[0] == answer.said
    assert sentences[4] == answer.not_shown
    assert all(each.endswith(".") for each in sentences)


def test_empty_case_says_that_nothing_was_done() -> None:
    said, examined, what_found, weighed, not_shown = answer_in_five_sentences(
        state_of()
    ).sentences()
    assert said == "Nobody's words have been entered yet."
    assert examined == "Nothing has been taken in for examination yet."
    assert what_found == "Nothing has been measured on the pieces in question yet."
    assert weighed.startswith("Nothing has been weighed yet")
    assert "casting route" in not_shown
    assert "what anybody intended" in not_shown


def test_words_are_quoted_with_speaker_and_place() -> None:
    said = answer_in_five_sentences(example_state()).said
    assert "Wexcombe Twine Works (maker, hang tag) said" in said
    assert "“cast long-crystal copper, one crystal per 100 m”" in said


def test_exhibit_of_controls_is_not_counted_as_examined() -> None:
    controls = like(Exhibit, id="known", provenance="known wire")
    state = state_of(
        like(Exhibit),
        controls,
        *strand("s1"),
        *strand("c1", "known"),
        like(Control, id="c", specimen="c1"),
        measured("m1", "micrograph/s1-1"),
        measured("m2", "case/H7"),
    )
    examined = answer_in_five_sentences(state).examined
    assert "1 exhibit (E1 bought at Lantern Row)" in examined
    assert "known wire" not in examined
    assert "2 sections with controls, 2 micrographs shown here" in examined
    assert "1 piece or picture measured" in examined


@pytest.mark.parametrize(
    "on", ["micrograph/c1-1", "section/c1-L", "specimen/c1", "exhibit/known"]
)
def test_measurement_of_a_control_never_enters_what_was_found(on: str) -> None:
    controls = [
        like(Exhibit, id="known"),
        *strand("c1", "known"),
        like(Control, id="c", specimen="c1"),
        measured("m2", on, value=99.0),
    ]
    assert "99" not in found(*controls)
    assert "99" not in found(measured("m1", "specimen/s1"), *controls)
    assert "8.4 µm" in found(measured("m1", "specimen/s1"), *controls)


def test_what_was_combined_replaces_single_pictures() -> None:
    words = found(
        measured("m1", "case/H7", value=8.4), measured("m2", "micrograph/s1-1", value=7)
    )
    assert "mean distance between grain boundaries 8.4 µm" in words
    assert "7 µm" not in words


def test_several_single_pictures_give_a_range_and_say_so() -> None:
    words = found(
        *strand("s2"),
        measured("m1", "micrograph/s1-1", value=9),
        measured("m2", "micrograph/s2-1", value=7),
    )
    assert "7 µm to 9 µm on 2 pictures, not combined" in words


@pytest.mark.parametrize("verdict", ["single", "undecided"])
def test_picture_without_resolved_boundaries_has_no_mean_distance(verdict: str) -> None:
    one = like(
        Measurement,
        **{**measured("m1", "micrograph/s1-1").model_dump(), "verdict": verdict},
    )
    assert found(one) == "What was measured on the pieces in question gave no number."


def test_no_measurement_is_dropped_where_two_gave_the_same_number() -> None:
    words = found(
        measured("first", "specimen/s1", "conductivity", value=95.0, unit="% IACS"),
        measured("second", "specimen/s1", "conductivity", value=101.0, unit="% IACS"),
    )
    assert "95 % IACS (first) and 101 % IACS (second)" in words


def test_other_measurements_are_named_too() -> None:
    words = found(measured("m1", "specimen/s1", "hardness", value=52.0, unit="HV"))
    assert words == "Found in the pieces examined: hardness 52 HV."


def test_measurement_without_number_is_no_finding() -> None:
    empty = [{"name": "mean_intercept", "value": None, "words": "no scale"}]
    words = found(like(Measurement, measures="micrograph/f1", results=empty), F1)
    assert words == "What was measured on the pieces in question gave no number."


F1 = like(Micrograph, section="s1-L")


def weighed_case(*likelihoods: tuple[str, float, str], **changes: Any) -> CaseState:  # noqa: ANN401
    """Weigh two explanations that speak for K1 and two that do not."""
    rows = [
        {
            "hypothesis": name,
            "best": best,
            "lower": best,
            "upper": best,
            "status": status,
            "source": "s",
        }
        for name, best, status in likelihoods
    ]
    names = [name for name, _, _ in likelihoods]
    pairs = [
        {
            "first": one,
            "second": two,
            "best_ratio": 2.0 + number,
            "lower_ratio": 1.0,
            "upper_ratio": None,
            "words": f"{one} and {two}",
        }
        for number, (one, two) in enumerate(
            (a, b) for k, a in enumerate(names) for b in names[k + 1 :]
        )
    ]
    own = [
        like(Hypothesis, id=n, speaks_for=("K1",) if n.startswith("own") else ())
        for n in names
    ]
    weighing = like(
        Weighing, likelihoods=rows, pairs=pairs, **{"result": "supported", **changes}
    )
    return state_of(like(Claim), *own, like(Observation), weighing)


def test_word_rests_on_the_best_explanation_of_either_side() -> None:
    state = weighed_case(
        ("own-1", 0.2, "data"),
        ("rival-1", 0.3, "data"),
        ("own-2", 0.9, "data"),
        ("rival-2", 0.4, "data"),
    )
    pair = deciding_pair(state, final_weighings(state)[0])
    assert pair is not None
    assert {pair.first, pair.second} == {"own-2", "rival-2"}


@pytest.mark.parametrize(
    ("one", "two", "said"),
    [
        ("data", "data", "data"),
        ("data", "literature", "literature"),
        ("judgement", "literature", "judgement"),
        ("data", "judgement", "judgement"),
    ],
)
def test_status_is_that_of_the_weaker_side(one: str, two: str, said: str) -> None:
    state = weighed_case(("own", 0.9, one), ("rival", 0.1, two))
    weighed = answer_in_five_sentences(state).weighed
    assert f"for own over rival, {said}; no controls" in weighed


def test_controls_stand_beside_the_best_estimate() -> None:
    weighed = answer_in_five_sentences(example_state()).weighed
    assert weighed.startswith(
        "For the exhibits examined only: K1, crystal state of the finished strand: "
        "contradicted"
    )
    assert "best estimate 190 for X4 over X1, judgement" in weighed
    assert "the controls alone support 1.8" in weighed


@pytest.mark.parametrize("names", [("own-1", "own-2"), ("rival-1", "rival-2")])
def test_weighing_of_one_side_is_told_not_dropped(names: tuple[str, str]) -> None:
    rows = [(name, 0.5, "data") for name in names]
    state = weighed_case(*rows, result="undetermined")
    weighed = answer_in_five_sentences(state).weighed
    assert (
        "strand: undetermined (the explanations weighed all stand on one side"
        in weighed
    )


def test_claim_that_was_not_weighed_is_named() -> None:
    state = weighed_case(("own", 0.9, "data"), ("rival", 0.1, "data"))
    bodies = [entry.body for entry in state.entries[1:]]
    more = state_of(*bodies, like(Claim, id="K9"))
    assert (
        "not weighed, so undetermined: K1, casting route; K9, casting route; K9,"
        in answer_in_five_sentences(more).weighed
    )


def test_last_weighing_of_a_claim_holds() -> None:
    state = weighed_case(("own", 0.9, "data"), ("rival", 0.1, "data"))
    bodies = [entry.body for entry in state.entries[1:]]
    later = like(Weighing, **{**bodies[-1].model_dump(), "id": "W2"})
    both = state_of(*bodies, later)
    assert [each.id for each in final_weighings(both)] == ["W2"]


def test_kind_that_was_claimed_but_not_tested_is_not_shown() -> None:
    not_shown = answer_in_five_sentences(example_state()).not_shown
    assert "K1, casting route" in not_shown


def test_kind_that_was_tested_but_not_claimed_is_no_gap() -> None:
    tested = like(
        Measurement, measures="specimen/s1", bears_on=(ClaimKind.COMPOSITION,)
    )
    with_test = answer_in_five_sentences(state_of(*strand("s1"), tested)).not_shown
    without = answer_in_five_sentences(state_of(*strand("s1"))).not_shown
    assert "composition" in without
    assert "composition" not in with_test
