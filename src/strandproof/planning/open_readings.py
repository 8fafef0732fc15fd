"""Which readings of coded pieces are still open; by code and reader, never by piece."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from strandproof.records.case_state import CaseState
from strandproof.records.entries import (
    BlindListSealed,
    Micrograph,
    Reading,
    ReadingLock,
    Section,
)


@dataclass(frozen=True, slots=True, kw_only=True)
class OpenReading:
    """A reading that keeps a list sealed.

    Parameters
    ----------
    code : str
        Code of the piece.
    reader : str
        Who has to read or to lock; empty where nobody is named.
    made : bool
        True when it was entered but not locked.
    """

    code: str
    reader: str
    made: bool

    @property
    def words(self) -> str:
        """Say it without saying which piece it is."""
        by = f" by {self.reader}" if self.reader else ""
        return f"{self.code}{by}: {'not locked' if self.made else 'not read'}"


def open_readings(
    state: CaseState, sealed: BlindListSealed, assignments: Mapping[str, str]
) -> tuple[OpenReading, ...]:
    """List the readings that are not made or not locked.

    Parameters
    ----------
    state : CaseState
        State of the case.
    sealed : BlindListSealed
        The list; its readers have to read every piece.
    assignments : mapping of str to str
        Code to what it stands for.

    Returns
    -------
    tuple of OpenReading
        Empty when the list may be opened.
    """
    locked = {each.reading for each in state.records(ReadingLock)}
    readings = state.records(Reading)
    found: list[OpenReading] = []
    for code, stands_for in sorted(assignments.items()):
        things = things_of(state, stands_for)
        of_piece = [each for each in readings if each.reads in things]
        found += _missing(code, of_piece, sealed.readers)
        found += [
            OpenReading(code=code, reader=each.reader, made=True)
            for each in of_piece
            if each.id not in locked
        ]
    return tuple(found)


def things_of(state: CaseState, stands_for: str) -> frozenset[str]:
    """Give what may be read of a coded piece: itself, its sections, its micrographs.

    Parameters
    ----------
    state : CaseState
        State of the case.
    stands_for : str
        For example ``section/E1-s1-L`` or ``specimen/E1-s1``.

    Returns
    -------
    frozenset of str
        Kinds and names.
    """
    kind, _, name = stands_for.partition("/")
    sections = {name} if kind == "section" else set()
    if kind == "specimen":
        sections = {s.id for s in state.records(Section) if s.specimen == name}
    return frozenset(
        {
            stands_for,
            *(f"section/{each}" for each in sections),
            *(
                f"micrograph/{each.id}"
                for each in state.records(Micrograph)
                if each.section in sections
            ),
        }
    )


def _missing(
    code: str, readings: Iterable[Reading], readers: tuple[str, ...]
) -> list[OpenReading]:
    done = {each.reader for each in readings}
    wanted = readers or (("",) if not done else ())
    return [
        OpenReading(code=code, reader=reader, made=False)
        for reader in wanted
        if reader not in done
    ]
