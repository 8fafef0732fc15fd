"""Known pieces made by hand, without drawing any."""

from strandproof.app.workflow.known_pieces.answers import (
    DrawnPiece,
    ReaderAnswer,
    Seen,
    Verdict,
)
from strandproof.app.workflow.known_pieces.kinds import Structure

_PICTURE = "0" * 64


def drawn_piece(
    number: int,
    structure: Structure = "single_crystal",
    *,
    twins: bool = False,
    scratches: bool = False,
    slip_traces: bool = False,
) -> DrawnPiece:
    """Make a piece as it stands in the sealed answers."""
    return DrawnPiece(
        piece=f"piece-{number:02d}",
        kind=structure.replace("_", " "),
        structure=structure,
        twins=twins,
        scratches=scratches,
        slip_traces=slip_traces,
        boundary_crossings=0 if structure == "single_crystal" else 100,
        seed=number,
        picture_sha256=_PICTURE,
    )


def said(
    piece: DrawnPiece,
    verdict: Verdict,
    *,
    twins: Seen = "no",
    scratches: Seen = "no",
    slip_traces: Seen = "no",
) -> ReaderAnswer:
    """Make what a reader said of a piece."""
    return ReaderAnswer(
        piece=piece.piece,
        verdict=verdict,
        twins=twins,
        scratches=scratches,
        slip_traces=slip_traces,
    )


def read_as(
    structure: Structure, *verdicts: Verdict
) -> tuple[list[DrawnPiece], list[ReaderAnswer]]:
    """Make pieces of one structure and one verdict on each."""
    pieces = [drawn_piece(k, structure) for k in range(1, len(verdicts) + 1)]
    answers = [said(p, v) for p, v in zip(pieces, verdicts, strict=True)]
    return pieces, answers
