"""What a score on known pieces says, and what it is not, in words and as data."""

from dataclasses import asdict
from typing import Any

from strandproof.app.workflow.known_pieces.scoring import (
    ReaderScore,
    TraitScore,
    is_wrong,
)
from strandproof.records.entries import Likelihood
from strandproof.weighing import ErrorRate, likelihood_in_words
from strandproof.weighing.error_rates import WRONG_VERDICT
from strandproof.weighing.wording import of_hundred, ratio_with_word

KINDER = (
    "Open training is kinder than blind casework: the pictures are drawn, the reader "
    "knows of the test, and nothing hangs on the answer. In casework errors of reading "
    "may be more frequent than this."
)
"""What always stands beside the rates."""

READING_ONLY = (
    "These are errors of reading only. They say nothing of mix-ups, mounts, etch "
    "batches or custody, and are not counted there. Blind real controls stay the only "
    "ones that a weighing counts as controls."
)
"""What the rates are not."""

_PIECES_OF_ERROR = {
    "false_boundary": "of one crystal",
    "missed_boundary": "of many crystals",
}
_ERROR_WORDS = {
    "false_boundary": "False boundaries",
    "missed_boundary": "Missed boundaries",
}


def score_sentences(score: ReaderScore) -> tuple[str, ...]:
    """Say a score, with what it is not.

    Parameters
    ----------
    score : ReaderScore
        Of one reader.

    Returns
    -------
    tuple of str
        Sentences for people.
    """
    read_well = score.unreadable - score.unreadable_read
    return (
        f"{score.reader} read {len(score.pieces)} known pieces, all of them synthetic.",
        _rate_sentence(score.false_boundary),
        _rate_sentence(score.missed_boundary),
        f"Not readable: {read_well} of {score.unreadable} unreadable pieces called so.",
        *(_trait_sentence(each) for each in score.traits),
        READING_ONLY,
        KINDER,
    )


def known_pieces_in_words(score: ReaderScore) -> tuple[str, ...]:
    """Say a score, piece by piece where something was not right.

    Parameters
    ----------
    score : ReaderScore
        Of one reader.

    Returns
    -------
    tuple of str
        Lines for people.
    """
    lines = []
    for piece, answer in score.pieces:
        wrong = is_wrong(piece, answer)
        if wrong is not False:
            word = "not counted" if wrong is None else "wrong"
            told = answer.verdict.replace("_", " ")
            lines.append(f"{piece.piece}: {piece.kind}; said {told}: {word}.")
    return (*score_sentences(score), *lines)


def known_pieces_data(
    score: ReaderScore, likelihood: Likelihood | None = None
) -> dict[str, Any]:
    """Give a score as plain data.

    Parameters
    ----------
    score : ReaderScore
        Of one reader.
    likelihood : Likelihood or None
        Likelihood made with it, ready for the command weigh.

    Returns
    -------
    dict
        JSON data; rates stand under "item_level", since they hold for nothing else.
    """
    return {
        "reader": score.reader,
        "synthetic": True,
        "item_level": {
            rate.error: {
                "trials": rate.trials,
                "wrong": rate.wrong,
                "upper": rate.upper,
                "expected": rate.expected,
                "confidence": rate.confidence,
                "prior": rate.prior.name,
                "not_readable": rate.not_readable,
            }
            for rate in (score.false_boundary, score.missed_boundary)
        },
        "unreadable": {
            "pieces": score.unreadable,
            "given_a_verdict": score.unreadable_read,
        },
        "traits": [asdict(each) for each in score.traits],
        "pieces": [
            {
                "piece": piece.piece,
                "kind": piece.kind,
                "verdict": answer.verdict,
                "wrong": is_wrong(piece, answer),
            }
            for piece, answer in score.pieces
        ],
        "likelihoods": [] if likelihood is None else [likelihood.model_dump()],
        "holds_for": [READING_ONLY, KINDER],
    }


def likelihood_words(likelihood: Likelihood) -> str:
    """Say a likelihood that a reader's rate went into.

    Parameters
    ----------
    likelihood : Likelihood
        As made by `likelihood_with_reading_rate`.

    Returns
    -------
    str
        A sentence.
    """
    return likelihood_in_words(likelihood)


def _rate_sentence(rate: ErrorRate) -> str:
    name, pieces = _ERROR_WORDS[rate.error], _PIECES_OF_ERROR[rate.error]
    if rate.trials == 0:
        return f"{name}: no piece {pieces} was read, so nothing is known."
    unread = ""
    if rate.not_readable:
        unread = f" ({rate.not_readable} more called not readable, not counted)"
    said = WRONG_VERDICT[rate.error].replace("_", " ")
    return (
        f"{name}: {rate.wrong} of {rate.trials} pieces {pieces} read wrongly{unread}; "
        f"at most {of_hundred(rate.upper)} ({100 * rate.confidence:g} % bound), "
        f"expected {of_hundred(rate.expected)} ({rate.prior.name} prior). On these "
        f"pieces alone, the reading '{said}' supports a ratio of at most "
        f"{ratio_with_word(1 / rate.upper)}, against a piece {pieces}."
    )


def _trait_sentence(score: TraitScore) -> str:
    name = score.trait.replace("_", " ").capitalize()
    if score.present + score.absent == 0:
        return f"{name}: not answered."
    unsure = f"; {score.unsure} unsure" if score.unsure else ""
    return (
        f"{name}: seen on {score.seen} of {score.present} pieces that have them, named "
        f"on {score.named} of {score.absent} that have none{unsure}."
    )
