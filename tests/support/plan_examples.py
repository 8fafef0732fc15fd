"""Case H7 as far as plan, fields and readings go, from its typed tables."""

from pathlib import Path
from typing import Any

from reading_examples import REASONS
from workflow_examples import (
    add,
    core,
    count,
    desk_at,
    exhibit,
    is_late,
    pieces,
    rows,
    verdict,
)

from strandproof.app.workflow import Desk, enter_claim, start_case
from strandproof.app.workflow.plan_locking import (
    DrawnFields,
    SectionsToDraw,
    plan_positions,
)

STRANDS = [f"E{e}-s{s}" for e in (1, 2, 3) for s in (1, 2, 3)]

CLAIM: dict[str, Any] = {
    "id": "K3",
    "words": "cores 26 AWG",
    "speaker": "Lantern Row",
    "speaker_role": "shop",
    "medium": "product page",
    "said_at": "2031-03-03T19:12:00Z",
    "kinds": ["build"],
    "readings": [{"words": "Each core holds 0.1288 mm².", "kind": "build"}],
    "product": "Tern earphone lead",
}

PLAN: dict[str, Any] = {
    "id": "plan-1",
    "claims": ("K3",),
    "primary_reading": "copper area",
    "counting_rules": ("interval by lead", "twins not counted"),
    "stop_rule": "when every planned piece has been measured once",
    "would_change_my_mind": "an area within its interval of 0.1288 mm²",
    "hypotheses": ("G1", "G2"),
    "tests": ("area",),
}

ADDITION: dict[str, Any] = {
    "id": "addition-1",
    "plan": "plan-1",
    "kind": "addition",
    "what": "sections of core strands for K1, found on the tag in the bag",
    "reason": "the tag was not known before the bag was opened",
}

DEVIATION: dict[str, Any] = {
    "id": "deviation-1",
    "plan": "plan-1",
    "kind": "deviation",
    "what": "section dropped",
    "reason": "readers differ on whether it can be read",
    "drops": ({"section": "E2-s3-T", "number": 1},),
}


def planned(folder: Path, *, interests: bool = True) -> Desk:
    """Start the case up to the moment before its plan is locked."""
    folder.mkdir(parents=True, exist_ok=True)
    desk = desk_at(folder / "H7", "R")
    start_case(desk, {"id": "H7", "title": "The Tern earphone lead", "owner": "R"})
    page = folder / "page.txt"
    page.write_text("Cores 26 AWG.\n", encoding="utf-8")
    enter_claim(desk, CLAIM, capture=page)
    add(
        desk,
        [
            (
                "hypothesis",
                {"id": name, "statement": words, "kind": "build", "speaks_for": claims},
            )
            for name, words, claims in (
                ("G1", "A core holds 0.1288 mm².", ["K3"]),
                ("G2", "A core holds 0.0955 mm².", []),
            )
        ],
    )
    if interests:
        add(desk, [INTERESTS])
    return desk


INTERESTS: tuple[str, dict[str, Any]] = (
    "disclosure",
    {
        "id": "none",
        "person": "R",
        "kind": "none_declared",
        "statement": "None, declared by R on 2031-03-20.",
        "declared_at": "2031-03-20T12:00:00Z",
    },
)


def drawn(seed: int = 2031) -> DrawnFields:
    """Draw the 54 fields of case H7."""
    return plan_positions(
        SectionsToDraw(
            long_sections=[f"{each}-L" for each in STRANDS],
            faces=[f"{each}-T" for each in STRANDS],
        ),
        seed=seed,
    )


def read_bench(desk: Desk) -> None:
    """Enter pieces, verdicts of both readers, and A1's counts field by field."""
    table = [row for row in rows("H7-sections.csv") if not is_late(row)]
    drafts = [exhibit(name) for name in ("E1", "E2", "E3", "controls")]
    drafts += [core(name) for name in ("E1", "E2", "E3")]
    drafts += pieces(table)
    for reader in ("A1", "A2"):
        drafts += [
            (kind, {**fields, "reason": REASONS.get(fields["verdict"], "")})
            for kind, fields in (verdict(row, reader) for row in table)
        ]
    drafts += [
        count(row, field_number=int(row["field"])) for row in rows("H7-fields.csv")
    ]
    add(desk, drafts)
