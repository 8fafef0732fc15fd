"""Canonical JSON (RFC 8785): the same data, the same bytes, the same hash."""

import hashlib
from typing import Any

import rfc8785


def canonical_json(data: Any) -> bytes:  # noqa: ANN401 - any JSON data
    """Write data as canonical JSON.

    Parameters
    ----------
    data : object
        Dicts, lists, texts, numbers, True, False, None.

    Returns
    -------
    bytes
        UTF-8, members sorted, no spaces, no line end.

    Examples
    --------
    >>> canonical_json({"b": 1.0, "a": "µ"}).decode()
    '{"a":"µ","b":1}'
    """
    return rfc8785.dumps(data)


def canonical_sha256(data: Any) -> str:  # noqa: ANN401 - any JSON data
    """Give the SHA-256 of data in canonical form.

    Parameters
    ----------
    data : object
        JSON data.

    Returns
    -------
    str
        In hexadecimal.
    """
    return hashlib.sha256(canonical_json(data)).hexdigest()
