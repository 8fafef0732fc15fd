"""What was said, in lines for people and as data: grid, readings, own words, copies."""

from collections.abc import Sequence
from datetime import datetime
from typing import Any

from strandproof.app.workflow.claiming.copies import Recheck
from strandproof.records.case_facts.captures import (
    ChangeWindow,
    capture_answers,
    changes_at,
)
from strandproof.records.case_facts.claim_grid import (
    ClaimGrid,
    GridRow,
    claim_grid,
    said_nowhere,
)
from strandproof.records.case_facts.own_words import own_words_due
from strandproof.records.case_facts.places import DuePlace, due_again
from strandproof.records.case_state import CaseState
from strandproof.records.entries import Claim
from strandproof.report import readings_side_by_side
from strandproof.tables import package_table, table_value

_LOOK_YOURSELF = (
    "The files differ, and they are no texts: look at both, and enter what you found "
    "with 'strandproof search-capture'."
)


def grid_in_words(state: CaseState) -> tuple[str, ...]:
    """Say what was said where, wording by wording.

    Parameters
    ----------
    state : CaseState
        State of the case.

    Returns
    -------
    tuple of str
        Lines for people: the grid, who says what nowhere, changes, readings, own
        words with a correction due.
    """
    grid = claim_grid(state)
    lines = [line for row in grid.rows for line in _row_lines(row)]
    lines += said_nowhere(grid)
    lines += [change.words for change in changes_at(state)]
    lines += readings_in_words(state)
    lines += [due.words for due in own_words_due(state)]
    return tuple(lines or ["No claim is frozen yet."])


def grid_data(state: CaseState) -> dict[str, Any]:
    """Give the grid as JSON data.

    Parameters
    ----------
    state : CaseState
        State of the case.

    Returns
    -------
    dict
        Places, rows with one cell for each place, sentences.
    """
    grid = claim_grid(state)
    return {
        "places": [_place_data(grid, number) for number in range(len(grid.places))],
        "rows": [
            {
                "claim": row.claim.id,
                "wording": row.wording,
                "cells": [
                    {
                        "said": cell.said.value,
                        "copies": [
                            {
                                "at": each.at.isoformat(),
                                "said": each.said.value,
                                "capture": each.capture,
                            }
                            for each in cell.sightings
                        ],
                    }
                    for cell in row.cells
                ],
            }
            for row in grid.rows
        ],
        "said_nowhere": list(said_nowhere(grid)),
        "changes": [change.words for change in changes_at(state)],
        "own_words": [due.words for due in own_words_due(state)],
    }


def readings_in_words(state: CaseState) -> tuple[str, ...]:
    """Set the readings of every claim side by side, each with what tests it.

    Parameters
    ----------
    state : CaseState
        State of the case.

    Returns
    -------
    tuple of str
        One line for each reading.
    """
    return tuple(
        f"{each.claim.id}, read as “{each.words}” ({each.how}, {each.kind_words}): "
        + (
            f"tested by {', '.join(each.tested_by)}."
            if each.tested_by
            else "not tested."
        )
        for each in readings_side_by_side(state)
    )


def questions_in_words(state: CaseState) -> tuple[str, ...]:
    """Give the four questions of every frozen copy, claim by claim, with answers.

    Parameters
    ----------
    state : CaseState
        State of the case.

    Returns
    -------
    tuple of str
        One line for each copy that shows a claim.
    """
    from_label = {
        capture.id: capture
        for place in claim_grid(state).places
        for capture in place.captures
    }
    return tuple(
        f"{claim.id}, copy {label}: "
        + " ".join(f"{ask} {said}." for ask, said in capture_answers(from_label[label]))
        for claim in state.records(Claim)
        for label in claim.captures
    )


def usual_days() -> int:
    """Give the days after which a page is looked at again; a rule without a source.

    Returns
    -------
    int
        Days.
    """
    return int(table_value(package_table("case_rules"), "captures.look_again_after"))


def still_online(
    state: CaseState, *, now: datetime, days: int | None = None
) -> tuple[DuePlace, ...]:
    """List the places that are due to be looked at again.

    Parameters
    ----------
    state : CaseState
        State of the case.
    now : datetime
        The present moment.
    days : int or None
        Days after which a place is due; the usual ones when None.

    Returns
    -------
    tuple of DuePlace
        The longest unseen first.
    """
    every = usual_days() if days is None else days
    return due_again(state, now=now, every_days=every)


