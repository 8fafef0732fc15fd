"""Whether a piece that was obtained matches the claim and may speak for it."""

import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import datetime
from enum import StrEnum

from strandproof.records.case_facts.claim_grid import Said, sightings, wordings_of
from strandproof.records.case_facts.places import place_of
from strandproof.records.case_state import CaseState
from strandproof.records.entries import Claim, Exhibit, Purchase, SpeakerRole

_BOUGHT = {"bought_anonymously", "bought_openly"}
_OBTAINED = {
    "bought_anonymously": "bought anonymously",
    "bought_openly": "bought openly",
    "given": "gift",
    "lent": "lent",
    "found": "found",
}
_HALF_A_CENT = 0.005
_NUMBER = re.compile(r"\d+(?:[.,]\d+)?")


class Match(StrEnum):
    """How one aspect of a purchase stands to the claim."""

    MATCHES = "matches"
    DIFFERS = "differs"
    NOT_RECORDED = "not recorded"


@dataclass(frozen=True, slots=True)
class MatchedAspect:
    """One aspect of a purchase beside the claim.

    Parameters
    ----------
    aspect : str
        Variant, shop, date, region, price, how obtained.
    claimed, obtained : str
        What the claim says, what the purchase says.
    match : Match
        How they stand to each other.
    """

    aspect: str
    claimed: str
    obtained: str
    match: Match

    @property
    def words(self) -> str:
        """The aspect as a sentence."""
        return (
            f"{self.aspect}: {self.match.value} (claim: {self.claimed}; "
            f"piece: {self.obtained})."
        )


@dataclass(frozen=True, slots=True)
class PurchaseMatch:
    """One exhibit beside one claim.

    Parameters
    ----------
    exhibit : Exhibit
        The piece.
    claim : Claim
        The claim.
    aspects : tuple of MatchedAspect
        Variant, shop, date, region, price, how obtained.
    """

    exhibit: Exhibit
    claim: Claim
    aspects: tuple[MatchedAspect, ...]

    @property
    def mismatches(self) -> tuple[MatchedAspect, ...]:
        """The aspects that differ."""
        return tuple(each for each in self.aspects if each.match is Match.DIFFERS)


def purchase_match(state: CaseState, exhibit: str, claim: str) -> PurchaseMatch:
    """Compare how a piece was obtained with what a claim speaks of.

    Parameters
    ----------
    state : CaseState
        State of the case.
    exhibit, claim : str
        Short names.

    Returns
    -------
    PurchaseMatch
        What was not entered is "not recorded", never "matches".

    Raises
    ------
    UnknownLabelError
        If the case has no such exhibit or claim.
    """
    piece, words = state.record(Exhibit, exhibit), state.record(Claim, claim)
    purchase = purchase_of(state, piece)
    obtained = _OBTAINED[purchase.obtained] if purchase else ""
    good = purchase is not None and purchase.obtained in _BOUGHT
    used = purchase is not None and purchase.sold_as == "used"
    return PurchaseMatch(
        piece,
        words,
        (
            _same("variant", words.product, purchase.product if purchase else ""),
            _shop(words, purchase),
            _date(state, words, purchase),
            _same("region", words.region, purchase.region if purchase else ""),
            _price(words, purchase),
            _aspect(
                "how obtained",
                "as any customer gets it, new",
                f"{obtained}, used" if used and obtained else obtained,
                same=good and not used,
            ),
        ),
    )


def purchase_of(state: CaseState, exhibit: Exhibit) -> Purchase | None:
    """Give how a piece was obtained.

    Parameters
    ----------
    state : CaseState
        State of the case.
    exhibit : Exhibit
        The piece.

    Returns
    -------
    Purchase or None
        None where nothing was entered.
    """
    known = {purchase.id: purchase for purchase in state.records(Purchase)}
    return known.get(exhibit.purchase or "")


def provenance_in_words(state: CaseState, exhibit: str) -> str:
    """Say how a piece came, what lot mark it has, and what supports its provenance.

    Parameters
    ----------
    state : CaseState
        State of the case.
    exhibit : str
        Short name.

    Returns
    -------
    str
        For example ``"gift; no lot mark; provenance by word only"``.
    """
    piece = state.record(Exhibit, exhibit)
    purchase = purchase_of(state, piece)
    parts = [_OBTAINED[purchase.obtained] if purchase else "how obtained: not recorded"]
    if purchase and purchase.sold_as == "used":
        parts.append("sold as used")
    parts.append(f"lot mark {piece.lot_mark}" if piece.lot_mark else "no lot mark")
    if purchase and purchase.receipt_sha256:
        parts.append("receipt kept")
    elif purchase is None or purchase.obtained not in _BOUGHT:
        parts.append("provenance by word only")
    else:
        parts.append("no receipt kept")
    return "; ".join(parts)


