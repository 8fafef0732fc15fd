"""Plans, later changes and fields in words and as data."""

from pathlib import Path
from typing import Any

from strandproof.app.workflow.entering import open_case
from strandproof.app.workflow.plan_locking.locking import plan_content
from strandproof.app.workflow.plan_locking.positions import DrawnFields
from strandproof.errors import SealMismatchError
from strandproof.planning import FieldsAccount, fields_account, later_changes
from strandproof.records.entries import PlanLock
from strandproof.records.plain_data import as_plain_data
from strandproof.storage import original_file


def changes_in_words(folder: Path) -> tuple[str, ...]:
    """Say every later change, what the record shows of it, and the person's word.

    Parameters
    ----------
    folder : Path
        Folder of the case.

    Returns
    -------
    tuple of str
        Two or three sentences a change.
    """
    lines: list[str] = []
    for change in later_changes(open_case(folder)):
        lines += [change.words, change.by_record]
        if not change.agrees:
            lines.append(f"{change.by_word} Word and record differ.")
    return tuple(lines)


def account_of(folder: Path) -> FieldsAccount:
    """Account for every planned field of a case.

    Parameters
    ----------
    folder : Path
        Folder of the case.

    Returns
    -------
    FieldsAccount
        From `strandproof.planning.fields_account`.
    """
    return fields_account(open_case(folder))


def contact_sheet_data(account: FieldsAccount) -> dict[str, Any]:
    """Give all fields as data for a contact sheet, used or not.

    Parameters
    ----------
    account : FieldsAccount
        All fields.

    Returns
    -------
    dict
        JSON data.
    """
    return {
        "sentence": account.sentence,
        "fields": [
            {
                "section": each.field.section,
                "number": each.field.number,
                "extent": each.field.extent,
                "position_mm": each.field.position_mm,
                "code": each.code,
                "standing": each.standing,
                "reason": each.reason,
                "micrograph": each.micrograph,
                "file_sha256": each.file_sha256,
                "readers": list(each.readers),
            }
            for each in account.fields
        ],
        "unplanned": list(account.unplanned),
    }


def drawn_in_words(drawn: DrawnFields) -> tuple[str, ...]:
    """Say what was drawn.

    Parameters
    ----------
    drawn : DrawnFields
        Places with their draw.

    Returns
    -------
    tuple of str
        Numbers and seed.
    """
    draw = drawn.draw
    long_sections = {each.section for each in drawn.fields if each.extent == "field"}
    faces = sum(each.extent == "whole_face" for each in drawn.fields)
    number = (
        f"{len(drawn.fields)} fields: {draw.fields_per_section} on each of "
        f"{len(long_sections)} long sections, {faces} whole faces."
    )
    how = (
        f"Drawn with seed {draw.seed} within {draw.section_length_mm:g} mm, fields "
        f"{draw.field_width_mm:g} mm wide; anyone can draw them again."
    )
    return number, how


def check_plan_file(folder: Path, label: str) -> str:
    """Check a locked plan against its file, and give the hash to compare.

    Parameters
    ----------
    folder : Path
        Folder of the case.
    label : str
        Short name of the plan.

    Returns
    -------
    str
        SHA-256 of the file, equal to the one locked.

    Raises
    ------
    SealMismatchError
        If entry and file differ.
    """
    state = open_case(folder)
    plan = state.record(PlanLock, label)
    kept = original_file(folder, state, plan.plan_sha256).read_bytes()
    if kept != plan_content(plan):
        what = f"The file of plan {label}"
        raise SealMismatchError(
            what,
            expected=plan.plan_sha256,
            found="a file that says something else than the entry",
            remedy="It was entered by hand; publish the entry and the file together.",
        )
    return plan.plan_sha256


def changes_data(folder: Path) -> list[Any]:
    """Give every later change as data.

    Parameters
    ----------
    folder : Path
        Folder of the case.

    Returns
    -------
    list
        JSON data.
    """
    return [
        {
            "id": each.change.id,
            "words": each.words,
            "by_record": each.by_record,
            "by_word": each.by_word,
            "agrees": each.agrees,
            "results_of_these": as_plain_data(each.results_of_these),
            "other_results": as_plain_data(each.other_results),
        }
        for each in later_changes(open_case(folder))
    ]
