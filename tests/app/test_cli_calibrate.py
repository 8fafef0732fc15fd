"""Calibrating by command, in each of the five ways, and the resize guard."""

import json
import re
from pathlib import Path
from typing import Any

import numpy as np
import numpy.typing as npt
import pytest
from command_line import Answer, Command
from stage_scales import DrawnScale, drawn

from strandproof.app.workflow import resized_copies
from strandproof.micrograph.render import ScaleBar, burn_scale_bar
from strandproof.storage import encode_png, read_picture

WHO = ("--at", "2031-05-10", "--by", "A1")
ON_SECTION = ("--section", "E1-s1-L", "--by", "A1")
TEN = ("--division-um", "10", "--scale-uncertainty", "0.05")
SPACING_PX = 21.3


def saved(path: Path, grey: npt.NDArray[Any], **options: Any) -> Path:  # noqa: ANN401
    data = np.rint(255 * np.clip(grey, 0, 1)).astype(np.uint8)
    path.write_bytes(encode_png(data, **options))
    return path


@pytest.fixture
def scales(tmp_path: Path) -> list[Path]:
    """Three synthetic pictures of a stage scale, 320 x 240 px."""
    return [
        saved(
            tmp_path / f"scale-{seed}.png",
            drawn(
                DrawnScale(spacing_px=SPACING_PX, angle_deg=3.0, shape=(240, 320)),
                np.random.default_rng(seed),
            ),
        )
        for seed in range(3)
    ]


def last(command: Command, case: Path) -> dict[str, Any]:
    entries: list[dict[str, Any]] = json.loads(command("show", case, "--json").out)
    body: dict[str, Any] = entries[-1]["body"]
    return body


def test_from_pictures_of_a_stage_scale(
    command: Command, case: Path, scales: list[Path]
) -> None:
    pictures = [word for path in scales for word in ("--stage-scale", path)]
    answer = command("calibrate", case, "--id", "day2", *pictures, *TEN, *WHO)
    assert answer.code == 0, answer.words
    assert "Pixel size: 0.469" in answer.words
    assert "Holds for pictures of 320 x 240 pixels" in answer.words
    body = last(command, case)
    size = body["pixel_size"]
    assert size["lower"] < 10 / SPACING_PX < size["upper"]
    assert len(body["readings_um"]) == 3
    assert len(body["more_pictures_sha256"]) == 2
    assert (body["picture_width_px"], body["picture_height_px"]) == (320, 240)
    assert body["flags"] == []
    assert command("verify", case).code == 0


def test_without_certificate_the_answer_says_so(
    command: Command, case: Path, scales: list[Path]
) -> None:
    answer = command(
        *("calibrate", case, "--id", "day2", "--stage-scale", scales[0]),
        *("--division-um", "10", *WHO),
    )
    assert answer.code == 0, answer.words
    assert "No certificate of the stage scale was given" in answer.words


def test_an_unexpected_size_is_refused(
    command: Command, case: Path, scales: list[Path]
) -> None:
    answer = command(
        *("calibrate", case, "--id", "day2", "--stage-scale", scales[0], *TEN),
        *("--expected", "0.1726", *WHO),
    )
    assert answer.code == 1
    assert "about 0.1726 um was expected" in answer.words


def test_from_marks(command: Command, case: Path, scales: list[Path]) -> None:
    marks = [
        word
        for length in ("577.6", "581.9", "579.2", "576.2", "582.1")
        for word in ("--marked-px", length)
    ]
    answer = command(
        *("calibrate", case, "--id", "day2", *marks, "--divisions", "10", *TEN, *WHO),
        *("--picture", scales[0], "--method", "marked by A1"),
    )
    assert answer.code == 0, answer.words
    body = last(command, case)
    assert round(body["pixel_size"]["value"], 4) == 0.1726
    assert round(body["pixel_size"]["standard_uncertainty"], 4) == 0.0004
    assert body["method"].endswith("marked by hand 5 times; marked by A1")
    assert body["picture_width_px"] == 320


def test_marks_over_a_wrong_division_are_refused(command: Command, case: Path) -> None:
    answer = command(
        *("calibrate", case, "--id", "day2", "--marked-px", "579", "--marked-px"),
        *("580", "--divisions", "10", "--division-um", "100"),
        *("--expected", "0.17", *WHO),
    )
    assert answer.code == 1
    assert "gives a pixel of 1.726 um, but about 0.17 um was expected" in answer.words