def may_speak_for_product(state: CaseState, exhibits: Sequence[str]) -> tuple[str, ...]:
    """Give the reasons why sentences about the product may not rest on some pieces.

    A given, lent, found or used piece, one of unknown origin and one of another
    variant may stand beside others, never alone.

    Parameters
    ----------
    state : CaseState
        State of the case.
    exhibits : sequence of str
        Short names of the pieces that a sentence would rest on.

    Returns
    -------
    tuple of str
        Empty when at least one of them can carry such a sentence; else the sentence
        that forbids it first, then why, piece by piece.

    Raises
    ------
    UnknownLabelError
        If the case has no such exhibit.
    """
    names = tuple(dict.fromkeys(exhibits))
    if not names:
        return ("Sentences about the product may not rest on no piece at all.",)
    reasons = {name: _weakness(state, state.record(Exhibit, name)) for name in names}
    if not all(reasons.values()):
        return ()
    return (
        f"Sentences about the product may not rest on {_listed(names)} alone.",
        *(f"{name}: {reason}." for name, reason in reasons.items()),
    )


def piece_in_words(state: CaseState, exhibit: str) -> str:
    """Say how a piece came, and whether it may speak for the product alone.

    Parameters
    ----------
    state : CaseState
        State of the case.
    exhibit : str
        Short name.

    Returns
    -------
    str
        One paragraph.
    """
    refused = may_speak_for_product(state, (exhibit,))
    words = f"{exhibit}: {provenance_in_words(state, exhibit)}."
    return f"{words} {refused[0]}" if refused else words


def _weakness(state: CaseState, exhibit: Exhibit) -> str:
    purchase = purchase_of(state, exhibit)
    if purchase is None:
        return "how it was obtained is not recorded"
    if purchase.obtained not in _BOUGHT:
        return provenance_in_words(state, exhibit.id)
    if purchase.sold_as == "used":
        return "sold as used"
    products = {_plain(claim.product) for claim in state.records(Claim)} - {""}
    if products and _plain(purchase.product) not in products:
        return f"sold as {purchase.product}, which no claim speaks of"
    return ""


def _shop(claim: Claim, purchase: Purchase | None) -> MatchedAspect:
    seller = purchase.seller if purchase else ""
    if claim.speaker_role is SpeakerRole.SHOP:
        return _same("shop", claim.speaker, seller)
    bought = purchase is not None and purchase.obtained in _BOUGHT
    said = f"any shop; the {claim.speaker_role.value} speaks"
    return _aspect("shop", said, seller, same=bought)


def _date(state: CaseState, claim: Claim, purchase: Purchase | None) -> MatchedAspect:
    first, last, gone = _life(state, claim)
    life = f"seen {first:%Y-%m-%d} to {last:%Y-%m-%d}"
    life += f", gone by {gone:%Y-%m-%d}" if gone else ""
    when = (purchase.ordered_at or purchase.received_at) if purchase else None
    if when is None:
        return MatchedAspect("date", life, "not recorded", Match.NOT_RECORDED)
    day = when.date()
    if gone is not None and day > gone.date():
        match = Match.DIFFERS
    elif first.date() <= day <= last.date():
        match = Match.MATCHES
    else:
        # Nobody looked on that day: neither there nor gone is known.
        match = Match.NOT_RECORDED
    return MatchedAspect("date", life, f"{day}", match)


def _life(state: CaseState, claim: Claim) -> tuple[datetime, datetime, datetime | None]:
    """Give when the words were first and last seen, and first seen to be gone."""
    wording = wordings_of(claim)[0]
    seen = [
        sighting
        for place in dict.fromkeys(place_of(state, name) for name in claim.captures)
        for sighting in sightings(state, claim, wording, place)
    ]
    there = [each.at for each in seen if each.said is Said.SAID]
    since = [
        capture.unchanged_since
        for name in claim.captures
        for capture in place_of(state, name).captures
        if capture.id == name and capture.unchanged_since is not None
    ]
    last = max((claim.said_at, *there))
    gone = [each.at for each in seen if each.said is Said.NOT_SAID and each.at > last]
    return min((claim.said_at, *there, *since)), last, min(gone, default=None)


def _price(claim: Claim, purchase: Purchase | None) -> MatchedAspect:
    if purchase is None or purchase.price is None:
        return _same("price", claim.price, "")
    paid = f"{purchase.price:.2f} {purchase.currency}".strip()
    found = _NUMBER.search(claim.price)
    if found is None:
        return _aspect("price", claim.price, paid, same=None)
    shown = float(found[0].replace(",", "."))
    # The currency counts only where both name one.
    currency = claim.price.replace(found[0], "").strip()
    other = bool(currency and purchase.currency) and currency != purchase.currency
    near = abs(shown - purchase.price) < _HALF_A_CENT
    return _aspect("price", claim.price, paid, same=near and not other)


def _same(aspect: str, claimed: str, obtained: str) -> MatchedAspect:
    return _aspect(
        aspect,
        claimed,
        obtained,
        same=_plain(claimed) == _plain(obtained) if claimed else None,
    )


def _aspect(
    aspect: str, claimed: str, obtained: str, *, same: bool | None
) -> MatchedAspect:
    """Compare; what one side does not say is not recorded."""
    if not obtained or same is None:
        match = Match.NOT_RECORDED
    else:
        match = Match.MATCHES if same else Match.DIFFERS
    return MatchedAspect(
        aspect, claimed or "not recorded", obtained or "not recorded", match
    )


def _plain(words: str) -> str:
    return " ".join(words.casefold().split())


def _listed(names: Iterable[str]) -> str:
    *first, last = names
    return f"{', '.join(first)} and {last}" if first else last
