"""Use cases of the blind list: seal it before reading, open it after, check it."""

import json
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path

from strandproof.app.workflow.blinding.coding import codes_stated, require_thing
from strandproof.app.workflow.entering import Desk, open_case
from strandproof.errors import (
    DuplicateLabelError,
    ListOpenedError,
    ListStillSealedError,
    ParameterError,
    SealMismatchError,
)
from strandproof.planning import is_sound, open_readings, plain_code
from strandproof.records.case_state import CaseState
from strandproof.records.commitments import commitment_sha256
from strandproof.records.entries import (
    BlindListOpened,
    BlindListSealed,
    Entry,
    Reading,
)
from strandproof.storage import (
    Addition,
    Original,
    SealedContent,
    canonical_json,
    original_file,
    read_sealed,
    seal_content,
)

_JSON = "application/json"


def seal_list(
    desk: Desk,
    label: str,
    assignments: Mapping[str, str],
    *,
    readers: Sequence[str] = (),
    sealed: SealedContent | None = None,
) -> Entry:
    """Seal a list of blind codes: its hash becomes public, the list stays private.

    Parameters
    ----------
    desk : Desk
        Folder and person; the coder.
    label : str
        Short name of the list.
    assignments : mapping of str to str
        Code to what it stands for.
    readers : sequence of str
        Who is to read every piece before the list may be opened.
    sealed : SealedContent or None
        The list with a salt of one's own; None draws one.

    Returns
    -------
    Entry
        The sealed list: hash, codes, moment.

    Raises
    ------
    ParameterError
        If a code is not sound or in use, or a thing stands twice.
    """
    state = open_case(desk.folder)
    _check_assignments(state, assignments)
    content = list_content(label, assignments, readers)
    words = f"list of {len(assignments)} blind codes"
    kept = seal_content(content, words) if sealed is None else sealed
    body = BlindListSealed(
        id=label,
        list_sha256=kept.commitment.sha256,
        codes=tuple(sorted(assignments)),
        readers=tuple(readers),
        sealed_at=desk.clock(),
        sealed_by=desk.person,
    )
    return desk.add(Addition(body, sealed=(kept,)))[0]


def list_content(
    label: str, assignments: Mapping[str, str], readers: Sequence[str]
) -> bytes:
    """Give the bytes of a list that are sealed.

    Parameters
    ----------
    label : str
        Short name of the list.
    assignments : mapping of str to str
        Code to what it stands for.
    readers : sequence of str
        Who is to read.

    Returns
    -------
    bytes
        Canonical JSON (RFC 8785).
    """
    return canonical_json(
        {"list": label, "readers": list(readers), "assignments": dict(assignments)}
    )


def open_list(desk: Desk, label: str) -> Entry:
    """Open a sealed list, once every reading of every coded piece is locked.

    Parameters
    ----------
    desk : Desk
        Folder and person.
    label : str
        Short name of the list.

    Returns
    -------
    Entry
        The opened list, with the salt.

    Raises
    ------
    DuplicateLabelError
        If it was opened before.
    ListStillSealedError
        If a reading is open.
    """
    state = open_case(desk.folder)
    sealed = state.record(BlindListSealed, label)
    if opened_as(state, label) is not None:
        raise DuplicateLabelError("blind list opened", label)
    kept = read_sealed(desk.folder, sealed.list_sha256)
    assignments = _assignments_in(kept.content)
    still_open = open_readings(state, sealed, assignments)
    if still_open:
        raise ListStillSealedError(label, tuple(each.words for each in still_open))
    original = Original(kept.content, f"{label}.json", _JSON)
    body = BlindListOpened(
        id=label,
        sealed_list=label,
        assignments=dict(assignments),
        salt_hex=kept.salt.hex(),
        list_file_sha256=original.sha256,
        opened_at=desk.clock(),
        opened_by=desk.person,
    )
    return desk.add(Addition(body, (original,)))[0]


@dataclass(frozen=True, slots=True, kw_only=True)
class CheckedList:
    """An opened list held against its seal.

    Parameters
    ----------
    sealed : Entry
        The entry that sealed it.
    opened : Entry
        The entry that opened it.
    file : Path
        The list, as kept.
    readings_before_seal : tuple of str
        Readings of coded pieces entered before the list was sealed.
    """

    sealed: Entry
    opened: Entry
    file: Path
    readings_before_seal: tuple[str, ...]


