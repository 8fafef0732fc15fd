"""A case cannot lose anything: kills, full disks, two writers, torn ends."""

import os
import random
import resource
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest
from case_examples import CASE, FILE_CONTENT, moment, write_example_case

from strandproof.errors import (
    CaseBusyError,
    CaseExistsError,
    ChangedOriginalError,
    DamagedCaseError,
    DuplicateLabelError,
    NotACaseError,
    WriteFailedError,
)
from strandproof.records.entries import Capture, Exhibit, FileReference
from strandproof.storage.case_layout import ENTRIES, SET_ASIDE, original_path
from strandproof.storage.case_reading import original_file, read_case
from strandproof.storage.case_writing import (
    Addition,
    CaseWriter,
    Original,
    create_case,
)
from strandproof.storage.verification import verify_case

KILLS = 200


@pytest.fixture
def case(tmp_path: Path) -> Path:
    folder = tmp_path / "H7"
    create_case(folder, CASE, recorded_by="R", recorded_at=moment(3, 1))
    return folder


def exhibit(label: str) -> Exhibit:
    return Exhibit(
        id=label,
        description="Tern earphone lead",
        provenance="bought",
        received_at=moment(4, 2),
        received_by="R",
        condition="closed",
    )


def add_exhibit(folder: Path, label: str) -> None:
    with CaseWriter(folder) as writer:
        writer.append(
            Addition(exhibit(label)), recorded_by="R", recorded_at=moment(4, 2)
        )


def add_capture(writer: CaseWriter, label: str, content: bytes) -> FileReference:
    original = Original(content, f"{label}.txt", "text/plain")
    capture = Capture(
        id=label,
        medium="page",
        place="shop",
        captured_at=moment(3, 3),
        file_sha256=original.sha256,
    )
    (entry,) = writer.append(
        Addition(capture, (original,)), recorded_by="R", recorded_at=moment(3, 3)
    )
    return entry.files[0]


def test_new_case_has_the_layout_of_the_design(case: Path) -> None:
    names = {path.name for path in case.iterdir()}
    assert names == {"entries.jsonl", "files", "private", "cache", "README.txt"}
    assert verify_case(case).sound


def test_every_kind_of_entry_is_written_and_read(tmp_path: Path) -> None:
    entries = write_example_case(tmp_path / "H7")
    assert read_case(tmp_path / "H7").state.entries == entries
    assert verify_case(tmp_path / "H7").sound


def test_a_case_starts_in_an_empty_folder_only(case: Path, tmp_path: Path) -> None:
    (tmp_path / "empty").mkdir()
    create_case(tmp_path / "empty", CASE, recorded_by="R", recorded_at=moment(3, 1))
    before = (case / ENTRIES).read_bytes()
    with pytest.raises(CaseExistsError, match="not empty"):
        create_case(case, CASE, recorded_by="R", recorded_at=moment(3, 1))
    assert (case / ENTRIES).read_bytes() == before


def test_a_case_in_a_missing_place_is_refused(tmp_path: Path) -> None:
    blocked = tmp_path / "file"
    blocked.write_text("x")
    with pytest.raises(WriteFailedError, match="could not be written"):
        create_case(blocked / "H7", CASE, recorded_by="R", recorded_at=moment(3, 1))


def test_folder_without_entries_is_no_case(tmp_path: Path) -> None:
    with pytest.raises(NotACaseError, match="no entries.jsonl"):
        read_case(tmp_path)
    with pytest.raises(NotACaseError, match="no entries.jsonl"), CaseWriter(tmp_path):
        pass


def test_original_is_kept_once_under_its_hash(case: Path) -> None:
    with CaseWriter(case) as writer:
        first = add_capture(writer, "page", FILE_CONTENT)
        assert add_capture(writer, "page-again", FILE_CONTENT) == first
        state = writer.state
    assert original_file(case, state, first.sha256).read_bytes() == FILE_CONTENT
    path = case / original_path(first)
    assert path.name == f"{first.sha256}.txt"
    assert path.stat().st_mode & 0o222 == 0


def test_damaged_original_is_noticed_when_kept_again(case: Path) -> None:
    with CaseWriter(case) as writer:
        file = add_capture(writer, "page", FILE_CONTENT)
        path = case / original_path(file)
        path.chmod(0o644)
        path.write_bytes(b"other")
        with pytest.raises(ChangedOriginalError, match="was changed on disk"):
            add_capture(writer, "page-again", FILE_CONTENT)
        assert len(writer.state.entries) == 2


def test_refused_entry_changes_nothing(case: Path) -> None:
    add_exhibit(case, "E1")
    before = (case / ENTRIES).read_bytes()
    with pytest.raises(DuplicateLabelError):
        add_exhibit(case, "E1")
    assert (case / ENTRIES).read_bytes() == before


def test_several_entries_are_checked_before_any_is_written(case: Path) -> None:
    original = Original(b"new", "new.txt", "text/plain")
    capture = Capture(
        id="page",
        medium="page",
        place="shop",
        captured_at=moment(3, 3),
        file_sha256=original.sha256,
    )
    before = (case / ENTRIES).read_bytes()
    additions = (Addition(capture, (original,)), Addition(capture))
    with CaseWriter(case) as writer, pytest.raises(DuplicateLabelError):
        writer.append(*additions, recorded_by="R", recorded_at=moment(3, 3))
    assert (case / ENTRIES).read_bytes() == before
    assert not list((case / "files").rglob("*"))


def test_second_writer_is_told_so(case: Path) -> None:
    with (
        CaseWriter(case),
        pytest.raises(CaseBusyError, match="Another program is writing"),
        CaseWriter(case),
    ):
        pass
    add_exhibit(case, "E1")


