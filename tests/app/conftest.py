"""The command line as a person uses it, in this process."""

import sys
from pathlib import Path

import numpy as np
import pytest
from command_line import Answer, Command

from strandproof.app.cli import main
from strandproof.storage import encode_png


@pytest.fixture
def command(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> Command:
    """Run ``strandproof`` with some words."""

    def run(*words: str | Path | int) -> Answer:
        monkeypatch.setattr(sys, "argv", ["strandproof", *map(str, words)])
        code = 0
        try:
            main()
        except SystemExit as end:
            code = int(end.code or 0)
        out, err = capsys.readouterr()
        return Answer(code, out, err)

    return run


@pytest.fixture
def picture(tmp_path: Path) -> Path:
    """A synthetic picture: 60 cells of many shades with grooves between them."""
    chance = np.random.default_rng(5)
    rows, columns = np.indices((240, 320))
    places = chance.uniform((0, 0), (240, 320), (60, 2))
    distances = np.sort(
        np.hypot(rows[..., None] - places[:, 0], columns[..., None] - places[:, 1])
    )
    nearest = np.hypot(
        rows[..., None] - places[:, 0], columns[..., None] - places[:, 1]
    ).argmin(axis=2)
    groove = distances[..., 1] - distances[..., 0] < 2
    grey = np.where(groove, 100, chance.uniform(150, 220, 60)[nearest])
    grey = grey + chance.normal(0, 3, grey.shape)
    path = tmp_path / "cells.png"
    path.write_bytes(encode_png(np.clip(grey, 0, 255).astype(np.uint8)))
    return path


@pytest.fixture
def case(tmp_path: Path, command: Command) -> Path:
    """A case with claim, exhibit, specimen, section and calibration."""
    folder = tmp_path / "H7"
    tag = tmp_path / "tag.txt"
    tag.write_text("cast long-crystal copper\n", encoding="utf-8")
    by = ("--by", "R")
    steps: list[tuple[str | Path, ...]] = [
        ("new", folder, "--title", "The Tern earphone lead", "--owner", "R"),
        (
            *("claim", folder, "--id", "K1", "--words", "cast long-crystal copper"),
            *("--speaker", "Wexcombe Twine Works", "--role", "maker"),
            *("--medium", "hang tag", "--at", "2031-04-02", "--capture", tag, *by),
            *("--kind", "crystal_state", "--reading", "Each strand is one crystal."),
        ),
        (
            *("exhibit", folder, "--id", "E1", "--description", "Tern earphone lead"),
            *("--provenance", "bought at Lantern Row", "--condition", "bag closed"),
            *("--at", "2031-04-02T10:00Z", *by),
        ),
        (
            *("specimen", folder, "--id", "E1-s1", "--exhibit", "E1"),
            *("--taken-from", "core strand, by random number"),
            *("--at", "2031-04-05", *by),
        ),
        (
            *("section", folder, "--id", "E1-s1-L", "--specimen", "E1-s1"),
            *("--direction", "longitudinal", *by),
        ),
        (
            *("calibrate", folder, "--id", "stage", "--um-per-px", "0.1726"),
            *("--uncertainty", "0.0004um", "--method", "stage scale"),
            *("--at", "2031-05-10", *by),
        ),
    ]
    for words in steps:
        answer = command(*words)
        assert answer.code == 0, answer.words
    return folder
