"""The build table and what is tested on which conductor type, in lines and as data."""

from dataclasses import asdict
from typing import Any

from strandproof.records.case_state import CaseState
from strandproof.report import build_rows, not_tested, target_sentences, targets


def build_in_words(state: CaseState) -> tuple[str, ...]:
    """Say how the pieces are built, what is tested on each target, and what is not.

    Parameters
    ----------
    state : CaseState
        State of the case.

    Returns
    -------
    tuple of str
        Lines for people.
    """
    rows = build_rows(state)
    if not rows:
        return ("No layer and no conductor type is entered yet.",)
    lines = [
        f"{row.exhibit}: {row.part}"
        + (f", {row.made_of}" if row.made_of else "")
        + f"; {row.count}; {row.size}."
        for row in rows
    ]
    lines += target_sentences(state)
    return (*lines, f"Not tested: {'; '.join(not_tested(state))}.")


def build_data(state: CaseState) -> dict[str, Any]:
    """Give build table and coverage of targets as JSON data.

    Parameters
    ----------
    state : CaseState
        State of the case.

    Returns
    -------
    dict
        Rows, targets with one cell for each kind of claim, what is not tested.
    """
    return {
        "rows": [asdict(row) for row in build_rows(state)],
        "targets": [
            {
                "target": target.name,
                "exhibits": list(target.exhibits),
                "plating": target.plating,
                "kinds": {
                    cell.kind.value: {
                        "tested_by": list(cell.tested_by),
                        "exhibits": list(cell.exhibits),
                    }
                    for cell in target.cells
                },
            }
            for target in targets(state)
        ],
        "not_tested": list(not_tested(state)),
    }
