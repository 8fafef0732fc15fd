"""The frequency command, on a program of its own."""

import json
from pathlib import Path

import pytest
import typer
from typer.testing import CliRunner, Result

from strandproof.app.cli.frequency_command import add_frequency_command
from strandproof.errors import OutputExistsError, ParameterError

CORE = ("--millimetres", "0.08", "--strands", "19", "--percent-iacs", "100.9")


def run(*words: str | Path) -> Result:
    program = typer.Typer()
    add_frequency_command(program)
    return CliRunner().invoke(program, [str(word) for word in words])


def test_sentence_table_and_what_it_is_not_about() -> None:
    answer = run("--millimetres", "1.0", "--metres", "2")
    assert answer.exit_code == 0, answer.output
    assert "At 20 kHz the resistance of 2 m is 2.7 % above" in answer.output
    assert "0.467 mm" in answer.output
    assert "1.026725" in answer.output
    assert "audible is another question" in answer.output
    assert "No uncertainty" in answer.output


def test_strands_are_compared_with_the_same_in_contact() -> None:
    answer = run(*CORE, "--millimetres-u", "0.0005", "--percent-iacs-u", "0.2")
    assert "bare and in contact: 0.041 %" in answer.output
    assert "expanded uncertainty" in answer.output
    touching = run(*CORE, "--touching")
    assert "is 0.041 % above" in touching.output


def test_json_holds_the_same_numbers() -> None:
    data = json.loads(run(*CORE, "--json").output)
    assert data["points"][-1]["frequency_hz"] == 1e6
    assert data["at_20_khz"]["ratio"] == pytest.approx(1.000111, rel=0, abs=5e-7)
    assert data["bears_on"] == ["performance"]


def test_plated_wire(tmp_path: Path) -> None:
    plot = tmp_path / "f.svg"
    answer = run("--millimetres", "0.5", "--layer", "nickel:2um:70:100", "--plot", plot)
    assert answer.exit_code == 0, answer.output
    assert "0.18 % above" in answer.output
    assert plot.read_text("utf-8").startswith("<svg")
    again = run("--millimetres", "0.5", "--plot", plot)
    assert isinstance(again.exception, OutputExistsError)


@pytest.mark.parametrize(
    ("layer", "said"),
    [
        ("nickel:2um", "magnetic"),
        ("tin", "not of the form"),
        ("tin:2furlong", "not a length"),
    ],
)
def test_layers_that_cannot_be_read_are_misuse(layer: str, said: str) -> None:
    answer = run("--millimetres", "0.5", "--layer", layer)
    assert answer.exit_code == 2
    assert said in " ".join(answer.output.split())


def test_refusals() -> None:
    unknown = run("--millimetres", "0.5", "--metal", "unobtainium")
    assert isinstance(unknown.exception, ParameterError)
    short = run("--millimetres", "0.5", "--metres", "0")
    assert isinstance(short.exception, ParameterError)


def test_it_enters_a_case_as_performance_only(case: Path) -> None:
    entry = ("--case", case, "--id", "skin", "--measures", "specimen/E1-s1")
    answer = run(*CORE, *entry, "--by", "R", "--observation", "skin-effect")
    assert answer.exit_code == 0, answer.output
    lines = (case / "entries.jsonl").read_text("utf-8").splitlines()
    measurement, observation = (json.loads(line)["body"] for line in lines[-2:])
    assert measurement["bears_on"] == ["performance"]
    assert "audibility" in observation["statement"]
