"""Redaction: the copy is shown, the whole is sealed, a later opening is checked."""

from pathlib import Path

import pytest
from workflow_examples import contents, desk_at

from strandproof.app.workflow import Desk, start_case, verify
from strandproof.app.workflow.entering import open_case
from strandproof.app.workflow.redacting import (
    RedactedFile,
    check_revealed,
    redact,
    reveal,
)
from strandproof.errors import (
    OutputExistsError,
    ParameterError,
    SealMismatchError,
    UnknownLabelError,
)
from strandproof.records.entries import Redaction

WHOLE = b"Invoice 71. To: R, 3 Plum Lane. Tern earphone lead 129.00\n"


@pytest.fixture
def desk(tmp_path: Path) -> Desk:
    desk = desk_at(tmp_path / "H7", "R")
    start_case(desk, {"id": "H7", "title": "The Tern earphone lead", "owner": "R"})
    (tmp_path / "invoice.txt").write_bytes(WHOLE)
    (tmp_path / "shown.txt").write_bytes(WHOLE.replace(b"3 Plum Lane", b"#"))
    file = RedactedFile(
        whole=tmp_path / "invoice.txt",
        shown=tmp_path / "shown.txt",
        removed="postal address",
        reason="private",
    )
    redact(desk, "invoice", file)
    return desk


def test_what_is_public_does_not_hold_the_address(desk: Desk) -> None:
    public = [
        data for name, data in contents(desk.folder).items() if "private" not in name
    ]
    assert not any(b"Plum Lane" in data for data in public)
    assert any(b"Invoice 71" in data for data in public)
    assert verify(desk.folder).sound


def test_later_opening_verifies(desk: Desk, tmp_path: Path) -> None:
    salt = reveal(desk.folder, "invoice", tmp_path / "whole.txt")
    assert (tmp_path / "whole.txt").read_bytes() == WHOLE
    agreed = check_revealed(desk.folder, "invoice", tmp_path / "whole.txt", salt)
    assert (
        agreed == open_case(desk.folder).record(Redaction, "invoice").commitment_sha256
    )
    (tmp_path / "other.txt").write_bytes(WHOLE.replace(b"129.00", b"29.00"))
    with pytest.raises(SealMismatchError, match="The file other.txt does not agree"):
        check_revealed(desk.folder, "invoice", tmp_path / "other.txt", salt)
    with pytest.raises(SealMismatchError, match="salt is another's"):
        check_revealed(desk.folder, "invoice", tmp_path / "whole.txt", "0" * 64)


def test_bad_requests(desk: Desk, tmp_path: Path) -> None:
    before = contents(desk.folder)
    whole = tmp_path / "invoice.txt"
    same = RedactedFile(whole=whole, shown=whole, removed="x", reason="y")
    with pytest.raises(ParameterError, match="differs from the original"):
        redact(desk, "again", same)
    with pytest.raises(UnknownLabelError, match="no redaction 'x'"):
        reveal(desk.folder, "x", tmp_path / "new.txt")
    with pytest.raises(OutputExistsError, match="a file is there"):
        reveal(desk.folder, "invoice", whole)
    with pytest.raises(ParameterError, match="64 hexadecimal digits"):
        check_revealed(desk.folder, "invoice", whole, "salt")
    assert contents(desk.folder) == before
