"""Files under private/: what must not leave, kept under the hash that commits to it.

A sealed file is the salt followed by the content, so that an ordinary checksum program
over the whole file gives the commitment, which is also the file's name.
"""

import hashlib
import secrets
from dataclasses import dataclass
from pathlib import Path

from strandproof.errors import MissingFileError, SealMismatchError
from strandproof.records.commitments import SALT_BYTES, commitment_sha256, split_sealed
from strandproof.records.entries.bodies import Commitment
from strandproof.storage.case_layout import PRIVATE
from strandproof.storage.durable import write_durably

_SUFFIX = ".sealed"


@dataclass(frozen=True, slots=True)
class SealedContent:
    """A content on its way into private/, with the salt that seals it.

    Parameters
    ----------
    content : bytes
        What is sealed.
    words : str
        What it is, in words that may be public.
    salt : bytes
        32 random bytes.
    """

    content: bytes
    words: str
    salt: bytes

    @property
    def commitment(self) -> Commitment:
        """What an entry says of it."""
        return Commitment(
            sha256=commitment_sha256(self.salt, self.content), content=self.words
        )


def seal_content(content: bytes, words: str) -> SealedContent:
    """Seal a content with a fresh salt from the system's own source of chance.

    Parameters
    ----------
    content : bytes
        What is sealed.
    words : str
        What it is, in words that may be public.

    Returns
    -------
    SealedContent
        Ready to go with an entry.
    """
    return SealedContent(content, words, secrets.token_bytes(SALT_BYTES))


def write_sealed(folder: Path, sealed: SealedContent) -> None:
    """Keep a sealed content under private/.

    Parameters
    ----------
    folder : Path
        Folder of the case.
    sealed : SealedContent
        The content; the same one is kept once.
    """
    path = sealed_path(folder, sealed.commitment.sha256)
    path.parent.mkdir(exist_ok=True)
    if not path.exists():
        write_durably(path, sealed.salt + sealed.content, mode=0o400)


def read_sealed(folder: Path, sha256: str) -> SealedContent:
    """Read a sealed content and check it against its commitment.

    Parameters
    ----------
    folder : Path
        Folder of the case.
    sha256 : str
        The commitment.

    Returns
    -------
    SealedContent
        Salt and content; `words` is empty.

    Raises
    ------
    MissingFileError
        If the file is not there.
    SealMismatchError
        If it was changed.
    """
    path = sealed_path(folder, sha256)
    try:
        data = path.read_bytes()
    except OSError as error:
        raise MissingFileError(path, error.strerror or str(error)) from error
    found = hashlib.sha256(data).hexdigest()
    if found != sha256:
        what = f"The sealed file {path.name}"
        raise SealMismatchError(
            what,
            expected=sha256,
            found=found,
            remedy="Restore the file from a copy; without it the list stays sealed.",
        )
    salt, content = split_sealed(data)
    return SealedContent(content, "", salt)


def sealed_path(folder: Path, sha256: str) -> Path:
    """Give the place of a sealed file.

    Parameters
    ----------
    folder : Path
        Folder of the case.
    sha256 : str
        The commitment.

    Returns
    -------
    Path
        In private/.
    """
    return folder / PRIVATE / f"{sha256}{_SUFFIX}"
