"""Which places are due to be looked at again."""

from datetime import timedelta

from case_examples import moment
from hypothesis import given
from hypothesis import strategies as st
from report_examples import like, state_of

from strandproof.records.case_facts.places import due_again, place_of, places
from strandproof.records.entries import Capture, Claim, LetterSent, OwnStatement

PAGE = like(
    Capture,
    id="page",
    medium="product page",
    place="page of the Box Hill shop",
    captured_at=moment(3, 3),
)
SHOP = like(
    Claim, captures=("page",), speaker="Box Hill", speaker_role="shop", words="x"
)


@given(st.integers(0, 90), st.integers(1, 60))
def test_page_is_due_after_so_many_days_and_not_before(days: int, every: int) -> None:
    now = moment(3, 3) + timedelta(days=days, hours=3)
    due = due_again(state_of(PAGE, SHOP), now=now, every_days=every)
    assert [each.days for each in due] == ([days] if days >= every else [])


def test_tags_recordings_and_own_words_are_never_due() -> None:
    tag = like(Capture, medium="hang tag in the bag")
    talk = like(Capture, id="talk", medium="recorded interview", place="minute 14")
    state = state_of(tag, talk, like(OwnStatement, repeats_claim=None))
    assert due_again(state, now=moment(12, 31), every_days=1) == ()


def test_letter_makes_its_place_due_at_once() -> None:
    letter = like(
        LetterSent, to="Box Hill", role="shop", sentences=(), sent_at=moment(3, 5)
    )
    state = state_of(PAGE, SHOP, letter)
    (due,) = due_again(state, now=moment(3, 6), every_days=30)
    assert due.reasons == ("not captured since our letter of 2031-03-05",)
    assert due_again(state, now=moment(3, 4), every_days=30) == ()
    again = PAGE.model_copy(update={"id": "page-2", "captured_at": moment(3, 5, 18)})
    state = state_of(PAGE, SHOP, letter, again)
    assert due_again(state, now=moment(3, 6), every_days=30) == ()


def test_copies_stand_in_the_order_of_time_whatever_the_entry() -> None:
    older = PAGE.model_copy(update={"id": "old", "captured_at": moment(2, 1)})
    (place,) = places(state_of(PAGE, older, SHOP))
    assert [copy.id for copy in place.captures] == ["old", "page"]
    assert place_of(state_of(PAGE, older, SHOP), "page") == place
    assert place.speakers == ("Box Hill",)