def test_writer_outside_of_its_block_is_a_wrong_call(case: Path) -> None:
    with pytest.raises(RuntimeError, match="outside of its 'with' block"):
        _ = CaseWriter(case).state


def test_change_behind_the_writers_back_is_noticed(case: Path) -> None:
    with CaseWriter(case) as writer:
        with (case / ENTRIES).open("ab") as stream:
            stream.write(b"x")
        with pytest.raises(CaseBusyError, match="Nothing was changed"):
            writer.append(
                Addition(exhibit("E1")), recorded_by="R", recorded_at=moment(4, 2)
            )


def test_torn_end_is_set_aside_and_nothing_before_it_touched(case: Path) -> None:
    add_exhibit(case, "E1")
    whole = (case / ENTRIES).read_bytes()
    torn = whole.splitlines()[-1][:100]
    (case / ENTRIES).write_bytes(whole + torn)
    assert read_case(case).torn == torn
    assert not verify_case(case).sound
    add_exhibit(case, "E2")
    assert (case / ENTRIES).read_bytes().startswith(whole)
    (aside,) = (case / SET_ASIDE).iterdir()
    assert aside.read_bytes() == torn
    outcome = verify_case(case)
    assert outcome.sound
    assert any("set aside" in notice for notice in outcome.notices)


def test_lost_line_end_loses_no_entry(case: Path) -> None:
    add_exhibit(case, "E1")
    whole = (case / ENTRIES).read_bytes()
    (case / ENTRIES).write_bytes(whole[:-1])
    assert len(read_case(case).state.entries) == 2
    assert not verify_case(case).sound
    add_exhibit(case, "E2")
    assert (case / ENTRIES).read_bytes().startswith(whole)
    assert verify_case(case).sound


def test_changed_line_end_of_a_whole_entry_is_damage(case: Path) -> None:
    add_exhibit(case, "E1")
    whole = (case / ENTRIES).read_bytes()
    (case / ENTRIES).write_bytes(whole[:-1] + b"x")
    with pytest.raises(DamagedCaseError, match="line end of a whole entry"):
        read_case(case)
    with pytest.raises(DamagedCaseError, match="line end"):
        add_exhibit(case, "E2")
    assert (case / ENTRIES).read_bytes() == whole[:-1] + b"x"


def test_full_disk_takes_the_half_entry_back(case: Path) -> None:
    """A real refusal by the kernel: a limit on file size in a child process."""
    script = f"""
import resource, signal
from pathlib import Path
from case_examples import moment
from test_case_writing import exhibit
from strandproof.errors import WriteFailedError
from strandproof.storage.case_writing import Addition, CaseWriter
signal.signal(signal.SIGXFSZ, signal.SIG_IGN)
case = Path({str(case)!r})
with CaseWriter(case) as writer:
    size = (case / "entries.jsonl").stat().st_size
    resource.setrlimit(resource.RLIMIT_FSIZE, (size + 50, size + 50))
    addition = Addition(exhibit("E1"))
    try:
        writer.append(addition, recorded_by="R", recorded_at=moment(4, 2))
    except WriteFailedError as error:
        print(error)
"""
    before = (case / ENTRIES).read_bytes()
    here = Path(__file__).parent
    done = subprocess.run(  # noqa: S603 - our own interpreter and script
        [sys.executable, "-c", script],
        capture_output=True,
        text=True,
        check=True,
        env={**os.environ, "PYTHONPATH": f"{here}:{here.parent / 'support'}"},
    )
    assert "could not be written: File too large. Nothing was changed." in done.stdout
    assert (case / ENTRIES).read_bytes() == before
    assert resource.getrlimit(resource.RLIMIT_FSIZE)[0] == resource.RLIM_INFINITY


def write_until_killed(folder: Path, channel: int) -> None:
    """Append entries and originals for ever; acknowledge each one."""
    with CaseWriter(folder) as writer:
        number = len(writer.state.entries)
        while True:
            label = f"c{number}"
            add_capture(writer, label, os.urandom(20_000))
            os.write(channel, f"{label}\n".encode())
            number += 1


def killed_writer(
    folder: Path, first_acknowledgements: int, delay_s: float
) -> list[str]:
    """Fork a writer, await some acknowledgements, kill it a little later."""
    reading, writing = os.pipe()
    child = os.fork()
    if child == 0:  # pragma: no cover - the child is killed
        os.close(reading)
        try:
            write_until_killed(folder, writing)
        finally:
            os._exit(1)
    os.close(writing)
    with os.fdopen(reading, "rb") as stream:
        heard = b"".join(stream.readline() for _ in range(first_acknowledgements))
        time.sleep(delay_s)
        os.kill(child, signal.SIGKILL)
        _, status = os.waitpid(child, 0)
        assert os.WIFSIGNALED(status), "the writer failed before it was killed"
        return (heard + stream.read()).decode().split()


def test_killed_writer_loses_nothing_that_it_acknowledged(tmp_path: Path) -> None:
    """The moment of the kill is random; half of them await no acknowledgement."""
    chance = random.Random(20311125)  # noqa: S311 - repeatable, not secret
    acknowledged = 0
    folder = tmp_path / "H7"
    known: set[str] = set()
    for kill in range(KILLS):
        if kill % 10 == 0:
            folder = tmp_path / f"H7-{kill}"
            create_case(folder, CASE, recorded_by="R", recorded_at=moment(3, 1))
            known = set()
        known.update(killed_writer(folder, kill % 2, chance.uniform(0, 0.02)))
        state = read_case(folder).state
        assert known <= {capture.id for capture in state.records(Capture)}
        if kill % 10 == 9:
            add_exhibit(folder, "after-the-kills")
            assert verify_case(folder).sound
            acknowledged += len(known)
    assert acknowledged >= KILLS / 2
