"""Use cases that enter something into a case."""

import mimetypes
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

from strandproof.app.workflow.claiming.questions import (
    claim_questions,
    refuse_open_questions,
)
from strandproof.app.workflow.fixed_entries import refuse_changing_fixed
from strandproof.app.workflow.keeping.gate import refuse_uncountable
from strandproof.app.workflow.reading_locks import refuse_locked_change
from strandproof.app.workflow.receiving.keeping import (
    may_use_up,
    refuse_using_kept_parts,
)
from strandproof.app.workflow.resize_guarding import refuse_resized
from strandproof.errors import (
    ClaimQuestionsError,
    MissingFileError,
    ParameterError,
    PictureAlreadyUsedError,
)
from strandproof.quantity import Quantity
from strandproof.records.case_state import CaseState
from strandproof.records.entries import (
    Calibration,
    Case,
    Entry,
    Micrograph,
)
from strandproof.records.entries.building import build_body
from strandproof.records.entries.numbers import quantity_of
from strandproof.storage import (
    Addition,
    CaseWriter,
    Original,
    create_case,
    read_case,
    read_picture,
)

Fields = Mapping[str, Any]

_CROPPED = "cut out of a whole frame, its pixels unchanged (said when entered)"


def utc_now() -> datetime:
    """Give the present moment.

    Returns
    -------
    datetime
        Now, in UTC, to the second.
    """
    return datetime.now(UTC).replace(microsecond=0)


@dataclass(frozen=True, slots=True)
class Desk:
    """A case on the desk of somebody who works on it.

    Parameters
    ----------
    folder : Path
        Folder of the case.
    person : str
        Who enters things.
    clock : callable
        Gives the present moment; a demo or a test brings its own.
    """

    folder: Path
    person: str
    clock: Callable[[], datetime] = utc_now

    def add(self, *additions: Addition) -> tuple[Entry, ...]:
        """Enter things under this person's name and the present moment.

        Parameters
        ----------
        *additions : Addition
            Bodies with their originals, in order.

        Returns
        -------
        tuple of Entry
            The entries as written.

        Raises
        ------
        KeptPartError
            If a maker's or referee's part would be used up too early.
        """
        risky = [each.body for each in additions if may_use_up(each.body)]
        if risky:
            state = open_case(self.folder)
            refuse_using_kept_parts(state, risky, now=self.clock())
        with CaseWriter(self.folder) as writer:
            return writer.append(
                *additions, recorded_by=self.person, recorded_at=self.clock()
            )


def start_case(desk: Desk, fields: Fields) -> Entry:
    """Start a case in a new or empty folder.

    Parameters
    ----------
    desk : Desk
        Folder and person.
    fields : mapping
        Fields of the record `Case`.

    Returns
    -------
    Entry
        The first entry.

    Raises
    ------
    ParameterError
        If the fields are not those of a case.
    """
    body = build_body("case", fields)
    if not isinstance(body, Case):  # pragma: no cover - the registry says so
        raise ParameterError("case", body, allowed="a case record")
    return create_case(
        desk.folder, body, recorded_by=desk.person, recorded_at=desk.clock()
    )


@dataclass(frozen=True, slots=True)
class Correction:
    """Which earlier entry a new one corrects, and why; both stay visible.

    Parameters
    ----------
    entry : int
        Number of the entry that holds now.
    reason : str
        Why it is corrected.
    """

    entry: int
    reason: str


def enter(
    desk: Desk,
    kind: str,
    fields: Fields,
    *,
    files: Mapping[str, Path] | None = None,
    corrects: Correction | None = None,
) -> Entry:
    """Enter anything that a case can hold, with the files that belong to it.

    Parameters
    ----------
    desk : Desk
        Folder and person.
    kind : str
        Kind of entry.
    fields : mapping
        Fields of its record.
    files : mapping of str to Path or None
        Field that holds a file's hash, and the file to keep for it.
    corrects : Correction or None
        The earlier entry that this one corrects.

    Returns
    -------
    Entry
        The entry as written.

    Raises
    ------
    ReadingLockedError
        If a locked reading would be changed or locked a second time.
    FixedEntryError
        If a lock, a deviation or a sealed list would be changed or made by hand.
    """
    originals = {name: read_original(path) for name, path in (files or {}).items()}
    hashes = {name: original.sha256 for name, original in originals.items()}
    body = build_body(kind, {**fields, **hashes})
    refuse_changing_fixed(body, corrects=corrects is not None)
    state = open_case(desk.folder)
    refuse_locked_change(state, body)
    refuse_uncountable(state, body)
    addition = Addition(
        body,
        tuple(originals.values()),
        supersedes=None if corrects is None else corrects.entry,
        reason="" if corrects is None else corrects.reason,
    )
    return desk.add(addition)[0]


