"""Measurements as a reader meets them: nothing rounded away, no flag dropped."""

import pytest
from report_examples import (
    example_state,
    like,
    measured_pictures,
    picture,
    state_of,
    things,
)

from strandproof.records import FLAGS
from strandproof.records.case_state import CaseState
from strandproof.records.entries import (
    CaseRecord,
    ClaimKind,
    Measurement,
    Micrograph,
)
from strandproof.report.figures import micrograph_figures
from strandproof.report.findings import Finding, findings, third_readings


def case_of(*bodies: CaseRecord) -> CaseState:
    return state_of(*things(), like(Micrograph), *bodies)


def only_finding(**changes: object) -> Finding:
    found = findings(case_of(like(Measurement, **changes)), ())
    assert len(found) == 1
    return found[0]


PLACES = {
    "micrograph/f1": (
        "On the longitudinal section E1-s1-L of specimen E1-s1, exhibit E1, at the "
        "place shown, the mean lineal intercept between grain boundaries is "
        "8.4 ± 0.8 µm (95 %)."
    ),
    "specimen/E1-s1": (
        "On specimen E1-s1 of exhibit E1, the mean lineal intercept between grain "
        "boundaries is 8.4 ± 0.8 µm (95 %)."
    ),
    "case/H7": (
        "Over the leads examined, the mean lineal intercept between grain boundaries "
        "is 8.4 ± 0.8 µm (95 %)."
    ),
    "exhibit/E1": (
        "On exhibit E1, the mean lineal intercept between grain boundaries is "
        "8.4 ± 0.8 µm (95 %)."
    ),
}


@pytest.mark.parametrize("measures", PLACES)
def test_sentence_says_where_and_what(measures: str) -> None:
    assert only_finding(measures=measures).sentence == PLACES[measures]


def test_without_a_mean_intercept_the_first_result_is_told() -> None:
    results = [
        {"name": "copper_area", "value": {"value": 0.0955, "unit": "mm^2"}},
        {"name": "gap", "value": None, "words": "28 standard uncertainties"},
    ]
    found = only_finding(measures="specimen/E1-s1", results=results)
    assert found.sentence.endswith("copper area by diameter and count 0.0955 mm².")
    assert found.rows == (
        ("copper area by diameter and count", "0.0955 mm²"),
        ("gap", "28 standard uncertainties"),
    )


def test_reason_stands_where_there_is_no_number() -> None:
    results = [{"name": "mean_intercept", "value": None, "words": "no boundary found"}]
    found = only_finding(results=results)
    assert found.sentence.endswith("mean lineal intercept no boundary found.")


def test_what_it_bears_on_and_what_not() -> None:
    found = only_finding()
    assert found.bears_on == ("crystal state of the finished strand",)
    assert found.does_not_bear_on == ("casting route",)


def test_flags_are_told_with_meaning_and_remedy() -> None:
    found = only_finding(flags=("few_grains", "synthetic"))
    assert found.flags == (FLAGS["few_grains"], FLAGS["synthetic"])


def test_flag_that_this_program_does_not_know_is_kept() -> None:
    found = only_finding(flags=("from_the_future",))
    assert "from_the_future" in found.flags[0].meaning


def test_picture_stands_with_its_measurement() -> None:
    state = example_state()
    figures = micrograph_figures(state, {"f1": picture()})
    assert findings(state, figures)[0].figure is figures[0]
    assert findings(state, ())[0].figure is None


def many(count: int) -> CaseState:
    bodies = measured_pictures(count, flags=("few_grains",))
    return state_of(*bodies, like(Measurement, id="all", measures="case/H7"))


def test_few_single_pictures_are_shown_one_by_one() -> None:
    state = many(3)
    assert [f.measurement.id for f in findings(state, ())] == ["m0", "m1", "m2", "all"]
    assert third_readings(state) == ()


def test_many_single_pictures_become_a_table_and_none_is_lost() -> None:
    state = many(4)
    assert [f.measurement.id for f in findings(state, ())] == ["all"]
    readings = third_readings(state)
    assert [each.measurement.id for each in readings] == ["m0", "m1", "m2", "m3"]
    assert readings[0].micrograph == "p0"
    assert readings[0].mean_intercept == "8.4 ± 0.8 µm (95 %)"
    assert readings[0].g == "not stated"
    assert readings[0].flags == (FLAGS["few_grains"],)


def test_measurement_that_bears_on_nothing() -> None:
    found = only_finding(bears_on=(), does_not_bear_on=tuple(ClaimKind))
    assert found.bears_on == ()
    assert len(found.does_not_bear_on) == len(ClaimKind)
