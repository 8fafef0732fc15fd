import pytest

from strandproof.errors import ParameterError
from strandproof.records.composition import Certificate, ElementContent

IRON = ElementContent(symbol="Fe", state="value", ppm=3.0)


@pytest.mark.parametrize(
    ("fields", "told"),
    [
        ({"symbol": "Cu", "state": "value", "ppm": 3.0}, "symbol of an impurity"),
        ({"symbol": "Fe", "state": "perhaps", "ppm": 3.0}, "value, below"),
        ({"symbol": "Fe", "state": "value"}, "content of Fe"),
        ({"symbol": "Fe", "state": "value", "ppm": -1.0}, "0 or above"),
        ({"symbol": "Fe", "state": "value", "ppm": float("nan")}, "0 or above"),
        ({"symbol": "Fe", "state": "below", "ppm": 0.0}, "above 0"),
        ({"symbol": "Fe", "state": "not_measured", "ppm": 1.0}, "not measured"),
        (
            {"symbol": "Fe", "state": "value", "ppm": 1.0, "standard_uncertainty": -1},
            "0 ppm or above",
        ),
    ],
)
def test_contents_that_mean_nothing_are_refused(
    fields: dict[str, object], told: str
) -> None:
    with pytest.raises(ParameterError, match=told):
        ElementContent(**fields)  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("fields", "told"),
    [
        ({"item": " ", "contents": (IRON,)}, "what was analysed"),
        ({"item": "rod", "contents": ()}, "one element or more"),
        ({"item": "rod", "contents": (IRON, IRON)}, "each element once"),
        ({"item": "rod", "contents": (IRON,), "copper_percent": 101.0}, "100 %"),
    ],
)
def test_certificates_that_state_nothing_are_refused(
    fields: dict[str, object], told: str
) -> None:
    with pytest.raises(ParameterError, match=told):
        Certificate(**fields)  # type: ignore[arg-type]


def test_an_element_not_measured_has_no_content() -> None:
    silent = ElementContent(symbol="O", state="not_measured")
    paper = Certificate(item="rod", contents=(IRON, silent))
    assert paper.measured == (IRON,)
    assert paper.content("O") is None
    assert paper.content("Fe") is IRON
