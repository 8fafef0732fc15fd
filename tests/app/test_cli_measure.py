"""The command that measures one picture, and what it refuses."""

import json
import os
import subprocess
import sys
import zlib
from pathlib import Path

import numpy as np
import pytest
import tifffile
from command_line import Command

from strandproof.storage import read_picture


def test_measure_writes_numbers_labels_and_overlay(
    command: Command, picture: Path, tmp_path: Path
) -> None:
    numbers, labels = tmp_path / "n.json", tmp_path / "l.png"
    drawn = tmp_path / "o.png"
    answer = command(
        *("measure", picture, "--um-per-px", "0.5", "--uncertainty", "0.002"),
        *("--json", numbers, "--labels", labels, "--overlay", drawn),
    )
    assert answer.code == 0, answer.words
    data = json.loads(numbers.read_text("utf-8"))
    assert data["pixel_size"]["value"] == 0.5
    assert data["pixel_size"]["unit"] == "um"
    assert data["versions"]["strandproof"]
    assert data["picture"]["n_grains"] > 30
    (strand,) = data["strands"]
    assert strand["verdict"] == "poly"
    # 60 cells on 240 x 320 px of 0.5 um: 0.0031 per um2; cells of a random
    # diagram have a mean intercept of pi / (4 sqrt(0.0031)) = 14 um (Meijering
    # 1953, from memory), with a scatter of a tenth in so small a picture.
    assert 11 < data["picture"]["mean_intercept"]["value"] < 17
    assert data["picture"]["g_intercept"]["value"] > 0
    stored = read_picture(labels)
    assert stored.bit_depth == 16
    assert round(float(stored.pixels.max()) * 65535) >= data["picture"]["n_grains"]
    assert read_picture(drawn).pixels.shape == (240, 320, 3)


def test_measuring_in_pixels_gives_no_g(
    command: Command, picture: Path, tmp_path: Path
) -> None:
    numbers = tmp_path / "n.json"
    answer = command("measure", picture, "--pixels", "--json", numbers)
    assert answer.code == 0, answer.words
    data = json.loads(numbers.read_text("utf-8"))
    assert data["picture"]["g_intercept"] is None
    assert data["picture"]["g_planimetric"] is None
    assert data["picture"]["mean_intercept"]["unit"] == "px"
    assert "no_scale" in {flag["name"] for flag in data["flags"]}


@pytest.mark.parametrize(
    ("words", "code", "said"),
    [
        ((), 1, "No pixel size is known"),
        (("--pixels", "--um-per-px", "0.5"), 2, "leave out one of the two"),
        (("--um-per-px", "0,5"), 2, "decimal comma"),
        (("--um-per-px", "0.5V"), 2, "not a length"),
        (("--um-per-px", "0"), 2, "not above zero"),
        (("--um-per-px", "-3"), 2, "not above zero"),
        (("--um-per-px", "half"), 2, "is no number"),
        (("--pixels", "--page", "2"), 1, "page"),
        (("--pixels", "--labels", "out.gif"), 1, ".tif"),
        (("--pixels", "--overlay", "out.jpg"), 1, ".png"),
        (("--pixels", "--json", "/dev/full"), 1, "/dev/full"),
    ],
)
def test_measure_refuses_clearly(
    command: Command, picture: Path, words: tuple[str, ...], code: int, said: str
) -> None:
    answer = command("measure", picture, *words)
    assert answer.code == code, answer.words
    assert said in answer.words
    assert "Traceback" not in answer.words


def test_result_never_replaces_the_picture(command: Command, picture: Path) -> None:
    before = picture.read_bytes()
    answer = command("measure", picture, "--pixels", "--overlay", picture)
    assert answer.code == 1
    assert picture.read_bytes() == before


def test_pixel_size_of_the_file_is_used_and_a_conflict_refused(
    command: Command, picture: Path, tmp_path: Path
) -> None:
    grey = np.round(read_picture(picture).pixels * 255).astype(np.uint8)
    scaled = tmp_path / "scaled.tif"
    tifffile.imwrite(scaled, grey, resolution=(20_000, 20_000), resolutionunit=3)
    numbers = tmp_path / "n.json"
    assert command("measure", scaled, "--json", numbers).code == 0
    data = json.loads(numbers.read_text("utf-8"))
    assert data["pixel_size"]["value"] == pytest.approx(0.5, rel=1e-6)
    answer = command("measure", scaled, "--um-per-px", "0.25")
    assert answer.code == 1
    assert "0.25" in answer.words


def test_several_pages_ask_which(command: Command, tmp_path: Path) -> None:
    path = tmp_path / "pages.tif"
    pages = np.zeros((3, 64, 64), np.uint8)
    tifffile.imwrite(path, pages, photometric="minisblack")
    answer = command("measure", path, "--pixels")
    assert answer.code == 1
    assert "--page 1..3" in answer.words


def bomb(path: Path, side: int) -> None:
    """Write a flat grey PNG that unpacks to side x side bytes."""

    def chunk(kind: bytes, data: bytes) -> bytes:
        body = kind + data
        crc = zlib.crc32(body).to_bytes(4, "big")
        return len(data).to_bytes(4, "big") + body + crc

    packer = zlib.compressobj(9)
    row = bytes(side + 1)
    data = b"".join(packer.compress(row) for _ in range(side)) + packer.flush()
    size = side.to_bytes(4, "big")
    head = chunk(b"IHDR", size + size + b"\x08\x00\x00\x00\x00")
    path.write_bytes(
        b"\x89PNG\r\n\x1a\n" + head + chunk(b"IDAT", data) + chunk(b"IEND", b"")
    )


def test_bomb_is_not_unpacked_and_the_way_out_is_named(
    command: Command, tmp_path: Path
) -> None:
    path = tmp_path / "flat.png"
    bomb(path, 30_000)
    answer = command("measure", path, "--pixels")
    assert answer.code == 1
    assert "was not unpacked" in answer.words
    assert "--allow-large" in answer.words


def test_full_disk_is_said_and_leaves_nothing_behind(
    picture: Path, tmp_path: Path
) -> None:
    """A real refusal by the kernel, in a process of its own."""
    target = tmp_path / "numbers.json"
    script = (
        "import resource, signal, sys\n"
        "signal.signal(signal.SIGXFSZ, signal.SIG_IGN)\n"
        "resource.setrlimit(resource.RLIMIT_FSIZE, (100, 100))\n"
        f"sys.argv = ['strandproof', 'measure', {str(picture)!r}, '--pixels',"
        f" '--json', {str(target)!r}]\n"
        "from strandproof.app.cli import main\n"
        "main()\n"
    )
    done = subprocess.run(  # noqa: S603 - our own interpreter and script
        [sys.executable, "-B", "-c", script],
        capture_output=True,
        text=True,
        check=False,
        env={**os.environ, "COLUMNS": "200"},
    )
    assert done.returncode == 1, done.stderr
    assert "could not be written: File too large" in done.stderr
    assert "Traceback" not in done.stderr
    assert not target.exists()
