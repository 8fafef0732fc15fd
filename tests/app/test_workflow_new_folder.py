"""New folders: made with those above, never over something."""

from pathlib import Path

import pytest

from strandproof.app.workflow.new_folder import make_new_folder, require_new_folder
from strandproof.errors import OutputExistsError, WriteFailedError


def test_folder_is_made_and_an_empty_one_may_be_there(tmp_path: Path) -> None:
    folder = tmp_path / "a" / "b"
    require_new_folder(folder)
    assert not folder.exists()
    make_new_folder(folder)
    make_new_folder(folder)
    assert folder.is_dir()


def test_used_folder_and_file_are_refused(tmp_path: Path) -> None:
    file = tmp_path / "file"
    file.write_bytes(b"")
    for used in (tmp_path, file):
        with pytest.raises(OutputExistsError, match="no empty folder"):
            make_new_folder(used)


def test_folder_below_a_file_cannot_be_made(tmp_path: Path) -> None:
    file = tmp_path / "file"
    file.write_bytes(b"")
    with pytest.raises(WriteFailedError):
        make_new_folder(file / "below")
