"""Intake and portions: what is missing, whether parts make the whole, what is kept."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime
from enum import StrEnum
from math import fsum
from typing import Literal

from strandproof.records.case_facts.claim_grid import holds_words
from strandproof.records.case_state import CaseState
from strandproof.records.entries import (
    CaseRecord,
    Claim,
    Disposal,
    Exhibit,
    LetterSent,
    Portion,
    PublishedVersion,
    Seal,
    SpeakerRole,
    Specimen,
)
from strandproof.records.entries.exhibits import IntakeView

Purpose = Literal["test", "maker", "referee", "waste"]

_VIEWS: dict[IntakeView, str] = {
    "parcel_closed": "the parcel, still closed",
    "wrapping_unbroken": "film and seals, unbroken",
    "bag": "the bag or box, every printed side",
    "tag_and_leaflets": "tag and leaflets, every printed side",
    "lot_mark": "the lot mark",
    "whole_length": "the whole piece with ruler and colour card",
    "both_ends": "both ends",
    "on_balance": "the piece on the balance, with the reading",
}
_MAY_HAVE_PRINTED = {SpeakerRole.MAKER, SpeakerRole.IMPORTER, SpeakerRole.OTHER}
_KEPT: tuple[Purpose, ...] = ("maker", "referee")
_THREE_PARTS: tuple[Purpose, ...] = ("test", *_KEPT)
_FEMTO = 12
"""Digits after the point to which sums are rounded, far below any balance."""


class BalanceWord(StrEnum):
    """What a balance of parts says."""

    WITHIN = "within tolerance"
    BEYOND = "beyond tolerance"
    UNKNOWN = "cannot be told"


@dataclass(frozen=True, slots=True)
class PortionBalance:
    """The parts of an exhibit beside the whole, by length or by mass.

    Parameters
    ----------
    quantity : {"length", "mass"}
        What is compared.
    unit : str
        Unit of every number: m or g.
    whole : float or None
        The exhibit as it came.
    parts : tuple of (str, float or None)
        Purpose and size of every portion but the waste.
    waste : tuple of float or None
        Size of every portion of waste.
    tolerance : float
        What may stay unexplained, 0 or more.
    """

    quantity: Literal["length", "mass"]
    unit: str
    whole: float | None
    parts: tuple[tuple[str, float | None], ...]
    waste: tuple[float | None, ...]
    tolerance: float

    @property
    def unknown(self) -> int:
        """Number of sizes that were not entered, the whole included."""
        sizes = (self.whole, *(size for _, size in self.parts), *self.waste)
        return sum(size is None for size in sizes)

    @property
    def unexplained(self) -> float | None:
        """Whole less parts less waste; negative where there is too much of it.

        None while a size is not entered: a missing size is not zero.
        """
        if self.whole is None or self.unknown:
            return None
        cut = fsum(size for _, size in self.parts if size is not None)
        lost = fsum(size for size in self.waste if size is not None)
        return round(self.whole - cut - lost, _FEMTO)

    @property
    def word(self) -> BalanceWord:
        """Within or beyond the tolerance, which itself still counts as within."""
        if self.unexplained is None or not self.parts:
            return BalanceWord.UNKNOWN
        within = abs(self.unexplained) <= self.tolerance
        return BalanceWord.WITHIN if within else BalanceWord.BEYOND


@dataclass(frozen=True, slots=True)
class ExhibitPortions:
    """What an exhibit was cut into.

    Parameters
    ----------
    exhibit : Exhibit
        The piece.
    portions : tuple of Portion
        Its portions.
    length, mass : PortionBalance
        The two balances.
    missing : tuple of str
        Sentences: which of the three parts is lacking, which seal.
    """

    exhibit: Exhibit
    portions: tuple[Portion, ...]
    length: PortionBalance
    mass: PortionBalance
    missing: tuple[str, ...]


def intake_missing(state: CaseState, exhibit: str) -> tuple[str, ...]:
    """Say what the intake of a piece lacks: pictures, lot mark, size.

    Parameters
    ----------
    state : CaseState
        State of the case.
    exhibit : str
        Short name.

    Returns
    -------
    tuple of str
        One sentence each; a view is not missed where the piece came without it.

    Raises
    ------
    UnknownLabelError
        If the case has no such exhibit.
    """
    piece = state.record(Exhibit, exhibit)
    shown = {view for picture in piece.views for view in picture.shows}
    missing = [
        f"Picture missing: {words}."
        for view, words in _VIEWS.items()
        if view not in shown and view not in piece.not_present
    ]
    if "whole_length" in shown and not _has_scale_and_colours(piece):
        missing.append(
            "No picture of the whole piece has both a ruler and a colour card in it."
        )
    if not piece.lot_mark and "lot_mark" not in piece.not_present:
        missing.append("Lot mark: blank. Enter it, or say that it came without one.")
    missing += [
        f"{name} as it came: not measured."
        for name, value in (("Length", piece.length_m), ("Mass", piece.mass_g))
        if value is None
    ]
    return tuple(missing)


def printed_words_not_claimed(state: CaseState, exhibit: str) -> tuple[str, ...]:
    """Give the words printed on a piece or its wrapping that no claim holds yet.

    Parameters
    ----------
    state : CaseState
        State of the case.
    exhibit : str
        Short name.

    Returns
    -------
    tuple of str
        The words, as printed.

    Raises
    ------
    UnknownLabelError
        If the case has no such exhibit.
    """
    claims = state.records(Claim)
    return tuple(
        words
        for words in state.record(Exhibit, exhibit).printed_words
        if not any(_frozen_in(claim, words) for claim in claims)
    )


def exhibit_portions(
    state: CaseState, exhibit: str, *, tolerance_m: float, tolerance_g: float
) -> ExhibitPortions:
    """Lay the portions of a piece beside the whole.

    Parameters
    ----------
    state : CaseState
        State of the case.
    exhibit : str
        Short name.
    tolerance_m : float
        Length that may stay unexplained [m], 0 or more.
    tolerance_g : float
        Mass that may stay unexplained [g], 0 or more.

    Returns
    -------
    ExhibitPortions
        Both balances and what is missing.

    Raises
    ------
    UnknownLabelError
        If the case has no such exhibit.
    """
    piece = state.record(Exhibit, exhibit)
    cut = portions_of(state, exhibit)
    lengths = tuple((portion, portion.length_m) for portion in cut)
    masses = tuple((portion, portion.mass_g) for portion in cut)
    return ExhibitPortions(
        piece,
        cut,
        PortionBalance("length", "m", piece.length_m, *_split(lengths), tolerance_m),
        PortionBalance("mass", "g", piece.mass_g, *_split(masses), tolerance_g),
        (*_parts_missing(cut), *_seals_missing(state, cut)),
    )


def portions_of(state: CaseState, exhibit: str) -> tuple[Portion, ...]:
    """Give the portions that were cut from a piece.

    Parameters
    ----------
    state : CaseState
        State of the case.
    exhibit : str
        Short name.

    Returns
    -------
    tuple of Portion
        In the order of first entry; those that are gone are still listed.
    """
    return tuple(p for p in state.records(Portion) if p.exhibit == exhibit)


def kept_parts_touched(
    state: CaseState, body: CaseRecord, *, entered_with: Sequence[CaseRecord] = ()
) -> tuple[str, ...]:
    """Give the maker's and referee's portions that an entry would use up.

    Parameters
    ----------
    state : CaseState
        State before the entry.
    body : CaseRecord
        What is to be entered: a disposal, a specimen taken from a portion, or a
        portion whose purpose is changed.
    entered_with : sequence of CaseRecord
        What is entered in the same step; its portions count too.

    Returns
    -------
    tuple of str
        Short names of portions; a lost or returned portion is not used up by us.
    """
    if isinstance(body, Specimen):
        return _kept(state, {body.portion or ""}, entered_with)
    if isinstance(body, Portion):
        return () if body.purpose in _KEPT else _kept(state, {body.id}, ())
    if not isinstance(body, Disposal) or body.fate not in {"consumed", "destroyed"}:
        return ()
    names = {_kind_and_label(item) for item in body.items}
    portions = {label for kind, label in names if kind == "portion"}
    exhibits = {label for kind, label in names if kind == "exhibit"}
    portions |= {p.id for p in _portions(state, entered_with) if p.exhibit in exhibits}
    return _kept(state, portions, entered_with)


def keeping_reasons(state: CaseState, *, now: datetime) -> tuple[str, ...]:
    """Say why the kept portions must stay whole at a moment.

    Parameters
    ----------
    state : CaseState
        State of the case.
    now : datetime
        The moment.

    Returns
    -------
    tuple of str
        Empty once a version is published and every reply window is closed.
    """
    published = any(v.published_at <= now for v in state.records(PublishedVersion))
    reasons = [] if published else ["nothing is published yet"]
    reasons += [
        f"{letter.to} may answer until {letter.deadline:%Y-%m-%d}"
        for letter in state.records(LetterSent)
        if letter.deadline > now
    ]
    return tuple(reasons)


def _kept(
    state: CaseState, labels: set[str], entered_with: Sequence[CaseRecord]
) -> tuple[str, ...]:
    return tuple(
        portion.id
        for portion in _portions(state, entered_with)
        if portion.id in labels and portion.purpose in _KEPT
    )


def _portions(
    state: CaseState, entered_with: Sequence[CaseRecord]
) -> tuple[Portion, ...]:
    fresh = (body for body in entered_with if isinstance(body, Portion))
    return (*state.records(Portion), *fresh)


def _kind_and_label(reference: str) -> tuple[str, str]:
    kind, _, label = reference.partition("/")
    return kind, label


def _has_scale_and_colours(piece: Exhibit) -> bool:
    return any(
        picture.ruler and picture.colour_card and "whole_length" in picture.shows
        for picture in piece.views
    )


def _frozen_in(claim: Claim, words: str) -> bool:
    # A shop's words on its page are not yet the maker's words on the bag.
    return claim.speaker_role in _MAY_HAVE_PRINTED and holds_words(claim.words, words)


def _split(
    sizes: Sequence[tuple[Portion, float | None]],
) -> tuple[tuple[tuple[str, float | None], ...], tuple[float | None, ...]]:
    parts = tuple((p.purpose, size) for p, size in sizes if p.purpose != "waste")
    return parts, tuple(size for p, size in sizes if p.purpose == "waste")


def _parts_missing(cut: Sequence[Portion]) -> list[str]:
    if not cut:
        return ["Not split yet: a test part, a maker's part and a referee's part."]
    purposes = {portion.purpose for portion in cut}
    whom = {"test": "test", "maker": "maker's", "referee": "referee's"}
    return [
        f"No {whom[purpose]} part."
        for purpose in _THREE_PARTS
        if purpose not in purposes
    ]


def _seals_missing(state: CaseState, cut: Sequence[Portion]) -> list[str]:
    sealed = {seal.on for seal in state.records(Seal) if seal.event == "applied"}
    return [
        f"{portion.id}: no seal entered."
        for portion in cut
        if portion.purpose in _KEPT and f"portion/{portion.id}" not in sealed
    ]
