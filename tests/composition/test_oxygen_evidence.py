import pytest

from strandproof.composition import (
    HydrogenTest,
    InclusionOxygen,
    OxideField,
    inclusion_oxygen,
    judge_oxygen,
)
from strandproof.errors import MissingMeasurementError, ParameterError
from strandproof.quantity import Quantity

PASSED = HydrogenTest(outcome="pass", method="ASTM B577 method B")
FAILED = HydrogenTest(outcome="fail", method="ISO 2626")


def section(hits: int) -> InclusionOxygen:
    fields = [OxideField(oxide=hits, whole=400) for _ in range(12)]
    return inclusion_oxygen(fields, counted="points")


def gas(ppm: float, u: float = 0.5) -> Quantity:
    return Quantity(ppm, "ppm", u)


def test_tough_pitch_fits_together() -> None:
    judged = judge_oxygen(section=section(1), hydrogen=FAILED, gas=gas(190.0, 5.0))
    assert [each.consistent for each in judged.statements] == [True, True, True]
    assert {each.verdict for each in judged.classes} == {"above"}


@pytest.mark.parametrize(
    ("evidence", "reason"),
    [
        ({"section": section(2), "gas": gas(20.0)}, "Pores or stains"),
        ({"section": section(0), "gas": gas(900.0)}, "on the surface of the piece"),
        ({"hydrogen": PASSED, "gas": gas(200.0)}, "bound to phosphorus"),
        ({"hydrogen": PASSED, "section": section(2)}, "something else taken for oxide"),
        ({"hydrogen": FAILED, "gas": gas(2.0, 0.3)}, "Cracks from another cause"),
    ],
)
def test_what_does_not_fit_says_why(evidence: dict[str, object], reason: str) -> None:
    (statement,) = judge_oxygen(**evidence).statements  # type: ignore[arg-type]
    assert statement.consistent is False
    assert reason in statement.sentence


@pytest.mark.parametrize(
    ("ppm", "u", "verdicts"),
    [
        (3.0, 0.5, ["within", "within"]),
        (7.0, 0.5, ["above", "within"]),
        (9.5, 0.5, ["above", "cannot_tell"]),
        (5.0, 0.5, ["cannot_tell", "within"]),
        (12.0, 0.5, ["above", "above"]),
    ],
)
def test_gas_analysis_against_the_classes(
    ppm: float, u: float, verdicts: list[str]
) -> None:
    found = judge_oxygen(gas=gas(ppm, u)).classes
    assert [each.verdict for each in found] == verdicts


def test_a_section_or_a_passed_test_confirms_no_class() -> None:
    for judged in (judge_oxygen(section=section(0)), judge_oxygen(hydrogen=PASSED)):
        assert {each.verdict for each in judged.classes} == {"cannot_tell"}


def test_a_failed_test_breaks_both_classes() -> None:
    judged = judge_oxygen(hydrogen=FAILED)
    assert {each.reason for each in judged.classes} == {"the hydrogen test failed"}


def test_notes_say_what_the_evidence_cannot_see() -> None:
    notes = " ".join(
        judge_oxygen(section=section(0), hydrogen=PASSED, gas=gas(2.0)).notes
    )
    assert "oxygen in solution" in notes
    assert "phosphorus-deoxidised copper passes as well" in notes
    assert "2 ppm lies outside of 5 to 400 ppm" in notes


def test_refusals() -> None:
    with pytest.raises(MissingMeasurementError, match="Evidence on oxygen"):
        judge_oxygen()
    with pytest.raises(ParameterError, match="pass or fail"):
        HydrogenTest(outcome="perhaps", method="ISO 2626")  # type: ignore[arg-type]
    with pytest.raises(ParameterError, match="ISO 2626"):
        HydrogenTest(outcome="pass", method=" ")
    with pytest.raises(ParameterError, match="gas analysis"):
        judge_oxygen(gas=Quantity(0.02, "%"))
