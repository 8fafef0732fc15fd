"""A case with micrographs to read, and lists of marks as readers hand them in."""

import json
from collections.abc import Iterable, Sequence
from pathlib import Path

import numpy as np
from workflow_examples import (
    add,
    core,
    count,
    desk_at,
    exhibit,
    is_late,
    pieces,
    rows,
    started,
    verdict,
)

from strandproof.app.workflow import Desk, enter_micrograph, enter_reading, start_case
from strandproof.app.workflow.entering import open_case
from strandproof.records.entries import Micrograph
from strandproof.storage import encode_png

LINE = {"number": 1, "start_px": [100.0, 150.0], "end_px": [700.0, 150.0]}
"""A test line of 600 px, placed by a person."""

M15 = ["boundary"] * 12 + ["twin"] * 5 + ["scratch"] * 2 + ["uncertain"]
"""What A2 marks in M15 of the product brief."""

REASONS = {"not_readable": "over-etched"}


def picture(seed: int = 1) -> bytes:
    """Give a picture of noise; nothing is read off its pixels."""
    chance = np.random.default_rng(seed)
    return encode_png(chance.integers(0, 255, (300, 800), np.uint8))


def case_with_micrographs(folder: Path, *names: str) -> Desk:
    """Start a case with one calibrated micrograph for each name."""
    desk = started(folder / "H7")
    section = {"id": "E1-s1-L", "specimen": "E1-s1", "direction": "longitudinal"}
    add(desk, [("section", {**section, "blind_code": "DQV-835"})])
    for number, name in enumerate(names or ("f1",)):
        path = folder / f"{name}.png"
        path.write_bytes(picture(number))
        fields = {"id": name, "section": "E1-s1-L", "calibration": "stage"}
        enter_micrograph(desk, fields, picture=path)
    return desk


def lines_file(
    desk: Desk, micrograph: str = "f1", lines: Iterable[object] = (LINE,)
) -> Path:
    """Write test lines that a person placed."""
    shown = open_case(desk.folder).record(Micrograph, micrograph)
    data = {
        "code": "DQV-835",
        "picture_sha256": shown.file_sha256,
        "width_px": shown.width_px,
        "height_px": shown.height_px,
        "lines": list(lines),
    }
    path = desk.folder.parent / f"{micrograph}-lines.json"
    path.write_text(json.dumps(data), encoding="utf-8")
    return path


def marks_file(
    desk: Desk,
    features: Sequence[str],
    directions: Sequence[float | str] | None = None,
    *,
    name: str = "marks.csv",
) -> Path:
    """Write a list of marks, evenly spread over the test line of 600 px."""
    step = 600 / (len(features) + 1)
    angles = directions or [""] * len(features)
    table = ["line,along_px,feature,direction_deg"]
    table += [
        f"1,{step * (place + 1):.3f},{feature},{angle}"
        for place, (feature, angle) in enumerate(zip(features, angles, strict=True))
    ]
    path = desk.folder.parent / name
    path.write_text("\n".join(table) + "\n", encoding="utf-8")
    return path


def marked(
    desk: Desk,
    label: str,
    features: Sequence[str],
    directions: Sequence[float | str] | None = None,
    *,
    reader: str = "A2",
) -> None:
    """Enter a reading of these marks on micrograph f1."""
    enter_reading(
        desk,
        {"id": label, "reads": "micrograph/f1", "reader": reader, "blind": True},
        lines=lines_file(desk),
        marks=marks_file(desk, features, directions),
    )


def blind_bench(folder: Path, *, locked: bool = True) -> Desk:
    """Enter what both readers of case H7 said of 24 sections, with the reason.

    A1's counts on fields come along, unlocked, as the demonstration has them.
    """
    desk = desk_at(folder / "H7")
    start_case(desk, {"id": "H7", "title": "The Tern earphone lead", "owner": "R"})
    table = [row for row in rows("H7-sections.csv") if not is_late(row)]
    drafts = [exhibit(name) for name in ("E1", "E2", "E3", "controls")]
    drafts += [core(name) for name in ("E1", "E2", "E3")]
    drafts += pieces(table)
    drafts += [count(row) for row in rows("H7-fields.csv")]
    add(desk, drafts)
    for reader in ("A1", "A2"):
        drafts = [
            (kind, {**fields, "reason": REASONS.get(fields["verdict"], "")})
            for kind, fields in (verdict(row, reader) for row in table)
        ]
        add(desk, drafts)
        if locked:
            lock(desk, [str(fields["id"]) for _, fields in drafts], reader)
    return desk


def lock(desk: Desk, labels: Iterable[str], reader: str) -> None:
    """Lock readings all at once."""
    fields = {"locked_at": desk.clock(), "locked_by": reader}
    add(desk, [("reading_lock", {"id": n, "reading": n, **fields}) for n in labels])
