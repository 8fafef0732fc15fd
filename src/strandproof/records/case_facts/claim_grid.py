"""The grid of what was said where: said, not said, not looked at.

"Not said" is a finding. It needs a whole copy of the place and a search of that copy
for these words; without both the cell stays "not looked at".
"""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import datetime
from enum import StrEnum

from strandproof.records.case_facts.places import Place, claims_shown, places
from strandproof.records.case_state import CaseState
from strandproof.records.entries import Capture, CaptureSearch, Claim, SpeakerRole


class Said(StrEnum):
    """What is known of some words at one place."""

    SAID = "said"
    NOT_SAID = "not said"
    NOT_LOOKED_AT = "not looked at"


@dataclass(frozen=True, slots=True)
class Sighting:
    """What one copy of a place shows of some words.

    Parameters
    ----------
    at : datetime
        When the copy was made, or the own words were said.
    said : Said
        What it shows.
    capture : str
        Short name of the copy; empty for own words.
    """

    at: datetime
    said: Said
    capture: str = ""


@dataclass(frozen=True, slots=True)
class GridCell:
    """Some words at one place, over all copies of it.

    Parameters
    ----------
    place : Place
        The place.
    sightings : tuple of Sighting
        One for each copy that tells something, in the order of time.
    """

    place: Place
    sightings: tuple[Sighting, ...]

    @property
    def said(self) -> Said:
        """Said where any copy says it; not said only where a searched one denies it."""
        found = {sighting.said for sighting in self.sightings}
        if Said.SAID in found:
            return Said.SAID
        return Said.NOT_SAID if Said.NOT_SAID in found else Said.NOT_LOOKED_AT

    @property
    def words(self) -> str:
        """The cell in words, with the days that it rests on."""
        if self.said is Said.NOT_LOOKED_AT:
            return Said.NOT_LOOKED_AT.value
        shown: list[Sighting] = []
        for sighting in self.sightings:
            if not shown or shown[-1].said is not sighting.said:
                shown.append(sighting)
        return "; ".join(f"{each.said.value} {each.at:%Y-%m-%d}" for each in shown)


@dataclass(frozen=True, slots=True)
class GridRow:
    """One wording, at all places.

    Parameters
    ----------
    claim : Claim
        The claim that it is part of.
    wording : str
        The words looked for.
    cells : tuple of GridCell
        One for each place, in the order of the places.
    """

    claim: Claim
    wording: str
    cells: tuple[GridCell, ...]


@dataclass(frozen=True, slots=True)
class ClaimGrid:
    """Who said what, where, when; and where it is not said.

    Parameters
    ----------
    places : tuple of Place
        The columns.
    rows : tuple of GridRow
        One for each wording.
    """

    places: tuple[Place, ...]
    rows: tuple[GridRow, ...]


def wordings_of(claim: Claim) -> tuple[str, ...]:
    """Give the words of a claim that other places are searched for.

    Parameters
    ----------
    claim : Claim
        A claim.

    Returns
    -------
    tuple of str
        Its wordings; the exact words where it names none.
    """
    return claim.wordings or (claim.words,)


def claim_grid(state: CaseState) -> ClaimGrid:
    """Lay every wording of every claim beside every place.

    Parameters
    ----------
    state : CaseState
        State of the case.

    Returns
    -------
    ClaimGrid
        Rows in the order of the claims.
    """
    columns = places(state)
    return ClaimGrid(
        columns,
        tuple(
            GridRow(
                claim, wording, tuple(_cell(state, claim, wording, p) for p in columns)
            )
            for claim in state.records(Claim)
            for wording in wordings_of(claim)
        ),
    )


def sightings(
    state: CaseState, claim: Claim, wording: str, place: Place
) -> tuple[Sighting, ...]:
    """Give what every copy of a place shows of some words.

    Parameters
    ----------
    state : CaseState
        State of the case.
    claim : Claim
        The claim that the words are part of.
    wording : str
        The words.
    place : Place
        The place.

    Returns
    -------
    tuple of Sighting
        In the order of time; copies that tell nothing are left out.
    """
    if place.own is not None:
        own = place.own
        repeats = own.repeats_claim == claim.id and len(wordings_of(claim)) == 1
        said = repeats or holds_words(own.words, wording)
        return (Sighting(own.said_at, Said.SAID),) if said else ()
    return tuple(
        Sighting(capture.captured_at, said, capture.id)
        for capture in place.captures
        for said in (_seen(state, claim, wording, capture),)
        if said is not Said.NOT_LOOKED_AT
    )


def said_nowhere(grid: ClaimGrid) -> tuple[str, ...]:
    """Say which speaker says a wording at none of the places that were searched.

    Parameters
    ----------
    grid : ClaimGrid
        From `claim_grid`.

    Returns
    -------
    tuple of str
        One sentence for each wording and speaker of whom every captured place was
        searched; nothing is said of a speaker with a place not looked at.
    """
    roles = dict.fromkeys(role for place in grid.places for role in place.roles)
    return tuple(
        sentence
        for row in grid.rows
        for role in roles
        for sentence in _said_nowhere(row, role)
    )


def holds_words(text: str, words: str) -> bool:
    r"""Tell whether words stand in a text; capitals and line ends do not matter.

    Parameters
    ----------
    text, words : str
        The text, and what is looked for.

    Returns
    -------
    bool
        True when they stand there, in this order and as whole words.

    Examples
    --------
    >>> holds_words("Tern lead. Cores 26\nAWG.", "26 awg")
    True
    >>> holds_words("cores 126 AWG", "26 AWG")
    False
    """
    found, sought = _plain(text), _plain(words)
    start = found.find(sought)
    while start >= 0:
        before, after = found[:start][-1:], found[start + len(sought) :][:1]
        cut_before = sought[:1].isalnum() and before.isalnum()
        cut_after = sought[-1:].isalnum() and after.isalnum()
        if not cut_before and not cut_after:
            return True
        start = found.find(sought, start + 1)
    return False


def _cell(state: CaseState, claim: Claim, wording: str, place: Place) -> GridCell:
    return GridCell(place, sightings(state, claim, wording, place))


def _seen(state: CaseState, claim: Claim, wording: str, capture: Capture) -> Said:
    shown = claims_shown(state, capture.id)
    if claim in shown or any(holds_words(each.words, wording) for each in shown):
        return Said.SAID
    answers = [
        any(_plain(each) == _plain(wording) for each in search.found)
        for search in state.records(CaptureSearch)
        if search.capture == capture.id
        and any(_plain(each) == _plain(wording) for each in search.looked_for)
    ]
    if any(answers):
        return Said.SAID
    # Words absent from a part of a place may stand in the rest of it.
    denied = bool(answers) and capture.complete
    return Said.NOT_SAID if denied else Said.NOT_LOOKED_AT


def _said_nowhere(row: GridRow, role: SpeakerRole) -> Iterator[str]:
    cells = [cell for cell in row.cells if role in cell.place.roles]
    captured = [cell for cell in cells if cell.place.captures]
    if captured and all(cell.said is Said.NOT_SAID for cell in cells):
        media = ", ".join(cell.place.medium for cell in captured)
        yield (
            f"“{row.wording}”: not said by the {role.value} in any place captured "
            f"({media})."
        )


def _plain(text: str) -> str:
    return " ".join(text.casefold().split())
