"""What a claim must answer before it can be saved."""

from collections.abc import Mapping
from typing import Any

from strandproof.errors import ClaimQuestionsError

_WHO = "Who says this? maker, shop, tester, other (also: importer, laboratory)."
_QUESTIONS = (
    (("words",), "What are the exact words?"),
    (("speaker_role", "speaker"), _WHO),
    (("medium",), "What is it: product page, hang tag, data sheet, interview?"),
    (("said_at",), "When was it said or seen?"),
)
_FILE = "Which file shows it: screenshot, photograph, document, recording?"


def claim_questions(fields: Mapping[str, Any], *, has_file: bool) -> tuple[str, ...]:
    """Give the questions that a claim leaves open.

    Parameters
    ----------
    fields : mapping
        Fields of the record `Claim`, as far as they are known.
    has_file : bool
        True when a file shows the words.

    Returns
    -------
    tuple of str
        Empty when words, speaker, medium, date and file are there.

    Examples
    --------
    >>> claim_questions({"words": "cores 26 AWG"}, has_file=True)[0]
    'Who says this? maker, shop, tester, other (also: importer, laboratory).'
    """
    blank = [
        question
        for names, question in _QUESTIONS
        if any(_is_blank(fields.get(name)) for name in names)
    ]
    return (*blank, *(() if has_file else (_FILE,)))


def refuse_open_questions(fields: Mapping[str, Any], *, has_file: bool) -> None:
    """Refuse a claim without words, speaker, medium, date or file.

    Parameters
    ----------
    fields : mapping
        Fields of the record `Claim`.
    has_file : bool
        True when a file shows the words.

    Raises
    ------
    ClaimQuestionsError
        If a question is open.
    """
    questions = claim_questions(fields, has_file=has_file)
    if questions:
        raise ClaimQuestionsError(questions)


def _is_blank(value: object) -> bool:
    return value is None or not str(value).strip()
