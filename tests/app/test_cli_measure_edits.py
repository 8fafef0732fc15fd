"""Measuring with a person's edits: they are said, and the numbers without them kept."""

import json
from pathlib import Path
from typing import Any

import numpy as np
import pytest
from command_line import Command

from strandproof.app import workflow
from strandproof.errors import MissingFileError, ParameterError
from strandproof.micrograph.edits import (
    AddBoundary,
    ExcludeArea,
    edits_as_plain_data,
)
from strandproof.storage import read_picture

PART = AddBoundary(points_px=((0, 150), (239, 150)))
CORNER = ExcludeArea(points_px=((0, 0), (0, 60), (60, 60), (60, 0)))


def written(path: Path, data: object) -> Path:
    path.write_text(json.dumps(data), encoding="utf-8")
    return path


@pytest.fixture
def edits(tmp_path: Path) -> Path:
    return written(tmp_path / "edits.json", edits_as_plain_data([PART, CORNER]))


def measured(command: Command, *words: str | Path) -> tuple[dict[str, Any], str]:
    numbers = Path(words[0]).with_suffix(".json")
    answer = command("measure", *words, "--um-per-px", "0.5", "--json", numbers)
    assert answer.code == 0, answer.words
    data: dict[str, Any] = json.loads(numbers.read_text("utf-8"))
    return data, " ".join(answer.words.split())


def test_edits_are_said_and_both_numbers_kept(
    command: Command, picture: Path, edits: Path
) -> None:
    plain, plain_words = measured(command, picture)
    edited, words = measured(command, picture, "--edits", edits)
    assert "by hand" not in plain_words
    assert plain["edits"] == []
    assert plain["without_edits"] is None
    assert "2 edits by hand were applied. With: " in words
    assert edited["edits"] == edits_as_plain_data([PART, CORNER])["edits"]
    assert edited["method"] == f"{plain['method']} with 2 edits by hand"
    for key in ("picture", "strands", "method", "flags"):
        assert edited["without_edits"][key] == plain[key]
    n_plain = plain["picture"]["n_grains"]
    n_edited = edited["picture"]["n_grains"]
    assert n_edited != n_plain
    assert f"With: {n_edited} grain(s)" in words
    assert f"Without: {n_plain} grain(s)" in words
    area = edited["without_edits"]["picture"]["area"]["value"]
    assert edited["picture"]["area"]["value"] < area


def test_labels_and_drawing_are_those_with_edits(
    command: Command, picture: Path, edits: Path, tmp_path: Path
) -> None:
    labels, drawn = tmp_path / "l.png", tmp_path / "o.png"
    measured(
        command,
        *(picture, "--edits", edits, "--labels", labels, "--overlay", drawn),
    )
    kept = read_picture(labels).pixels
    assert (kept[:61, :61] == 0).all()
    assert (kept[:, 150] == 0).mean() > 0.9
    red = read_picture(drawn).pixels[:, 150]
    assert (np.rint(red * 255) == (230, 30, 30)).all(axis=1).mean() > 0.9


def test_everything_excluded_leaves_no_metal(
    command: Command, picture: Path, tmp_path: Path
) -> None:
    whole = ExcludeArea(points_px=((0, 0), (0, 319), (239, 319), (239, 0)))
    file = written(tmp_path / "e.json", edits_as_plain_data([whole]))
    data, words = measured(command, picture, "--edits", file)
    assert data["picture"] is None
    assert "1 edit by hand was applied. With: no metal measured." in words


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("no JSON", "a JSON file"),
        ("[]", '{"edits": [...]}'),
        ('{"edits": [{"kind": "paint", "points_px": []}]}', "add boundary"),
        (
            '{"edits": [{"kind": "add boundary", "points_px": [[0, 0], [0, 999]]}]}',
            "999",
        ),
    ],
)
def test_edits_that_do_not_fit_are_refused(
    command: Command, picture: Path, tmp_path: Path, text: str, said: str
) -> None:
    file = tmp_path / "e.json"
    file.write_text(text, encoding="utf-8")
    answer = command("measure", picture, "--pixels", "--edits", file)
    assert answer.code == 1, answer.words
    assert said in answer.words
    assert "Traceback" not in answer.words


def test_missing_file_of_edits_is_said(
    command: Command, picture: Path, tmp_path: Path
) -> None:
    answer = command("measure", picture, "--pixels", "--edits", tmp_path / "none.json")
    assert answer.code == 1
    assert "none.json" in answer.words


def test_edits_are_read_as_written(edits: Path, tmp_path: Path) -> None:
    assert workflow.read_edits(edits) == (PART, CORNER)
    with pytest.raises(MissingFileError):
        workflow.read_edits(tmp_path / "none.json")
    broken = tmp_path / "broken.json"
    broken.write_bytes(b"\xff\xfe\x00")
    with pytest.raises(ParameterError, match="a JSON file"):
        workflow.read_edits(broken)


def test_no_edits_give_the_result_back(picture: Path) -> None:
    result = workflow.measure_picture(picture, in_pixels=True)
    assert workflow.measured_with_edits(result, ()) is result
