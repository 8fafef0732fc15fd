"""From a reader's answers to error rates of reading, and of nothing else.

The rates are those of the item level: this reading is wrong. A drawn picture passes no
mount, no etch batch and no custody, so it cannot tell how often those go wrong.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from strandproof.app.workflow.known_pieces.answers import (
    TRAITS,
    DrawnPiece,
    ReaderAnswer,
    Trait,
)
from strandproof.errors import ParameterError
from strandproof.records.entries import Control
from strandproof.weighing import ControlReading, ErrorRate, item_error_rate
from strandproof.weighing.error_rates import WRONG_VERDICT, ReadingError

ERROR_OF_STRUCTURE: Mapping[str, ReadingError] = {
    "single_crystal": "false_boundary",
    "polycrystal": "missed_boundary",
}
"""The reading error that a piece of a structure can show."""


@dataclass(frozen=True, slots=True, kw_only=True)
class TraitScore:
    """How often a trait was seen where it is, and named where it is not.

    Parameters
    ----------
    trait : {"twins", "scratches", "slip_traces"}
        The trait.
    present, seen : int
        Pieces that have it, and those on which it was seen.
    absent, named : int
        Pieces without it, and those on which it was named all the same.
    unsure : int
        Pieces with no answer; in none of the other counts.
    """

    trait: Trait
    present: int
    seen: int
    absent: int
    named: int
    unsure: int


@dataclass(frozen=True, slots=True, kw_only=True)
class ReaderScore:
    """What a reader's answers on known pieces show.

    Parameters
    ----------
    reader : str
        Who read.
    pieces : tuple of (DrawnPiece, ReaderAnswer)
        Every piece and what was said of it.
    false_boundary, missed_boundary : ErrorRate
        Rates of the two errors, at the level of the item.
    unreadable, unreadable_read : int
        Pieces that nobody should read, and those that got a verdict all the same.
    traits : tuple of TraitScore
        Twins, scratches, slip traces; for training, they enter no weighing.
    """

    reader: str
    pieces: tuple[tuple[DrawnPiece, ReaderAnswer], ...]
    false_boundary: ErrorRate
    missed_boundary: ErrorRate
    unreadable: int
    unreadable_read: int
    traits: tuple[TraitScore, ...]

    def rate(self, error: ReadingError) -> ErrorRate:
        """Give the rate of an error.

        Parameters
        ----------
        error : {"false_boundary", "missed_boundary"}
            The error.

        Returns
        -------
        ErrorRate
            At the level of the item.
        """
        if error == "false_boundary":
            return self.false_boundary
        return self.missed_boundary


def score_reader(
    drawn: Sequence[DrawnPiece], answers: Sequence[ReaderAnswer], *, reader: str
) -> ReaderScore:
    """Compare answers with what was drawn.

    Assumes that the reader had not seen the sealed answers.

    Parameters
    ----------
    drawn : sequence of DrawnPiece
        What was drawn.
    answers : sequence of ReaderAnswer
        One for each piece, in the same order.
    reader : str
        Who read.

    Returns
    -------
    ReaderScore
        Rates and counts.

    Raises
    ------
    ParameterError
        If the answers are not on these pieces in this order.

    Notes
    -----
    Bounds and expected rates come from `weighing.item_error_rate`: exact one-sided
    binomial limits, expected value with the uniform prior. A readable piece called not
    readable is no trial.
    """
    names = tuple(each.piece for each in drawn)
    if tuple(each.piece for each in answers) != names:
        raise ParameterError(
            "pieces answered",
            tuple(each.piece for each in answers),
            allowed=f"{', '.join(names)}, in this order",
        )
    pairs = tuple(zip(drawn, answers, strict=True))
    readings = [
        _as_reading(piece, answer, reader)
        for piece, answer in pairs
        if piece.structure != "not_readable"
    ]
    hopeless = [answer for piece, answer in pairs if piece.structure == "not_readable"]
    return ReaderScore(
        reader=reader,
        pieces=pairs,
        false_boundary=item_error_rate(readings, error="false_boundary"),
        missed_boundary=item_error_rate(readings, error="missed_boundary"),
        unreadable=len(hopeless),
        unreadable_read=sum(each.verdict != "not_readable" for each in hopeless),
        traits=tuple(_trait_score(trait, pairs) for trait in TRAITS),
    )


def is_wrong(piece: DrawnPiece, answer: ReaderAnswer) -> bool | None:
    """Tell whether a verdict is wrong.

    Parameters
    ----------
    piece : DrawnPiece
        What was drawn.
    answer : ReaderAnswer
        What was said.

    Returns
    -------
    bool or None
        None where a readable piece was called not readable: neither right nor wrong.
    """
    if piece.structure == "not_readable":
        return answer.verdict != "not_readable"
    if answer.verdict == "not_readable":
        return None
    return answer.verdict == WRONG_VERDICT[ERROR_OF_STRUCTURE[piece.structure]]


def _as_reading(piece: DrawnPiece, answer: ReaderAnswer, reader: str) -> ControlReading:
    control = Control(
        id=piece.piece,
        specimen=piece.piece,
        kind="single_crystal" if piece.structure == "single_crystal" else "polycrystal",
        known_by="drawn by a program",
        described_as="synthetic",
    )
    return ControlReading(
        control=control, verdict=answer.verdict, blind=True, reader=reader
    )


def _trait_score(
    trait: Trait, pairs: Sequence[tuple[DrawnPiece, ReaderAnswer]]
) -> TraitScore:
    told = [(getattr(piece, trait), getattr(said, trait)) for piece, said in pairs]
    sure = [(there, said == "yes") for there, said in told if said != "unsure"]
    return TraitScore(
        trait=trait,
        present=sum(there for there, _ in sure),
        seen=sum(there and said for there, said in sure),
        absent=sum(not there for there, _ in sure),
        named=sum(said and not there for there, said in sure),
        unsure=len(told) - len(sure),
    )
