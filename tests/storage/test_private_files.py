"""Sealed files: the hash of the whole file is the commitment and its name."""

import hashlib
from pathlib import Path

import pytest

from strandproof.errors import MissingFileError, SealMismatchError
from strandproof.storage.private_files import (
    SealedContent,
    read_sealed,
    seal_content,
    sealed_path,
    write_sealed,
)


def test_round_trip(tmp_path: Path) -> None:
    kept = seal_content(b"which is which", "a list")
    write_sealed(tmp_path, kept)
    write_sealed(tmp_path, kept)
    again = read_sealed(tmp_path, kept.commitment.sha256)
    assert (again.salt, again.content) == (kept.salt, b"which is which")
    path = sealed_path(tmp_path, kept.commitment.sha256)
    assert hashlib.sha256(path.read_bytes()).hexdigest() == path.stem
    assert kept.commitment.content == "a list"


def test_every_seal_has_its_own_salt() -> None:
    hashes = {seal_content(b"yes", "an answer").commitment.sha256 for _ in range(20)}
    assert len(hashes) == 20


def test_changed_and_missing_are_told(tmp_path: Path) -> None:
    kept = SealedContent(b"content", "words", bytes(32))
    sha256 = kept.commitment.sha256
    with pytest.raises(MissingFileError, match="cannot be read"):
        read_sealed(tmp_path, sha256)
    write_sealed(tmp_path, kept)
    path = sealed_path(tmp_path, sha256)
    path.chmod(0o600)
    path.write_bytes(path.read_bytes()[:-1])
    with pytest.raises(SealMismatchError, match=f"on record is {sha256}"):
        read_sealed(tmp_path, sha256)
