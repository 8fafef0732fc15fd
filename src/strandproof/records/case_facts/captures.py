"""Copies of one place compared: what a copy answers, and what changed when.

The words say what changed and between which moments. They never say why.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime
from difflib import SequenceMatcher
from itertools import pairwise
from typing import Literal

from strandproof.records.case_facts.claim_grid import (
    Said,
    Sighting,
    holds_words,
    sightings,
    wordings_of,
)
from strandproof.records.case_facts.places import Place, letters_to, place_of, places
from strandproof.records.case_state import CaseState
from strandproof.records.entries import Capture, Claim


@dataclass(frozen=True, slots=True)
class ChangedLine:
    """A line that only one of two copies has.

    Parameters
    ----------
    kind : {"gone", "new"}
        In the earlier copy only, or in the later one only.
    words : str
        The line.
    """

    kind: Literal["gone", "new"]
    words: str


@dataclass(frozen=True, slots=True)
class TextComparison:
    """Two texts of one place.

    Parameters
    ----------
    lines : tuple of ChangedLine
        What differs, in the order of the text; empty where nothing does.
    gone : tuple of str
        Words looked for that only the earlier text has.
    kept : tuple of str
        Words looked for that both have.
    came : tuple of str
        Words looked for that only the later text has.
    """

    lines: tuple[ChangedLine, ...]
    gone: tuple[str, ...]
    kept: tuple[str, ...]
    came: tuple[str, ...]

    @property
    def same(self) -> bool:
        """True when the texts read the same, apart from spaces and empty lines."""
        return not self.lines


@dataclass(frozen=True, slots=True)
class ChangeWindow:
    """Words that stood at a place, and later did not, or the other way round.

    Parameters
    ----------
    claim : Claim
        The claim that the words are part of.
    wording : str
        The words.
    place : Place
        The place.
    before, after : Sighting
        The last copy before the change and the first one after it.
    words : str
        The sentence for the timeline.
    """

    claim: Claim
    wording: str
    place: Place
    before: Sighting
    after: Sighting
    words: str


def capture_answers(capture: Capture) -> tuple[tuple[str, str], ...]:
    """Give the four questions of a frozen copy, with what was answered.

    Parameters
    ----------
    capture : Capture
        The copy.

    Returns
    -------
    tuple of (str, str)
        Question and answer; "not known" where nothing was entered.
    """
    since = capture.unchanged_since
    who = capture.captured_by or "by whom is not known"
    whole = "the whole of it" if capture.complete else "a part of it only"
    return (
        ("What is it?", f"{capture.medium}, {whole}"),
        ("Where from?", capture.place),
        (
            "When, and by whom?",
            f"{capture.captured_at:%Y-%m-%d %H:%M} UTC, {who}",
        ),
        (
            "Unchanged since?",
            "not known" if since is None else f"{since:%Y-%m-%d %H:%M} UTC",
        ),
    )


def compare_texts(before: str, after: str, wordings: Sequence[str]) -> TextComparison:
    r"""Compare the texts of two copies of one place, line by line.

    Parameters
    ----------
    before, after : str
        Texts of the earlier and of the later copy.
    wordings : sequence of str
        Words to be told apart as gone, kept or new.

    Returns
    -------
    TextComparison
        Spaces at the ends of lines and empty lines are not compared.

    Examples
    --------
    >>> found = compare_texts("Tern lead\nCores 26 AWG", "Tern lead", ["26 AWG"])
    >>> found.gone, [line.words for line in found.lines]
    (('26 AWG',), ['Cores 26 AWG'])
    """
    first, second = _lines(before), _lines(after)
    changed: list[ChangedLine] = []
    matcher = SequenceMatcher(None, first, second, autojunk=False)
    for tag, start, end, start_after, end_after in matcher.get_opcodes():
        if tag != "equal":
            changed += [ChangedLine("gone", words) for words in first[start:end]]
            changed += [
                ChangedLine("new", words) for words in second[start_after:end_after]
            ]
    stood = {words: holds_words(before, words) for words in wordings}
    stands = {words: holds_words(after, words) for words in wordings}
    return TextComparison(
        tuple(changed),
        tuple(words for words in stood if stood[words] and not stands[words]),
        tuple(words for words in stood if stood[words] and stands[words]),
        tuple(words for words in stood if not stood[words] and stands[words]),
    )


def changes_of(
    state: CaseState, claim: Claim, wording: str, place: Place
) -> tuple[ChangeWindow, ...]:
    """Give every change of some words at a place, between which copies it fell.

    Parameters
    ----------
    state : CaseState
        State of the case.
    claim : Claim
        The claim that the words are part of.
    wording : str
        The words.
    place : Place
        The place.

    Returns
    -------
    tuple of ChangeWindow
        In the order of time. A change is put after a letter only where a copy made
        after the letter still shows the old state.
    """
    seen = sightings(state, claim, wording, place)
    return tuple(
        ChangeWindow(
            *(claim, wording, place, before, after),
            _change_in_words(state, wording, place, before=before, after=after),
        )
        for before, after in pairwise(seen)
        if before.said is not after.said
    )


def changes_at(
    state: CaseState, capture: str | None = None
) -> tuple[ChangeWindow, ...]:
    """Give every change of claimed words, at one place or at all.

    Parameters
    ----------
    state : CaseState
        State of the case.
    capture : str or None
        Any capture of the place; None for all places.

    Returns
    -------
    tuple of ChangeWindow
        In the order of claims.

    Raises
    ------
    UnknownLabelError
        If the case has no such capture.
    """
    where = places(state) if capture is None else (place_of(state, capture),)
    return tuple(
        change
        for place in where
        for claim in state.records(Claim)
        for wording in wordings_of(claim)
        for change in changes_of(state, claim, wording, place)
    )


def _change_in_words(
    state: CaseState,
    wording: str,
    place: Place,
    *,
    before: Sighting,
    after: Sighting,
) -> str:
    verb = "no longer says" if before.said is Said.SAID else "now says"
    window = f"changed {_after_what(state, place, before.at, after.at)}"
    return f"{place.name} {verb} “{wording}”: {window}."


def _after_what(
    state: CaseState, place: Place, before: datetime, after: datetime
) -> str:
    letters = [letter.sent_at for letter in letters_to(state, place)]
    earlier = [sent for sent in letters if sent <= before]
    between = [sent for sent in letters if before < sent < after]
    end = f"before {after:%Y-%m-%d}"
    if between:
        return (
            f"after {before:%Y-%m-%d} and {end}; our letter of {between[0]:%Y-%m-%d} "
            "lies between, and no copy says whether the change came before or after it"
        )
    if not earlier:
        return f"after {before:%Y-%m-%d} and {end}"
    letter = f"our letter of {earlier[-1]:%Y-%m-%d}"
    if earlier[-1].date() == before.date():
        return f"after {letter} and {end}"
    return f"after {before:%Y-%m-%d} (after {letter}) and {end}"


def _lines(text: str) -> list[str]:
    plain = (" ".join(line.split()) for line in text.splitlines())
    return [line for line in plain if line]
