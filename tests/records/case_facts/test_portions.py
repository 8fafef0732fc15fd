"""Parts and the whole; kept parts; what an intake lacks.

1.300 m = 0.600 + 0.325 + 0.325 + 0.048 m and 2 mm: product brief, feature M7.
"""

import pytest
from case_examples import FILE_SHA256, moment
from hypothesis import given
from hypothesis import strategies as st
from report_examples import like, state_of

from strandproof.records.case_facts.portions import (
    BalanceWord,
    PortionBalance,
    exhibit_portions,
    intake_missing,
    keeping_reasons,
    kept_parts_touched,
    printed_words_not_claimed,
)
from strandproof.records.entries import (
    CaseRecord,
    Claim,
    Disposal,
    Exhibit,
    ExhibitPicture,
    LetterSent,
    Portion,
    PublishedVersion,
    Seal,
    Specimen,
)

SIZES = st.integers(0, 2000).map(lambda mm: mm / 1000)
MAYBE = st.none() | SIZES
LENGTHS = {"test": 0.600, "maker": 0.325, "referee": 0.325, "waste": 0.048}


def balance(
    whole: float | None, parts: list[float | None], waste: list[float | None]
) -> PortionBalance:
    named = tuple(("test", size) for size in parts)
    return PortionBalance("length", "m", whole, named, tuple(waste), 0.005)


def portion(purpose: str, length: float | None = 0.325) -> Portion:
    name = f"E1-{purpose}"
    return like(Portion, id=name, purpose=purpose, length_m=length)


def split() -> list[CaseRecord]:
    parts = [portion(purpose, length) for purpose, length in LENGTHS.items()]
    return [like(Exhibit), *parts]


def test_balance_of_the_brief() -> None:
    found = exhibit_portions(
        state_of(*split()), "E1", tolerance_m=0.005, tolerance_g=0.05
    )
    assert found.length.unexplained == pytest.approx(0.002, rel=0, abs=1e-12)
    assert found.length.word is BalanceWord.WITHIN
    assert found.length.waste == (0.048,)
    assert found.mass.word is BalanceWord.UNKNOWN
    assert found.missing == (
        "E1-maker: no seal entered.",
        "E1-referee: no seal entered.",
    )


def test_seal_put_on_answers_the_missing_one() -> None:
    seals = [
        like(Seal, id=f"s{n}", on=f"portion/E1-{purpose}")
        for n, purpose in enumerate(("maker", "referee"))
    ]
    found = exhibit_portions(
        state_of(*split(), *seals), "E1", tolerance_m=0.005, tolerance_g=0.05
    )
    assert found.missing == ()


@pytest.mark.parametrize(
    ("whole", "word"),
    [
        (1.303, BalanceWord.WITHIN),
        (1.3031, BalanceWord.BEYOND),
        (1.293, BalanceWord.WITHIN),
        (1.2929, BalanceWord.BEYOND),
    ],
)
def test_tolerance_itself_is_within_and_too_much_is_beyond(
    whole: float, word: BalanceWord
) -> None:
    assert balance(whole, [0.6, 0.325, 0.325], [0.048]).word is word


@given(SIZES, st.lists(SIZES, min_size=1, max_size=5), st.lists(SIZES, max_size=3))
def test_whole_is_always_parts_and_waste_and_what_is_unexplained(
    whole: float, parts: list[float], waste: list[float]
) -> None:
    found = balance(whole, [*parts], [*waste])
    assert found.unexplained is not None
    total = sum(parts) + sum(waste) + found.unexplained
    assert total == pytest.approx(whole, rel=0, abs=1e-9)


@given(st.lists(SIZES, min_size=1, max_size=4), st.floats(0.006, 1, allow_nan=False))
def test_waste_that_is_not_entered_shows_as_unexplained(
    parts: list[float], waste: float
) -> None:
    """Leaving waste out never makes a balance look better than it is."""
    total = sum(parts) + waste
    with_waste = balance(total, [*parts], [waste])
    without = balance(total, [*parts], [])
    assert with_waste.word is BalanceWord.WITHIN
    assert without.word is BalanceWord.BEYOND
    assert without.unexplained == pytest.approx(waste, rel=0, abs=1e-9)


@given(MAYBE, st.lists(MAYBE, min_size=1, max_size=4), st.lists(MAYBE, max_size=2))
def test_missing_size_is_never_taken_for_zero(
    whole: float | None, parts: list[float | None], waste: list[float | None]
) -> None:
    found = balance(whole, parts, waste)
    missing = [size for size in (whole, *parts, *waste) if size is None]
    assert found.unknown == len(missing)
    assert (found.unexplained is None) == bool(missing)
    assert (found.word is BalanceWord.UNKNOWN) == bool(missing)


