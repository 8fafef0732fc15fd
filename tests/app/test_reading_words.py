"""What a reader sees of a reading."""

from pathlib import Path

import pytest
from reading_examples import case_with_micrographs, lines_file, marks_file, picture

from strandproof.app.workflow import enter_micrograph
from strandproof.app.workflow.reading_by_people import enter_reading, reading_in_words
from strandproof.app.workflow.reading_by_people.words import count_in_words
from strandproof.grainsize.marks import (
    LineMark,
    MarkedLine,
    MarkScores,
    StraightTestLine,
    count_marks,
)

LINE = StraightTestLine(number=1, start_px=(0.0, 0.0), end_px=(600.0, 0.0))


def marks(*given: LineMark) -> list[MarkedLine]:
    return [MarkedLine(line=LINE, marks=given)]


def test_without_scale_there_is_no_grain_size_number() -> None:
    words = count_in_words(count_marks(marks(LineMark(along_px=9, feature="boundary"))))
    assert words[0] == "1 boundary marked on 600.0 px of test line in metal."
    assert words[-1] == "No scale is known: lengths in pixels, no grain size number."
    assert not any("number G" in line for line in words)


def test_no_boundary_is_not_called_none() -> None:
    seen, bounds = count_in_words(count_marks(marks()))
    assert seen == "Nothing marked on 600.0 px of test line in metal."
    assert bounds == (
        "No boundary was marked on these 600.0 px: that bounds nothing beyond them, "
        "and shows nothing that this method cannot see."
    )


@pytest.mark.parametrize(
    ("scores", "words"),
    [
        (MarkScores(), "Tangents counted as one instead: 300 px."),
        (MarkScores(tangent="whole"), "Tangents counted as one half instead: 400 px."),
    ],
)
def test_rule_for_tangents_is_told_where_it_matters(
    scores: MarkScores, words: str
) -> None:
    touched = LineMark(along_px=300, feature="boundary", meets="tangent")
    lines = marks(LineMark(along_px=100, feature="boundary"), touched)
    assert words in count_in_words(count_marks(lines, scores=scores))


def test_several_uncertain_marks() -> None:
    lines = marks(
        *(LineMark(along_px=100.0 * k, feature="boundary") for k in range(1, 4)),
        *(LineMark(along_px=90.0 * k, feature="uncertain") for k in range(1, 3)),
    )
    assert (
        "Between 120 and 200 px without twins, as 2 uncertain marks are in or out."
        in count_in_words(count_marks(lines))
    )


def test_verdict_alone(tmp_path: Path) -> None:
    desk = case_with_micrographs(tmp_path)
    enter_reading(
        desk,
        {"id": "a", "reads": "section/E1-s1-L", "blind": True}
        | {"verdict": "none_resolved"},
    )
    assert reading_in_words(desk.folder, "a") == ("Verdict: none resolved.",)


def test_not_readable_counts_nothing(tmp_path: Path) -> None:
    desk = case_with_micrographs(tmp_path)
    enter_reading(
        desk,
        {"id": "a", "reads": "micrograph/f1", "blind": True}
        | {"verdict": "not_readable", "reason": "over-etched"},
        lines=lines_file(desk),
    )
    assert reading_in_words(desk.folder, "a")[0] == "Verdict: not readable."


def test_micrograph_without_calibration_is_counted_in_pixels(tmp_path: Path) -> None:
    desk = case_with_micrographs(tmp_path)
    path = tmp_path / "f7.png"
    path.write_bytes(picture(seed=7))
    enter_micrograph(desk, {"id": "f7", "section": "E1-s1-L"}, picture=path)
    enter_reading(
        desk,
        {"id": "a", "reads": "micrograph/f7", "blind": True},
        lines=lines_file(desk, "f7"),
        marks=marks_file(desk, ["boundary"] * 2),
    )
    words = reading_in_words(desk.folder, "a")
    assert words[1].startswith("2 boundaries marked on 600.0 px")
    assert words[-1].startswith("No scale is known")