def check_opened_list(folder: Path, label: str) -> CheckedList:
    """Check an opened list against the hash that was public since it was sealed.

    Parameters
    ----------
    folder : Path
        Folder of the case.
    label : str
        Short name of the list.

    Returns
    -------
    CheckedList
        Both entries; the list agrees.

    Raises
    ------
    ParameterError
        If it was not opened.
    SealMismatchError
        If anything differs.
    """
    state = open_case(folder)
    sealed = state.record(BlindListSealed, label)
    opened = opened_as(state, label)
    if opened is None:
        raise ParameterError("list", label, allowed="a list that was opened")
    path = original_file(folder, state, opened.list_file_sha256)
    content = path.read_bytes()
    what = f"Blind list {label}"
    remedy = "Restore the case from a copy, and compare its head with a printed one."
    found = commitment_sha256(bytes.fromhex(opened.salt_hex), content)
    if found != sealed.list_sha256:
        expected = sealed.list_sha256
        raise SealMismatchError(what, expected=expected, found=found, remedy=remedy)
    listed = _assignments_in(content)
    if listed != opened.assignments or tuple(sorted(listed)) != sealed.codes:
        raise SealMismatchError(
            what, expected="the codes sealed", found="other codes", remedy=remedy
        )
    return CheckedList(
        sealed=state.entry(BlindListSealed, label),
        opened=state.entry(BlindListOpened, opened.id),
        file=path,
        readings_before_seal=_read_before(state, label, listed),
    )


def sealed_assignments(folder: Path, state: CaseState, label: str) -> dict[str, str]:
    """Read a list that is still sealed; for use cases that show nobody the pieces.

    Parameters
    ----------
    folder : Path
        Folder of the case, with its private/.
    state : CaseState
        State of the case.
    label : str
        Short name of the list.

    Returns
    -------
    dict of str to str
        Code to what it stands for.

    Raises
    ------
    ListOpenedError
        If it was opened, so that readers may know the pieces.
    """
    if opened_as(state, label) is not None:
        raise ListOpenedError(label, "handing out its codes")
    sealed = state.record(BlindListSealed, label)
    return _assignments_in(read_sealed(folder, sealed.list_sha256).content)


def openly_coded(state: CaseState, assignments: Mapping[str, str]) -> tuple[str, ...]:
    """List coded pieces whose code stands openly in the case, so that it is no secret.

    Parameters
    ----------
    state : CaseState
        State of the case.
    assignments : mapping of str to str
        Code to what it stands for.

    Returns
    -------
    tuple of str
        Codes.
    """
    return tuple(sorted(set(codes_stated(state)) & set(assignments)))


def opened_as(state: CaseState, label: str) -> BlindListOpened | None:
    """Give the opening of a sealed list.

    Parameters
    ----------
    state : CaseState
        State of the case.
    label : str
        Short name of the sealed list.

    Returns
    -------
    BlindListOpened or None
        None while it is sealed.
    """
    for each in state.records(BlindListOpened):
        if each.sealed_list == label:
            return each
    return None


def _check_assignments(state: CaseState, assignments: Mapping[str, str]) -> None:
    if not assignments:
        raise ParameterError("list", {}, allowed="one code or more")
    sealed_codes = {
        plain_code(code)
        for each in state.records(BlindListSealed)
        for code in each.codes
    }
    for code, thing in assignments.items():
        require_thing(state, thing)
        if not is_sound(code) or plain_code(code) in sealed_codes:
            raise ParameterError(
                "code",
                code,
                allowed="a code that agrees with its check character and that no "
                "other sealed list has",
            )
    if len(set(assignments.values())) < len(assignments):
        raise ParameterError(
            "list", sorted(assignments.values()), allowed="each thing once"
        )


def _assignments_in(content: bytes) -> dict[str, str]:
    assignments: dict[str, str] = json.loads(content)["assignments"]
    return assignments


def _read_before(
    state: CaseState, label: str, assignments: Mapping[str, str]
) -> tuple[str, ...]:
    sealed_as = state.entry(BlindListSealed, label).number
    names = set(assignments.values())
    return tuple(
        each.body.id
        for each in state.entries
        if each.number < sealed_as
        and isinstance(each.body, Reading)
        and each.body.reads in names
    )
