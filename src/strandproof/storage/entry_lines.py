"""One entry, one line: canonical JSON (RFC 8785), hashed and chained. No disk here."""

import hashlib
import json
from datetime import datetime
from typing import Any

import rfc8785
from pydantic import ValidationError

from strandproof.errors import DamagedCaseError, FutureEntryError, InvalidEntryError
from strandproof.records.entries import (
    ENTRY_KINDS,
    SCHEMA_VERSION,
    CaseRecord,
    Entry,
    FileReference,
    kind_in_words,
    kind_of,
)
from strandproof.records.entries.bodies import Commitment
from strandproof.records.entries.building import faults_in_words


def seal_entry(  # noqa: PLR0913 - the fields of an envelope, all by keyword
    body: CaseRecord,
    *,
    number: int,
    previous_sha256: str,
    recorded_at: datetime,
    recorded_by: str,
    supersedes: int | None = None,
    reason: str = "",
    files: tuple[FileReference, ...] = (),
    sealed: tuple[Commitment, ...] = (),
) -> Entry:
    """Put a body into its envelope, with both hashes.

    Parameters
    ----------
    body : CaseRecord
        What is entered.
    number : int
        Place in the case, counted from 1.
    previous_sha256 : str
        Hash of the entry before.
    recorded_at : datetime
        Now, with time zone.
    recorded_by : str
        Who enters it.
    supersedes : int or None
        Number of the entry that it corrects.
    reason : str
        Why.
    files : tuple of FileReference
        Files that it brings into the case.
    sealed : tuple of Commitment
        Things kept back, by hash only.

    Returns
    -------
    Entry
        The entry, ready to be written.

    Raises
    ------
    InvalidEntryError
        If a field of the envelope does not fit.

    Notes
    -----
    The hash is SHA-256 over the canonical JSON (RFC 8785) of the entry without
    its field ``sha256``.
    """
    draft = {
        "number": number,
        "kind": kind_of(body),
        "recorded_at": recorded_at,
        "recorded_by": recorded_by,
        "supersedes": supersedes,
        "reason": reason,
        "files": files,
        "sealed": sealed,
        "body": body,
        "previous_sha256": previous_sha256,
        "sha256": "0" * 64,
    }
    try:
        entry = Entry.model_validate(draft)
    except ValidationError as error:
        raise InvalidEntryError(
            kind_in_words(kind_of(body)), faults_in_words(error)
        ) from None
    return entry.model_copy(update={"sha256": content_sha256(entry.to_json_data())})


def content_sha256(data: dict[str, Any]) -> str:
    """Hash an entry's data without its own hash.

    Parameters
    ----------
    data : dict
        Entry as plain JSON data.

    Returns
    -------
    str
        SHA-256 in hexadecimal.
    """
    content = {key: value for key, value in data.items() if key != "sha256"}
    return hashlib.sha256(rfc8785.dumps(content)).hexdigest()


def encode_line(entry: Entry) -> bytes:
    """Write an entry as one line of canonical JSON, with its line end.

    Parameters
    ----------
    entry : Entry
        A sealed entry.

    Returns
    -------
    bytes
        UTF-8, ended by a line feed.
    """
    return rfc8785.dumps(entry.to_json_data()) + b"\n"


def decode_line(line: bytes, number: int, previous_sha256: str | None) -> Entry:
    """Read one line and check everything that it says about itself.

    Parameters
    ----------
    line : bytes
        The line, without its line end.
    number : int
        Its place in the file, counted from 1.
    previous_sha256 : str or None
        Hash of the entry before; None when that is unknown, which skips the
        check of this one link.

    Returns
    -------
    Entry
        The entry.

    Raises
    ------
    DamagedCaseError
        If the line is no canonical JSON, or its hash, number, link or shape does
        not agree.
    FutureEntryError
        If the line is sound but of a newer schema version.
    """
    data = parse_canonical(line, number)
    if data.get("sha256") != content_sha256(data):
        raise DamagedCaseError(number, "the content does not agree with its hash")
    version = data.get("schema_version")
    if isinstance(version, int) and version > SCHEMA_VERSION:
        raise FutureEntryError(number, version, SCHEMA_VERSION)
    if previous_sha256 is not None and data.get("previous_sha256") != previous_sha256:
        raise DamagedCaseError(
            number, "it does not follow the entry before: the link differs"
        )
    if data.get("number") != number:
        raise DamagedCaseError(number, f"it carries the number {data.get('number')}")
    return _validated(data, number)


def parse_canonical(line: bytes, number: int) -> dict[str, Any]:
    """Parse a line as canonical JSON.

    Parameters
    ----------
    line : bytes
        The line, without its line end.
    number : int
        Its place in the file, for the message.

    Returns
    -------
    dict
        Plain JSON data.

    Raises
    ------
    DamagedCaseError
        If the line is not exactly the canonical JSON of an object.
    """
    try:
        data = json.loads(line.decode("utf-8"))
        canonical = rfc8785.dumps(data)
    except (ValueError, RecursionError) as error:  # includes Unicode and JSON faults
        raise DamagedCaseError(number, f"it is not readable ({error})") from None
    if canonical != line or not isinstance(data, dict):
        raise DamagedCaseError(number, "it is not canonical JSON (RFC 8785)")
    return data


def _validated(data: dict[str, Any], number: int) -> Entry:
    """Build the entry from sound data.

    Raises
    ------
    DamagedCaseError
        If the kind is unknown or a field does not fit.
    """
    kind = str(data.get("kind"))
    if kind not in ENTRY_KINDS:
        raise DamagedCaseError(number, f"its kind {kind!r} is not known")
    try:
        body = ENTRY_KINDS[kind].model_validate(data.get("body"))
        return Entry.model_validate({**data, "body": body})
    except ValidationError as error:
        raise DamagedCaseError(number, " ".join(faults_in_words(error))) from None
