"""A case whose pictures and entries are full of names that readers must not see."""

import csv
import io
import json
from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import Any

import numpy as np
import numpy.typing as npt
import tifffile
from workflow_examples import CALIBRATION, NOON, WHEN, add, desk_at

from strandproof.app.workflow import Desk, enter_claim, enter_micrograph, start_case
from strandproof.app.workflow.blinding import HandOutRequest, hand_out, seal_list
from strandproof.storage import encode_png

CODES = {
    "ZJP-250": "section/E1-s1-L",
    "NXX-487": "section/E1-s1-T",
    "DQV-835": "section/E2-s1-L",
    "DKP-479": "section/E2-s1-T",
}
"""Codes that case H7 typed."""

NAMES = (
    *("Tern", "earphone", "Wexcombe", "Twine Works", "Lantern", "Pell", "Daughter"),
    *("E1-s1", "E2-s1", "3107", "tern-lead"),
)
"""What must not be found in a hand-out, in any spelling of capitals."""

RULES = ("line end inside a grain: one half", "twins not counted")

_CLAIMS: tuple[dict[str, Any], ...] = (
    {
        "id": "K1",
        "words": "cast long-crystal copper, one crystal per 100 m",
        "speaker": "Wexcombe Twine Works",
        "speaker_role": "maker",
        "medium": "hang tag",
        "kinds": ["crystal_state"],
        "readings": [{"words": "Each strand is one.", "kind": "crystal_state"}],
        "product": "Tern earphone lead",
    },
    {
        "id": "K3",
        "words": "cores 26 AWG",
        "speaker": "Lantern Row",
        "speaker_role": "shop",
        "medium": "product page",
        "kinds": ["build"],
        "readings": [{"words": "Each core holds 0.1288 mm².", "kind": "build"}],
        "product": "Tern earphone lead",
    },
)


def coded_case(folder: Path) -> Desk:
    """Start a case with two exhibits, four sections, and a picture of each."""
    folder.mkdir(parents=True, exist_ok=True)
    desk = desk_at(folder / "H7", "C")
    start_case(desk, {"id": "H7", "title": "The Tern earphone lead", "owner": "R"})
    for claim in _CLAIMS:
        page = folder / f"{claim['id']}.txt"
        page.write_text(claim["words"], encoding="utf-8")
        enter_claim(desk, {**claim, "said_at": NOON}, capture=page)
    add(desk, [*_pieces(), CALIBRATION])
    for number, thing in enumerate(CODES.values()):
        section = thing.removeprefix("section/")
        path = folder / f"tern-lead-{section}.{'tif' if number % 2 else 'png'}"
        path.write_bytes(told_picture(number, f"Wexcombe Twine Works {section}"))
        fields = {"id": f"{section}-1", "section": section, "calibration": "stage"}
        enter_micrograph(desk, fields, picture=path)
    return desk


def pixels(number: int) -> npt.NDArray[np.integer[Any]]:
    """Give the pixels of a picture: 8 bits for even numbers, 16 for odd ones."""
    chance = np.random.default_rng(number)
    wide = number % 2
    kind = np.uint16 if wide else np.uint8
    return chance.integers(0, 65535 if wide else 255, (60, 160), kind, endpoint=True)


def told_picture(number: int, words: str) -> bytes:
    """Write a picture that says everything about itself in its metadata."""
    if not number % 2:
        return encode_png(
            pixels(number), text={"Title": f"Tern earphone lead, {words}"}
        )
    buffer = io.BytesIO()
    tifffile.imwrite(
        buffer,
        pixels(number),
        photometric="minisblack",
        description=f"Tern earphone lead, lot 3107, {words}, Lantern Row",
        software="Pell & Daughter",
        metadata=None,
    )
    return buffer.getvalue()


def sealed_case(folder: Path, *readers: str) -> Desk:
    """Start the case and seal its list of codes."""
    desk = coded_case(folder)
    seal_list(desk, "list-1", CODES, readers=readers)
    return desk


def given_out(
    desk: Desk,
    target: Path,
    **changes: Any,  # noqa: ANN401 - any field
) -> dict[str, Any]:
    """Give A1 everything, and give the list of contents back."""
    fields = {
        "reader": "A1",
        "sealed_list": "list-1",
        "straight_lines": 2,
        "counting_rules": RULES,
        "order_seed": 5,
        **changes,
    }
    hand_out(desk, fields.pop("label", "to-A1"), HandOutRequest(**fields), target)
    contents: dict[str, Any] = json.loads((target / "hand-out.json").read_text("utf-8"))
    return contents


def seal_of(folder: Path) -> str:
    """Read the seal of a hand-out in a folder."""
    return (folder / "SEAL.txt").read_text("utf-8").split()[0]


def returned(
    path: Path,
    seal: str,
    names: Sequence[str],
    marks: Mapping[str, Sequence[Mapping[str, Any]]] | None = None,
) -> Path:
    """Write readings as they come back; a boundary on line 1 where nothing is given."""
    one = [{"line": 1, "along_px": 20.0, "feature": "boundary"}]
    readings = [
        {"picture": name, "verdict": None, "marks": (marks or {}).get(name, one)}
        for name in names
    ]
    data = {"seal": seal, "reader": "A1", "readings": readings}
    path.write_text(json.dumps(data), encoding="utf-8")
    return path


def filled_table(folder: Path, path: Path, verdict: str = "boundaries") -> Path:
    """Fill in the table that lies in a hand-out, a verdict for each picture."""
    table = list(csv.DictReader((folder / "readings.csv").read_text().splitlines()))
    for row in table:
        mark = {"line": "1", "along_px": "20", "feature": "boundary"}
        row |= {"verdict": verdict, **mark}
    with path.open("w", encoding="utf-8", newline="") as stream:
        writer = csv.DictWriter(stream, list(table[0]))
        writer.writeheader()
        writer.writerows(table)
    return path


def _pieces() -> list[tuple[str, dict[str, Any]]]:
    drafts: list[tuple[str, dict[str, Any]]] = []
    for name, shop, lot in (("1", "Lantern Row", "3107"), ("2", "Pell & Daughter", "")):
        bought = {
            "id": f"P{name}",
            "obtained": "bought_anonymously",
            "seller": shop,
            "product": "Tern earphone lead",
        }
        lead = {
            "id": f"E{name}",
            "description": "Tern earphone lead",
            "purchase": f"P{name}",
            "provenance": f"bought at {shop}",
            "lot_mark": lot,
            "received_at": NOON,
            "received_by": "R",
            "condition": "bag closed",
        }
        strand = {"id": f"E{name}-s1", "exhibit": f"E{name}", "taken_from": "x", **WHEN}
        drafts += [("purchase", bought), ("exhibit", lead), ("specimen", strand)]
        for letter, direction in (("L", "longitudinal"), ("T", "transverse")):
            cut = {"id": f"E{name}-s1-{letter}", "specimen": f"E{name}-s1"}
            drafts.append(("section", {**cut, "direction": direction}))
    return drafts
