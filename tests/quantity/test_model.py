"""Calling a model by keyword."""

import pytest

from strandproof.errors import ModelCallError, ModelError, SingularModelError
from strandproof.quantity import ModelNumber
from strandproof.quantity.model import call_model


def ratio(voltage: ModelNumber, current: ModelNumber) -> ModelNumber:
    return voltage / current


def test_inputs_go_in_by_keyword() -> None:
    assert call_model(ratio, {"current": 2.0, "voltage": 6.0}) == 3.0


@pytest.mark.parametrize(
    "values", [{"voltage": 1.0}, {"voltage": 1.0, "current": 1.0, "phase": 1.0}]
)
def test_missing_and_extra_inputs_are_named(values: dict[str, float]) -> None:
    with pytest.raises(ModelCallError, match="Name the model's parameters as"):
        call_model(ratio, values)


def test_division_by_zero_is_explained() -> None:
    with pytest.raises(SingularModelError, match="divides by zero"):
        call_model(ratio, {"voltage": 1.0, "current": 0.0})


def test_every_fault_of_a_model_is_one_kind() -> None:
    assert issubclass(ModelCallError, ModelError)
    assert issubclass(SingularModelError, ModelError)
    assert issubclass(ModelError, ValueError)
