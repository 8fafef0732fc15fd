import pytest

from strandproof.composition import grade_check, grade_key, grade_names
from strandproof.errors import ParameterError
from strandproof.records.composition import Certificate, ElementContent


def paper(*typed: ElementContent, copper: float | None = None) -> Certificate:
    return Certificate(item="rod", contents=typed, copper_percent=copper)


def value(symbol: str, ppm: float, u: float | None = None) -> ElementContent:
    return ElementContent(symbol=symbol, state="value", ppm=ppm, standard_uncertainty=u)


def below(symbol: str, ppm: float) -> ElementContent:
    return ElementContent(symbol=symbol, state="below", ppm=ppm)


def verdict(certificate: Certificate, grade: str, name: str) -> str:
    checks = grade_check(certificate, grade).limits
    return next(one.verdict for one in checks if one.name == name)


@pytest.mark.parametrize(
    ("content", "expected"),
    [
        (value("O", 10.0), "within"),
        (value("O", 10.5), "above"),
        (value("O", 9.5, 0.5), "too_close"),
        (value("O", 9.0, 0.5), "within"),
        (value("O", 10.5, 0.5), "too_close"),
        (value("O", 11.0, 0.5), "above"),
        (below("O", 10.0), "within"),
        (below("O", 20.0), "cannot_tell"),
        (ElementContent(symbol="O", state="not_measured"), "not_measured"),
    ],
)
def test_verdicts_of_one_limit(content: ElementContent, expected: str) -> None:
    listed = paper(content, value("Fe", 1.0))
    assert verdict(listed, "C10200", "O") == expected


def test_an_element_that_is_not_listed_is_not_within() -> None:
    check = grade_check(paper(value("Fe", 1.0), copper=99.99), "C10100")
    assert check.meets is None
    assert "not measured" in check.sentence


def test_a_broken_limit_breaks_the_grade_whatever_else_is_missing() -> None:
    check = grade_check(paper(value("P", 40.0)), "C10100")
    assert check.meets is False
    assert check.sentence == (
        "Outside of the limits of C10100, oxygen-free electronic: P."
    )


def test_a_group_is_broken_by_part_of_its_elements() -> None:
    listed = paper(value("Se", 2.0), value("Te", 1.5))
    assert verdict(listed, "Cu-CATH-1", "Bi + Se + Te") == "above"
    listed = paper(value("Se", 1.0), value("Te", 1.0))
    assert verdict(listed, "Cu-CATH-1", "Bi + Se + Te") == "not_measured"
    listed = paper(value("Se", 1.0), value("Te", 1.0), below("Bi", 1.0))
    assert verdict(listed, "Cu-CATH-1", "Bi + Se + Te") == "within"


def test_others_of_cu_of_leave_silver_out() -> None:
    listed = paper(value("Ag", 900.0), value("Fe", 100.0), value("Bi", 1.0))
    checks = grade_check(listed, "Cu-OF").limits
    others = next(one for one in checks if one.name == "others without Ag")
    assert (others.verdict, others.highest) == ("within", 101.0)


def test_copper_as_stated_is_compared_with_the_least() -> None:
    assert verdict(paper(value("O", 5.0), copper=99.94), "C10200", "Cu as stated") == (
        "above"
    )
    assert grade_check(paper(value("O", 5.0), copper=99.96), "C10200").meets is True
    assert "copper not stated" in grade_check(paper(value("O", 5.0)), "C10200").sentence


def test_every_limit_names_its_source_and_status() -> None:
    for grade in grade_names():
        for one in grade_check(paper(value("Fe", 1.0)), grade).limits:
            assert one.source
            assert one.status in {"read", "read (secondary)", "from memory"}


def test_an_unknown_grade_is_refused_with_those_known() -> None:
    with pytest.raises(ParameterError, match="c10100, c10200, c11000"):
        grade_key("C12200")
