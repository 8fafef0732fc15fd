"""Use cases that look at a case without changing it."""

from collections.abc import Sequence
from dataclasses import asdict
from pathlib import Path
from typing import Any

from strandproof.app.workflow.resize_guarding import resized_copies
from strandproof.errors import StrandproofError
from strandproof.records.case_state import CaseState
from strandproof.records.entries import ENTRY_KINDS, Entry, kind_in_words
from strandproof.storage import Progress, Verification, verify_case


def verify(
    folder: Path, *, head: str | None = None, progress: Progress | None = None
) -> Verification:
    """Recompute every hash and link of a case; compare with a head kept outside.

    Parameters
    ----------
    folder : Path
        Folder of the case.
    head : str or None
        Head printed on a report or kept elsewhere.
    progress : callable or None
        Called with a fraction and words.

    Returns
    -------
    Verification
        What was checked and what differs.
    """
    return verify_case(folder, head=head, progress=progress)


def resize_warnings(folder: Path, outcome: Verification) -> tuple[str, ...]:
    """Look for micrographs measured with the pixel size of another copy.

    Every hash of such a case is right; only the lengths are not.

    Parameters
    ----------
    folder : Path
        Folder of the case.
    outcome : Verification
        From `verify`; a case that differs from its record is not looked through.

    Returns
    -------
    tuple of str
        One sentence for each pair found, or why nobody could look.
    """
    if not outcome.sound:
        return ()
    try:
        return resized_copies(folder)
    except StrandproofError as error:
        # An original that is no picture must not hide that all hashes match.
        return (f"It was not looked for resized copies of micrographs. {error}",)


def entry_headline(entry: Entry) -> str:
    """Say in one line what an entry is.

    Parameters
    ----------
    entry : Entry
        An entry of a case.

    Returns
    -------
    str
        Number, day, kind and short name; what it corrects, if anything.
    """
    day = entry.recorded_at.date().isoformat()
    words = f"{entry.number:>4}  {day}  {kind_in_words(entry.kind)} {entry.body.id}"
    if entry.supersedes is not None:
        words += f"  (corrects entry {entry.supersedes}: {entry.reason})"
    return words


def missing_parts(state: CaseState) -> tuple[str, ...]:
    """Name what a case needs before its report says anything.

    Parameters
    ----------
    state : CaseState
        State of the case.

    Returns
    -------
    tuple of str
        Kinds in the order of work, in words.
    """
    steps = ("claim", "exhibit", "specimen", "section", "calibration", "micrograph")
    wanted = [kind for kind in (*steps, "measurement") if kind in ENTRY_KINDS]
    return tuple(kind_in_words(kind) for kind in wanted if kind not in state.current)


def verification_data(
    outcome: Verification, *, warnings: Sequence[str] = ()
) -> dict[str, Any]:
    """Give the outcome of checking a case as plain data.

    Parameters
    ----------
    outcome : Verification
        From `verify`.
    warnings : sequence of str
        From `resize_warnings`.

    Returns
    -------
    dict
        JSON data.
    """
    return {"sound": outcome.sound, **asdict(outcome), "warnings": list(warnings)}


def verification_in_words(
    outcome: Verification, *, head_given: bool, warnings: Sequence[str] = ()
) -> tuple[str, ...]:
    """Say the outcome of checking a case.

    Parameters
    ----------
    outcome : Verification
        From `verify`.
    head_given : bool
        True when a head kept outside was compared.
    warnings : sequence of str
        From `resize_warnings`.

    Returns
    -------
    tuple of str
        Lines for people.
    """
    lines = [f"{item.where}: {item.what}" for item in outcome.differences]
    lines += [f"Note: {notice}." for notice in outcome.notices]
    lines += [f"Warning: {warning}" for warning in warnings]
    checked = f"{outcome.entries} entries and {outcome.files} originals"
    if outcome.sound:
        lines.append(f"All match: {checked} agree with their hashes.")
    else:
        count = len(outcome.differences)
        noun = "difference" if count == 1 else "differences"
        lines.append(f"{count} {noun} found in {checked}.")
    lines.append(f"Head: {outcome.head}")
    if not head_given:
        lines.append(
            "Compare the head with the one on a report (--head): a record that was "
            "cut, continued or rewritten as a whole cannot be found without it."
        )
    return tuple(lines)
