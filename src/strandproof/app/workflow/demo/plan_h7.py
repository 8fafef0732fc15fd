"""Plan and blinding of case H7: lock, addition, deviation, sealed lists, opening."""

from collections.abc import Sequence

from strandproof.app.workflow.blinding import open_list, seal_list
from strandproof.app.workflow.blinding.sealing import list_content
from strandproof.app.workflow.demo import pieces_h7
from strandproof.app.workflow.demo.telling import Fields, Told
from strandproof.app.workflow.plan_locking import (
    SectionsToDraw,
    deviate,
    lock_plan,
    plan_positions,
)
from strandproof.storage import SealedContent

_SEED = 2031
_COUNTING_RULES = ["interval by lead", "twins not counted"]

PLAN: Fields = {
    "id": "plan-1",
    "claims": ["K2", "K3", "K4"],
    "primary_reading": "copper area, conductivity by mass, layer on a drain section",
    "counting_rules": _COUNTING_RULES,
    "stop_rule": "when every planned piece has been measured once",
    "would_change_my_mind": (
        "an area within its interval of 0.1288 mm², or more than 108 % IACS"
    ),
    "hypotheses": ["T1", "T2", "G1", "G2", "R1", "R2"],
    "tests": ["area", "four-wire resistance", "layer on a section"],
}
ADDITION: Fields = {
    "id": "addition-1",
    "plan": "plan-1",
    "kind": "addition",
    "what": "sections of core strands for K1, found on the tag in the bag",
    "reason": "the tag was not known before the bag was opened",
    "results_seen": False,
}
DEVIATION: Fields = {
    "id": "deviation-1",
    "plan": "plan-1",
    "kind": "deviation",
    "what": "section dropped",
    "reason": "over-etched, not readable for A2; A1 had read it",
    "drops": [{"section": "E2-s3-T", "number": 1}],
    "results_seen": True,
}


def lock(told: Told) -> None:
    """Lock the plan for the claims known before the bag was opened."""
    lock_plan(told.desk("R", "03-25"), PLAN)


def add_sections(told: Told) -> None:
    """Add the sections for the tag's claim, with every place drawn by chance."""
    strands = list(pieces_h7.STRAND_MEANS)
    wanted = SectionsToDraw(
        long_sections=[f"{strand}-L" for strand in strands],
        faces=[f"{strand}-T" for strand in strands],
    )
    drawn = plan_positions(wanted, seed=_SEED)
    deviate(told.desk("R", "04-03"), ADDITION, drawn=drawn)


def drop_face(told: Told) -> None:
    """Drop the face that one reader could not read."""
    deviate(told.desk("R", "05-20"), DEVIATION)


def seal(
    told: Told, day: str, label: str, readers: Sequence[str], *, late: bool
) -> None:
    """Seal the codes of the first sections, or of the controls added later.

    The salt of an invented case is fixed, so that telling it again gives the same.
    """
    rows = [r for r in pieces_h7.section_rows() if pieces_h7.is_late(r) == late]
    codes = {row["code"]: f"section/{row['section']}" for row in rows}
    words = f"list of {len(codes)} blind codes"
    salt = bytes([_SEED % 256]) * 32
    content = SealedContent(list_content(label, codes, readers), words, salt)
    seal_list(told.desk("C", day), label, codes, readers=readers, sealed=content)


def open_after(told: Told, day: str, label: str) -> None:
    """Open a list when every reading of its pieces is locked."""
    open_list(told.desk("C", day), label)
