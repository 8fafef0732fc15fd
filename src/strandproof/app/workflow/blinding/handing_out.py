"""The use case that makes up a hand-out for a blind reader."""

import hashlib
import json
import secrets
from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from random import Random

from strandproof.app.workflow.blinding.contents import (
    CONTENTS,
    CodedPicture,
    hand_out_files,
)
from strandproof.app.workflow.blinding.name_search import hidden_names, names_found
from strandproof.app.workflow.blinding.sealing import sealed_assignments
from strandproof.app.workflow.entering import Desk, open_case
from strandproof.app.workflow.reading_by_people.files import GivenTestLines
from strandproof.app.workflow.reading_by_people.lines import give_test_lines
from strandproof.errors import NameFoundError, ParameterError
from strandproof.planning import things_of
from strandproof.records.case_state import CaseState, check_addition
from strandproof.records.entries import (
    Calibration,
    Entry,
    FileReference,
    HandedOutPicture,
    HandOut,
    Micrograph,
    Section,
)
from strandproof.storage import (
    Addition,
    Original,
    canonical_json,
    original_file,
    read_picture,
    read_sealed,
    seal_content,
    write_bundle,
)

_JSON = "application/json"
_SEED_BITS = 48


@dataclass(frozen=True, slots=True, kw_only=True)
class HandOutRequest:
    """What a reader is to get.

    Parameters
    ----------
    reader : str
        Who is to read.
    micrographs : tuple of str
        Short names; empty for all micrographs that have a code.
    sealed_list : str or None
        Sealed list that the codes come from; None takes those of the sections.
    straight_lines, circles : int
        Test lines and circles on each picture; none of both asks for verdicts alone.
    directions_deg : tuple of float
        Directions that straight lines take in turn [deg].
    counting_rules : tuple of str
        Rules for counting.
    order_seed : int or None
        Seed of the order; None draws one, which is kept.
    """

    reader: str
    micrographs: tuple[str, ...] = ()
    sealed_list: str | None = None
    straight_lines: int = 0
    circles: int = 0
    directions_deg: tuple[float, ...] = (0.0, 45.0, 90.0, 135.0)
    counting_rules: tuple[str, ...] = ()
    order_seed: int | None = None


def hand_out(desk: Desk, label: str, request: HandOutRequest, target: Path) -> Entry:
    """Make up a hand-out: coded pictures, and nothing that names the pieces.

    Everything is searched for the names of products, makers, shops, exhibits and
    pieces before anything is written.

    Parameters
    ----------
    desk : Desk
        Folder and person; the coder.
    label : str
        Short name of the hand-out.
    request : HandOutRequest
        What the reader is to get.
    target : Path
        New folder, or a new file that ends with ``.zip``.

    Returns
    -------
    Entry
        The hand-out. Which picture is which is kept in private/.

    Raises
    ------
    NameFoundError
        If a name would be shown; nothing is written.
    """
    state = open_case(desk.folder)
    seed = request.order_seed
    seed = secrets.randbits(_SEED_BITS) if seed is None else seed
    named = _shuffled(_coded_micrographs(desk.folder, state, request), seed)
    pictures = [
        _picture(desk.folder, state, request, name=name, micrograph=micrograph)
        for name, micrograph in named.items()
    ]
    files = hand_out_files(
        label,
        request.reader,
        pictures,
        made_at=desk.clock(),
        counting_rules=request.counting_rules,
    )
    found = names_found(files, hidden_names(state))
    if found:
        raise NameFoundError(found)
    body = _body(desk, label, request, files=files, named=named, seed=seed)
    contents = Original(files[CONTENTS], f"{label}-contents.json", _JSON)
    which = seal_content(
        canonical_json(named), f"which picture of {label} is which micrograph"
    )
    # Asked before anything is written outside of the case.
    check_addition(state, body, files=(_reference(contents),))
    write_bundle(target, files)
    return desk.add(Addition(body, (contents,), sealed=(which,)))[0]


def handed_out(folder: Path, state: CaseState, label: str) -> dict[str, str]:
    """Read which picture of a hand-out is which micrograph.

    Parameters
    ----------
    folder : Path
        Folder of the case, with its private/.
    state : CaseState
        State of the case.
    label : str
        Short name of the hand-out.

    Returns
    -------
    dict of str to str
        Name in the hand-out to short name of the micrograph.
    """
    entry = state.entry(HandOut, label)
    found: dict[str, str] = json.loads(
        read_sealed(folder, entry.sealed[0].sha256).content
    )
    return found