def test_two_of_three_parts_are_named_as_missing() -> None:
    found = exhibit_portions(
        state_of(like(Exhibit), portion("test")), "E1", tolerance_m=0, tolerance_g=0
    )
    assert found.missing == ("No maker's part.", "No referee's part.")
    whole = exhibit_portions(
        state_of(like(Exhibit)), "E1", tolerance_m=0, tolerance_g=0
    )
    assert whole.missing[0].startswith("Not split yet")
    assert whole.length.word is BalanceWord.UNKNOWN


@pytest.mark.parametrize(
    ("changes", "touched"),
    [
        ({"fate": "consumed", "items": ("portion/E1-maker",)}, ("E1-maker",)),
        ({"fate": "destroyed", "items": ("portion/E1-referee",)}, ("E1-referee",)),
        ({"fate": "destroyed", "items": ("exhibit/E1",)}, ("E1-maker", "E1-referee")),
        ({"fate": "consumed", "items": ("portion/E1-test",)}, ()),
        ({"fate": "lost", "items": ("portion/E1-maker",)}, ()),
        ({"fate": "returned", "items": ("portion/E1-maker",)}, ()),
    ],
)
def test_using_up_touches_kept_parts_only(
    changes: dict[str, object], touched: tuple[str, ...]
) -> None:
    gone = like(Disposal, **changes)
    assert kept_parts_touched(state_of(*split()), gone) == touched


def test_specimen_and_change_of_purpose_touch_a_kept_part() -> None:
    state = state_of(*split())
    piece = like(Specimen, portion="E1-maker")
    assert kept_parts_touched(state, piece) == ("E1-maker",)
    assert kept_parts_touched(state, like(Specimen, portion="E1-test")) == ()
    changed = like(Portion, id="E1-maker", purpose="test")
    assert kept_parts_touched(state, changed) == ("E1-maker",)
    assert kept_parts_touched(state, portion("maker", 0.3)) == ()


def test_part_cut_in_the_same_step_counts() -> None:
    bare = state_of(like(Exhibit))
    piece = like(Specimen, portion="E1-maker")
    assert kept_parts_touched(bare, piece) == ()
    together = kept_parts_touched(bare, piece, entered_with=[portion("maker")])
    assert together == ("E1-maker",)


def test_parts_stay_whole_until_published_and_every_window_is_closed() -> None:
    letter = like(LetterSent, sentences=(), deadline=moment(7, 15))
    version = like(PublishedVersion, published_at=moment(7, 10))
    both = state_of(letter, version)
    assert keeping_reasons(both, now=moment(7, 9))[0] == "nothing is published yet"
    assert keeping_reasons(both, now=moment(7, 12)) == (
        f"{letter.to} may answer until 2031-07-15",
    )
    assert keeping_reasons(both, now=moment(7, 15)) == ()
    assert keeping_reasons(state_of(letter), now=moment(9, 1)) == (
        "nothing is published yet",
    )


def test_intake_names_every_view_that_is_missing() -> None:
    bare = state_of(like(Exhibit))
    missing = intake_missing(bare, "E1")
    assert len(missing) == 8
    assert "Picture missing: the whole piece with ruler and colour card." in missing


def test_intake_wants_ruler_and_colour_card_in_one_picture() -> None:
    views = ("parcel_closed", "wrapping_unbroken", "bag", "tag_and_leaflets")
    more = ("lot_mark", "whole_length", "both_ends", "on_balance")
    shown = ExhibitPicture(file_sha256=FILE_SHA256, shows=(*views, *more), ruler=True)
    (lacking,) = intake_missing(state_of(like(Exhibit, views=(shown,))), "E1")
    assert "both a ruler and a colour card" in lacking
    whole = shown.model_copy(update={"colour_card": True})
    assert intake_missing(state_of(like(Exhibit, views=(whole,))), "E1") == ()


def test_piece_without_lot_mark_says_so_or_is_asked() -> None:
    blank = intake_missing(state_of(like(Exhibit, lot_mark="")), "E1")
    assert "Lot mark: blank. Enter it, or say that it came without one." in blank
    without = like(
        Exhibit, lot_mark="", not_present=("lot_mark",), length_m=None, mass_g=None
    )
    said = intake_missing(state_of(without), "E1")
    assert not [each for each in said if "ot mark" in each]
    assert "Length as it came: not measured." in said


def test_printed_words_become_claims_of_the_maker_not_of_a_shop() -> None:
    printed = like(Exhibit, printed_words=("cores 26 AWG", "one crystal per 100 m"))
    shop = like(Claim, id="K3", words="cores 26 AWG", speaker_role="shop")
    tag = like(Claim, words="cast, one crystal per 100 m", speaker_role="maker")
    state = state_of(printed, shop)
    assert printed_words_not_claimed(state, "E1") == printed.printed_words
    assert printed_words_not_claimed(state_of(printed, shop, tag), "E1") == (
        "cores 26 AWG",
    )
