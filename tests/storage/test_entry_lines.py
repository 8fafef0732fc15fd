"""Lines: canonical, hashed, chained; every kind of fault is named."""

import hashlib
import json
from typing import Any

import pytest
import rfc8785
from case_examples import CASE, moment

from strandproof.errors import DamagedCaseError, FutureEntryError, InvalidEntryError
from strandproof.records.case_state import NO_HEAD
from strandproof.records.entries import Entry
from strandproof.storage.entry_lines import decode_line, encode_line, seal_entry


@pytest.fixture
def entry() -> Entry:
    return seal_entry(
        CASE,
        number=1,
        previous_sha256=NO_HEAD,
        recorded_at=moment(3, 3),
        recorded_by="R",
    )


def resealed(entry: Entry, **changes: Any) -> bytes:  # noqa: ANN401 - any JSON value
    """Give a line with changed members and a hash that agrees with them."""
    data = {**entry.to_json_data(), **changes}
    content = {key: value for key, value in data.items() if key != "sha256"}
    data["sha256"] = hashlib.sha256(rfc8785.dumps(content)).hexdigest()
    return rfc8785.dumps(data)


def test_line_comes_back(entry: Entry) -> None:
    line = encode_line(entry)
    assert line.endswith(b"\n")
    assert decode_line(line[:-1], 1, NO_HEAD) == entry


def test_hash_can_be_checked_by_hand_as_the_readme_says(entry: Entry) -> None:
    line = encode_line(entry)[:-1]
    member = f',"sha256":"{entry.sha256}"'.encode()
    assert line.count(member) == 1
    by_hand = hashlib.sha256(line.replace(member, b"")).hexdigest()
    assert by_hand == entry.sha256


@pytest.mark.parametrize(
    ("line", "fault"),
    [
        (b"", "not readable"),
        (b"\xff\xfe", "not readable"),
        (b'{"a":1', "not readable"),
        (b'{"a":NaN}', "not readable"),
        (b'{"a": 1}', "not canonical"),
        (b'{"a":1,"a":1}', "not canonical"),
        (b"[1]", "not canonical"),
        (b'{"a":1}', "does not agree with its hash"),
        (b"[" * 100_000, "not readable"),
    ],
)
def test_unsound_lines_are_named(line: bytes, fault: str) -> None:
    with pytest.raises(DamagedCaseError, match=fault):
        decode_line(line, 7, NO_HEAD)


def test_wrong_link_number_kind_and_shape_are_named(entry: Entry) -> None:
    line = encode_line(entry)[:-1]
    with pytest.raises(DamagedCaseError, match="the link differs"):
        decode_line(line, 1, "1" * 64)
    with pytest.raises(DamagedCaseError, match="carries the number 1"):
        decode_line(line, 2, NO_HEAD)
    with pytest.raises(DamagedCaseError, match="kind 'rumour' is not known"):
        decode_line(resealed(entry, kind="rumour"), 1, NO_HEAD)
    body = {**entry.to_json_data()["body"], "title": ""}
    with pytest.raises(DamagedCaseError, match="title"):
        decode_line(resealed(entry, body=body), 1, NO_HEAD)


def test_entry_of_a_future_version_is_left_alone(entry: Entry) -> None:
    line = resealed(entry, schema_version=99, a_member_of_the_future=[1])
    with pytest.raises(FutureEntryError, match="version 99.*newer Strandproof"):
        decode_line(line, 1, NO_HEAD)


def test_envelope_without_a_name_is_refused() -> None:
    with pytest.raises(InvalidEntryError, match="recorded_by"):
        seal_entry(
            CASE,
            number=1,
            previous_sha256=NO_HEAD,
            recorded_at=moment(3, 3),
            recorded_by="",
        )


def test_canonical_form_is_that_of_the_rfc(entry: Entry) -> None:
    """RFC 8785: sorted members, no spaces, ES6 numbers, UTF-8."""
    line = encode_line(entry)[:-1]
    data = json.loads(line)
    assert list(data) == sorted(data)
    plain = json.dumps(data, sort_keys=True, separators=(",", ":"), ensure_ascii=False)
    assert line == plain.encode()
