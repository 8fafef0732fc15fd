"""Purchase beside claim; the sentence on E3 is that of the product brief, S2."""

from collections.abc import Mapping
from typing import Any

import pytest
from case_examples import FILE_SHA256, moment
from report_examples import like, state_of

from strandproof.errors import UnknownLabelError
from strandproof.records.case_facts.purchase_match import (
    Match,
    may_speak_for_product,
    piece_in_words,
    provenance_in_words,
    purchase_match,
)
from strandproof.records.case_state import CaseState
from strandproof.records.entries import (
    Capture,
    CaptureSearch,
    CaseRecord,
    Claim,
    Exhibit,
    Purchase,
)

PRODUCT = "Tern earphone lead"


def case(*extra: CaseRecord, claim: Mapping[str, object] | None = None) -> CaseState:
    page = like(Capture, id="page", medium="page", captured_at=moment(3, 3))
    said = {
        "id": "K3",
        "words": "cores 26 AWG",
        "speaker": "Lantern Row",
        "speaker_role": "shop",
        "captures": ("page",),
        "said_at": moment(3, 3),
        "product": PRODUCT,
        **(claim or {}),
    }
    return state_of(page, like(Claim, **said), *extra)


def piece(
    name: str,
    lot: str = "3107",
    **purchase: Any,  # noqa: ANN401 - fields differ in type
) -> tuple[CaseRecord, ...]:
    bought = like(
        Purchase,
        **{
            "id": f"P-{name}",
            "seller": "Lantern Row",
            "product": PRODUCT,
            "received_at": moment(3, 20),
            **purchase,
        },
    )
    return bought, like(Exhibit, id=name, purchase=bought.id, lot_mark=lot)


def given_piece(name: str = "E3") -> tuple[CaseRecord, ...]:
    return piece(name, "", seller="a reader", obtained="given")


def matched(state: CaseState, aspect: str) -> Match:
    aspects = purchase_match(state, "E1", "K3").aspects
    return next(each.match for each in aspects if each.aspect == aspect)


def seen(name: str, day: tuple[int, int], *found: str) -> tuple[CaseRecord, ...]:
    copy = like(Capture, id=name, medium="page", captured_at=moment(*day))
    search = like(
        CaptureSearch,
        id=f"{name}-s",
        capture=name,
        looked_for=("cores 26 AWG",),
        found=found,
    )
    return copy, search


def test_given_piece_says_what_the_brief_says() -> None:
    assert piece_in_words(case(*given_piece()), "E3") == (
        "E3: gift; no lot mark; provenance by word only. Sentences about the product "
        "may not rest on E3 alone."
    )


def test_bought_piece_may_speak_and_says_how_it_came() -> None:
    state = case(*piece("E1", receipt_sha256=FILE_SHA256))
    assert may_speak_for_product(state, ["E1"]) == ()
    assert piece_in_words(state, "E1") == (
        "E1: bought anonymously; lot mark 3107; receipt kept."
    )


def test_given_piece_may_stand_beside_a_bought_one() -> None:
    state = case(*piece("E1"), *given_piece())
    assert may_speak_for_product(state, ["E1", "E3"]) == ()
    assert may_speak_for_product(state, ["E3", "E1", "E3"]) == ()


def test_two_given_pieces_are_no_better_than_one() -> None:
    state = case(*given_piece(), *given_piece("E4"))
    first, *reasons = may_speak_for_product(state, ["E3", "E4"])
    assert first == "Sentences about the product may not rest on E3 and E4 alone."
    assert len(reasons) == 2


@pytest.mark.parametrize(
    ("purchase", "reason"),
    [
        ({"obtained": "lent"}, "lent"),
        ({"obtained": "found"}, "found"),
        ({"sold_as": "used"}, "sold as used"),
        ({"product": "Tern lead, studio"}, "which no claim speaks of"),
    ],
)
def test_other_weak_pieces_are_named_with_the_reason(
    purchase: dict[str, Any], reason: str
) -> None:
    found = may_speak_for_product(case(*piece("E1", **purchase)), ["E1"])
    assert found[0] == "Sentences about the product may not rest on E1 alone."
    assert reason in found[1]


def test_piece_of_unknown_origin_and_no_piece_at_all_cannot_speak() -> None:
    state = case(like(Exhibit, purchase=None))
    assert "not recorded" in may_speak_for_product(state, ["E1"])[1]
    assert may_speak_for_product(state, []) != ()
    assert "not recorded" in provenance_in_words(state, "E1")


def test_unknown_piece_is_refused_by_name() -> None:
    with pytest.raises(UnknownLabelError, match="no exhibit 'E9'"):
        may_speak_for_product(case(), ["E9"])


def test_variant_shop_and_how_obtained_match() -> None:
    state = case(*piece("E1"))
    for aspect in ("variant", "shop", "how obtained"):
        assert matched(state, aspect) is Match.MATCHES


@pytest.mark.parametrize(
    ("purchase", "aspect"),
    [
        ({"product": "Tern lead, studio"}, "variant"),
        ({"seller": "Pell & Daughter"}, "shop"),
        ({"obtained": "given"}, "how obtained"),
        ({"sold_as": "used"}, "how obtained"),
        ({"region": "Norland"}, "region"),
        ({"price": 99.0, "currency": "EUR"}, "price"),
        ({"price": 129.0, "currency": "NOK"}, "price"),
    ],
)
def test_each_difference_is_printed(purchase: dict[str, Any], aspect: str) -> None:
    claim = {"region": "Westland", "price": "129.00 EUR"}
    state = case(*piece("E1", **purchase), claim=claim)
    differing = purchase_match(state, "E1", "K3").mismatches
    assert [each.aspect for each in differing] == [aspect]
    assert differing[0].words.startswith(f"{aspect}: differs (claim: ")


def test_what_was_not_entered_never_matches() -> None:
    blank = {"product": "", "speaker_role": "other", "price": "ask us"}
    state = case(*piece("E1", received_at=None, price=12.0), claim=blank)
    for aspect in ("variant", "date", "region", "price"):
        assert matched(state, aspect) is Match.NOT_RECORDED


def test_date_matches_between_two_copies_that_say_it() -> None:
    assert matched(case(*piece("E1")), "date") is Match.NOT_RECORDED
    later = seen("later", (4, 1), "cores 26 AWG")
    assert matched(case(*piece("E1"), *later), "date") is Match.MATCHES


def test_date_differs_once_the_words_were_seen_to_be_gone() -> None:
    gone = seen("later", (3, 10))
    assert matched(case(*piece("E1"), *gone), "date") is Match.DIFFERS
    not_yet = seen("later", (3, 25))
    assert matched(case(*piece("E1"), *not_yet), "date") is Match.NOT_RECORDED


def test_piece_bought_before_the_words_were_seen_is_not_called_a_match() -> None:
    early = case(*piece("E1", received_at=moment(2, 1)))
    assert matched(early, "date") is Match.NOT_RECORDED
    known = like(
        Capture,
        id="page",
        medium="page",
        captured_at=moment(3, 3),
        unchanged_since=moment(1, 1),
    )
    bodies = [e.body for e in early.entries[1:] if e.body.id != "page"]
    assert matched(state_of(known, *bodies), "date") is Match.MATCHES


def test_shop_differs_for_a_gift_even_where_the_maker_speaks() -> None:
    maker = {"speaker_role": "maker", "speaker": "Wexcombe Twine Works"}
    assert matched(case(*piece("E1"), claim=maker), "shop") is Match.MATCHES
    gift = case(*given_piece("E1"), claim=maker)
    assert matched(gift, "shop") is Match.DIFFERS
