"""Reading a case folder: entries, and whatever an interrupted writer left behind."""

from dataclasses import dataclass
from pathlib import Path

from strandproof.errors import DamagedCaseError, NotACaseError
from strandproof.records.case_state import NO_HEAD, CaseState, fold
from strandproof.records.entries import Entry
from strandproof.storage.case_layout import ENTRIES, is_case, original_path
from strandproof.storage.entry_lines import decode_line


@dataclass(frozen=True, slots=True)
class CaseContents:
    """What a case folder holds.

    Parameters
    ----------
    state : CaseState
        State folded from all complete entries.
    torn : bytes
        Unfinished last line after an interruption; empty normally.
    complete_bytes : int
        Length of entries.jsonl up to the end of the last whole entry [bytes].
    lacks_line_end : bool
        True when the last entry is whole but its line end is missing.
    """

    state: CaseState
    torn: bytes
    complete_bytes: int
    lacks_line_end: bool


def read_case(folder: Path) -> CaseContents:
    """Read and check all entries of a case; originals are not opened.

    Parameters
    ----------
    folder : Path
        Folder of the case.

    Returns
    -------
    CaseContents
        State, and an unfinished last line if there is one.

    Raises
    ------
    NotACaseError
        If the folder holds no case.
    DamagedCaseError
        If an entry does not agree with its hash, link, number or shape.
    FutureEntryError
        If an entry is of a newer schema version.
    """
    if not is_case(folder):
        raise NotACaseError(folder)
    raw = (folder / ENTRIES).read_bytes()
    lines, torn = split_lines(raw)
    entries: list[Entry] = []
    for number, line in enumerate(lines, start=1):
        previous = entries[-1].sha256 if entries else NO_HEAD
        entries.append(decode_line(line, number, previous))
    last = _whole_entry_at_end(torn, entries)
    if last is not None:
        return CaseContents(fold([*entries, last]), b"", len(raw), lacks_line_end=True)
    return CaseContents(fold(entries), torn, len(raw) - len(torn), lacks_line_end=False)


def split_lines(raw: bytes) -> tuple[list[bytes], bytes]:
    r"""Split into complete lines and the unfinished rest.

    Parameters
    ----------
    raw : bytes
        Content of entries.jsonl.

    Returns
    -------
    lines : list of bytes
        Complete lines without their line ends.
    torn : bytes
        What follows the last line end.

    Examples
    --------
    >>> split_lines(b'{"a":1}\n{"b"')
    ([b'{"a":1}'], b'{"b"')
    """
    *lines, torn = raw.split(b"\n")
    return lines, torn


def original_file(folder: Path, state: CaseState, sha256: str) -> Path:
    """Give the path of an original of the case.

    Parameters
    ----------
    folder : Path
        Folder of the case.
    state : CaseState
        Its state.
    sha256 : str
        Hash of the original.

    Returns
    -------
    Path
        Where it lies.
    """
    return folder / original_path(state.files[sha256])


def _whole_entry_at_end(torn: bytes, entries: list[Entry]) -> Entry | None:
    """Find a whole entry in what follows the last line end.

    An interrupted writer leaves the beginning of a line, which is set aside. A
    whole entry may have been acknowledged and must not be lost: without its line
    end it counts; with a changed line end the file was damaged.

    Raises
    ------
    DamagedCaseError
        If a whole entry is followed by anything but a line end.
    """
    number = len(entries) + 1
    previous = entries[-1].sha256 if entries else NO_HEAD
    try:
        return decode_line(torn, number, previous)
    except DamagedCaseError:
        pass
    try:
        decode_line(torn[:-1], number, previous)
    except DamagedCaseError:
        return None
    raise DamagedCaseError(number, "the line end of a whole entry was changed")
