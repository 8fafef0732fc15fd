"""The picture with its test lines, as one file for a reader."""

import re
from pathlib import Path
from xml.etree import ElementTree as ET

import pytest
from reading_examples import case_with_micrographs

from strandproof.app.workflow.reading_by_people import (
    GivenTestLines,
    give_test_lines,
    reading_sheet,
    write_reading_sheet,
)
from strandproof.errors import OutputExistsError

SVG = "{http://www.w3.org/2000/svg}"


@pytest.fixture
def given(tmp_path: Path) -> GivenTestLines:
    desk = case_with_micrographs(tmp_path)
    return give_test_lines(desk.folder, "f1", lines=4, circles=1)


def drawn(given: GivenTestLines, *, synthetic: bool = False) -> ET.Element:
    return ET.fromstring(reading_sheet(given, b"png", synthetic=synthetic))  # noqa: S314 - our own


def test_lines_keep_to_the_pixels_of_the_original(given: GivenTestLines) -> None:
    sheet = drawn(given)
    first = next(sheet.iter(f"{SVG}line"))
    line = given.lines[0]
    assert line.start_px is not None
    assert (float(first.attrib["x1"]), float(first.attrib["y1"])) == line.start_px
    image = next(sheet.iter(f"{SVG}image"))
    found = [float(image.attrib[key]) for key in ("x", "y", "width", "height")]
    assert found == [-0.5, -0.5, 800, 300]
    circle = next(sheet.iter(f"{SVG}circle"))
    assert float(circle.attrib["r"]) == given.lines[4].radius_px


def test_every_line_has_its_number_and_labels_lie_in_the_picture(
    given: GivenTestLines,
) -> None:
    texts = [text for text in drawn(given).iter(f"{SVG}text") if text.text]
    words = [text.text for text in texts]
    assert {f"line {k}: 0" for k in range(1, 6)} <= set(words)
    assert "1: 400" in words
    for text in texts[:-1]:
        assert 0 <= float(text.attrib["x"]) <= 800
        assert 0 <= float(text.attrib["y"]) <= 300


def test_sheet_needs_nothing_from_outside_and_says_the_code_alone(
    given: GivenTestLines,
) -> None:
    text = reading_sheet(given, b"png", synthetic=False)
    assert re.findall(r'href="([^"]{0,5})', text) == ["data:"]
    assert "<script" not in text
    assert "DQV-835 test lines" in text
    assert "E1" not in text.partition("<image")[0]
    assert drawn(given).find(f"{SVG}title") is not None
    assert drawn(given).find(f"{SVG}desc") is not None


def test_code_is_written_as_words_not_as_markup(given: GivenTestLines) -> None:
    odd = given.model_copy(update={"code": "<b>&"})
    title = drawn(odd).find(f"{SVG}title")
    assert title is not None
    assert title.text == "<b>& test lines"


@pytest.mark.parametrize("synthetic", [True, False])
def test_synthetic_pictures_are_called_so(
    given: GivenTestLines, *, synthetic: bool
) -> None:
    caption = list(drawn(given, synthetic=synthetic).iter(f"{SVG}text"))[-1].text
    assert caption is not None
    assert caption.startswith("SYNTHETIC picture, no real metal.") is synthetic


def test_sheet_of_a_case_is_written_once(tmp_path: Path) -> None:
    desk = case_with_micrographs(tmp_path)
    given = give_test_lines(desk.folder, "f1", lines=1)
    path = tmp_path / "sheet.svg"
    write_reading_sheet(desk.folder, given, path)
    assert "data:image/png;base64,iVBOR" in path.read_text("utf-8")
    with pytest.raises(OutputExistsError):
        write_reading_sheet(desk.folder, given, path)
