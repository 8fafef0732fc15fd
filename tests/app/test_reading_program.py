"""The program as a third reader of the same test lines."""

from pathlib import Path

import numpy as np
import pytest
from reading_examples import (
    case_with_micrographs,
    lines_file,
    marks_file,
)

from strandproof.app.workflow import enter_micrograph
from strandproof.app.workflow.reading_by_people import (
    compare_readers,
    enter_reading,
    lock_reading,
    program_beside_readers,
    program_in_words,
)
from strandproof.storage import encode_png


def test_program_marks_the_same_lines(tmp_path: Path) -> None:
    """Synthetic: two bent grooves, at columns 300 and 500 where the line runs."""
    desk = case_with_micrographs(tmp_path)
    chance = np.random.default_rng(3)
    rows, cols = np.indices((300, 800))
    bend = 12 * np.sin((rows - 150) / 30)
    away = np.minimum(abs(cols - 300 - bend), abs(cols - 500 + bend))
    grey = 180 - 110 * np.exp(-((away / 1.5) ** 2))
    path = tmp_path / "three.png"
    noisy = np.clip(grey + chance.normal(0, 2, grey.shape), 0, 255)
    path.write_bytes(encode_png(noisy.astype(np.uint8)))
    fields = {"id": "f9", "section": "E1-s1-L", "calibration": "stage"}
    enter_micrograph(desk, fields, picture=path)
    for reader in ("A1", "A2"):
        enter_reading(
            desk,
            {"id": f"f9-{reader}", "reads": "micrograph/f9", "reader": reader}
            | {"blind": True},
            lines=lines_file(desk, "f9"),
            marks=marks_file(desk, ["boundary"] * 2),
        )
        lock_reading(desk, f"f9-{reader}")
    compared = compare_readers(desk.folder, "A1", "A2", tolerance_px=6.0)
    (seen,) = program_beside_readers(desk.folder, compared)
    places = [m.along_px for m in seen.lines[0].marks if m.feature == "boundary"]
    assert places == pytest.approx([200.0, 400.0], abs=4.0)
    assert len(seen.against_first.matched) == 2
    words = program_in_words(compared, seen)
    assert words[0] == "Program on the same lines of micrograph/f9: 2 boundaries."
    assert words[1].startswith("  2 of the 2 that A1 marked as boundaries")
    assert "decides nothing" in words[-1]


def test_circles_and_sections_are_left_to_people(tmp_path: Path) -> None:
    desk = case_with_micrographs(tmp_path)
    circle = {"number": 1, "centre_px": [400.0, 150.0], "radius_px": 100.0}
    for reader in ("A1", "A2"):
        enter_reading(
            desk,
            {"id": f"f1-{reader}", "reader": reader, "blind": True},
            lines=lines_file(desk, lines=[circle]),
            marks=marks_file(desk, ["boundary"]),
        )
        lock_reading(desk, f"f1-{reader}")
    compared = compare_readers(desk.folder, "A1", "A2")
    assert len(compared.marked) == 1
    assert program_beside_readers(desk.folder, compared) == ()