def due_in_words(due: Sequence[DuePlace]) -> tuple[str, ...]:
    """Say which places are due.

    Parameters
    ----------
    due : sequence of DuePlace
        From `still_online`.

    Returns
    -------
    tuple of str
        Lines for people.
    """
    return tuple(
        f"{each.place.name}: {'; '.join(each.reasons)}. Capture it again with "
        f"'strandproof recheck' (last copy: {each.place.captures[-1].id})."
        for each in due
    ) or ("No place is due.",)


def due_data(due: Sequence[DuePlace]) -> list[dict[str, Any]]:
    """Give the places that are due as JSON data.

    Parameters
    ----------
    due : sequence of DuePlace
        From `still_online`.

    Returns
    -------
    list of dict
        Place, last copy, days, reasons.
    """
    return [
        {
            "medium": each.place.medium,
            "place": each.place.place,
            "last_capture": each.place.captures[-1].id,
            "last_captured_at": each.last_captured_at.isoformat(),
            "days": each.days,
            "reasons": list(each.reasons),
        }
        for each in due
    ]


def recheck_in_words(found: Recheck) -> tuple[str, ...]:
    """Say what a second look at a place showed.

    Parameters
    ----------
    found : Recheck
        From `recheck_place`.

    Returns
    -------
    tuple of str
        Lines for people; nothing is said about why anything changed.
    """
    first, second = found.earlier, found.later
    days = f"{first.captured_at:%Y-%m-%d} and {second.captured_at:%Y-%m-%d}"
    lines = [f"Compared: {first.id} and {second.id}, of {days}."]
    if not found.later.complete:
        lines.append(
            "The later copy shows a part only: words absent from it are not gone."
        )
    lines += _differences(found)
    return (*lines, *(change.words for change in found.changes))


def recheck_data(found: Recheck) -> dict[str, Any]:
    """Give a second look at a place as JSON data.

    Parameters
    ----------
    found : Recheck
        From `recheck_place`.

    Returns
    -------
    dict
        Entries, comparison, changes.
    """
    texts = found.texts
    return {
        "entries": [entry.to_json_data() for entry in found.entries],
        "earlier": found.earlier.id,
        "later": found.later.id,
        "same_bytes": found.same_bytes,
        "same_words": texts.same if texts else None,
        "lines": [[line.kind, line.words] for line in texts.lines] if texts else None,
        "gone": list(texts.gone) if texts else None,
        "kept": list(texts.kept) if texts else None,
        "came": list(texts.came) if texts else None,
        "changes": [_change_data(change) for change in found.changes],
    }


def _differences(found: Recheck) -> list[str]:
    if found.same_bytes:
        return ["Both files are the same, byte for byte."]
    if found.texts is None:
        return [_LOOK_YOURSELF]
    if found.texts.same:
        return ["Both copies read the same."]
    signs = {"gone": "-", "new": "+"}
    lines = [f"{signs[line.kind]} {line.words}" for line in found.texts.lines]
    for words, said in (
        (found.texts.kept, "still there"),
        (found.texts.gone, "not in the later copy"),
        (found.texts.came, "in the later copy only"),
    ):
        lines += [f"“{each}”: {said}." for each in words]
    return lines


def _change_data(change: ChangeWindow) -> dict[str, str]:
    return {
        "claim": change.claim.id,
        "wording": change.wording,
        "before": change.before.at.isoformat(),
        "after": change.after.at.isoformat(),
        "words": change.words,
    }


def _row_lines(row: GridRow) -> list[str]:
    head = f"{row.claim.id} “{row.wording}”"
    return [
        head,
        *(f"    {cell.place.name}: {cell.words}" for cell in row.cells),
    ]


def _place_data(grid: ClaimGrid, number: int) -> dict[str, Any]:
    place = grid.places[number]
    return {
        "medium": place.medium,
        "place": place.place,
        "speakers": list(place.speakers),
        "roles": [role.value for role in place.roles],
        "captures": [capture.id for capture in place.captures],
    }
