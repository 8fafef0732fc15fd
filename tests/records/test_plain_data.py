import json
from math import inf

import pytest

from strandproof.errors import ParameterError
from strandproof.quantity import Quantity
from strandproof.records.plain_data import as_plain_data
from strandproof.records.procedures import LineEvents, ScoreOption


def test_records_become_json_and_keep_every_field() -> None:
    events = LineEvents(crossings=3, higher_junctions=(4, 5))
    data = as_plain_data({"events": events, "g": None})
    assert json.loads(json.dumps(data, allow_nan=False)) == {
        "events": {
            "crossings": 3,
            "triple_points": 0,
            "higher_junctions": [4, 5],
            "tangents": 0,
            "ends_inside": 0,
            "ends_on_boundary": 0,
            "strand_edge_ends_inside": 0,
        },
        "g": None,
    }


def test_a_quantity_keeps_unit_uncertainty_and_freedom() -> None:
    assert as_plain_data(Quantity(8.4, "um", 0.2, 2.0)) == {
        "value": 8.4,
        "unit": "um",
        "standard_uncertainty": 0.2,
        "degrees_of_freedom": 2.0,
    }
    known = as_plain_data(Quantity(8.4, "um", 0.2))
    assert isinstance(known, dict)
    assert known["degrees_of_freedom"] is None


@pytest.mark.parametrize(
    ("given", "allowed"),
    [(inf, "a finite number"), (object(), "a record"), (ScoreOption, "a record")],
)
def test_what_has_no_plain_form_is_refused(given: object, allowed: str) -> None:
    with pytest.raises(ParameterError, match=allowed):
        as_plain_data(given)