def enter_together(
    desk: Desk, drafts: Sequence[tuple[str, Fields]]
) -> tuple[Entry, ...]:
    """Enter several things without files at once, under the rules of `enter`.

    Parameters
    ----------
    desk : Desk
        Folder and person.
    drafts : sequence of (str, mapping)
        Kind and fields of each, in order.

    Returns
    -------
    tuple of Entry
        The entries as written; all, or none where one is refused.

    Raises
    ------
    ReadingLockedError
        If a locked reading would be changed or locked a second time.
    FixedEntryError
        If a lock, a deviation or a sealed list would be changed or made by hand.
    """
    bodies = [build_body(kind, fields) for kind, fields in drafts]
    state = open_case(desk.folder)
    for body in bodies:
        refuse_changing_fixed(body, corrects=False)
        refuse_locked_change(state, body)
        refuse_uncountable(state, body)
    return desk.add(*map(Addition, bodies))


def enter_claim(
    desk: Desk, fields: Fields, *, capture: Path | None
) -> tuple[Entry, ...]:
    """Freeze a claim: keep the copy of what was seen, and enter the words.

    Parameters
    ----------
    desk : Desk
        Folder and person.
    fields : mapping
        Fields of the record `Claim`, without ``captures``.
    capture : Path or None
        File that shows the words: screenshot, photograph, document, recording; with
        none the claim is refused like one without a speaker.

    Returns
    -------
    tuple of Entry
        Entries of the capture and of the claim.

    Raises
    ------
    ClaimQuestionsError
        If words, speaker, medium, date or file are missing.
    """
    if capture is None:
        raise ClaimQuestionsError(claim_questions(fields, has_file=False))
    refuse_open_questions(fields, has_file=True)
    label = f"{fields.get('id', '')}-capture"
    claim = build_body("claim", {**fields, "captures": (label,)})
    original = read_original(capture)
    seen = {
        "id": label,
        "medium": fields["medium"],
        "place": fields.get("place") or fields["medium"],
        "captured_at": fields["said_at"],
        "captured_by": desk.person,
        "file_sha256": original.sha256,
    }
    return desk.add(Addition(build_body("capture", seen), (original,)), Addition(claim))


def enter_exhibit(desk: Desk, fields: Fields, *, pictures: Sequence[Path]) -> Entry:
    """Take a thing in for examination, with the pictures made on arrival.

    Parameters
    ----------
    desk : Desk
        Folder and person.
    fields : mapping
        Fields of the record `Exhibit`, without ``pictures``.
    pictures : sequence of Path
        Pictures to keep.

    Returns
    -------
    Entry
        The entry as written.
    """
    originals = tuple(map(read_original, pictures))
    hashes = tuple(original.sha256 for original in originals)
    body = build_body("exhibit", {**fields, "pictures": hashes})
    return desk.add(Addition(body, originals))[0]


def enter_micrograph(
    desk: Desk,
    fields: Fields,
    *,
    picture: Path,
    page: int | None = None,
    cropped: bool = False,
) -> Entry:
    """Enter a micrograph of a section: the original is kept, its size noted.

    Parameters
    ----------
    desk : Desk
        Folder and person.
    fields : mapping
        Fields of the record `Micrograph` other than file, page and size.
    picture : Path
        The picture as it left the camera.
    page : int or None
        Page, for files with several.
    cropped : bool
        True when it was cut out of a whole frame and its pixels were not changed;
        noted among its edits.

    Returns
    -------
    Entry
        The entry as written.

    Raises
    ------
    PictureAlreadyUsedError
        If the case already holds this picture.
    """
    state = open_case(desk.folder)
    decoded = read_picture(
        picture, page=page, um_per_px=_pixel_size(state, fields.get("calibration"))
    )
    for other in state.records(Micrograph):
        if (other.file_sha256, other.page) == (decoded.sha256, decoded.page):
            raise PictureAlreadyUsedError(other.id, other.section)
    calibration = fields.get("calibration")
    refuse_resized(
        desk.folder, state, decoded, calibration=calibration, cropped=cropped
    )
    rows, columns = decoded.pixels.shape[:2]
    marked = any(flag.name == "synthetic" for flag in decoded.flags)
    found = {
        "file_sha256": decoded.sha256,
        "page": decoded.page,
        "width_px": columns,
        "height_px": rows,
        "synthetic": bool(fields.get("synthetic")) or marked,
        "edits": (*fields.get("edits", ()), *((_CROPPED,) if cropped else ())),
    }
    body = build_body("micrograph", {**fields, **found})
    return desk.add(Addition(body, (read_original(picture),)))[0]


def open_case(folder: Path) -> CaseState:
    """Read a case.

    Parameters
    ----------
    folder : Path
        Folder of the case.

    Returns
    -------
    CaseState
        What stands in it now.
    """
    return read_case(folder).state


def read_original(path: Path) -> Original:
    """Read a file that somebody brings into a case.

    Parameters
    ----------
    path : Path
        The file.

    Returns
    -------
    Original
        Content, name and kind of file.

    Raises
    ------
    MissingFileError
        If it is not there or cannot be read.
    """
    media_type = mimetypes.guess_type(path.name)[0] or "application/octet-stream"
    try:
        return Original(path.read_bytes(), path.name, media_type)
    except OSError as error:
        raise MissingFileError(path, error.strerror or str(error)) from error


def _pixel_size(state: CaseState, calibration: str | None) -> Quantity | None:
    if calibration is None:
        return None
    return quantity_of(state.record(Calibration, calibration).pixel_size)