def test_from_metadata(command: Command, case: Path, tmp_path: Path) -> None:
    grey = np.linspace(0, 1, 2400).reshape(40, 60)
    picture = saved(tmp_path / "f.png", grey, pixel_size_um=0.1726)
    answer = command(
        "calibrate", case, "--id", "day2", "--from-metadata", picture, *WHO
    )
    assert answer.code == 0, answer.words
    body = last(command, case)
    assert body["flags"] == ["scale_from_file_only", "pixel_size_without_uncertainty"]
    assert body["pixel_size"]["standard_uncertainty"] is None
    assert "it says nothing about how it was calibrated" in answer.words


def test_metadata_without_a_scale_are_refused(
    command: Command, case: Path, tmp_path: Path
) -> None:
    grey = np.linspace(0, 1, 2400).reshape(40, 60)
    picture = saved(tmp_path / "f.png", grey, pixel_size_um=25_400 / 300)
    answer = command(
        "calibrate", case, "--id", "day2", "--from-metadata", picture, *WHO
    )
    assert answer.code == 1
    assert "No scale can be taken from f.png" in answer.words
    assert re.search(r"(300|299\.999) pixels per inch", answer.words)


def test_from_a_burned_in_bar(command: Command, case: Path, tmp_path: Path) -> None:
    grey = np.random.default_rng(1).uniform(0.2, 0.8, (300, 400, 1))
    field = np.repeat(grey, 3, axis=2).astype(np.float32)
    marked = burn_scale_bar(field, um_per_px=0.2, bar=ScaleBar()).picture
    picture = saved(tmp_path / "bar.png", marked)
    way = ("calibrate", case, "--id", "day2", "--from-bar", picture, *WHO)
    assert command(*way).code == 2
    answer = command(*way, "--bar-um", "20")
    assert answer.code == 0, answer.words
    assert "nobody can see how it was calibrated" in answer.words
    body = last(command, case)
    assert body["flags"] == ["burned_in_bar"]
    assert abs(body["pixel_size"]["value"] - 0.2) < 0.002
    plain = saved(tmp_path / "plain.png", field)
    way = ("calibrate", case, "--id", "day3", "--from-bar", plain, *WHO)
    refused = command(*way, "--bar-um", "20")
    assert refused.code == 1
    assert "No scale bar was found in plain.png" in refused.words


MISUSES: dict[str, tuple[tuple[str, ...], str]] = {
    "no way": ((), "given: none"),
    "two ways": (
        ("--um-per-px", "0.17", "--from-metadata", "x.png"),
        "given: --um-per-px and --from-metadata",
    ),
    "no uncertainty": (("--um-per-px", "0.17", "--method", "x"), "--uncertainty"),
    "no method": (("--um-per-px", "0.17", "--uncertainty", "0.01"), "--method"),
    "no division": (("--stage-scale", "x.png"), "--division-um"),
    "no divisions": (("--marked-px", "500", "--division-um", "10"), "--divisions"),
    "mark that is no number": (("--marked-px", "many"), "is no number"),
}


@pytest.mark.parametrize("wrong", MISUSES)
def test_misuse(command: Command, case: Path, wrong: str) -> None:
    words, said = MISUSES[wrong]
    answer = command("calibrate", case, "--id", "day2", *words, *WHO)
    assert answer.code == 2, answer.words
    assert said in answer.words


@pytest.fixture
def half(picture: Path, tmp_path: Path) -> Path:
    """A half-width copy of the synthetic picture."""
    return halved(picture, tmp_path / "half.png")


