"""Entering: the file is kept with the words, and what does not fit changes nothing."""

import hashlib
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

import numpy as np
import pytest
from workflow_examples import NOON, add, contents, desk_at, started

from strandproof.app.workflow import (
    Desk,
    enter,
    enter_claim,
    enter_exhibit,
    enter_micrograph,
    open_case,
    read_original,
    start_case,
    verify,
)
from strandproof.app.workflow.entering import enter_together, utc_now
from strandproof.errors import (
    CaseExistsError,
    DuplicateLabelError,
    FixedEntryError,
    InvalidEntryError,
    MissingFileError,
    ParameterError,
    PictureAlreadyUsedError,
    StrandproofError,
    UnknownLabelError,
)
from strandproof.records.entries import Capture, Claim, Exhibit, Micrograph
from strandproof.storage import SYNTHETIC_KEY, encode_png

CLAIM: dict[str, Any] = {
    "id": "K1",
    "words": "one crystal per 100 m",
    "speaker": "Wexcombe Twine Works",
    "speaker_role": "maker",
    "medium": "hang tag",
    "said_at": NOON,
    "kinds": ["crystal_state"],
    "readings": [{"words": "It is one crystal.", "kind": "crystal_state"}],
}
EXHIBIT: dict[str, Any] = {
    "id": "E2",
    "description": "a lead",
    "provenance": "bought",
    "received_at": NOON,
    "received_by": "R",
    "condition": "closed",
}


@pytest.fixture
def desk(tmp_path: Path) -> Desk:
    found = started(tmp_path / "H7")
    section = {"id": "L", "specimen": "E1-s1", "direction": "longitudinal"}
    add(found, [("section", section)])
    return found


@pytest.fixture
def tag(tmp_path: Path) -> Path:
    path = tmp_path / "tag.txt"
    path.write_text("one crystal per 100 m", encoding="utf-8")
    return path


@pytest.fixture
def png(tmp_path: Path) -> Path:
    return picture_file(tmp_path / "field.png", shade=120)


def picture_file(path: Path, *, shade: int, **text: str) -> Path:
    pixels = np.full((30, 40), shade, np.uint8)
    pixels[:, ::7] += 20
    path.write_bytes(encode_png(pixels, text=text))
    return path


def test_claim_is_frozen_with_the_file_that_shows_it(desk: Desk, tag: Path) -> None:
    enter_claim(desk, CLAIM, capture=tag)
    state = open_case(desk.folder)
    claim, capture = state.record(Claim, "K1"), state.record(Capture, "K1-capture")
    assert claim.captures == ("K1-capture",)
    assert capture.file_sha256 == hashlib.sha256(tag.read_bytes()).hexdigest()
    assert (capture.medium, capture.place) == ("hang tag", "hang tag")
    assert capture.captured_by == "A1"
    assert verify(desk.folder).files == 1


def test_exhibit_is_taken_in_with_its_pictures(
    desk: Desk, tag: Path, png: Path
) -> None:
    enter_exhibit(desk, EXHIBIT, pictures=[tag, png])
    found = open_case(desk.folder).record(Exhibit, "E2")
    hashes = [hashlib.sha256(path.read_bytes()).hexdigest() for path in (tag, png)]
    assert list(found.pictures) == hashes
    assert verify(desk.folder).sound


def test_micrograph_gets_its_size_from_the_file(desk: Desk, png: Path) -> None:
    enter_micrograph(desk, {"id": "f1", "section": "L"}, picture=png)
    found = open_case(desk.folder).record(Micrograph, "f1")
    assert (found.width_px, found.height_px, found.page) == (40, 30, 1)
    assert found.file_sha256 == hashlib.sha256(png.read_bytes()).hexdigest()
    assert not found.synthetic


def test_picture_that_says_synthetic_is_so_even_where_nobody_says_it(
    desk: Desk, tmp_path: Path
) -> None:
    path = picture_file(tmp_path / "drawn.png", shade=90, **{SYNTHETIC_KEY: "yes"})
    fields = {"id": "f1", "section": "L", "synthetic": False}
    enter_micrograph(desk, fields, picture=path)
    assert open_case(desk.folder).record(Micrograph, "f1").synthetic


def test_same_picture_under_another_name_is_refused(desk: Desk, png: Path) -> None:
    enter_micrograph(desk, {"id": "f1", "section": "L"}, picture=png)
    before = contents(desk.folder)
    with pytest.raises(PictureAlreadyUsedError, match="as micrograph f1"):
        enter_micrograph(desk, {"id": "f2", "section": "L"}, picture=png)
    assert contents(desk.folder) == before


def test_anything_is_entered_with_its_files(desk: Desk, tag: Path) -> None:
    fields = {"id": "mill", "title": "Mill certificate", "issuer": "a mill"}
    entry = enter(desk, "document", fields, files={"file_sha256": tag})
    assert entry.files[0].name == "tag.txt"
    assert entry.files[0].media_type == "text/plain"
    assert verify(desk.folder).sound


def test_entry_is_signed_with_person_and_moment(desk: Desk) -> None:
    entry = enter(desk, "section", {"id": "T", "specimen": "E1-s1", **TRANSVERSE})
    assert (entry.recorded_by, entry.recorded_at) == ("A1", NOON)


