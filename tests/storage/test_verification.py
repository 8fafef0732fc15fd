"""Every changed byte is found from inside; cut and continued records by the head."""

import random
from pathlib import Path

import pytest
from case_examples import moment, write_example_case

from strandproof.errors import NotACaseError
from strandproof.records.entries import SCHEMA_VERSION, Exhibit
from strandproof.storage.case_layout import ENTRIES, original_path
from strandproof.storage.case_reading import read_case
from strandproof.storage.case_writing import Addition, CaseWriter, Original
from strandproof.storage.verification import verify_case

FLIPS = 300
OLD_HEADS = {
    "schema-1": "8843170a36eb656287fbf49d5a79a7aed0631e6780b0b9b28814bb0ad20f10a8",
}
OLD_CASES = Path(__file__).parents[1] / "old_cases"


@pytest.fixture
def case(tmp_path: Path) -> Path:
    write_example_case(tmp_path / "H7")
    with CaseWriter(tmp_path / "H7") as writer:
        content = random.Random(7).randbytes(30_000)  # noqa: S311 - repeatable
        file = Original(content, "f1.tif", "image/tiff")
        exhibit = writer.state.record(Exhibit, "E1")
        more = exhibit.model_copy(update={"id": "E2", "pictures": (file.sha256,)})
        addition = Addition(more, (file,))
        writer.append(addition, recorded_by="R", recorded_at=moment(9, 2))
    return tmp_path / "H7"


def test_any_flipped_byte_is_found(case: Path) -> None:
    state = read_case(case).state
    targets = [case / ENTRIES]
    targets += [case / original_path(file) for file in state.files.values()]
    for path in targets:
        path.chmod(0o644)
    sizes = [path.stat().st_size for path in targets]
    chance = random.Random(300)  # noqa: S311 - repeatable, not secret
    for _ in range(FLIPS):
        (path,) = chance.choices(targets, weights=sizes)
        whole = path.read_bytes()
        place = chance.randrange(len(whole))
        changed = bytearray(whole)
        changed[place] ^= chance.randrange(1, 256)
        path.write_bytes(changed)
        outcome = verify_case(case)
        assert not outcome.sound, f"{path.name}, byte {place}"
        assert any(path.name in found.where for found in outcome.differences)
        path.write_bytes(whole)
    assert verify_case(case).sound


def test_flipped_byte_of_every_entry_line_end_is_found(case: Path) -> None:
    whole = (case / ENTRIES).read_bytes()
    ends = [place for place, byte in enumerate(whole) if byte == ord("\n")]
    for place in ends:
        changed = bytearray(whole)
        changed[place] = ord(" ")
        (case / ENTRIES).write_bytes(changed)
        assert not verify_case(case).sound


def test_differences_name_the_place(case: Path) -> None:
    lines = (case / ENTRIES).read_bytes().split(b"\n")
    at = next(k for k, line in enumerate(lines) if b"R's column" in line)
    lines[at] = lines[at].replace(b"R's column", b"Q's column")
    (case / ENTRIES).write_bytes(b"\n".join(lines))
    outcome = verify_case(case)
    where = [found.where for found in outcome.differences]
    assert where == [f"entries.jsonl, line {at + 1}"]
    assert "does not agree with its hash" in outcome.differences[0].what


def test_missing_original_is_named_as_it_came(case: Path) -> None:
    state = read_case(case).state
    file = next(f for f in state.files.values() if f.name == "f1.tif")
    (case / original_path(file)).unlink()
    (found,) = verify_case(case).differences
    assert found.what == "missing; it came as f1.tif"


def test_stray_file_is_a_notice_and_no_fault(case: Path) -> None:
    (case / "files" / "zz").mkdir()
    (case / "files" / "zz" / "stray.tif").write_bytes(b"x")
    outcome = verify_case(case)
    assert outcome.sound
    assert any("stray.tif is named by no entry" in n for n in outcome.notices)


def test_cut_tail_is_found_by_the_head_only(case: Path) -> None:
    head = verify_case(case).head
    lines = (case / ENTRIES).read_bytes().splitlines(keepends=True)
    (case / ENTRIES).write_bytes(b"".join(lines[:-1]))
    assert verify_case(case).sound
    outcome = verify_case(case, head=head)
    assert "cut or rewritten" in outcome.differences[0].what


def test_well_formed_extension_is_found_by_the_head_only(case: Path) -> None:
    head = verify_case(case).head
    with CaseWriter(case) as writer:
        body = writer.state.record(Exhibit, "E1").model_copy(update={"id": "E3"})
        writer.append(Addition(body), recorded_by="someone", recorded_at=moment(9, 3))
    assert verify_case(case).sound
    (found,) = verify_case(case, head=head).differences
    assert "1 entries follow it" in found.what


def test_right_head_is_accepted_in_either_case_of_letters(case: Path) -> None:
    head = verify_case(case).head
    assert verify_case(case, head=head.upper()).sound


def test_empty_record_is_a_difference(case: Path) -> None:
    (case / ENTRIES).write_bytes(b"")
    assert verify_case(case).differences[0].what == "it is empty"


def test_progress_is_told(case: Path) -> None:
    told: list[float] = []
    verify_case(case, progress=lambda fraction, _words: told.append(fraction))
    assert told == [0.0, 0.5]


def test_no_case_no_verification(tmp_path: Path) -> None:
    with pytest.raises(NotACaseError):
        verify_case(tmp_path)


@pytest.mark.parametrize(("version", "head"), OLD_HEADS.items())
def test_old_cases_open_for_ever(version: str, head: str) -> None:
    folder = OLD_CASES / version
    assert verify_case(folder, head=head).sound
    assert len(read_case(folder).state.current) == 40


def test_there_is_an_old_case_of_every_version() -> None:
    assert {path.name for path in OLD_CASES.glob("schema-*")} == set(OLD_HEADS)
    assert len(OLD_HEADS) == SCHEMA_VERSION
