"""The commands that count by named procedures, on their own program."""

import json
from pathlib import Path

import numpy as np
import pytest
import typer
from typer.testing import CliRunner

from strandproof.app.cli.count_commands import add_count_commands
from strandproof.errors import NoScaleError, OutputExistsError, ParameterError
from strandproof.storage import encode_png, write_labels

PROGRAM = typer.Typer()
add_count_commands(PROGRAM)


def _run(*words: str | Path) -> tuple[int, str]:
    answer = CliRunner().invoke(
        PROGRAM, [str(word) for word in words], catch_exceptions=False
    )
    return answer.exit_code, " ".join(answer.output.replace("│", " ").split())


@pytest.fixture
def bamboo(tmp_path: Path) -> tuple[Path, Path]:
    """A synthetic strand 50 um wide, boundaries 31 um apart, and its labels."""
    strand = np.zeros((160, 500), np.bool_)
    strand[30:130] = True
    numbers = 1 + np.arange(500)[None, :] // 62
    labels = np.where(strand, numbers, 0).astype(np.int32)
    groove = np.zeros_like(strand)
    groove[:, 61:500:62] = True
    grey = np.where(strand, np.where(groove, 90, 190), 30).astype(np.float64)
    grey += np.random.default_rng(2).normal(0, 3, grey.shape)
    picture, given = tmp_path / "bamboo.png", tmp_path / "labels.png"
    picture.write_bytes(encode_png(np.clip(grey, 0, 255).astype(np.uint8)))
    write_labels(given, labels, source=picture)
    return picture, given


def test_count_says_rules_counts_and_other_choices(picture: Path) -> None:
    code, said = _run("count", picture, "--um-per-px", "0.5", "--uncertainty", "0.002")
    assert code == 0
    assert "Rules: tangent 1/2 (textbook chapter Quantitative Microscopy, read)" in said
    for name in ("Circle (Jeffries)", "Rectangle (Saltykov)", "Three circles"):
        assert name in said
    assert "with triple point 2 (from memory):" in said
    assert "Planimetric G minus intercept G is" in said
    assert "Boundary area per volume" in said


def test_count_as_json_records_every_option(picture: Path) -> None:
    code, said = _run(
        *("count", picture, "--pixel-size", "0.5", "--json"),
        *("--procedure", "heyn-lines", "--procedure", "jeffries_circle"),
        *("--standard", "e112", "--triple-point", "two", "--frame-rule", "half"),
    )
    assert code == 0
    data = json.loads(said[said.index("{") :])
    assert (data["schema"], data["schema_version"]) == ("strandproof-counts", 1)
    counts = data["counts"]
    assert counts["scoring"]["tangent"]["option"] == "one"
    assert counts["scoring"]["tangent"]["status"] == "from memory"
    assert counts["scoring"]["triple_point"]["option"] == "two"
    assert counts["rules"]["frame_rule"] == "half"
    (strand,) = counts["strands"]
    assert [line["procedure"] for line in strand["lines"]] == ["heyn_lines"]
    assert [area["procedure"] for area in strand["areas"]] == ["jeffries_circle"]
    assert strand["lines"][0]["g"]["quantity"]["value"] > 0


def test_bamboo_is_counted_along_its_length(bamboo: tuple[Path, Path]) -> None:
    picture, labels = bamboo
    code, said = _run("count", picture, "--labels", labels, "--um-per-px", "0.5")
    assert code == 0
    assert "labels: labels given" in said
    assert (
        "average grain size not meaningful; count boundaries along the length" in said
    )
    assert "A round face without a boundary says nothing between X1 and X8." in said
    assert "boundaries were crossed over" in said
    assert "G not stated" in said
    assert "Planimetric G" not in said


def test_none_seen_gives_the_bound_and_the_length_needed(
    bamboo: tuple[Path, Path], tmp_path: Path
) -> None:
    picture, _ = bamboo
    one = np.zeros((160, 500), np.int32)
    one[30:130] = 1
    labels = tmp_path / "one.png"
    write_labels(labels, one, source=picture)
    code, said = _run(
        *("count", picture, "--labels", labels, "--um-per-px", "0.5"),
        *("--claimed", "100", "--claimed-by", "the tag"),
    )
    assert code == 0
    assert "No boundary resolved over 0.25 mm: at most 12 per mm" in said
    assert "of the tag's 100 m, about 300 m." in said
    assert "there is no grain size to state" in said


def test_twin_labels_are_counted_apart(
    bamboo: tuple[Path, Path], tmp_path: Path
) -> None:
    picture, labels = bamboo
    twinned = np.zeros((160, 500), np.int32)
    twinned[30:130] = 1 + np.arange(500)[None, :] // 31
    path = tmp_path / "twins.png"
    write_labels(path, twinned, source=picture)
    code, said = _run(
        *("count", picture, "--labels", labels, "--twin-labels", path, "--pixels")
    )
    assert code == 0
    assert "Twin boundaries:" in said
    assert "with twins excluded" in said


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("--procedure", "chart", "--pixels"), "'chart' is none of"),
        (("--pixels", "--um-per-px", "0.5"), "leave out one of the two"),
        (("--standard", "own", "--pixels"), "own"),
    ],
)
def test_misuse_is_named(picture: Path, words: tuple[str, ...], said: str) -> None:
    code, answer = _run("count", picture, *words)
    assert code == 2
    assert said in answer


def test_refusals_are_errors_of_the_tree(
    picture: Path, bamboo: tuple[Path, Path]
) -> None:
    with pytest.raises(NoScaleError, match="count in pixels with --pixels"):
        _run("count", picture)
    with pytest.raises(ParameterError, match="two arrays of one shape"):
        _run("count", picture, "--pixels", "--labels", bamboo[1])
    with pytest.raises(ParameterError, match="together with a pixel size"):
        _run("count", picture, "--pixels", "--magnification", "100")


def test_three_planes_are_taken_together() -> None:
    words = ("--longitudinal", "12", "--transverse", "30", "--planar", "20")
    code, said = _run("planes", *words, "--along-over-across", "2.5")
    assert code == 0
    assert "geometric mean 19.31 per mm, mean intercept 51.79 um, G 5.25." in said
    code, said = _run("planes", *words, "--json")
    assert json.loads(said)["anisotropy_index"] is None


def test_the_spread_is_drawn_where_a_mean_may_be_stated(
    picture: Path, bamboo: tuple[Path, Path], tmp_path: Path
) -> None:
    target = tmp_path / "spread.svg"
    words = ("--um-per-px", "0.5", "--plot", target)
    labels = ("--labels", bamboo[1])
    code, said = _run("count", bamboo[0], *labels, *words)
    assert code == 0
    assert "is not drawn: " in said
    assert not target.exists()
    code, said = _run("count", picture, *words, "--plot-of", "areas")
    assert code == 0
    assert f"Drawing: {target}" in said.replace("\n", "")
    assert "grain area, µm²" in target.read_text("utf-8")
    with pytest.raises(OutputExistsError, match="a file is there"):
        _run("count", picture, *words)
