"""Every kind of entry: frozen, round trip, schema published and current."""

import json
from pathlib import Path
from typing import Any

import jsonschema
import pytest
from case_examples import BODIES
from hypothesis import given
from hypothesis import strategies as st
from pydantic import ValidationError

from strandproof.errors import ParameterError
from strandproof.records.entries import (
    ENTRY_KINDS,
    Calibration,
    CaseRecord,
    Likelihood,
    MeasuredValue,
    kind_in_words,
    kind_of,
)

SCHEMAS = Path(__file__).parents[2] / "docs" / "schemas"

each_body = pytest.mark.parametrize(
    "body", BODIES, ids=lambda b: f"{kind_of(b)}-{b.id}"
)


def test_there_is_an_example_of_every_kind() -> None:
    assert {type(body) for body in BODIES} == set(ENTRY_KINDS.values())


@each_body
def test_round_trip_through_json(body: CaseRecord) -> None:
    again = type(body).model_validate_json(body.model_dump_json())
    assert again == body


@each_body
def test_example_fits_the_published_schema(body: CaseRecord) -> None:
    schema = json.loads((SCHEMAS / f"{kind_of(body)}.json").read_text("utf-8"))
    jsonschema.Draft202012Validator.check_schema(schema)
    jsonschema.validate(body.model_dump(mode="json"), schema)


@each_body
def test_unknown_field_is_refused(body: CaseRecord) -> None:
    with pytest.raises(ValidationError, match="colour_of_bag"):
        type(body).model_validate({**body.model_dump(), "colour_of_bag": "grey"})


@each_body
def test_record_is_frozen(body: CaseRecord) -> None:
    with pytest.raises(ValidationError, match="frozen"):
        body.id = "other"  # type: ignore[misc]


def test_published_schemas_are_current() -> None:
    namespace: dict[str, Any] = {"__name__": "make_schemas"}
    exec((SCHEMAS / "make_schemas.py").read_text("utf-8"), namespace)  # noqa: S102 - our own script
    texts = namespace["schema_texts"]()
    published = {p.name: p.read_text("utf-8") for p in SCHEMAS.glob("*.json")}
    assert published == texts


def test_every_field_is_explained() -> None:
    for kind, record in ENTRY_KINDS.items():
        for name, field in record.model_fields.items():
            assert field.description, f"{kind}.{name} has no description"


@given(
    value=st.floats(allow_nan=False, allow_infinity=False),
    uncertainty=st.floats(min_value=0, allow_nan=False, allow_infinity=False),
)
def test_measured_value_keeps_every_digit(value: float, uncertainty: float) -> None:
    before = MeasuredValue(value=value, unit="um", standard_uncertainty=uncertainty)
    after = MeasuredValue.model_validate_json(before.model_dump_json())
    assert after == before


def test_measured_value_refuses_crossed_limits() -> None:
    with pytest.raises(ValidationError, match="lower limit 3.0 is above upper"):
        MeasuredValue(value=2, unit="um", lower=3, upper=1)


@pytest.mark.parametrize("value", [float("nan"), float("inf")])
def test_measured_value_refuses_what_is_no_number(value: float) -> None:
    with pytest.raises(ValidationError, match="finite"):
        MeasuredValue(value=value, unit="um")


@pytest.mark.parametrize(
    ("value", "unit", "message"),
    [(0.2, "mm", "give it in 'um'"), (0.0, "um", "above zero"), (-1, "um", "above")],
)
def test_calibration_wants_a_positive_size_in_um(
    value: float, unit: str, message: str
) -> None:
    example = next(body for body in BODIES if isinstance(body, Calibration))
    data = {**example.model_dump(), "pixel_size": {"value": value, "unit": unit}}
    with pytest.raises(ValidationError, match=message):
        Calibration.model_validate(data)


def test_likelihood_lies_within_its_range() -> None:
    with pytest.raises(ValidationError, match="outside of its range"):
        Likelihood(
            hypothesis="X1", best=0.5, lower=0.6, upper=0.7, status="data", source="x"
        )


def test_moment_without_time_zone_is_refused() -> None:
    body = next(body for body in BODIES if kind_of(body) == "capture")
    data = {**body.model_dump(), "captured_at": "2031-04-02T12:00:00"}
    with pytest.raises(ValidationError, match="timezone"):
        type(body).model_validate(data)


def test_kind_of_refuses_other_records() -> None:
    with pytest.raises(ParameterError, match="record of a registered kind"):
        kind_of(CaseRecord(id="x"))


def test_kind_in_words() -> None:
    assert kind_in_words("hand_over") == "hand-over"
    assert kind_in_words("own_statement") == "own statement"
