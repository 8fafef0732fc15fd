"""The list: sealed before reading, opened after locking, held against its hash."""

import hashlib
import json
import subprocess
from pathlib import Path

import numpy as np
import pytest
from blinding_examples import CODES, coded_case, sealed_case
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from reading_examples import blind_bench, lock
from workflow_examples import add, contents, is_late, rows

from strandproof.app.workflow import Correction, Desk, enter, verify
from strandproof.app.workflow.blinding import (
    check_opened_list,
    codes_in_use,
    label_meant,
    make_codes,
    open_list,
    openly_coded,
    read_coder_list,
    seal_list,
    write_code_lists,
)
from strandproof.app.workflow.entering import open_case
from strandproof.errors import (
    DuplicateLabelError,
    FixedEntryError,
    ListStillSealedError,
    MissingFileError,
    OutputExistsError,
    ParameterError,
    SealMismatchError,
    StrandproofError,
    UnknownCodeError,
    UnknownLabelError,
)
from strandproof.planning import is_sound
from strandproof.records.commitments import commitment_sha256
from strandproof.records.entries import BlindListOpened, BlindListSealed

RECIPE = r"""(printf "$(echo SALT | sed 's/../\\x&/g')"; cat LIST) | sha256sum"""
"""As docs/blinding.md prints it."""

H7_CODES = {
    row["code"]: f"section/{row['section']}"
    for row in rows("H7-sections.csv")
    if not is_late(row)
}


def read_and_locked(desk: Desk) -> None:
    for number, thing in enumerate(CODES.values()):
        fields = {"reader": "A1", "blind": True, "verdict": "boundaries"}
        label = f"r{number}"
        where = {"id": label, "reads": thing, "read_at": desk.clock()}
        add(desk, [("reading", {**fields, **where})])
        lock(desk, [label], "A1")


def test_with_3_of_24_locked_21_readings_are_open(tmp_path: Path) -> None:
    desk = blind_bench(tmp_path, locked=False)
    labels = [f"{thing.removeprefix('section/')}-A1" for thing in H7_CODES.values()]
    others = [label.replace("-A1", "-A2") for label in labels]
    counts = [f"{r['section']}-f{r['field']}-A1" for r in rows("H7-fields.csv")]
    seal_list(desk, "list-1", H7_CODES, readers=("A1",))
    lock(desk, [*labels[:3], *others, *counts], "A1")
    before = contents(desk.folder)
    with pytest.raises(ListStillSealedError, match="refused, 21 readings open") as no:
        open_list(Desk(desk.folder, "A1", desk.clock), "list-1")
    assert len(no.value.open_readings) == 21
    assert not any("E1" in each or "-s1" in each for each in no.value.open_readings)
    assert contents(desk.folder) == before
    lock(desk, labels[3:], "A1")
    opened = open_list(desk, "list-1")
    assert isinstance(opened.body, BlindListOpened)
    assert opened.body.assignments == H7_CODES
    assert opened.body.opened_at == desk.clock()


def test_every_reader_named_has_to_read_every_piece(tmp_path: Path) -> None:
    desk = sealed_case(tmp_path, "A1", "A2")
    read_and_locked(desk)
    with pytest.raises(
        ListStillSealedError, match="4 readings open: .*by A2: not read"
    ):
        open_list(desk, "list-1")


def test_without_readers_every_piece_needs_one_reading(tmp_path: Path) -> None:
    desk = sealed_case(tmp_path)
    with pytest.raises(ListStillSealedError, match="4 readings open"):
        open_list(desk, "list-1")
    read_and_locked(desk)
    open_list(desk, "list-1")


def test_entries_hold_only_the_hash(tmp_path: Path) -> None:
    desk = sealed_case(tmp_path, "A1")
    state = open_case(desk.folder)
    sealed = state.record(BlindListSealed, "list-1")
    entry = state.entry(BlindListSealed, "list-1")
    assert entry.sealed[0].sha256 == sealed.list_sha256
    assert sealed.codes == tuple(sorted(CODES))
    line = (desk.folder / "entries.jsonl").read_text("utf-8").splitlines()[-1]
    assert "section/" not in line
    path = desk.folder / "private" / f"{sealed.list_sha256}.sealed"
    assert hashlib.sha256(path.read_bytes()).hexdigest() == sealed.list_sha256
    assert verify(desk.folder).sound


