"""Findings as JSON: the records' own numbers; the paper's words: texts only."""

import json
from typing import Any

import pytest
from report_examples import (
    example_state,
    like,
    measured_pictures,
    report_on,
    state_of,
    typed_as,
)

from strandproof.records.entries import (
    Capture,
    CaptureSearch,
    Claim,
    HandOver,
    Measurement,
    Weighing,
)
from strandproof.report import findings_data
from strandproof.report.plain import paper_data


@pytest.fixture(scope="module")
def found() -> dict[str, Any]:
    return findings_data(report_on(example_state()))


def test_schema_is_named_with_its_version(found: dict[str, Any]) -> None:
    assert found["schema"] == "strandproof-findings"
    assert found["schema_version"] == 1


def test_it_is_json_without_numbers_that_are_none(found: dict[str, Any]) -> None:
    text = json.dumps(found, allow_nan=False)
    assert json.loads(text) == found


def test_numbers_are_those_of_the_records(found: dict[str, Any]) -> None:
    state = example_state()
    value = found["measurements"][0]["results"][0]["value"]
    assert value["value"] == 8.444
    assert value["unit"] == "um"
    assert (value["lower"], value["upper"]) == (7.66, 9.23)
    for told, record in zip(
        found["measurements"], state.records(Measurement), strict=True
    ):
        assert (
            Measurement.model_validate(
                {name: part for name, part in told.items() if name != "sentence"}
            )
            == record
        )
    weighings = [Weighing.model_validate(each) for each in found["weighings"]]
    assert weighings == list(state.records(Weighing))
    claims = [Claim.model_validate(each) for each in found["claims"]]
    assert claims == list(state.records(Claim))


def test_single_pictures_in_a_table_keep_their_numbers() -> None:
    bodies = measured_pictures(4)
    data = findings_data(report_on(state_of(*bodies)))
    assert data["measurements"] == []
    told = [Measurement.model_validate(each) for each in data["third_readings"]]
    assert told == [body for body in bodies if isinstance(body, Measurement)]


def test_head_answer_coverage_and_gaps_are_there(found: dict[str, Any]) -> None:
    report = report_on(example_state())
    assert found["head"] == report.head
    assert found["answer"] == list(report.answer.sentences())
    assert found["not_shown"] == list(report.not_shown)
    assert found["coverage"] == [
        {"claim": "K1", "kind": "casting_route", "tested_by": []},
        {"claim": "K1", "kind": "crystal_state", "tested_by": ["f1-size"]},
    ]
    assert found["synthetic_pictures"] is False
    assert found["made_at"] == "2031-09-02T12:00:00+00:00"


def test_paper_data_are_texts_only() -> None:
    def leaves(data: object) -> list[object]:
        if isinstance(data, dict):
            return [leaf for part in data.values() for leaf in leaves(part)]
        if isinstance(data, list):
            return [leaf for part in data for leaf in leaves(part)]
        return [data]

    data = paper_data(report_on(example_state()))
    assert {type(leaf) for leaf in leaves(data)} == {str, bool}


def test_paper_carries_what_users_typed_letter_by_letter() -> None:
    typed = "#panic() *b* _i_ $x$ @r <l> [c] \\ `r` = h"
    state = example_state(lambda body: typed_as(body, typed))
    data = paper_data(report_on(state))
    assert data["title"] == data["owner"] == data["question"] == typed
    claim = data["claims"][0]
    assert claim["words"] == claim["translation"] == typed
    assert data["disclosures"] == [typed]
    assert data["own"][0]["words"] == data["own"][0]["place"] == typed
    assert typed in data["pieces"][0][0]
    assert typed in data["findings"][0]["method"]
    assert typed in data["weighed"][0]["note"]


def test_paper_says_where_the_words_were_not_said() -> None:
    page = like(Capture, id="page", medium="page", place="shop", file_sha256="a" * 64)
    claim = like(Claim)
    search = like(CaptureSearch, capture="page", looked_for=(claim.words,), found=())
    bodies = (like(Capture), page, claim)
    elsewhere = paper_data(report_on(state_of(*bodies, search)))["claims"][0]
    assert elsewhere["not_said"] == "page, shop"
    assert elsewhere["not_looked_at"] == ""
    unsearched = paper_data(report_on(state_of(*bodies)))["claims"][0]
    assert unsearched["not_said"] == "no place was searched and had none"
    assert unsearched["not_looked_at"] == "page, shop"


def test_paper_tells_interests_and_who_paid() -> None:
    data = paper_data(report_on(example_state()))
    assert data["costs"] == ["laboratory fee: 380.00 EUR, paid by R."]
    assert data["own"][0]["due"] is True


def test_paper_tells_custody_heat_and_deviations() -> None:
    data = paper_data(report_on(example_state()))
    lines = " ".join(data["custody"])
    assert "R to A1, 2031-05-06 16:40 to 2031-05-08 09:15 UTC" in lines
    assert "cold mounting: at most 41.5 °C" in lines
    (change,) = data["plan"]["changes"]
    assert change.startswith("Deviation 1, after results were seen: face of E2-s3-T")


def test_hand_over_under_way_and_with_a_note() -> None:
    under_way = like(HandOver, received_at=None, note="no holder recorded")
    line = paper_data(report_on(state_of(under_way)))["custody"][0]
    assert "under way" in line
    assert line.endswith("Note: no holder recorded.")


def test_paper_of_many_pictures_names_each_flag_once() -> None:
    readings = measured_pictures(4, flags=("few_grains", "one_field"))
    data = paper_data(report_on(state_of(*readings)))
    assert len(data["readings"]) == 4
    assert len(data["readings_flags"]) == 2
