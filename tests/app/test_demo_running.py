"""Where the demonstration refuses, and how it tells time."""

from datetime import UTC, datetime
from pathlib import Path

import pytest

from strandproof.app.workflow import DemoOutcome, run_demo
from strandproof.app.workflow.demo import CASES
from strandproof.app.workflow.demo.telling import Told, moment_of
from strandproof.errors import CaseExistsError, ParameterError


def tell(folder: Path, case: str) -> DemoOutcome:
    return run_demo(folder, case=case, progress=lambda _done, _words: None)


def test_there_are_two_cases() -> None:
    assert set(CASES) == {"H7", "H0"}


def test_unknown_case_is_refused_and_makes_nothing(tmp_path: Path) -> None:
    with pytest.raises(ParameterError, match="H7 or H0"):
        tell(tmp_path / "new", "H8")
    assert not (tmp_path / "new").exists()


def test_folder_that_holds_anything_is_refused_and_left_alone(tmp_path: Path) -> None:
    (tmp_path / "mine.txt").write_text("mine", encoding="utf-8")
    with pytest.raises(CaseExistsError, match="is not empty"):
        tell(tmp_path, "H0")
    assert [path.name for path in tmp_path.iterdir()] == ["mine.txt"]
    assert (tmp_path / "mine.txt").read_text("utf-8") == "mine"


def test_file_in_the_place_of_a_folder_is_refused(tmp_path: Path) -> None:
    path = tmp_path / "file"
    path.write_text("mine", encoding="utf-8")
    with pytest.raises(CaseExistsError):
        tell(path, "H0")
    assert path.read_text("utf-8") == "mine"


@pytest.mark.parametrize(
    ("day", "moment"),
    [
        ("04-02", datetime(2031, 4, 2, 12, tzinfo=UTC)),
        ("04-02 19:12", datetime(2031, 4, 2, 19, 12, tzinfo=UTC)),
    ],
)
def test_moment_of_the_invented_year(day: str, moment: datetime) -> None:
    assert moment_of(day) == moment


def test_clock_of_a_desk_stands_still(tmp_path: Path) -> None:
    told = Told(tmp_path / "H7", tmp_path, lambda _done, _words: None)
    desk = told.desk("A1", "05-06 16:40")
    assert (desk.person, desk.folder) == ("A1", tmp_path / "H7")
    assert desk.clock() == desk.clock() == moment_of("05-06 16:40")


def test_file_on_its_way_into_the_case_keeps_its_bytes(tmp_path: Path) -> None:
    told = Told(tmp_path / "H7", tmp_path, lambda _done, _words: None)
    assert told.file("a.txt", "words µ").read_text("utf-8") == "words µ"
    assert told.file("b.png", b"\x89PNG").read_bytes() == b"\x89PNG"
