"""Use cases after locking: the direction hint, and only then a new look."""

from collections.abc import Mapping
from dataclasses import dataclass

from strandproof.app.workflow.entering import Desk, open_case
from strandproof.app.workflow.reading_by_people.state import (
    locked_version,
    metal_length_px,
)
from strandproof.app.workflow.reading_by_people.verdict import verdict_after
from strandproof.app.workflow.reading_by_people.words import hint_in_words
from strandproof.app.workflow.reading_locks import hint_was_shown, locks_of
from strandproof.errors import (
    NoHintShownError,
    ParameterError,
    ReadingsOpenError,
)
from strandproof.grainsize.marks import (
    DirectionCluster,
    DirectionRose,
    LineMark,
    direction_rose,
    doubted_directions,
    greatest_cluster,
    shared_directions,
)
from strandproof.records.entries import Entry, Reading, ReadingLock
from strandproof.records.entries.building import build_body
from strandproof.records.entries.laboratory import MarkFeature
from strandproof.storage import Addition


@dataclass(frozen=True, slots=True, kw_only=True)
class DirectionHint:
    """What the directions of a locked reading's marks suggest to look at again.

    Parameters
    ----------
    reading : str
        Short name of the reading.
    rose : DirectionRose
        Directions of the marks that count, or might.
    clusters : tuple of DirectionCluster
        Shared directions that chance does not explain; their marks are numbers of
        the reading's marks, counted from 1.
    words : tuple of str
        The hint as it was shown.
    entry : Entry
        The entry that notes that it was shown.
    """

    reading: str
    rose: DirectionRose
    clusters: tuple[DirectionCluster, ...]
    words: tuple[str, ...]
    entry: Entry


def direction_hint(desk: Desk, label: str) -> DirectionHint:
    """Show which marks of a locked reading share a direction; note that it was shown.

    The first call enters the hint into the case before anything is returned; later
    calls show the same.

    Parameters
    ----------
    desk : Desk
        Folder and person.
    label : str
        Short name of the reading.

    Returns
    -------
    DirectionHint
        Rose, clusters, words, and the entry that notes it.

    Raises
    ------
    ReadingsOpenError
        If the reading is not locked.
    """
    state = open_case(desk.folder)
    state.record(Reading, label)
    locked = locked_version(state, label)
    if locked is None:
        raise ReadingsOpenError("The direction hint", (label,))
    places, directions = doubted_directions(
        [
            LineMark(along_px=0.0, feature=m.feature, direction_deg=m.direction_deg)
            for m in locked.marks
        ]
    )
    clusters = tuple(
        DirectionCluster(
            marks=tuple(places[k] + 1 for k in cluster.marks),
            from_deg=cluster.from_deg,
            to_deg=cluster.to_deg,
            of_marks=cluster.of_marks,
            chance_at_most=cluster.chance_at_most,
        )
        for cluster in shared_directions(directions)
    )
    words = hint_in_words(clusters, greatest_cluster(directions))
    lock = locks_of(state, label)[-1]
    return DirectionHint(
        reading=label,
        rose=direction_rose(directions),
        clusters=clusters,
        words=words,
        entry=_note_hint(desk, lock, words),
    )


def re_class(
    desk: Desk,
    label: str,
    features: Mapping[int, MarkFeature],
    *,
    reason: str,
    verdict: str | None = None,
) -> Entry:
    """Class some marks anew after the hint: a new version, and the locked one stays.

    Parameters
    ----------
    desk : Desk
        Folder and person.
    label : str
        Short name of the reading.
    features : mapping of int to str
        Number of a mark, counted from 1, and what it is taken for now.
    reason : str
        Why, in the reader's words.
    verdict : str or None
        What was seen, where the marks do not decide it; None keeps what holds.

    Returns
    -------
    Entry
        The new version; it holds from now on.

    Raises
    ------
    ReadingsOpenError
        If the reading is not locked.
    NoHintShownError
        If no hint was shown.
    ParameterError
        If a number is that of no mark, nothing changes, or the reason is empty.
    """
    state = open_case(desk.folder)
    entry = state.entry(Reading, label)
    reading = state.record(Reading, label)
    locks = locks_of(state, label)
    if not locks:
        raise ReadingsOpenError("A new class", (label,))
    if not any(hint_was_shown(lock) for lock in locks):
        raise NoHintShownError(label)
    unknown = [k for k in features if not 1 <= k <= len(reading.marks)]
    if unknown:
        raise ParameterError("mark", unknown, allowed=f"1 to {len(reading.marks)}")
    marks = tuple(
        mark.model_copy(update={"feature": features.get(k, mark.feature)})
        for k, mark in enumerate(reading.marks, 1)
    )
    if marks == reading.marks or not reason.strip():
        raise ParameterError(
            "features and reason",
            (dict(features), reason),
            allowed="at least one mark with another class, and the reason for it",
        )
    changes = {
        "marks": marks,
        "after_hint": True,
        "read_at": desk.clock(),
        "line_length_px": metal_length_px(reading.test_lines, marks),
        "verdict": verdict_after(reading, marks, verdict),
    }
    body = build_body("reading", {**dict(reading), **changes})
    return desk.add(Addition(body, supersedes=entry.number, reason=reason))[0]


def _note_hint(desk: Desk, lock: Entry, words: tuple[str, ...]) -> Entry:
    """Enter that a hint was shown, once."""
    if hint_was_shown(lock) or not isinstance(lock.body, ReadingLock):
        return lock
    body = lock.body.model_copy(update={"hint": words, "hint_shown_at": desk.clock()})
    addition = Addition(body, supersedes=lock.number, reason="direction hint shown")
    return desk.add(addition)[0]