def test_recipe_of_the_manual_with_ordinary_programs(tmp_path: Path) -> None:
    """What docs/blinding.md says: salt as bytes, then the list, one checksum."""
    page = Path(__file__).parents[2] / "docs" / "blinding.md"
    assert RECIPE in page.read_text("utf-8")
    desk = sealed_case(tmp_path)
    read_and_locked(desk)
    body = open_list(desk, "list-1").body
    assert isinstance(body, BlindListOpened)
    kept = next((desk.folder / "files").rglob(f"{body.list_file_sha256}*"))
    text = RECIPE.replace("SALT", body.salt_hex).replace("LIST", str(kept))
    done = subprocess.run(  # noqa: S603 - a fixed recipe on our own files
        ["/bin/bash", "-c", text], capture_output=True, text=True, check=True
    )
    sealed = open_case(desk.folder).record(BlindListSealed, "list-1")
    assert done.stdout.split()[0] == sealed.list_sha256


def test_opened_list_is_checked(tmp_path: Path) -> None:
    desk = sealed_case(tmp_path, "A1")
    with pytest.raises(ParameterError, match="a list that was opened"):
        check_opened_list(desk.folder, "list-1")
    read_and_locked(desk)
    opened = open_list(desk, "list-1")
    checked = check_opened_list(desk.folder, "list-1")
    assert checked.opened == opened
    assert checked.readings_before_seal == ()
    checked.file.chmod(0o644)
    other = json.dumps({"assignments": {}}).encode()
    checked.file.write_bytes(other)
    with pytest.raises(SealMismatchError, match="Blind list list-1"):
        check_opened_list(desk.folder, "list-1")


def test_readings_before_the_seal_are_told(tmp_path: Path) -> None:
    desk = coded_case(tmp_path)
    read_and_locked(desk)
    seal_list(desk, "list-1", CODES)
    open_list(desk, "list-1")
    checked = check_opened_list(desk.folder, "list-1")
    assert checked.readings_before_seal == ("r0", "r1", "r2", "r3")


def test_a_changed_or_lost_private_list_stays_closed(tmp_path: Path) -> None:
    desk = sealed_case(tmp_path)
    read_and_locked(desk)
    (path,) = (desk.folder / "private").glob("*.sealed")
    kept = path.read_bytes()
    path.chmod(0o600)
    path.write_bytes(kept.replace(b"E1-s1-L", b"E9-s1-L"))
    with pytest.raises(SealMismatchError, match="Restore the file from a copy"):
        open_list(desk, "list-1")
    (difference,) = verify(desk.folder).differences
    assert difference.where == f"private/{path.name}"
    path.unlink()
    assert verify(desk.folder).sound  # a case given away comes without private/
    with pytest.raises(MissingFileError, match="cannot be read"):
        open_list(desk, "list-1")


def test_opening_twice_is_refused(tmp_path: Path) -> None:
    desk = sealed_case(tmp_path)
    read_and_locked(desk)
    open_list(desk, "list-1")
    with pytest.raises(DuplicateLabelError, match="list-1"):
        open_list(desk, "list-1")


@pytest.mark.parametrize(
    ("assignments", "error", "match"),
    [
        ({}, ParameterError, "one code or more"),
        ({"DQV-853": "section/E1-s1-L"}, ParameterError, "check character"),
        ({"DQV-835": "section/E9"}, UnknownLabelError, "no section 'E9'"),
        ({"DQV-835": "claim/K1"}, ParameterError, "section/NAME or specimen/NAME"),
        (
            {"DQV-835": "section/E1-s1-L", "ZJP-250": "section/E1-s1-L"},
            ParameterError,
            "each thing once",
        ),
    ],
)
def test_bad_lists_are_refused(
    tmp_path: Path,
    assignments: dict[str, str],
    error: type[StrandproofError],
    match: str,
) -> None:
    desk = coded_case(tmp_path)
    before = contents(desk.folder)
    with pytest.raises(error, match=match):
        seal_list(desk, "list-1", assignments)
    assert contents(desk.folder) == before


def test_a_code_is_sealed_once(tmp_path: Path) -> None:
    desk = sealed_case(tmp_path)
    with pytest.raises(ParameterError, match="no other sealed list has"):
        seal_list(desk, "list-2", {"DQV-835": "section/E1-s1-L"})
    with pytest.raises(DuplicateLabelError, match="list-1"):
        seal_list(desk, "list-1", {"GVF-584": "section/E1-s1-L"})