def halved(picture: Path, path: Path) -> Path:
    pixels = read_picture(picture).pixels
    rows, columns = pixels.shape[:2]
    blocks = pixels.reshape(rows // 2, 2, columns // 2, 2)
    return saved(path, blocks.mean(axis=(1, 3)))


def enter(command: Command, case: Path, picture: Path, name: str) -> Answer:
    words = ("--id", name, "--calibration", "stage", *ON_SECTION)
    return command("micrograph", case, picture, *words)


def test_a_half_width_copy_is_refused(
    command: Command, case: Path, picture: Path, half: Path
) -> None:
    assert enter(command, case, picture, "f1").code == 0
    answer = enter(command, case, half, "f2")
    assert answer.code == 1
    assert "the same field as micrograph f1" in answer.words
    assert (
        "320 -> 160 pixels: pixel size would be 0.3452 um. Use original?"
        in answer.words
    )
    assert "micrograph f2" not in command("show", case).out


def test_a_copy_without_calibration_may_be_shown(
    command: Command, case: Path, picture: Path, half: Path
) -> None:
    assert enter(command, case, picture, "f1").code == 0
    shown = command("micrograph", case, half, "--id", "f2", *ON_SECTION)
    assert shown.code == 0, shown.words


def test_a_copy_with_its_own_pixel_size_may_enter(
    command: Command, case: Path, picture: Path, half: Path
) -> None:
    assert enter(command, case, picture, "f1").code == 0
    command(
        *("calibrate", case, "--id", "halved", "--um-per-px", "0.3452"),
        *("--uncertainty", "0.0008", "--method", "stage scale, halved", *WHO),
    )
    words = ("--id", "f2", "--calibration", "halved", *ON_SECTION)
    answer = command("micrograph", case, half, *words)
    assert answer.code == 0, answer.words
    assert resized_copies(case) == ()


def forced(command: Command, case: Path, file: Path, tmp_path: Path) -> Answer:
    """Enter a micrograph of half the size from a file of fields."""
    content = {
        "id": "f2",
        "section": "E1-s1-L",
        "width_px": 160,
        "height_px": 120,
        "calibration": "stage",
    }
    fields = tmp_path / "f2.json"
    fields.write_text(json.dumps(content), encoding="utf-8")
    return command(
        *("enter", case, "micrograph", "--fields", fields, "--by", "A1"),
        *("--file", f"file_sha256={file}"),
    )


def test_forced_through_the_self_test_finds_it(
    command: Command, case: Path, picture: Path, half: Path, tmp_path: Path
) -> None:
    """Fields from a file pass the guard by; every length would be half as long."""
    assert enter(command, case, picture, "f1").code == 0
    assert resized_copies(case) == ()
    answer = forced(command, case, half, tmp_path)
    assert answer.code == 0, answer.words
    (sentence,) = resized_copies(case)
    assert "Micrographs f1 and f2 show the same field" in sentence
    assert "wrong by a factor of 2." in sentence


def test_another_size_than_the_calibrations_is_refused(
    command: Command, case: Path, picture: Path, half: Path, scales: list[Path]
) -> None:
    command(
        *("calibrate", case, "--id", "day2", "--stage-scale", scales[0], *TEN, *WHO)
    )
    words = ("--calibration", "day2", *ON_SECTION)
    fits = command("micrograph", case, picture, "--id", "f1", *words)
    assert fits.code == 0, fits.words
    smaller = command("micrograph", case, half, "--id", "f2", *words)
    assert smaller.code == 1
    assert "made in pictures of 320 x 240 pixels; this one has 160 x 120" in (
        smaller.words
    )
    assert "320 -> 160 pixels: pixel size would be 0.93" in smaller.words


def test_a_crop_enters_when_somebody_says_so(
    command: Command, case: Path, tmp_path: Path, scales: list[Path]
) -> None:
    command(
        *("calibrate", case, "--id", "day2", "--stage-scale", scales[0], *TEN, *WHO)
    )
    grey = np.random.default_rng(2).uniform(0, 1, (300, 400))
    words = ("--calibration", "day2", *ON_SECTION)
    part = saved(tmp_path / "part.png", grey[:200, :200])
    refused = command("micrograph", case, part, "--id", "f1", *words)
    assert refused.code == 1
    assert "Use original?" not in refused.words
    assert "--cropped" in refused.words
    said = command("micrograph", case, part, "--id", "f1", *words, "--cropped")
    assert said.code == 0, said.words
    assert last(command, case)["edits"] == [
        "cut out of a whole frame, its pixels unchanged (said when entered)"
    ]
    larger = saved(tmp_path / "larger.png", grey)
    answer = command("micrograph", case, larger, "--id", "f2", *words, "--cropped")
    assert answer.code == 1


def test_verify_and_report_name_a_resized_copy(
    command: Command, case: Path, picture: Path, half: Path, tmp_path: Path
) -> None:
    """Both its fields pass the guard by; all hashes match, and the lengths do not."""
    assert enter(command, case, picture, "f1").code == 0
    assert "Warning" not in command("verify", case).words
    assert forced(command, case, half, tmp_path).code == 0
    answer = command("verify", case)
    assert answer.code == 0
    assert "Warning: Micrographs f1 and f2 show the same field" in answer.words
    assert "All match" in answer.words
    (warning,) = json.loads(command("verify", case, "--json").out)["warnings"]
    page = tmp_path / "report.html"
    assert command("report", case, "--to", page).code == 0
    said = page.read_text("utf-8")
    assert 'id="open">Open points</h2>' in said
    assert warning in said


def test_an_original_that_is_no_picture_hides_no_verdict(
    command: Command, case: Path, picture: Path, tmp_path: Path
) -> None:
    assert enter(command, case, picture, "f1").code == 0
    words = tmp_path / "words.txt"
    words.write_text("no picture", encoding="utf-8")
    assert forced(command, case, words, tmp_path).code == 0
    answer = command("verify", case)
    assert answer.code == 0
    assert "All match" in answer.words
    assert "It was not looked for resized copies of micrographs." in answer.words
