"""Commitments: salt of 256 bits, then the content."""

import hashlib

import pytest
from hypothesis import given
from hypothesis import strategies as st

from strandproof.errors import ParameterError
from strandproof.records.commitments import commitment_sha256, split_sealed


@given(salt=st.binary(min_size=32, max_size=32), content=st.binary(max_size=200))
def test_salt_and_content_are_parted_again(salt: bytes, content: bytes) -> None:
    assert split_sealed(salt + content) == (salt, content)
    expected = hashlib.sha256(salt + content).hexdigest()
    assert commitment_sha256(salt, content) == expected


@pytest.mark.parametrize("length", [0, 31, 33])
def test_other_salts_are_refused(length: int) -> None:
    with pytest.raises(ParameterError, match=f"salt was given as '{length} bytes'"):
        commitment_sha256(bytes(length), b"x")


def test_a_file_too_short_for_a_salt_is_refused() -> None:
    with pytest.raises(ParameterError, match="31 bytes"):
        split_sealed(bytes(31))