TRANSVERSE = {"direction": "transverse"}

REFUSALS: dict[str, tuple[str, dict[str, Any], type[StrandproofError], str]] = {
    "unknown kind": ("rumour", {"id": "x"}, ParameterError, "one of case, claim"),
    "unknown field": (
        "section",
        {"id": "x", "specimen": "E1-s1", **TRANSVERSE, "colour": "red"},
        InvalidEntryError,
        "colour",
    ),
    "missing field": ("section", {"id": "x"}, InvalidEntryError, "specimen"),
    "unknown specimen": (
        "section",
        {"id": "x", "specimen": "E9", **TRANSVERSE},
        UnknownLabelError,
        "no specimen 'E9'; it has: E1-s1",
    ),
    "name that is taken": (
        "section",
        {"id": "L", "specimen": "E1-s1", **TRANSVERSE},
        DuplicateLabelError,
        "'L' is already the name",
    ),
    "name with markup": (
        "section",
        {"id": "<b>", "specimen": "E1-s1", **TRANSVERSE},
        InvalidEntryError,
        "id: String should match pattern",
    ),
    "pixel size in another unit": (
        "calibration",
        {
            "id": "x",
            "pixel_size": {"value": 0.17, "unit": "nm"},
            "method": "m",
            "made_at": NOON,
            "made_by": "R",
        },
        InvalidEntryError,
        "give it in 'um'",
    ),
    "hash of a file that was not brought": (
        "document",
        {"id": "x", "title": "t", "issuer": "i", "file_sha256": "a" * 64},
        UnknownLabelError,
        "no kept file",
    ),
}


@pytest.mark.parametrize("wrong", REFUSALS)
def test_what_does_not_fit_is_refused_and_changes_nothing(
    desk: Desk, wrong: str
) -> None:
    kind, fields, error, said = REFUSALS[wrong]
    before = contents(desk.folder)
    with pytest.raises(error, match=said):
        enter(desk, kind, fields)
    assert contents(desk.folder) == before


def test_missing_file_is_refused_and_changes_nothing(
    desk: Desk, tmp_path: Path
) -> None:
    before = contents(desk.folder)
    gone = tmp_path / "gone.png"
    with pytest.raises(MissingFileError, match="gone.png cannot be read"):
        enter_claim(desk, CLAIM, capture=gone)
    with pytest.raises(StrandproofError, match="gone.png"):
        enter_micrograph(desk, {"id": "f1", "section": "L"}, picture=gone)
    assert contents(desk.folder) == before


def test_claim_that_does_not_fit_leaves_no_capture_behind(
    desk: Desk, tag: Path
) -> None:
    before = contents(desk.folder)
    with pytest.raises(InvalidEntryError, match="kinds"):
        enter_claim(desk, {**CLAIM, "kinds": []}, capture=tag)
    assert contents(desk.folder) == before


def test_micrograph_of_an_unknown_calibration_is_refused(desk: Desk, png: Path) -> None:
    before = contents(desk.folder)
    fields = {"id": "f1", "section": "L", "calibration": "ruler"}
    with pytest.raises(UnknownLabelError, match="no calibration 'ruler'"):
        enter_micrograph(desk, fields, picture=png)
    assert contents(desk.folder) == before


def test_case_starts_in_an_empty_place_only(desk: Desk, tmp_path: Path) -> None:
    with pytest.raises(CaseExistsError, match="is not empty"):
        start_case(desk, {"id": "H8", "title": "t", "owner": "R"})
    with pytest.raises(InvalidEntryError, match="owner"):
        start_case(desk_at(tmp_path / "H8"), {"id": "H8", "title": "t"})
    assert not (tmp_path / "H8").exists()


def test_original_keeps_bytes_name_and_kind(tag: Path, tmp_path: Path) -> None:
    original = read_original(tag)
    assert original.content == tag.read_bytes()
    assert (original.name, original.media_type) == ("tag.txt", "text/plain")
    odd = tmp_path / "odd.qqq"
    odd.write_bytes(b"\x00")
    assert read_original(odd).media_type == "application/octet-stream"


def test_clock_is_utc_to_the_second() -> None:
    now = utc_now()
    assert now.tzinfo is UTC
    assert now.microsecond == 0
    assert abs((datetime.now(UTC) - now).total_seconds()) < 60


def test_of_several_things_one_refusal_leaves_none(desk: Desk) -> None:
    before = contents(desk.folder)
    seen = {"plan": "P1", "kind": "deviation", "what": "dropped", "reason": "blurred"}
    decided = {"results_seen": False, "decided_at": NOON, "decided_by": "R"}
    drafts = [("exhibit", EXHIBIT), ("deviation", {"id": "D1", **seen, **decided})]
    with pytest.raises(FixedEntryError):
        enter_together(desk, drafts)
    assert contents(desk.folder) == before


def test_several_things_are_entered_in_their_order(desk: Desk) -> None:
    drafts = [("exhibit", EXHIBIT), ("exhibit", {**EXHIBIT, "id": "E3"})]
    entries = enter_together(desk, drafts)
    assert [entry.body.id for entry in entries] == ["E2", "E3"]
    assert open_case(desk.folder).record(Exhibit, "E3").provenance == "bought"
