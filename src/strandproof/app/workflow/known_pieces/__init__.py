"""Known pieces for readers: drawn, sealed, scored; error rates of reading alone.

`draw_known_pieces` writes the pictures for a reader and the answers elsewhere,
`score_known_pieces` opens the answers once every piece has a verdict, and
`likelihood_with_reading_rate` puts the reader's rate into one share of a likelihood.
Mix-ups, mounts and batches are another level, which drawn pictures cannot reach.
"""

from strandproof.app.workflow.known_pieces.drawing import (
    WrittenPieces,
    draw_known_pieces,
)
from strandproof.app.workflow.known_pieces.feeding import likelihood_with_reading_rate
from strandproof.app.workflow.known_pieces.judging import (
    score_known_pieces,
    write_known_pieces_score,
)
from strandproof.app.workflow.known_pieces.scoring import ReaderScore
from strandproof.app.workflow.known_pieces.telling import (
    known_pieces_data,
    known_pieces_in_words,
    likelihood_words,
)

__all__ = [
    "ReaderScore",
    "WrittenPieces",
    "draw_known_pieces",
    "known_pieces_data",
    "known_pieces_in_words",
    "likelihood_with_reading_rate",
    "likelihood_words",
    "score_known_pieces",
    "write_known_pieces_score",
]
