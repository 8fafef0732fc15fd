"""How often the automatic reading errs on the known pieces that try readers.

    python benchmarks/known_pieces_by_program.py [SETS]

Draws SETS times twelve pieces (1 when left out), lets the program segment each, takes
its verdict on the largest piece of metal for a reader's, and scores it as a reader is
scored. The pieces are drawn by our own renderer: these are figures of our own making,
not reference values, and the renderer knows no real etch.
"""

import sys
import tempfile
from pathlib import Path

from strandproof.app.workflow.known_pieces import draw_known_pieces
from strandproof.app.workflow.known_pieces.answers import (
    ReaderAnswer,
    SealedAnswers,
    Verdict,
)
from strandproof.app.workflow.known_pieces.scoring import score_reader
from strandproof.app.workflow.known_pieces.telling import known_pieces_in_words
from strandproof.micrograph import segment
from strandproof.storage import read_picture

SEED = 20311125
VERDICTS: dict[str, Verdict] = {
    "poly": "boundaries",
    "single": "none_resolved",
    "undecided": "not_readable",
}


def program_says(picture: Path) -> Verdict:
    """Give the verdict on the largest piece of metal in a picture."""
    strands = segment(read_picture(picture).pixels).strands
    if not strands:
        return "not_readable"
    return VERDICTS[max(strands, key=lambda strand: strand.area_px).verdict]


def main(sets: int) -> None:
    """Draw, segment, score, print."""
    with tempfile.TemporaryDirectory() as place:
        written = draw_known_pieces(
            Path(place) / "set", answers=Path(place) / "a.json", seed=SEED, sets=sets
        )
        drawn = SealedAnswers.model_validate_json(written.answers.read_bytes()).pieces
        answers = [
            ReaderAnswer(
                piece=piece.piece,
                verdict=program_says(written.folder / f"{piece.piece}.png"),
            )
            for piece in drawn
        ]
    for line in known_pieces_in_words(
        score_reader(drawn, answers, reader="The program")
    ):
        print(line)


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 1)
