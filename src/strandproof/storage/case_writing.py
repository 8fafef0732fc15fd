"""Writing to a case: one writer at a time, nothing overwritten, nothing half done."""

import hashlib
import os
import secrets
import shutil
from collections.abc import Sequence
from contextlib import ExitStack
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path
from types import TracebackType
from typing import Self

from filelock import FileLock, Timeout

from strandproof.errors import (
    CaseBusyError,
    CaseExistsError,
    ChangedOriginalError,
    NotACaseError,
    WriteFailedError,
)
from strandproof.records.case_state import NO_HEAD, CaseState, StateBuilder
from strandproof.records.entries import Case, CaseRecord, Entry, FileReference
from strandproof.storage.case_layout import (
    CACHE,
    ENTRIES,
    FILES,
    LOCK,
    PRIVATE,
    README,
    README_TEXT,
    SET_ASIDE,
    is_case,
    original_path,
)
from strandproof.storage.case_reading import CaseContents, read_case
from strandproof.storage.durable import sync_folder, write_all, write_durably
from strandproof.storage.entry_lines import encode_line, seal_entry
from strandproof.storage.private_files import SealedContent, write_sealed


def create_case(
    folder: Path, case: Case, *, recorded_by: str, recorded_at: datetime
) -> Entry:
    """Start a case in a new or empty folder.

    The folder is made complete under another name and then renamed, so that an
    interruption leaves no half case behind.

    Parameters
    ----------
    folder : Path
        Where; must not exist, or be empty.
    case : Case
        The case's own record.
    recorded_by : str
        Who starts it.
    recorded_at : datetime
        Now, with time zone.

    Returns
    -------
    Entry
        The first entry.

    Raises
    ------
    CaseExistsError
        If the folder holds anything.
    WriteFailedError
        If the system refuses.
    """
    if folder.exists() and (not folder.is_dir() or any(folder.iterdir())):
        raise CaseExistsError(folder)
    entry = seal_entry(
        case,
        number=1,
        previous_sha256=NO_HEAD,
        recorded_at=recorded_at,
        recorded_by=recorded_by,
    )
    draft = folder.with_name(f".{folder.name}.{secrets.token_hex(6)}.part")
    try:
        for part in (FILES, PRIVATE, CACHE):
            (draft / part).mkdir(parents=True)
        write_durably(draft / README, README_TEXT.encode("utf-8"))
        write_durably(draft / ENTRIES, encode_line(entry))
        draft.replace(folder)
        sync_folder(folder.parent)
    except OSError as error:
        shutil.rmtree(draft, ignore_errors=True)
        raise WriteFailedError(folder, error.strerror or str(error)) from error
    return entry


@dataclass(frozen=True, slots=True)
class Original:
    """A file on its way into the case.

    Parameters
    ----------
    content : bytes
        The bytes as they came.
    name : str
        Name that the file came with.
    media_type : str
        Kind of file, for example ``image/tiff``.
    """

    content: bytes
    name: str
    media_type: str

    @property
    def sha256(self) -> str:
        """SHA-256 of the content, in hexadecimal."""
        return hashlib.sha256(self.content).hexdigest()


@dataclass(frozen=True, slots=True)
class Addition:
    """One entry to be made.

    Parameters
    ----------
    body : CaseRecord
        What is entered.
    originals : tuple of Original
        Files that it brings into the case.
    supersedes : int or None
        Number of the entry that it corrects.
    reason : str
        Why.
    sealed : tuple of SealedContent
        What goes into private/; the entry holds only its hash.
    """

    body: CaseRecord
    originals: tuple[Original, ...] = ()
    supersedes: int | None = None
    reason: str = ""
    sealed: tuple[SealedContent, ...] = ()


