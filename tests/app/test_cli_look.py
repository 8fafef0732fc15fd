"""The commands for looking, as a person types them."""

import csv
import json
from pathlib import Path

import numpy as np
import pytest
import typer
from reading_examples import case_with_micrographs, lock, marked
from typer.testing import CliRunner, Result

from strandproof.app.cli.look_commands import add_look_commands
from strandproof.app.workflow.known_pieces import drawing
from strandproof.app.workflow.known_pieces.kinds import PIECE_KINDS
from strandproof.errors import ParameterError
from strandproof.storage import encode_png


def run(*words: str | Path) -> Result:
    program = typer.Typer()
    add_look_commands(program)
    return CliRunner().invoke(program, [str(word) for word in words])


def said(answer: Result) -> str:
    return " ".join(answer.output.replace("│", " ").split())


@pytest.fixture
def small_set(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Two pieces: one crystal, and grains under scratches; the sheet is filled."""
    names = ("grains under scratches", "one crystal, clean")
    few = {name: PIECE_KINDS[name] for name in names}
    monkeypatch.setattr(drawing, "PIECE_KINDS", few)
    folder = tmp_path / "set"
    answer = run("known-pieces", "--to", folder, "--seed", "3")
    assert answer.exit_code == 0, answer.output
    assert "2 synthetic pieces with a blank sheet" in said(answer)
    with (folder / "reading-sheet.csv").open("w", encoding="utf-8") as file:
        rows = csv.writer(file)
        rows.writerow(["piece", "verdict", "twins", "scratches", "slip_traces"])
        rows.writerows(
            [name, "none_resolved", "", "", ""] for name in ("piece-1", "piece-2")
        )
    return folder


def test_score_tells_rates_and_their_limits(small_set: Path) -> None:
    answer = run("score-known-pieces", small_set, "--reader", "A1")
    assert answer.exit_code == 0, answer.output
    assert "False boundaries: 0 of 1 pieces of one crystal read wrongly" in said(answer)
    assert "Missed boundaries: 1 of 1 pieces of many crystals read wrongly" in said(
        answer
    )
    assert "kinder than blind casework" in said(answer)


def test_score_gives_a_likelihood_for_weigh(small_set: Path, tmp_path: Path) -> None:
    target = tmp_path / "score.json"
    answer = run(
        *("score-known-pieces", small_set, "--reader", "A1", "--under", "X1"),
        *("--mix-up", "0.1", "--batch-fault", "0.1", "--to", target),
    )
    assert answer.exit_code == 0, answer.output
    assert "If X1 is true: 33.5 of 100" in said(answer)
    (row,) = json.loads(target.read_text("utf-8"))["likelihoods"]
    assert row["hypothesis"] == "X1"
    # One piece read right: expected 1 of 3, at most 0.95, beside 0.2 of 100.
    assert row["best"] == pytest.approx(1 / 3 + 0.002, rel=0, abs=1e-5)
    assert row["upper"] == pytest.approx(0.952, rel=0, abs=1e-9)


def test_likelihood_without_the_other_blunders_is_misuse(small_set: Path) -> None:
    answer = run(
        *("score-known-pieces", small_set, "--reader", "A1", "--under", "X1"),
        *("--mix-up", "0.1"),
    )
    assert answer.exit_code == 2
    assert "would count them as impossible" in said(answer)


def test_score_as_json_holds_the_item_level_alone(small_set: Path) -> None:
    answer = run("score-known-pieces", small_set, "--reader", "A1", "--json")
    data = json.loads(answer.output)
    assert data["item_level"]["missed_boundary"]["wrong"] == 1
    assert data["likelihoods"] == []
    assert not {"mount", "batch", "custody_trail"} & set(data)


def test_answers_elsewhere_have_to_be_named(small_set: Path, tmp_path: Path) -> None:
    sealed = tmp_path / "set-sealed-answers.json"
    moved = sealed.rename(tmp_path / "elsewhere.json")
    answer = run(
        *("score-known-pieces", small_set, "--reader", "A1", "--answers", moved),
        *("--sheet", small_set / "reading-sheet.csv"),
    )
    assert answer.exit_code == 0, answer.output


def test_seed_is_drawn_when_none_is_given(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    name = "one crystal, clean"
    monkeypatch.setattr(drawing, "PIECE_KINDS", {name: PIECE_KINDS[name]})
    seeds = []
    for place in ("a", "b"):
        answer = run("known-pieces", "--to", tmp_path / place)
        assert answer.exit_code == 0, answer.output
        sealed = tmp_path / f"{place}-sealed-answers.json"
        seeds.append(json.loads(sealed.read_text("utf-8"))["seed"])
    assert seeds[0] != seeds[1]


def test_too_many_sets_are_refused(tmp_path: Path) -> None:
    answer = run("known-pieces", "--to", tmp_path / "set", "--sets", "21")
    assert isinstance(answer.exception, ParameterError)


def test_looks_are_drawn_beside_a_picture(tmp_path: Path) -> None:
    own = tmp_path / "own.png"
    own.write_bytes(encode_png(np.full((120, 160), 0.5)))
    answer = run(
        *("expected-looks", own, "--to", tmp_path / "looks", "--um-per-px", "800nm"),
        *("--direction", "transverse", "--strand-width", "80", "--axis", "0"),
        *("--mean-intercept", "12um"),
    )
    assert answer.exit_code == 0, answer.output
    assert (tmp_path / "looks" / "sheet.html").exists()
    assert "X7: no picture. No look of its own" in said(answer)
    assert said(answer).count("(synthetic)") == 4


def test_unknown_direction_is_misuse(tmp_path: Path) -> None:
    answer = run("expected-looks", tmp_path / "own.png", "--direction", "sideways")
    assert answer.exit_code == 2
    assert "none of longitudinal and transverse" in said(answer)


def test_marks_of_two_readers_are_drawn(tmp_path: Path) -> None:
    desk = case_with_micrographs(tmp_path)
    for label, reader in (("r1", "A1"), ("r2", "A2")):
        marked(desk, label, ["boundary"] * 3, reader=reader)
        lock(desk, [label], reader)
    answer = run(
        *("plot-readers", desk.folder, "--first", "A1", "--second", "A2"),
        *("--to", tmp_path / "plots"),
    )
    assert answer.exit_code == 0, answer.output
    (drawing,) = (tmp_path / "plots").iterdir()
    assert drawing.suffix == ".svg"
