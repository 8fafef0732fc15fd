"""Controls are no part of the product, however they were measured."""

import pytest
from report_examples import example_state, like, state_of

from strandproof.records.case_state import CaseState
from strandproof.records.entries import (
    CaseRecord,
    Control,
    Exhibit,
    Measurement,
    Micrograph,
    Section,
    Specimen,
)
from strandproof.report.pieces import (
    exhibits_in_question,
    micrograph_measured,
    own_measurements,
    specimen_behind,
)


def case_with_control(*measured: str) -> CaseState:
    """A product strand s1 and a control c1, each with section and micrograph."""
    bodies: list[CaseRecord] = [
        like(Exhibit),
        like(Exhibit, id="bought-controls", lot_mark="9"),
    ]
    for name, exhibit in (("s1", "E1"), ("c1", "bought-controls")):
        bodies += [
            like(Specimen, id=name, exhibit=exhibit),
            like(Section, id=f"{name}-L", specimen=name),
            like(Micrograph, id=f"{name}-1", section=f"{name}-L"),
        ]
    bodies.append(like(Control, id="control-1", specimen="c1"))
    bodies += [
        like(Measurement, id=f"m{number}", measures=reference)
        for number, reference in enumerate(measured)
    ]
    return state_of(*bodies)


@pytest.mark.parametrize(
    "reference",
    ["micrograph/c1-1", "section/c1-L", "specimen/c1", "exhibit/bought-controls"],
)
def test_measurement_of_a_control_is_not_our_own(reference: str) -> None:
    state = case_with_control(reference, "specimen/s1")
    assert [each.measures for each in own_measurements(state)] == ["specimen/s1"]


@pytest.mark.parametrize(
    "reference",
    ["micrograph/s1-1", "section/s1-L", "specimen/s1", "exhibit/E1", "case/H7"],
)
def test_measurement_of_the_product_is_our_own(reference: str) -> None:
    assert len(own_measurements(case_with_control(reference))) == 1


def test_exhibit_that_gave_controls_only_is_not_in_question() -> None:
    names = [each.id for each in exhibits_in_question(case_with_control())]
    assert names == ["E1"]


def test_exhibit_that_gave_nothing_yet_is_in_question() -> None:
    state = state_of(like(Exhibit), like(Exhibit, id="E2"))
    assert [each.id for each in exhibits_in_question(state)] == ["E1", "E2"]


def test_where_nothing_else_is_left_all_exhibits_are_in_question() -> None:
    """In the example case the one specimen is its own control."""
    assert [each.id for each in exhibits_in_question(example_state())] == ["E1"]
    assert exhibits_in_question(state_of()) == ()


def test_specimen_behind_a_reference() -> None:
    state = case_with_control()
    assert specimen_behind(state, "micrograph/s1-1") == "s1"
    assert specimen_behind(state, "section/s1-L") == "s1"
    assert specimen_behind(state, "specimen/s1") == "s1"
    assert specimen_behind(state, "case/H7") == ""


def test_micrograph_measured() -> None:
    assert micrograph_measured(like(Measurement)) == "f1"
    assert micrograph_measured(like(Measurement, measures="case/H7")) == ""
