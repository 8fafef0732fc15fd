"""Use cases of redaction: a blacked-out copy is shown, the whole stays sealed.

The hash of the whole is public from the first day, so that a later opening can be held
against it.
"""

from dataclasses import dataclass
from pathlib import Path

from strandproof.app.workflow.entering import Desk, open_case, read_original
from strandproof.app.workflow.new_file import require_new_file
from strandproof.errors import ParameterError, SealMismatchError
from strandproof.records.commitments import commitment_sha256
from strandproof.records.entries import Entry, Redaction
from strandproof.storage import (
    Addition,
    SealedContent,
    read_sealed,
    seal_content,
    write_output_file,
)


@dataclass(frozen=True, slots=True, kw_only=True)
class RedactedFile:
    """A file and its blacked-out copy.

    Parameters
    ----------
    whole, shown : Path
        The file as it is, and the copy that may be seen.
    removed : str
        What kind of thing was removed, for example ``"postal address"``.
    reason : str
        Why.
    """

    whole: Path
    shown: Path
    removed: str
    reason: str


def redact(
    desk: Desk, label: str, file: RedactedFile, *, sealed: SealedContent | None = None
) -> Entry:
    """Keep a blacked-out copy with the case, and the whole under private/.

    Parameters
    ----------
    desk : Desk
        Folder and person.
    label : str
        Short name of the redaction.
    file : RedactedFile
        The file and its copy.
    sealed : SealedContent or None
        The whole with a salt of one's own; None draws one.

    Returns
    -------
    Entry
        The redaction, with the hash of the sealed whole.

    Raises
    ------
    ParameterError
        If the copy is the whole file.
    """
    whole, shown = read_original(file.whole), read_original(file.shown)
    if whole.content == shown.content:
        raise ParameterError(
            "redacted copy",
            file.shown.name,
            allowed="a file that differs from the original",
            remedy="Black out what is private and save the copy under another name.",
        )
    words = f"unredacted file, without: {file.removed}"
    kept = seal_content(whole.content, words) if sealed is None else sealed
    body = Redaction(
        id=label,
        file_sha256=shown.sha256,
        commitment_sha256=kept.commitment.sha256,
        removed=file.removed,
        reason=file.reason,
    )
    return desk.add(Addition(body, (shown,), sealed=(kept,)))[0]


def reveal(folder: Path, label: str, target: Path) -> str:
    """Write the whole of a redacted file, for somebody who may see it.

    Nothing is entered; the case stays as it is.

    Parameters
    ----------
    folder : Path
        Folder of the case, with its private/.
    label : str
        Short name of the redaction.
    target : Path
        New file.

    Returns
    -------
    str
        The salt in hexadecimal, which its check needs.
    """
    require_new_file(target)
    redaction = open_case(folder).record(Redaction, label)
    kept = read_sealed(folder, redaction.commitment_sha256)
    write_output_file(target, kept.content)
    return kept.salt.hex()


def check_revealed(folder: Path, label: str, whole: Path, salt_hex: str) -> str:
    """Check a file that was revealed against the hash that was public before.

    Needs nothing of private/; anyone with the public case can do it.

    Parameters
    ----------
    folder : Path
        Folder of the case.
    label : str
        Short name of the redaction.
    whole : Path
        The file.
    salt_hex : str
        Its salt in hexadecimal.

    Returns
    -------
    str
        The hash that both agree on.

    Raises
    ------
    ParameterError
        If the salt is not in hexadecimal.
    SealMismatchError
        If the file is another one.
    """
    expected = open_case(folder).record(Redaction, label).commitment_sha256
    try:
        salt = bytes.fromhex(salt_hex)
    except ValueError:
        raise ParameterError(
            "salt", salt_hex, allowed="64 hexadecimal digits"
        ) from None
    found = commitment_sha256(salt, read_original(whole).content)
    if found != expected:
        what = f"The file {whole.name}"
        remedy = "It is not the file that was sealed, or the salt is another's."
        raise SealMismatchError(what, expected=expected, found=found, remedy=remedy)
    return expected