class CaseWriter:
    """The one writer of a case; use as a context manager.

    Parameters
    ----------
    folder : Path
        Folder of the case.
    """

    def __init__(self, folder: Path) -> None:
        self._folder = folder
        self._lock = FileLock(folder / LOCK, timeout=0)
        self._contents: CaseContents | None = None

    def __enter__(self) -> Self:
        """Take the lock, read the case, set an unfinished last line aside.

        Returns
        -------
        CaseWriter
            The writer.

        Raises
        ------
        NotACaseError
            If the folder holds no case.
        CaseBusyError
            If somebody else writes.
        """
        if not is_case(self._folder):
            raise NotACaseError(self._folder)
        with ExitStack() as undo:
            try:
                undo.enter_context(self._lock)
            except Timeout:
                raise CaseBusyError(self._folder) from None
            self._contents = read_case(self._folder)
            self._mend_end()
            undo.pop_all()  # all went well: the lock stays until the block ends
        return self

    def __exit__(
        self,
        kind: type[BaseException] | None,
        error: BaseException | None,
        trace: TracebackType | None,
    ) -> None:
        self._lock.release()
        self._contents = None

    @property
    def state(self) -> CaseState:
        """State of the case, with everything appended so far."""
        return self._open_contents.state

    @property
    def _open_contents(self) -> CaseContents:
        if self._contents is None:
            msg = "the writer is used outside of its 'with' block"
            raise RuntimeError(msg)
        return self._contents

    def append(
        self, *additions: Addition, recorded_by: str, recorded_at: datetime
    ) -> tuple[Entry, ...]:
        """Add entries with their originals; when this returns, all is on disk.

        Everything is checked before anything is written. The entries go into one
        write; an interruption leaves the first of them or none.

        Parameters
        ----------
        *additions : Addition
            What is entered, in order; a later one may name an earlier one.
        recorded_by : str
            Who enters it.
        recorded_at : datetime
            Now, with time zone.

        Returns
        -------
        tuple of Entry
            The entries as written.
        """
        state = self.state
        builder = StateBuilder(state.entries)
        sealed: list[Entry] = []
        for addition in additions:
            entry = seal_entry(
                addition.body,
                number=len(state.entries) + len(sealed) + 1,
                previous_sha256=sealed[-1].sha256 if sealed else state.head,
                recorded_at=recorded_at,
                recorded_by=recorded_by,
                supersedes=addition.supersedes,
                reason=addition.reason,
                files=tuple(map(self._reference, addition.originals)),
                sealed=tuple(each.commitment for each in addition.sealed),
            )
            builder.check(entry)
            builder.add(entry)
            sealed.append(entry)
        for addition in additions:
            for original in addition.originals:
                self._keep(original)
            for kept_back in addition.sealed:
                write_sealed(self._folder, kept_back)
        self._append_lines(sealed, builder.state())
        return tuple(sealed)

    def _reference(self, original: Original) -> FileReference:
        return self.state.files.get(original.sha256) or FileReference(
            sha256=original.sha256,
            name=original.name,
            media_type=original.media_type,
            size_bytes=len(original.content),
        )

    def _keep(self, original: Original) -> None:
        """Keep an original under its hash; the same bytes are kept once.

        Raises
        ------
        ChangedOriginalError
            If a file of that hash is there but with other bytes.
        """
        path = self._folder / original_path(self._reference(original))
        if path.exists():
            found = hashlib.sha256(path.read_bytes()).hexdigest()
            if found != original.sha256:
                raise ChangedOriginalError(path.name, found)
            return
        path.parent.mkdir(parents=True, exist_ok=True)
        sync_folder(path.parent.parent)
        write_durably(path, original.content, mode=0o444)

    def _append_lines(self, entries: Sequence[Entry], state: CaseState) -> None:
        lines = b"".join(map(encode_line, entries))
        end = self._open_contents.complete_bytes
        self._write_at(end, lines)
        self._contents = CaseContents(
            state, b"", end + len(lines), lacks_line_end=False
        )

    def _write_at(self, end: int, data: bytes) -> None:
        """Append at a known end; take back a part that the system refused.

        Raises
        ------
        CaseBusyError
            If somebody changed the file without the lock.
        WriteFailedError
            If the system refuses.
        """
        path = self._folder / ENTRIES
        descriptor = os.open(path, os.O_WRONLY | os.O_APPEND)
        try:
            if os.fstat(descriptor).st_size != end:
                raise CaseBusyError(self._folder)
            try:
                write_all(descriptor, data)
                os.fsync(descriptor)
            except OSError as error:
                os.ftruncate(descriptor, end)
                raise WriteFailedError(path, error.strerror or str(error)) from error
        finally:
            os.close(descriptor)

    def _mend_end(self) -> None:
        """Give the last entry its line end, or set an unfinished line aside."""
        contents = self._open_contents
        end = contents.complete_bytes
        if contents.lacks_line_end:
            self._write_at(end, b"\n")
            end += 1
        elif contents.torn:
            self._set_aside(contents.torn, end)
        self._contents = CaseContents(contents.state, b"", end, lacks_line_end=False)

    def _set_aside(self, torn: bytes, end: int) -> None:
        folder = self._folder / SET_ASIDE
        folder.mkdir(exist_ok=True)
        name = f"after-byte-{end}-{hashlib.sha256(torn).hexdigest()[:12]}.txt"
        write_durably(folder / name, torn)
        os.truncate(self._folder / ENTRIES, end)
