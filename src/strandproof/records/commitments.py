"""Commitments: a hash that may be public, for a thing that may not.

The hash is SHA-256 over a random salt of 256 bits followed by the content. The salt
keeps anyone from guessing a short content; the hash keeps its owner from changing it.
"""

import hashlib

from strandproof.errors import ParameterError

SALT_BYTES = 32
"""Length of the salt [bytes]; 256 bits."""


def commitment_sha256(salt: bytes, content: bytes) -> str:
    """Give the hash that commits to a content.

    Parameters
    ----------
    salt : bytes
        32 random bytes.
    content : bytes
        What is committed to.

    Returns
    -------
    str
        SHA-256 of salt and content, in hexadecimal.

    Raises
    ------
    ParameterError
        If the salt is not 32 bytes long.

    Examples
    --------
    >>> commitment_sha256(bytes(32), b"DQV-835")[:16]
    'f521f02c5e930d8a'
    """
    if len(salt) != SALT_BYTES:
        raise ParameterError(
            "salt", f"{len(salt)} bytes", allowed=f"{SALT_BYTES} random bytes"
        )
    return hashlib.sha256(salt + content).hexdigest()


def split_sealed(sealed: bytes) -> tuple[bytes, bytes]:
    """Part a sealed file into its salt and its content.

    Parameters
    ----------
    sealed : bytes
        Salt followed by content.

    Returns
    -------
    salt, content : bytes
        The first 32 bytes, and the rest.

    Raises
    ------
    ParameterError
        If it is too short to hold a salt.
    """
    if len(sealed) < SALT_BYTES:
        raise ParameterError(
            "sealed file", f"{len(sealed)} bytes", allowed=f"{SALT_BYTES} or more"
        )
    return sealed[:SALT_BYTES], sealed[SALT_BYTES:]
