"""Writing to a case: one writer at a time, nothing overwritten, nothing half done."""

import hashlib
import os
import secrets
import shutil
from datetime import datetime
from pathlib import Path
from types import TracebackType
from typing import Self

from filelock import FileLock, Timeout

from strandproof.errors import (
    CaseBusyError,
    CaseExistsError,
    DamagedCaseError,
    NotACaseError,
    WriteFailedError,
)
from strandproof.records.case_state import NO_HEAD, CaseState, check_addition, fold
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
        try:
            self._lock.acquire()
        except Timeout:
            raise CaseBusyError(self._folder) from None
        try:
            self._contents = read_case(self._folder)
            self._mend_end()
        except BaseException:
            self._lock.release()
            raise
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
        self,
        body: CaseRecord,
        *,
        recorded_by: str,
        recorded_at: datetime,
        files: tuple[FileReference, ...] = (),
        supersedes: int | None = None,
        reason: str = "",
    ) -> Entry:
        """Add one entry; when this returns, it is on disk.

        Parameters
        ----------
        body : CaseRecord
            What is entered.
        recorded_by : str
            Who enters it.
        recorded_at : datetime
            Now, with time zone.
        files : tuple of FileReference
            Files kept for it, from `keep_file`.
        supersedes : int or None
            Number of the entry that it corrects.
        reason : str
            Why.

        Returns
        -------
        Entry
            The entry as written.
        """
        state = self.state
        check_addition(state, body, supersedes=supersedes, files=files)
        entry = seal_entry(
            body,
            number=len(state.entries) + 1,
            previous_sha256=state.head,
            recorded_at=recorded_at,
            recorded_by=recorded_by,
            supersedes=supersedes,
            reason=reason,
            files=files,
        )
        self._append_line(entry)
        return entry

    def keep_file(self, content: bytes, *, name: str, media_type: str) -> FileReference:
        """Keep an original under its hash; the same bytes are kept once.

        Parameters
        ----------
        content : bytes
            The bytes as they came.
        name : str
            Name that the file came with.
        media_type : str
            Kind of file.

        Returns
        -------
        FileReference
            What an entry says of it.

        Raises
        ------
        DamagedCaseError
            If a file of that hash is there but with other bytes.
        """
        sha256 = hashlib.sha256(content).hexdigest()
        reference = self.state.files.get(sha256) or FileReference(
            sha256=sha256, name=name, media_type=media_type, size_bytes=len(content)
        )
        path = self._folder / original_path(reference)
        if path.exists():
            if hashlib.sha256(path.read_bytes()).hexdigest() != sha256:
                raise DamagedCaseError(0, f"{path.name} no longer has its own hash")
            return reference
        path.parent.mkdir(parents=True, exist_ok=True)
        sync_folder(path.parent.parent)
        write_durably(path, content, mode=0o444)
        return reference

    def _append_line(self, entry: Entry) -> None:
        contents = self._open_contents
        line = encode_line(entry)
        self._write_at(contents.complete_bytes, line)
        self._contents = CaseContents(
            fold((*contents.state.entries, entry)),
            b"",
            contents.complete_bytes + len(line),
            lacks_line_end=False,
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
