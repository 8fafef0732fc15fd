"""The verdict of a reading, and whether marks and words agree on it."""

from collections.abc import Mapping, Sequence
from typing import Any

from strandproof.errors import InvalidEntryError
from strandproof.records.entries import Reading, ReadingMark

_READING = "reading"


def verdict_with(
    fields: Mapping[str, Any], marks: Sequence[ReadingMark] | None
) -> str | None:
    """Give the verdict that the fields and marks make together.

    Parameters
    ----------
    fields : mapping
        Fields as stated: ``verdict`` and ``reason``, if any.
    marks : sequence of ReadingMark or None
        Marks on test lines; None for a reading without lines.

    Returns
    -------
    str or None
        The verdict; None where neither says it.

    Raises
    ------
    InvalidEntryError
        If they contradict each other, or a reason is missing.
    """
    stated = fields.get("verdict")
    marked = None if marks is None else _verdict_of(marks)
    if stated == "not_readable":
        if not str(fields.get("reason", "")).strip():
            fault = "reason: say why it is not readable."
            raise InvalidEntryError(_READING, (fault,))
        return "not_readable"
    if stated is None:
        if marks is not None and marked is None:
            fault = (
                "verdict: no mark is a sure boundary, but some are twins or "
                "uncertain; say boundaries, none_resolved or not_readable."
            )
            raise InvalidEntryError(_READING, (fault,))
        return marked
    if marked is not None and stated != marked:
        fault = f"verdict: {stated} was given, but the marks say {marked}."
        raise InvalidEntryError(_READING, (fault,))
    return str(stated)


def verdict_after(
    reading: Reading, marks: Sequence[ReadingMark], stated: str | None
) -> str | None:
    """Give the verdict of a reading whose marks were classed anew.

    Parameters
    ----------
    reading : Reading
        The reading before.
    marks : sequence of ReadingMark
        Its marks now.
    stated : str or None
        What the reader says now, if anything.

    Returns
    -------
    str or None
        The verdict.
    """
    # Without a boundary before, the reader's own verdict was needed and still holds.
    kept = stated is None and _verdict_of(reading.marks) is None
    if kept or reading.verdict == "not_readable":
        stated = stated or reading.verdict
    fields = {"verdict": stated, "reason": reading.reason}
    return verdict_with(fields, marks)


def _verdict_of(marks: Sequence[ReadingMark]) -> str | None:
    """Give the verdict that marks decide by themselves, if they do."""
    features = {mark.feature for mark in marks}
    if "boundary" in features:
        return "boundaries"
    return None if features & {"twin", "uncertain"} else "none_resolved"
