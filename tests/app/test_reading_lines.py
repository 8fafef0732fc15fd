"""Test lines as they are given to readers."""

from pathlib import Path

import pytest
from reading_examples import (
    case_with_micrographs,
)

from strandproof.app.workflow import Desk
from strandproof.app.workflow.reading_by_people import (
    give_test_lines,
    write_test_lines,
)
from strandproof.errors import (
    OutputExistsError,
)


@pytest.fixture
def desk(tmp_path: Path) -> Desk:
    return case_with_micrographs(tmp_path, "f1", "f2")


def test_both_readers_are_given_the_same_lines_and_other_pictures_others(
    desk: Desk,
) -> None:
    first = give_test_lines(desk.folder, "f1", lines=4, circles=1)
    assert first == give_test_lines(desk.folder, "f1", lines=4, circles=1)
    assert first.lines != give_test_lines(desk.folder, "f2", lines=4, circles=1).lines


def test_lines_tell_the_reader_the_code_and_not_the_piece(desk: Desk) -> None:
    path = desk.folder.parent / "given.json"
    given = give_test_lines(desk.folder, "f1", lines=1)
    write_test_lines(given, path)
    text = path.read_text("utf-8")
    assert given.code == "DQV-835"
    assert "E1" not in text
    assert "f1" not in text.replace(given.picture_sha256, "")


def test_file_of_lines_is_never_replaced(desk: Desk) -> None:
    path = desk.folder.parent / "given.json"
    given = give_test_lines(desk.folder, "f1", lines=1)
    write_test_lines(given, path)
    with pytest.raises(OutputExistsError):
        write_test_lines(given, path)
