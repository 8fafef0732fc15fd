"""The state of a case: a pure fold over its entries.

An entry that supersedes an earlier one takes its place in the state; both stay
in the history.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import TypeVar

from strandproof.errors import DuplicateLabelError, ParameterError, UnknownLabelError
from strandproof.records.entries import (
    Case,
    CaseRecord,
    Entry,
    FileReference,
    kind_in_words,
    kind_of,
)
from strandproof.records.entries.kinds import kind_of_record
from strandproof.records.entries.links import entry_links, file_links

NO_HEAD = "0" * 64
"""What stands for the entry before the first."""

RecordT = TypeVar("RecordT", bound=CaseRecord)


@dataclass(frozen=True, slots=True)
class CaseState:
    """What stands in a case now.

    Parameters
    ----------
    entries : tuple of Entry
        All entries, in order.
    current : mapping
        Kind to short name to the entry that holds now.
    files : mapping
        SHA-256 to the reference of every file kept.
    """

    entries: tuple[Entry, ...]
    current: Mapping[str, Mapping[str, Entry]]
    files: Mapping[str, FileReference]

    @property
    def head(self) -> str:
        """Hash of the last entry; 64 zeros for an empty case."""
        return self.entries[-1].sha256 if self.entries else NO_HEAD

    @property
    def case(self) -> Case:
        """The case's own record."""
        return self.records(Case)[0]

    def records(self, record: type[RecordT]) -> tuple[RecordT, ...]:
        """Give the records of one kind that hold now, in order of first entry.

        Parameters
        ----------
        record : type of CaseRecord
            The kind, as its record class.

        Returns
        -------
        tuple of CaseRecord
            Empty when the case has none.
        """
        entries = self.current.get(kind_of_record(record), {})
        return tuple(
            entry.body for entry in entries.values() if isinstance(entry.body, record)
        )

    def entry(self, record: type[CaseRecord], label: str) -> Entry:
        """Give the entry of one kind and name that holds now.

        Parameters
        ----------
        record : type of CaseRecord
            The kind, as its record class.
        label : str
            Short name.

        Returns
        -------
        Entry
            The entry.

        Raises
        ------
        UnknownLabelError
            If the case has no such entry.
        """
        kind = kind_of_record(record)
        entries = self.current.get(kind, {})
        if label not in entries:
            raise UnknownLabelError(kind_in_words(kind), label, tuple(entries))
        return entries[label]

    def record(self, record: type[RecordT], label: str) -> RecordT:
        """Give the record of one kind and name that holds now.

        Parameters
        ----------
        record : type of CaseRecord
            The kind, as its record class.
        label : str
            Short name.

        Returns
        -------
        CaseRecord
            The record.

        Raises
        ------
        UnknownLabelError
            If the case has no such entry.
        """
        body = self.entry(record, label).body
        if not isinstance(body, record):  # pragma: no cover - kinds map one to one
            raise UnknownLabelError(kind_in_words(kind_of_record(record)), label, ())
        return body


class StateBuilder:
    """Folds entries one by one, so that each can be checked against those before.

    Parameters
    ----------
    entries : iterable of Entry
        Entries to begin with.
    """

    def __init__(self, entries: Iterable[Entry] = ()) -> None:
        self._entries: list[Entry] = []
        self._current: dict[str, dict[str, Entry]] = {}
        self._files: dict[str, FileReference] = {}
        for entry in entries:
            self.add(entry)

    def add(self, entry: Entry) -> None:
        """Fold one more entry in.

        Parameters
        ----------
        entry : Entry
            The next entry.
        """
        self._entries.append(entry)
        self._current.setdefault(entry.kind, {})[entry.body.id] = entry
        for reference in entry.files:
            self._files.setdefault(reference.sha256, reference)

    def state(self) -> CaseState:
        """Give a frozen copy of the state so far.

        Returns
        -------
        CaseState
            What stands now.
        """
        return CaseState(
            tuple(self._entries),
            MappingProxyType(
                {
                    kind: MappingProxyType(dict(entries))
                    for kind, entries in self._current.items()
                }
            ),
            MappingProxyType(dict(self._files)),
        )

    def check(self, entry: Entry) -> None:
        """Check that an entry's name is free and that what it names exists.

        Parameters
        ----------
        entry : Entry
            The next entry, not yet added.
        """
        _check_name(self._current, entry.body, entry.supersedes)
        _check_links(self._current, set(self._files), entry.body, entry.files)


def fold(entries: Iterable[Entry]) -> CaseState:
    """Build the state of a case from its entries.

    Parameters
    ----------
    entries : iterable of Entry
        In order, already checked against their hashes.

    Returns
    -------
    CaseState
        What stands now.
    """
    return StateBuilder(entries).state()


def check_addition(
    state: CaseState,
    body: CaseRecord,
    *,
    supersedes: int | None = None,
    files: tuple[FileReference, ...] = (),
) -> None:
    """Check that a body may be added: its name is free, what it names exists.

    Parameters
    ----------
    state : CaseState
        State before the addition.
    body : CaseRecord
        Body to add.
    supersedes : int or None
        Number of the entry that it corrects.
    files : tuple of FileReference
        Files that come with it.
    """
    _check_name(state.current, body, supersedes)
    _check_links(state.current, set(state.files), body, files)


def _check_name(
    current: Mapping[str, Mapping[str, Entry]],
    body: CaseRecord,
    supersedes: int | None,
) -> None:
    """Check that the name is free, or that it corrects the entry that holds now.

    Raises
    ------
    DuplicateLabelError
        If the name is taken and no correction of that entry is meant.
    ParameterError
        If it corrects an entry that does not hold now, or of another kind or name.
    """
    kind = kind_of(body)
    holder = current.get(kind, {}).get(body.id)
    if supersedes is None and holder is not None:
        raise DuplicateLabelError(kind_in_words(kind), body.id)
    if supersedes is not None and (holder is None or holder.number != supersedes):
        raise ParameterError(
            "supersedes",
            supersedes,
            allowed=f"the number of the entry that holds now for {kind} {body.id}",
        )


def _check_links(
    current: Mapping[str, Mapping[str, Entry]],
    kept: set[str],
    body: CaseRecord,
    files: tuple[FileReference, ...],
) -> None:
    """Check that the entries and files that a body names are in the case.

    Raises
    ------
    UnknownLabelError
        If it names an entry or a file that the case does not have.
    """
    own = (kind_of(body), body.id)
    for link in entry_links(body):
        known = current.get(link.kind, {})
        if link.label not in known and (link.kind, link.label) != own:
            raise UnknownLabelError(kind_in_words(link.kind), link.label, tuple(known))
    kept = kept | {reference.sha256 for reference in files}
    for sha256 in file_links(body):
        if sha256 not in kept:
            raise UnknownLabelError("kept file", sha256, ())
