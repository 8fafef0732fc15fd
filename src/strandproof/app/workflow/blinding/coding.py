"""Use cases of codes: draw them, print them, find the label that was meant."""

import csv
import io
import json
from collections.abc import Mapping, Sequence
from pathlib import Path

import numpy as np

from strandproof.app.workflow.entering import Desk, open_case, read_original
from strandproof.app.workflow.new_file import require_new_file
from strandproof.errors import ParameterError, UnknownCodeError, UnknownLabelError
from strandproof.planning import (
    LabelSheet,
    draw_codes,
    is_sound,
    label_sheet,
    nearest_codes,
    plain_code,
)
from strandproof.records.case_state import CaseState
from strandproof.records.entries import BlindListSealed, Section, Specimen
from strandproof.records.plain_data import as_plain_data
from strandproof.storage import write_output_file

LIST_COLUMNS = ("code", "stands_for")
"""Columns of the coder's list."""


def codes_in_use(state: CaseState) -> tuple[str, ...]:
    """Give every code that a label of the case carries.

    Parameters
    ----------
    state : CaseState
        State of the case.

    Returns
    -------
    tuple of str
        Each once.
    """
    sealed = (code for each in state.records(BlindListSealed) for code in each.codes)
    return tuple(dict.fromkeys((*sealed, *codes_stated(state))))


def codes_stated(state: CaseState) -> tuple[str, ...]:
    """Give the codes that stand openly beside a section or a specimen.

    Parameters
    ----------
    state : CaseState
        State of the case.

    Returns
    -------
    tuple of str
        In order of entry.
    """
    stated = (
        *(each.blind_code for each in state.records(Section)),
        *(each.blind_code for each in state.records(Specimen)),
    )
    return tuple(filter(None, stated))


def label_meant(folder: Path, typed: str) -> str:
    """Find the label that was typed.

    Parameters
    ----------
    folder : Path
        Folder of the case.
    typed : str
        A code, with or without its dash, in any case.

    Returns
    -------
    str
        The code as its label carries it.

    Raises
    ------
    UnknownCodeError
        If no label carries it; the nearest ones are named.
    """
    codes = codes_in_use(open_case(folder))
    plain = plain_code(typed)
    for code in codes:
        if plain_code(code) == plain:
            return code
    raise UnknownCodeError(typed, nearest_codes(typed, codes))


def make_codes(
    desk: Desk,
    things: Sequence[str],
    *,
    spares: int = 0,
    generator: np.random.Generator | None = None,
) -> LabelSheet:
    """Draw a code for each thing, with labels and the coder's list.

    Nothing is entered: the list is secret until it is opened. Seal it with
    `seal_list`.

    Parameters
    ----------
    desk : Desk
        Folder and person; the coder.
    things : sequence of str
        What is to be coded, for example ``section/E1-s1-L``.
    spares : int
        Codes in reserve.
    generator : numpy.random.Generator or None
        Source of chance; None takes fresh entropy from the system.

    Returns
    -------
    LabelSheet
        Labels and list.

    Raises
    ------
    ParameterError
        If a thing is named twice, or the number of spares is below 0.
    """
    state = open_case(desk.folder)
    if len(set(things)) < len(things) or not things:
        raise ParameterError("things", list(things), allowed="one or more, each once")
    if spares < 0:
        raise ParameterError("spares", spares, allowed="0 or more")
    for thing in things:
        require_thing(state, thing)
    chance = np.random.default_rng() if generator is None else generator
    codes = draw_codes(len(things) + spares, chance, taken=codes_in_use(state))
    assignments = dict(zip(codes, things, strict=False))
    return label_sheet(
        state,
        assignments,
        spares=codes[len(things) :],
        day=f"{desk.clock():%Y-%m-%d}",
        initials=desk.person,
    )


def write_code_lists(sheet: LabelSheet, labels: Path, coder_list: Path) -> None:
    """Write the labels as JSON for printing and the coder's list as CSV.

    Parameters
    ----------
    sheet : LabelSheet
        From `make_codes`.
    labels, coder_list : Path
        New files; earlier ones are never replaced.
    """
    require_new_file(labels)
    require_new_file(coder_list)
    data = {"labels": as_plain_data(sheet.labels)}
    text = json.dumps(data, indent=2, ensure_ascii=False) + "\n"
    write_output_file(labels, text.encode("utf-8"))
    table = io.StringIO()
    writer = csv.writer(table, lineterminator="\n")
    writer.writerow(LIST_COLUMNS)
    writer.writerows((line.code, line.stands_for) for line in sheet.coder_list)
    write_output_file(coder_list, table.getvalue().encode("utf-8"))


def read_coder_list(path: Path) -> Mapping[str, str]:
    """Read a coder's list; spares, which stand for nothing, are left out.

    Parameters
    ----------
    path : Path
        CSV with the columns ``code`` and ``stands_for``.

    Returns
    -------
    mapping of str to str
        Code to what it stands for.

    Raises
    ------
    ParameterError
        If it is no such list, a code is not sound, or a code stands twice.
    """
    try:
        text = read_original(path).content.decode("utf-8-sig")
    except UnicodeDecodeError:
        raise ParameterError("list", path.name, allowed="UTF-8 text") from None
    table = csv.DictReader(text.splitlines(), restval="")
    if not set(LIST_COLUMNS) <= set(table.fieldnames or ()):
        raise ParameterError(
            "list", path.name, allowed=f"CSV with columns {', '.join(LIST_COLUMNS)}"
        )
    found: dict[str, str] = {}
    for row in table:
        code, stands_for = row["code"].strip(), row["stands_for"].strip()
        if not is_sound(code) or code in found:
            place = f"code in line {table.line_num}"
            raise ParameterError(
                place,
                code,
                allowed="a code that agrees with its check character, once",
            )
        if stands_for:
            found[code] = stands_for
    return found


def require_thing(state: CaseState, thing: str) -> None:
    """Refuse to code something that the case does not have.

    Parameters
    ----------
    state : CaseState
        State of the case.
    thing : str
        Kind and name.

    Raises
    ------
    ParameterError
        If it is of a kind that has no label.
    UnknownLabelError
        If there is none of that name.
    """
    kind, _, name = thing.partition("/")
    if kind not in {"section", "specimen"}:
        raise ParameterError(
            "thing", thing, allowed="section/NAME or specimen/NAME of the case"
        )
    known = state.current.get(kind, {})
    if name not in known:
        raise UnknownLabelError(kind, name, tuple(known))