@pytest.mark.parametrize("kind", ["blind_list_sealed", "blind_list_opened"])
def test_lists_are_neither_typed_nor_corrected(tmp_path: Path, kind: str) -> None:
    desk = sealed_case(tmp_path)
    entry = open_case(desk.folder).entry(BlindListSealed, "list-1")
    fields = {
        "blind_list_sealed": entry.body.model_dump(mode="json"),
        "blind_list_opened": {
            "id": "list-1",
            "sealed_list": "list-1",
            "assignments": CODES,
            "salt_hex": "0" * 64,
            "list_file_sha256": "0" * 64,
            "opened_at": desk.clock(),
            "opened_by": "A1",
        },
    }[kind]
    before = contents(desk.folder)
    for corrects in (None, Correction(entry.number, "x")):
        with pytest.raises(FixedEntryError, match="Nothing was changed"):
            enter(desk, kind, fields, corrects=corrects)
    assert contents(desk.folder) == before


def test_27_labels_and_the_coders_list(tmp_path: Path) -> None:
    desk = coded_case(tmp_path)
    sheet = make_codes(
        desk, list(CODES.values()), spares=23, generator=np.random.default_rng(1)
    )
    assert len(sheet.labels) == 27
    assert sum(label.spare for label in sheet.labels) == 23
    assert {label.cut for label in sheet.labels if not label.spare} == {
        "cut along the strand",
        "cut across the strand",
    }
    assert sheet.warning == "For the coder alone. Do not send."
    write_code_lists(sheet, tmp_path / "labels.json", tmp_path / "list.csv")
    text = (tmp_path / "labels.json").read_text("utf-8")
    assert len(json.loads(text)["labels"]) == 27
    assert not any(name in text for name in ("Tern", "E1-s1", "E2", "Lantern"))
    assert read_coder_list(tmp_path / "list.csv") == dict(sheet.assignments)
    with pytest.raises(OutputExistsError, match="a file is there"):
        write_code_lists(sheet, tmp_path / "new.json", tmp_path / "list.csv")
    assert not (tmp_path / "new.json").exists()


def test_label_meant(tmp_path: Path) -> None:
    desk = sealed_case(tmp_path)
    assert label_meant(desk.folder, "dqv835") == "DQV-835"
    with pytest.raises(UnknownCodeError, match="^No such label; did you mean DQV-835?"):
        label_meant(desk.folder, "DQV-853")


def test_new_codes_keep_away_from_those_in_use(tmp_path: Path) -> None:
    desk = sealed_case(tmp_path)
    sheet = make_codes(desk, ["section/E1-s1-L"])
    assert set(codes_in_use(open_case(desk.folder))) == set(CODES)
    assert not set(sheet.assignments) & set(CODES)
    assert all(map(is_sound, sheet.assignments))


def test_codes_that_stand_openly_are_told(tmp_path: Path) -> None:
    desk = blind_bench(tmp_path)
    assert len(openly_coded(open_case(desk.folder), H7_CODES)) == 24
    other = sealed_case(tmp_path / "other")
    assert openly_coded(open_case(other.folder), CODES) == ()


@pytest.mark.parametrize(
    ("text", "match"),
    [
        ("a,b\n", "CSV with columns code, stands_for"),
        ("code,stands_for\nDQV-853,section/a\n", "code in line 2"),
        ("code,stands_for\nDQV-835,section/a\nDQV-835,x\n", "code in line 3"),
    ],
)
def test_bad_coders_lists(tmp_path: Path, text: str, match: str) -> None:
    path = tmp_path / "list.csv"
    path.write_text(text, encoding="utf-8")
    with pytest.raises(ParameterError, match=match):
        read_coder_list(path)
    path.write_bytes(b"\xff")
    with pytest.raises(ParameterError, match="UTF-8 text"):
        read_coder_list(path)


def test_bad_requests_for_codes(tmp_path: Path) -> None:
    desk = coded_case(tmp_path)
    for things, spares in (([], 0), (["section/E1-s1-L"] * 2, 0)):
        with pytest.raises(ParameterError, match="one or more, each once"):
            make_codes(desk, things, spares=spares)
    with pytest.raises(ParameterError, match="spares"):
        make_codes(desk, ["section/E1-s1-L"], spares=-1)


@given(
    salt=st.binary(min_size=32, max_size=32), other=st.binary(min_size=32, max_size=32)
)
@settings(suppress_health_check=[HealthCheck.function_scoped_fixture])
def test_the_hash_goes_with_its_salt(salt: bytes, other: bytes) -> None:
    content = b"DQV-835 is E2-s1-L"
    assert (
        commitment_sha256(salt, content) == hashlib.sha256(salt + content).hexdigest()
    )
    same = commitment_sha256(salt, content) == commitment_sha256(other, content)
    assert same == (salt == other)
