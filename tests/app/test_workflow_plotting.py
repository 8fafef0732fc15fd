"""Two readers' marks from a case to drawings: locked ones only."""

from pathlib import Path

import pytest
from reading_examples import blind_bench, case_with_micrographs, lock, marked
from svg_reading import described, parsed

from strandproof.app.workflow import Desk
from strandproof.app.workflow.plotting import plot_readers
from strandproof.errors import OutputExistsError, ParameterError, ReadingsOpenError

ALIKE = [28.0, 28.5, 29.0, 28.2, 28.8, 28.4, 28.6, 100.0]


@pytest.fixture
def desk(tmp_path: Path) -> Desk:
    """A case with one line that A1 and A2 marked; only A2 noted directions."""
    desk = case_with_micrographs(tmp_path)
    features = ["boundary"] * 7 + ["twin"]
    marked(desk, "r1", features, reader="A1")
    marked(desk, "r2", ["boundary"] * 8, ALIKE, reader="A2")
    return desk


def told(path: Path) -> tuple[str, str]:
    return described(parsed(path.read_text("utf-8")))


def test_marks_and_directions_are_drawn(desk: Desk, tmp_path: Path) -> None:
    lock(desk, ["r1"], "A1")
    lock(desk, ["r2"], "A2")
    target = tmp_path / "plots"
    written = plot_readers(desk.folder, target, first="A1", second="A2")
    assert [path.name for path in written.marks] == ["01-micrograph-f1-line-1.svg"]
    title, words = told(written.marks[0])
    assert title == "A1 and A2 on micrograph f1, test line 1"
    assert "A1: boundary 7, twin 1. A2: boundary 8." in words
    assert "8 places marked by both, 7 as the same thing" in words
    (rose,) = written.directions
    assert rose.name == "01-micrograph-f1-directions-A2.svg"
    assert "7 of 8 marks (boundary or uncertain) lie within 1°" in told(rose)[1]
    assert sorted(target.iterdir()) == sorted((*written.marks, rose))


def test_open_readings_are_not_drawn(desk: Desk, tmp_path: Path) -> None:
    lock(desk, ["r1"], "A1")
    with pytest.raises(ReadingsOpenError):
        plot_readers(desk.folder, tmp_path / "plots", first="A1", second="A2")
    assert not (tmp_path / "plots").exists()


def test_folder_with_something_in_it_is_refused(desk: Desk, tmp_path: Path) -> None:
    lock(desk, ["r1"], "A1")
    lock(desk, ["r2"], "A2")
    with pytest.raises(OutputExistsError):
        plot_readers(desk.folder, tmp_path, first="A1", second="A2")


def test_verdicts_without_marks_have_nothing_to_draw(tmp_path: Path) -> None:
    desk = blind_bench(tmp_path)
    with pytest.raises(ParameterError, match="have no places to draw"):
        plot_readers(desk.folder, tmp_path / "plots", first="A1", second="A2")
