"""The commands for sizes on a section, on a program of their own."""

import json
from pathlib import Path

import numpy as np
import pytest
import typer
from typer.testing import CliRunner, Result

from strandproof.app.cli.section_commands import add_section_commands
from strandproof.app.workflow.demo import pictures
from strandproof.errors import (
    MissingFileError,
    NoScaleError,
    NotResolvedError,
    ParameterError,
)
from strandproof.storage import encode_png, read_picture

TIN = (1.7, 2.1, 1.9, 2.0, 1.8, 1.9, 2.0, 1.8)
READ = [word for each in TIN for word in ("--reading", str(each))]
DRAIN = (*READ, "--resolution", "0.36", "--layer", "tin")
CORE = ("--reading", "80.1,79.9", "--reading", "80.3,80.1", "--reading", "79.7,79.9")


def run(*words: str | Path) -> Result:
    program = typer.Typer()
    add_section_commands(program)
    return CliRunner().invoke(program, [str(word) for word in words])


@pytest.fixture(scope="module")
def face(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A drawn face of 80 um at 0.1726 um a pixel; synthetic, and it says so."""
    path = tmp_path_factory.mktemp("faces") / "face.png"
    path.write_bytes(pictures.round_face(8.4, seed=2))
    return path


def test_strands_by_hand_against_a_gauge() -> None:
    answer = run(
        *("section-geometry", *CORE, "--reading-u", "0.25", "--strands", "19"),
        *("--gauge", "26 AWG"),
    )
    assert answer.exit_code == 0, answer.output
    assert "19 strands" in answer.output
    assert "0.0955 ± 0.0013 mm²" in answer.output
    assert "74 %, in effect size 27.3" in answer.output
    assert "does not conform" in answer.output
    assert "size only" in answer.output


def test_a_drawn_face_has_the_size_it_was_drawn_with(face: Path) -> None:
    answer = run(
        *("section-geometry", face, "--um-per-px", "0.1726", "--uncertainty"),
        *("0.0004", "--resolution", "0.5", "--json"),
    )
    assert answer.exit_code == 0, answer.output
    data = json.loads(answer.stdout)
    assert data["strands"] == 1
    assert data["flags"] == ["synthetic"]
    diameter, area = data["mean_diameter"], data["total_area"]
    assert abs(diameter["value"] - 80) < 2 * diameter["standard_uncertainty"]
    true = np.pi * 0.04**2
    assert abs(area["value"] - true) < 2 * area["standard_uncertainty"]


def test_a_picture_without_a_scale_and_a_coarse_one(face: Path) -> None:
    bare = face.with_name("bare.png")
    bare.write_bytes(encode_png(np.full((80, 80), 120, dtype=np.uint8)))
    assert isinstance(run("section-geometry", bare).exception, NoScaleError)
    coarse = run(
        *("section-geometry", face, "--um-per-px", "0.1726", "--resolution", "20")
    )
    assert isinstance(coarse.exception, NotResolvedError)
    missing = run("section-geometry", face.with_name("none.png"), "--um-per-px", "1")
    assert isinstance(missing.exception, MissingFileError | OSError)


def test_a_flat_tape_on_a_picture(tmp_path: Path) -> None:
    """A drawn rod of 1 mm, its two ends hidden by what looks like the resin."""
    path = tmp_path / "tape.png"
    path.write_bytes(pictures.rod_section(seed=2))
    grey = np.asarray(read_picture(path, page=None, um_per_px=None).pixels).copy()
    for columns in (slice(0, 60), slice(840, None)):
        grey[:, columns] = np.concatenate([grey[-10:, columns]] * 24)
    path.write_bytes(encode_png((255 * grey).astype(np.uint8)))
    scale = ("section-geometry", path, "--flat", "--um-per-px", "5", "--json")
    data = json.loads(run(*scale, "--uncertainty", "0.01").stdout)
    np.testing.assert_allclose(data["thickness"]["value"], 1000, rtol=0, atol=10)
    np.testing.assert_allclose(data["width"]["value"], 780 * 5, rtol=0, atol=20)
    assert data["flags"][-1] == "resolution_not_given"
    said = run(*scale[:-1], "--uncertainty", "0.01", "--resolution", "12")
    assert said.exit_code == 0, said.output
    assert "Flat tape, thickness" in said.output


def test_a_face_is_no_tape(face: Path) -> None:
    answer = run("section-geometry", face, "--flat", "--um-per-px", "0.1726")
    assert isinstance(answer.exception, ParameterError)
    assert "twice as wide as thick" in str(answer.exception)


@pytest.mark.parametrize(
    ("words", "said"),
    [
        ((), "give a picture"),
        ((*CORE,), "what all readings share"),
        ((*CORE, "--reading-u", "0.5", "x.png"), "not both"),
        (("--reading", "80;81", "--reading-u", "0.5"), "is no number"),
    ],
)
def test_words_that_cannot_be_read_are_misuse(
    words: tuple[str, ...], said: str
) -> None:
    answer = run("section-geometry", *words)
    assert answer.exit_code == 2
    assert said in " ".join(answer.output.replace("│", " ").split())


def test_layer_of_the_drain_with_its_shares() -> None:
    answer = run("plating", *DRAIN, "--millimetres", "0.12", "--strands", "7")
    assert answer.exit_code == 0, answer.output
    assert "Layer of tin: 1.9 ± 0.3 µm (95 %), mean of 8 readings" in answer.output
    assert "6.2 % (5.3 to 7.2) by volume" in answer.output
    assert "5.2 % (4.4 to 6.0) by mass" in answer.output
    assert "5.6 % (4.7 to 6.5) added to the resistance" in answer.output
    assert "0.0742 mm²" in answer.output
    assert "under the layer was not tested" in answer.output


def test_a_thickness_is_no_identification() -> None:
    answer = run("plating", *READ, "--resolution", "0.36")
    assert "Nobody identified the metal" in answer.output
    data = json.loads(run("plating", *READ, "--resolution", "0.36", "--json").output)
    assert (data["layer"], data["effect"]) == (None, None)


def test_oblique_cut_by_diameters() -> None:
    found = json.loads(
        run("plating", *DRAIN, "--smallest", "120", "--largest", "130", "--json").output
    )
    assert found["flags"] == ["oblique_cut"]
    assert found["oblique_factor"] == pytest.approx((1 + 120 / 130) / 2)


def test_too_thin_a_layer_is_refused_with_its_bound() -> None:
    answer = run("plating", *READ, "--resolution", "1.2")
    assert isinstance(answer.exception, NotResolvedError)
    assert "thinner than about 2.4 um" in str(answer.exception)


def test_misuse_of_plating() -> None:
    one = run("plating", *DRAIN, "--smallest", "120")
    assert one.exit_code == 2
    unnamed = run("plating", *READ, "--resolution", "0.36", "--millimetres", "0.12")
    assert unnamed.exit_code == 2
    assert "--layer" in unnamed.output


def test_both_enter_a_case_as_build_only(case: Path) -> None:
    to = ("--case", case, "--measures", "specimen/E1-s1", "--by", "R")
    drain = run("plating", *DRAIN, *to, "--id", "tin", "--observation", "tinned")
    assert drain.exit_code == 0, drain.output
    size = run(*("section-geometry", *CORE, "--reading-u", "0.5", *to, "--id", "size"))
    assert size.exit_code == 0, size.output
    lines = (case / "entries.jsonl").read_text("utf-8").splitlines()
    tin, seen, area = (json.loads(line)["body"] for line in lines[-3:])
    assert tin["bears_on"] == area["bears_on"] == ["build"]
    assert "performance" in tin["does_not_bear_on"]
    assert tin["results"][0]["name"] == "tin_layer_thickness"
    assert seen["statement"].startswith("Layer of tin: 1.9 ± 0.3 µm")
    assert area["results"][0]["name"] == "conductor_area"
