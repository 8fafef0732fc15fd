"""The commands for tables of orientations, on a program of their own."""

import json
from pathlib import Path

import pytest
import typer
from typer.testing import CliRunner, Result

from strandproof.app.cli.orientation_commands import add_orientation_commands
from strandproof.errors import MissingFileError


def run(*words: str | Path) -> Result:
    program = typer.Typer()
    add_orientation_commands(program)
    return CliRunner().invoke(program, [str(word) for word in words])


@pytest.fixture
def example(tmp_path: Path) -> Path:
    path = tmp_path / "fellwater.csv"
    answer = run("orientation-example", path)
    assert answer.exit_code == 0, answer.output
    assert "synthetic" in answer.output
    return path


def test_example_then_examination(example: Path) -> None:
    answer = run("orientations", example, "--angles", "passive")
    assert answer.exit_code == 0, answer.output
    assert "Boundaries of 15° and above" in answer.output
    assert "SYNTHETIC" in answer.output


def test_json_for_programs(example: Path) -> None:
    places = ("--place", "20,20", "--place", "180, 20", "--place-radius", "2um")
    answer = run("orientations", example, "--angles", "passive", *places, "--json")
    data = json.loads(answer.output)
    assert data["match"]["places"][1]["x_um"] == 180.0
    assert len(data["match"]["chances"]) == 3


def test_the_meaning_of_the_angles_has_no_default(example: Path) -> None:
    answer = run("orientations", example)
    assert answer.exit_code == 2
    assert "--angles" in answer.output


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("--place", "20"), "x,y in um"),
        (("--place", "20,x"), "is no number"),
        (("--fibre-tilt", "8"), "--fibre-tilt belongs to"),
        (("--axis", "z"), "--axis"),
        (("--boundary", "1,5"), "decimal comma"),
    ],
)
def test_words_that_cannot_be_read_are_misuse(
    words: tuple[str, ...], said: str, example: Path
) -> None:
    answer = run("orientations", example, "--angles", "passive", *words)
    assert answer.exit_code == 2
    assert said in " ".join(answer.output.replace("│", " ").split())


def test_a_missing_table_is_refused(tmp_path: Path) -> None:
    answer = run("orientations", tmp_path / "none.csv", "--angles", "passive")
    assert isinstance(answer.exception, MissingFileError)
