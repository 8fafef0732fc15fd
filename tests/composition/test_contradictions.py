import pytest

from strandproof.composition import (
    contradictions,
    judge_certificate,
    missing_elements,
    require_basis,
)
from strandproof.errors import MissingMeasurementError
from strandproof.records.composition import Basis, Certificate, ElementContent
from strandproof.records.flags import FLAGS


def value(symbol: str, ppm: float) -> ElementContent:
    return ElementContent(symbol=symbol, state="value", ppm=ppm)


def below(symbol: str, ppm: float) -> ElementContent:
    return ElementContent(symbol=symbol, state="below", ppm=ppm)


def paper(*contents: ElementContent, **stated: object) -> Certificate:
    fields = {"basis": Basis.METALS_ONLY, **stated}
    return Certificate(item="rod", contents=contents, **fields)  # type: ignore[arg-type]


def names(certificate: Certificate) -> list[str]:
    return [each.name for each in contradictions(certificate)]


def test_six_nines_and_8_ppm() -> None:
    (found,) = contradictions(paper(value("Fe", 5.0), value("Ag", 3.0), nines="6N"))
    assert found.name == "nines_contradicted"
    assert "6N, which allows 1 ppm" in found.sentence
    assert "8 ppm (5N2)" in found.sentence


def test_limits_too_coarse_for_the_nines() -> None:
    assert names(paper(below("Fe", 5.0), nines="6N")) == ["nines_not_shown"]
    assert names(paper(below("Fe", 0.5), nines="6N")) == []


def test_the_basis_decides_what_is_counted() -> None:
    listed = (value("Fe", 0.1), value("O", 8.0))
    assert names(paper(*listed, nines="6N")) == []
    gases = paper(*listed, nines="6N", basis=Basis.GASES_IN)
    assert names(gases) == ["nines_contradicted"]


def test_sum_above_the_room_that_copper_leaves() -> None:
    listed = value("Fe", 120.0)
    assert names(paper(listed, copper_percent=99.999)) == ["sum_above_whole"]
    # 99.99 stands for anything from 99.985: 120 ppm fit.
    assert names(paper(listed, copper_percent=99.99)) == []


@pytest.mark.parametrize(
    ("grade", "oxygen", "expected"),
    [
        ("C10100", value("O", 6.0), ["oxygen_contradicted"]),
        ("C10200", value("O", 6.0), []),
        ("oxygen-free", value("O", 12.0), ["oxygen_contradicted"]),
        ("Cu-OFE", None, ["oxygen_not_reported"]),
        ("C11000", value("O", 300.0), []),
        ("C10200", below("O", 20.0), []),
    ],
)
def test_oxygen_free_grades(
    grade: str, oxygen: ElementContent | None, expected: list[str]
) -> None:
    listed = (value("Fe", 1.0), *((oxygen,) if oxygen else ()))
    assert names(paper(*listed, grade=grade)) == expected


def test_by_difference_with_few_elements() -> None:
    few = paper(value("Fe", 1.0), basis=Basis.BY_DIFFERENCE, copper_percent=99.99)
    (found,) = contradictions(few)
    assert found.name == "thin_difference"
    assert "no gas among them" in found.sentence
    many = [
        value(s, 1.0)
        for s in ("Ag", "As", "Bi", "Cd", "Co", "Cr", "Fe", "Mn", "Ni", "P")
    ]
    assert names(paper(*many, basis=Basis.BY_DIFFERENCE)) == []


def test_missing_elements_come_with_their_reason() -> None:
    missing = missing_elements(paper(value("Ag", 9.0), below("P", 1.0)))
    assert [each.symbol for each in missing] == ["O", "H", "S"]
    assert all(len(each.why) > 20 for each in missing)


def test_nines_without_basis_are_refused_and_asked_for() -> None:
    bare = paper(value("Fe", 0.1), nines="6N", basis=Basis.NOT_STATED)
    with pytest.raises(MissingMeasurementError, match="Ask the issuer and give the"):
        judge_certificate(bare)
    with pytest.raises(MissingMeasurementError, match="99.999 % copper"):
        require_basis(
            paper(value("Fe", 1.0), copper_percent=99.999, basis=Basis.NOT_STATED)
        )
    require_basis(paper(value("Fe", 0.1), basis=Basis.NOT_STATED))


def test_every_contradiction_is_a_flag_of_the_registry() -> None:
    judged = judge_certificate(paper(value("Fe", 8.0), nines="6N", grade="C10100"))
    assert {flag.name for flag in judged.flags} <= set(FLAGS)
    assert {flag.name for flag in judged.flags} >= {
        "nines_contradicted",
        "oxygen_not_reported",
        "elements_not_reported",
        "certificate_uncertainty_assumed",
    }
