import re
from xml.etree import ElementTree as ET

import pytest

from strandproof.composition import grade_check
from strandproof.errors import ParameterError
from strandproof.records.composition import Certificate, ElementContent
from strandproof.report.plots import certificate_limits_svg


def value(symbol: str, ppm: float) -> ElementContent:
    return ElementContent(symbol=symbol, state="value", ppm=ppm)


PAPER = Certificate(
    item="rod",
    contents=(
        value("O", 12.0),
        value("Ag", 11.0),
        value("Pb", 0.0),
        ElementContent(symbol="Bi", state="below", ppm=0.2),
        ElementContent(symbol="As", state="below", ppm=9.0),
    ),
)


def test_every_limit_has_a_row_with_its_verdict_in_words() -> None:
    svg = str(certificate_limits_svg(grade_check(PAPER, "C10100")))
    ET.fromstring(svg)  # noqa: S314 - our own drawing
    texts = re.findall(r"<text[^>]*>([^<]*)</text>", svg)
    for symbol in ("Sb", "As", "O", "Ag", "Bi", "Zn"):
        assert symbol in texts
    assert texts.count("above") == 1
    assert texts.count("cannot tell") == 1
    assert texts.count("not listed") == 11
    assert texts.count("within") == 3


def test_listed_contents_are_filled_and_detection_limits_open() -> None:
    svg = str(certificate_limits_svg(grade_check(PAPER, "C10100")))
    # Rows O, Ag, Pb and two in the key; rows Bi, As and two in the key.
    filled = re.findall(r'<circle [^>]*fill="#7a3e12"', svg)
    opened = re.findall(r'<circle [^>]*fill="#fff"', svg)
    assert (len(filled), len(opened)) == (5, 4)


def test_the_description_holds_the_numbers() -> None:
    svg = str(certificate_limits_svg(grade_check(PAPER, "C10100"), title="Mine"))
    assert "O: 12 ppm, limit 5 ppm, above." in svg
    assert "Bi: 0 to 0.2 ppm, limit 1 ppm, within." in svg
    assert "Te: limit 2 ppm, not listed." in svg
    assert ">Mine<" in svg


def test_nothing_lies_outside_of_the_drawing() -> None:
    for grade in ("C10100", "Cu-CATH-1", "C10200"):
        svg = str(certificate_limits_svg(grade_check(PAPER, grade)))
        for x in re.findall(r'(?:cx|x1|x2|x)="([-\d.]+)"', svg):
            assert -1 <= float(x) <= 390


def test_a_grade_without_a_limit_of_an_impurity_is_refused() -> None:
    with pytest.raises(ParameterError, match="limit of an impurity"):
        certificate_limits_svg(grade_check(PAPER, "C11000"))