def lines_given(
    folder: Path, hand_out: HandOut, micrograph: str
) -> GivenTestLines | None:
    """Give the test lines that a hand-out shows on a micrograph.

    Parameters
    ----------
    folder : Path
        Folder of the case.
    hand_out : HandOut
        The hand-out.
    micrograph : str
        Short name of the micrograph.

    Returns
    -------
    GivenTestLines or None
        The lines that the picture's own hash fixes; None for verdicts alone.
    """
    if not hand_out.straight_lines and not hand_out.circles:
        return None
    return give_test_lines(
        folder,
        micrograph,
        lines=hand_out.straight_lines,
        circles=hand_out.circles,
        directions_deg=hand_out.directions_deg,
    )


def _coded_micrographs(
    folder: Path, state: CaseState, request: HandOutRequest
) -> dict[str, str]:
    """Give names by code and running number, each with its micrograph.

    Raises
    ------
    ParameterError
        If a micrograph asked for has no code, or none is left.
    """
    codes = _codes(folder, state, request.sealed_list)
    shown = state.records(Micrograph)
    if request.micrographs:
        shown = tuple(state.record(Micrograph, each) for each in request.micrographs)
        without = [each.id for each in shown if f"micrograph/{each.id}" not in codes]
        if without:
            raise ParameterError(
                "micrographs", without, allowed="micrographs of coded sections"
            )
    numbers: Counter[str] = Counter()
    named: dict[str, str] = {}
    for each in shown:
        code = codes.get(f"micrograph/{each.id}")
        if code is not None and each.id not in named.values():
            numbers[code] += 1
            named[f"{code}-{numbers[code]}"] = each.id
    if not named:
        raise ParameterError(
            "micrographs", "none", allowed="one micrograph of a coded section or more"
        )
    return named


def _codes(folder: Path, state: CaseState, sealed_list: str | None) -> dict[str, str]:
    """Give the code of everything that has one."""
    if sealed_list is None:
        assignments = {
            each.blind_code: f"section/{each.id}"
            for each in state.records(Section)
            if each.blind_code
        }
    else:
        assignments = sealed_assignments(folder, state, sealed_list)
    return {
        thing: code
        for code, stands_for in assignments.items()
        for thing in things_of(state, stands_for)
    }


def _shuffled(named: Mapping[str, str], seed: int) -> dict[str, str]:
    order = sorted(named)
    Random(seed).shuffle(order)  # noqa: S311 - an order that can be made again
    return {name: named[name] for name in order}


def _picture(
    folder: Path,
    state: CaseState,
    request: HandOutRequest,
    *,
    name: str,
    micrograph: str,
) -> CodedPicture:
    shown = state.record(Micrograph, micrograph)
    path = original_file(folder, state, shown.file_sha256)
    size = None
    if shown.calibration is not None:
        size = state.record(Calibration, shown.calibration).pixel_size
    lines = None
    if request.straight_lines or request.circles:
        lines = give_test_lines(
            folder,
            micrograph,
            lines=request.straight_lines,
            circles=request.circles,
            directions_deg=request.directions_deg,
        )
    return CodedPicture(
        name=name,
        decoded=read_picture(path, page=shown.page),
        synthetic=shown.synthetic,
        pixel_size_um=None if size is None else size.value,
        pixel_size_u_um=None if size is None else size.standard_uncertainty,
        lines=lines,
    )


def _body(
    desk: Desk,
    label: str,
    request: HandOutRequest,
    *,
    files: Mapping[str, bytes],
    named: Sequence[str] | Mapping[str, str],
    seed: int,
) -> HandOut:
    return HandOut(
        id=label,
        reader=request.reader,
        seal_sha256=hashlib.sha256(files[CONTENTS]).hexdigest(),
        pictures=tuple(
            HandedOutPicture(
                name=name,
                sha256=hashlib.sha256(files[f"pictures/{name}.png"]).hexdigest(),
            )
            for name in named
        ),
        sealed_list=request.sealed_list,
        order_seed=seed,
        straight_lines=request.straight_lines,
        circles=request.circles,
        directions_deg=request.directions_deg,
        counting_rules=request.counting_rules,
        made_at=desk.clock(),
        made_by=desk.person,
    )


def _reference(original: Original) -> FileReference:
    return FileReference(
        sha256=original.sha256,
        name=original.name,
        media_type=original.media_type,
        size_bytes=len(original.content),
    )
