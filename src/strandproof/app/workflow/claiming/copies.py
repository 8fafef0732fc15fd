"""Use cases that freeze places, look at them again and search the copies."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path
from typing import Any

from strandproof.app.workflow.entering import Desk, open_case, read_original
from strandproof.errors import NoTextError, ParameterError, WordsFoundError
from strandproof.records.case_facts.captures import (
    ChangeWindow,
    TextComparison,
    changes_at,
    compare_texts,
)
from strandproof.records.case_facts.claim_grid import holds_words, wordings_of
from strandproof.records.case_facts.places import Place, place_of
from strandproof.records.case_state import CaseState
from strandproof.records.entries import (
    Capture,
    CaptureSearch,
    Claim,
    Entry,
    FileReference,
)
from strandproof.records.entries.building import build_body
from strandproof.storage import Addition, file_text, original_file

Fields = Mapping[str, Any]

_BY_PROGRAM = "searched by the program; capitals, spaces and line ends do not matter"


@dataclass(frozen=True, slots=True)
class Recheck:
    """A place looked at again.

    Parameters
    ----------
    entries : tuple of Entry
        The new capture, and the search of it where it is a text.
    earlier, later : Capture
        The two copies compared.
    same_bytes : bool
        True when both files are the same.
    texts : TextComparison or None
        None where one of the copies is no text.
    changes : tuple of ChangeWindow
        What the record now says of claimed words that came or went.
    """

    entries: tuple[Entry, ...]
    earlier: Capture
    later: Capture
    same_bytes: bool
    texts: TextComparison | None
    changes: tuple[ChangeWindow, ...]


def freeze_place(desk: Desk, fields: Fields, *, file: Path) -> tuple[Entry, ...]:
    """Keep a copy of a place, whether or not it holds a claim.

    Only a copy that is there can be searched for words that are not said.

    Parameters
    ----------
    desk : Desk
        Folder and person.
    fields : mapping
        Fields of the record `Capture` without the hash.
    file : Path
        The copy.

    Returns
    -------
    tuple of Entry
        The capture, and the search of it where it is a text.
    """
    original = read_original(file)
    seen = {
        "captured_at": desk.clock(),
        "captured_by": desk.person,
        **fields,
        "file_sha256": original.sha256,
    }
    entries = desk.add(Addition(build_body("capture", seen), (original,)))
    return (*entries, *_searched_by_program(desk, entries[0].body.id))


def recheck_place(
    desk: Desk,
    earlier: str,
    file: Path,
    *,
    name: str,
    complete: bool = True,
    captured_at: datetime | None = None,
) -> Recheck:
    """Keep another copy of a place and compare it with the one before it in time.

    Parameters
    ----------
    desk : Desk
        Folder and person.
    earlier : str
        Short name of any capture of that place.
    file : Path
        The new copy.
    name : str
        Short name of the new capture.
    complete : bool
        False when only a part of the place was captured.
    captured_at : datetime or None
        When the copy was made; now when None.

    Returns
    -------
    Recheck
        What was entered and what changed.

    Raises
    ------
    UnknownLabelError
        If the case has no such capture.
    ParameterError
        If the new copy is older than every other one.
    """
    before = _copy_before(
        place_of(open_case(desk.folder), earlier), captured_at or desk.clock()
    )
    fields = {
        "id": name,
        "medium": before.medium,
        "place": before.place,
        "captured_at": captured_at or desk.clock(),
        "complete": complete,
        "earlier_capture": before.id,
        "speaker_role": before.speaker_role,
    }
    entries = freeze_place(desk, fields, file=file)
    state = open_case(desk.folder)
    after = state.record(Capture, name)
    return Recheck(
        entries,
        before,
        after,
        before.file_sha256 == after.file_sha256,
        _compared(desk.folder, state, before, after),
        changes_at(state, after.id),
    )


def search_copy(desk: Desk, capture: str, looked_for: Sequence[str] = ()) -> Entry:
    """Let the program search a copy that is a text.

    Parameters
    ----------
    desk : Desk
        Folder and person.
    capture : str
        Short name of the copy.
    looked_for : sequence of str
        Words; those of every claim when none are given.

    Returns
    -------
    Entry
        The search, with what was found.

    Raises
    ------
    NoTextError
        If it is no text, so that a person must look.
    UnknownLabelError
        If the case has no such capture.
    """
    state = open_case(desk.folder)
    text = text_of_copy(desk.folder, state, capture)
    if text is None:
        raise NoTextError(capture, _file(state, capture).name)
    words = tuple(looked_for) or wordings_of_all(state)
    found = tuple(each for each in words if holds_words(text, each))
    return _enter_search(desk, state, capture, words, found, method=_BY_PROGRAM)


def enter_search(
    desk: Desk,
    capture: str,
    *,
    looked_for: Sequence[str],
    found: Sequence[str],
    method: str,
) -> Entry:
    """Enter what a person found in a copy that was looked through or listened to.

    Parameters
    ----------
    desk : Desk
        Folder and person.
    capture : str
        Short name of the copy.
    looked_for : sequence of str
        Words looked for; those of every claim when none are given.
    found : sequence of str
        Those that stand there.
    method : str
        How: read, listened to.

    Returns
    -------
    Entry
        The search.

    Raises
    ------
    WordsFoundError
        If the copy is a text that holds words said to be absent.
    UnknownLabelError
        If the case has no such capture.
    """
    state = open_case(desk.folder)
    words = tuple(dict.fromkeys((*(looked_for or wordings_of_all(state)), *found)))
    text = text_of_copy(desk.folder, state, capture)
    missed = tuple(
        each
        for each in words
        if text is not None and each not in found and holds_words(text, each)
    )
    if missed:
        raise WordsFoundError(capture, missed)
    return _enter_search(desk, state, capture, words, tuple(found), method=method)


def search_all_copies(desk: Desk) -> tuple[Entry, ...]:
    """Let the program search every copy that is a text for the words of every claim.

    Copies already searched for all of them are left alone.

    Parameters
    ----------
    desk : Desk
        Folder and person.

    Returns
    -------
    tuple of Entry
        One search for each copy that was searched now.
    """
    state = open_case(desk.folder)
    wanted = set(wordings_of_all(state))
    return tuple(
        search_copy(desk, capture.id)
        for capture in state.records(Capture)
        if not wanted <= _searched(state, capture.id)
        and text_of_copy(desk.folder, state, capture.id) is not None
    )


def text_of_copy(folder: Path, state: CaseState, capture: str) -> str | None:
    """Give the words of a copy, where it is a text.

    Parameters
    ----------
    folder : Path
        Folder of the case.
    state : CaseState
        State of the case.
    capture : str
        Short name of the copy.

    Returns
    -------
    str or None
        None for pictures, recordings and other files.

    Raises
    ------
    UnknownLabelError
        If the case has no such capture.
    """
    kept = _file(state, capture)
    path = original_file(folder, state, kept.sha256)
    return file_text(path, name=kept.name, media_type=kept.media_type)


def wordings_of_all(state: CaseState) -> tuple[str, ...]:
    """Give the words that copies are searched for: those of every claim.

    Parameters
    ----------
    state : CaseState
        State of the case.

    Returns
    -------
    tuple of str
        Each once.
    """
    claims = state.records(Claim)
    return tuple(dict.fromkeys(w for claim in claims for w in wordings_of(claim)))


def _copy_before(place: Place, moment: datetime) -> Capture:
    earlier = [copy for copy in place.captures if copy.captured_at <= moment]
    if not earlier:
        raise ParameterError(
            "captured_at",
            moment.isoformat(),
            allowed="a moment after the oldest copy of that place",
            remedy="Enter an older copy with 'strandproof capture'.",
        )
    return earlier[-1]


def _compared(
    folder: Path, state: CaseState, before: Capture, after: Capture
) -> TextComparison | None:
    first = text_of_copy(folder, state, before.id)
    second = text_of_copy(folder, state, after.id)
    if first is None or second is None:
        return None
    return compare_texts(first, second, wordings_of_all(state))


def _searched_by_program(desk: Desk, capture: str) -> tuple[Entry, ...]:
    state = open_case(desk.folder)
    if not state.records(Claim):
        return ()
    text = text_of_copy(desk.folder, state, capture)
    return () if text is None else (search_copy(desk, capture),)


def _searched(state: CaseState, capture: str) -> set[str]:
    return {
        words
        for search in state.records(CaptureSearch)
        if search.capture == capture
        for words in search.looked_for
    }


def _enter_search(
    desk: Desk,
    state: CaseState,
    capture: str,
    words: tuple[str, ...],
    found: tuple[str, ...],
    *,
    method: str,
) -> Entry:
    number = sum(each.capture == capture for each in state.records(CaptureSearch)) + 1
    fields = {
        "id": f"{capture[:36]}-search-{number}",
        "capture": capture,
        "looked_for": words,
        "found": found,
        "method": method,
        "searched_at": desk.clock(),
        "searched_by": desk.person,
    }
    return desk.add(Addition(build_body("capture_search", fields)))[0]


def _file(state: CaseState, capture: str) -> FileReference:
    return state.files[state.record(Capture, capture).file_sha256]
