"""Places where something was said, with every copy that was made of them."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime

from strandproof.records.case_state import CaseState
from strandproof.records.entries import (
    Capture,
    Claim,
    LetterSent,
    OwnStatement,
    SpeakerRole,
)

OWN_WORDS = "own words"
"""What stands as the medium of the tester's own earlier words."""

_NEVER_CHANGES = (
    *("tag", "interview", "recording", "bag", "box", "leaflet", "label"),
    *("phone", "conversation", "print"),
)


@dataclass(frozen=True, slots=True)
class Place:
    """One place: a page, a tag, a data sheet, an interview, the tester's own words.

    Parameters
    ----------
    medium, place : str
        As entered with the first copy.
    captures : tuple of Capture
        Every copy, in the order of time; empty for own words.
    speakers : tuple of str
        Names of those who speak there, as far as claims say so.
    roles : tuple of SpeakerRole
        Their roles.
    own : OwnStatement or None
        The tester's own statement that this place stands for.
    """

    medium: str
    place: str
    captures: tuple[Capture, ...] = ()
    speakers: tuple[str, ...] = ()
    roles: tuple[SpeakerRole, ...] = ()
    own: OwnStatement | None = None

    @property
    def name(self) -> str:
        """Medium, and the place where that says more."""
        says_more = self.place.casefold() != self.medium.casefold()
        return f"{self.medium}, {self.place}" if says_more else self.medium


@dataclass(frozen=True, slots=True)
class DuePlace:
    """A place that should be looked at again.

    Parameters
    ----------
    place : Place
        The place.
    last_captured_at : datetime
        When its last copy was made.
    days : int
        Whole days since then.
    reasons : tuple of str
        Why it is due, in words.
    """

    place: Place
    last_captured_at: datetime
    days: int
    reasons: tuple[str, ...]


def places(state: CaseState) -> tuple[Place, ...]:
    """Give every place of a case, first the captured ones, then own earlier words.

    Two captures show one place when medium and place read the same, or when one
    names the other as its earlier capture.

    Parameters
    ----------
    state : CaseState
        State of the case.

    Returns
    -------
    tuple of Place
        In the order of first entry.
    """
    groups: dict[tuple[str, str], list[Capture]] = {}
    key_of: dict[str, tuple[str, str]] = {}
    for capture in state.records(Capture):
        key = key_of.get(capture.earlier_capture or "", _key(capture))
        key_of[capture.id] = key
        groups.setdefault(key, []).append(capture)
    captured = tuple(_place(state, group) for group in groups.values())
    own = tuple(
        Place(OWN_WORDS, each.place, roles=(SpeakerRole.TESTER,), own=each)
        for each in state.records(OwnStatement)
    )
    return (*captured, *own)


def place_of(state: CaseState, capture: str) -> Place:
    """Give the place that a capture shows.

    Parameters
    ----------
    state : CaseState
        State of the case.
    capture : str
        Short name of the capture.

    Returns
    -------
    Place
        With all its copies.

    Raises
    ------
    UnknownLabelError
        If the case has no such capture.
    """
    wanted = state.record(Capture, capture)
    return next(place for place in places(state) if wanted in place.captures)


def claims_shown(state: CaseState, capture: str) -> tuple[Claim, ...]:
    """Give the claims whose words a capture shows.

    Parameters
    ----------
    state : CaseState
        State of the case.
    capture : str
        Short name of the capture.

    Returns
    -------
    tuple of Claim
        In the order of first entry.
    """
    return tuple(each for each in state.records(Claim) if capture in each.captures)


def letters_to(state: CaseState, place: Place) -> tuple[LetterSent, ...]:
    """Give the letters that went to those who speak at a place.

    Parameters
    ----------
    state : CaseState
        State of the case.
    place : Place
        The place.

    Returns
    -------
    tuple of LetterSent
        In the order of sending; matched by name, or by role where the place has no
        name.
    """
    names = {name.casefold() for name in place.speakers}
    roles = {role.value for role in place.roles}
    letters = [
        letter
        for letter in state.records(LetterSent)
        if letter.to.casefold() in names
        or (not names and letter.role.casefold() in roles)
    ]
    return tuple(sorted(letters, key=lambda letter: letter.sent_at))


def due_again(
    state: CaseState, *, now: datetime, every_days: int
) -> tuple[DuePlace, ...]:
    """List the places that should be looked at again, to see if the words still stand.

    Tags, prints and recordings do not change and are never due.

    Parameters
    ----------
    state : CaseState
        State of the case.
    now : datetime
        The moment that is asked for.
    every_days : int
        Days after which a place is due, 1 or more.

    Returns
    -------
    tuple of DuePlace
        The longest unseen first.
    """
    due = [
        found
        for place in places(state)
        if place.captures and not _never_changes(place)
        for found in _due(state, place, now=now, every_days=every_days)
    ]
    return tuple(sorted(due, key=lambda each: each.last_captured_at))


def _due(
    state: CaseState, place: Place, *, now: datetime, every_days: int
) -> Iterable[DuePlace]:
    last = place.captures[-1].captured_at
    days = (now - last).days
    reasons = []
    if days >= every_days:
        reasons.append(f"last captured {days} days ago")
    reasons += [
        f"not captured since our letter of {letter.sent_at:%Y-%m-%d}"
        for letter in letters_to(state, place)
        if last < letter.sent_at <= now
    ]
    if reasons:
        yield DuePlace(place, last, days, tuple(reasons))


def _place(state: CaseState, group: list[Capture]) -> Place:
    shown = [claim for capture in group for claim in claims_shown(state, capture.id)]
    roles = [claim.speaker_role for claim in shown]
    roles += [each.speaker_role for each in group if each.speaker_role is not None]
    return Place(
        group[0].medium,
        group[0].place,
        tuple(sorted(group, key=lambda capture: capture.captured_at)),
        tuple(dict.fromkeys(claim.speaker for claim in shown)),
        tuple(dict.fromkeys(roles)),
    )


def _key(capture: Capture) -> tuple[str, str]:
    return capture.medium.strip().casefold(), capture.place.strip().casefold()


def _never_changes(place: Place) -> bool:
    # Whole words only: "page of the Box Hill shop" is a page.
    words = set(place.medium.casefold().replace("-", " ").split())
    return bool(words & set(_NEVER_CHANGES))
