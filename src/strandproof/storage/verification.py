"""Checking a case from inside, and against a head kept outside."""

import hashlib
from collections.abc import Callable, Iterable
from dataclasses import dataclass
from pathlib import Path

from strandproof.errors import (
    DamagedCaseError,
    FutureEntryError,
    NotACaseError,
    StrandproofError,
)
from strandproof.records.case_state import NO_HEAD, StateBuilder, fold
from strandproof.records.entries import Entry, FileReference
from strandproof.storage.case_layout import (
    ENTRIES,
    FILES,
    SET_ASIDE,
    is_case,
    original_path,
)
from strandproof.storage.case_reading import split_lines
from strandproof.storage.entry_lines import decode_line
from strandproof.storage.private_files import sealed_path

Progress = Callable[[float, str], None]


@dataclass(frozen=True, slots=True)
class Difference:
    """Something in a case that is not as it was entered.

    Parameters
    ----------
    where : str
        File, and line where it has lines.
    what : str
        What differs.
    """

    where: str
    what: str


@dataclass(frozen=True, slots=True)
class Verification:
    """Outcome of checking a case.

    Parameters
    ----------
    head : str
        Hash of the last readable entry.
    entries : int
        Entries read.
    files : int
        Originals checked.
    differences : tuple of Difference
        What is not as it was entered; empty for a sound case.
    notices : tuple of str
        Remarks that are no fault.
    """

    head: str
    entries: int
    files: int
    differences: tuple[Difference, ...]
    notices: tuple[str, ...]

    @property
    def sound(self) -> bool:
        """True when nothing differs."""
        return not self.differences


def verify_case(
    folder: Path, *, head: str | None = None, progress: Progress | None = None
) -> Verification:
    """Recompute every hash and every link of a case.

    Parameters
    ----------
    folder : Path
        Folder of the case.
    head : str or None
        Head kept outside, for example printed on a report.
    progress : callable or None
        Called with a fraction and words; may raise to cancel.

    Returns
    -------
    Verification
        What was checked and what differs.

    Raises
    ------
    NotACaseError
        If the folder holds no case.

    Notes
    -----
    A changed byte of an entry or an original is found from inside. A record that
    was cut at the end, continued in good form, or rewritten as a whole can be
    found only with a head kept outside.
    """
    if not is_case(folder):
        raise NotACaseError(folder)
    entries, differences = _checked_entries((folder / ENTRIES).read_bytes())
    references = fold(entries).files
    for done, reference in enumerate(references.values()):
        if progress is not None:
            progress(done / len(references), f"original {reference.name}")
        differences.extend(_original_difference(folder, reference))
    for entry in entries:
        for commitment in entry.sealed:
            differences.extend(_sealed_difference(folder, commitment.sha256))
    current = entries[-1].sha256 if entries else NO_HEAD
    if head is not None:
        differences.extend(_head_difference(head.lower(), entries))
    return Verification(
        current,
        len(entries),
        len(references),
        tuple(differences),
        _notices(folder, references.values()),
    )


def _checked_entries(raw: bytes) -> tuple[list[Entry], list[Difference]]:
    lines, torn = split_lines(raw)
    entries: list[Entry] = []
    differences: list[Difference] = []
    previous: str | None = NO_HEAD
    builder = StateBuilder()
    for number, line in enumerate(lines, start=1):
        where = f"{ENTRIES}, line {number}"
        try:
            entry = decode_line(line, number, previous)
        except (DamagedCaseError, FutureEntryError) as error:
            differences.append(Difference(where, str(error)))
            previous = None
            continue
        if not differences:  # after damage, missing names are only its echo
            differences.extend(_broken_reference(builder, entry, where))
        builder.add(entry)
        entries.append(entry)
        previous = entry.sha256
    if not lines and not torn:
        differences.append(Difference(ENTRIES, "it is empty"))
    if torn:
        what = f"{len(torn)} bytes follow the last line end: an unfinished or cut line"
        differences.append(Difference(f"{ENTRIES}, line {len(lines) + 1}", what))
    return entries, differences


def _broken_reference(
    builder: StateBuilder, entry: Entry, where: str
) -> list[Difference]:
    try:
        builder.check(entry)
    except StrandproofError as error:
        return [Difference(where, str(error))]
    return []


def _original_difference(folder: Path, reference: FileReference) -> list[Difference]:
    path = original_path(reference)
    try:
        with (folder / path).open("rb") as stream:
            found = hashlib.file_digest(stream, "sha256").hexdigest()
    except FileNotFoundError:
        return [Difference(str(path), f"missing; it came as {reference.name}")]
    except OSError as error:
        return [Difference(str(path), f"not readable: {error.strerror}")]
    if found != reference.sha256:
        return [Difference(str(path), f"changed: its SHA-256 is now {found}")]
    return []


def _sealed_difference(folder: Path, sha256: str) -> list[Difference]:
    """Check a sealed file where it is; a case given away comes without private/."""
    path = sealed_path(folder, sha256)
    if not path.is_file():
        return []
    found = hashlib.sha256(path.read_bytes()).hexdigest()
    if found == sha256:
        return []
    where = path.relative_to(folder).as_posix()
    return [Difference(where, f"changed: its SHA-256 is now {found}")]


def _head_difference(head: str, entries: list[Entry]) -> list[Difference]:
    numbers = {entry.sha256: entry.number for entry in entries}
    last = len(entries)
    if head not in numbers:
        what = (
            f"no entry has the head {head}: the record was cut or rewritten since, "
            "or the head belongs to another case"
        )
        return [Difference("head", what)]
    if numbers[head] != last:
        what = (
            f"the head {head} is that of entry {numbers[head]}; "
            f"{last - numbers[head]} entries follow it that it does not cover"
        )
        return [Difference("head", what)]
    return []


def _notices(folder: Path, references: Iterable[FileReference]) -> tuple[str, ...]:
    known = {str(original_path(reference)) for reference in references}
    found = {
        path.relative_to(folder).as_posix()
        for path in (folder / FILES).rglob("*")
        if path.is_file()
    }
    notices = [
        f"{name} is named by no entry (left by an interruption, or put there by hand)"
        for name in sorted(found - known)
    ]
    aside = folder / SET_ASIDE
    if aside.is_dir():
        notices += [
            f"{SET_ASIDE}/{path.name}: an unfinished line set aside earlier"
            for path in sorted(aside.iterdir())
        ]
    return tuple(notices)
