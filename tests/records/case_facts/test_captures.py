"""Copies compared: gone, new, same; and between which moments it changed.

The sentence of the first test of a change is that of the product brief, feature S11.
"""

from datetime import datetime

from case_examples import moment
from hypothesis import given
from hypothesis import strategies as st
from report_examples import like, state_of

from strandproof.records.case_facts.captures import (
    capture_answers,
    changes_at,
    compare_texts,
)
from strandproof.records.case_state import CaseState
from strandproof.records.entries import Capture, CaptureSearch, Claim, LetterSent

LINES = st.lists(st.text("ab 1", max_size=5), max_size=8).map("\n".join)


def page(name: str, at: datetime, **changes: object) -> Capture:
    return like(
        Capture,
        **{
            "id": name,
            "medium": "product page",
            "place": "page of the shop",
            "captured_at": at,
            **changes,
        },
    )


def searched(name: str, *found: str) -> CaptureSearch:
    return like(
        CaptureSearch,
        id=f"{name}-s",
        capture=name,
        looked_for=("26 AWG",),
        found=found,
    )


def rechecked(*, letter: datetime | None, between: datetime | None) -> CaseState:
    shop = {"speaker_role": "shop", "speaker": "Lantern Row", "captures": ("c1",)}
    said = like(Claim, words="cores 26 AWG", wordings=("26 AWG",), **shop)
    bodies = [page("c1", moment(3, 3)), said]
    if letter:
        sent = {"to": "Lantern Row", "role": "shop", "sent_at": letter}
        bodies.append(like(LetterSent, sentences=(), **sent))
    if between:
        bodies += [page("c2", between), searched("c2", "26 AWG")]
    return state_of(*bodies, page("c3", moment(8, 1)), searched("c3"))


def change(state: CaseState) -> str:
    (only,) = changes_at(state)
    return only.words


def test_change_after_the_letter_where_a_copy_shows_the_words_after_it() -> None:
    state = rechecked(letter=moment(7, 1, 12), between=moment(7, 1, 18))
    assert change(state) == (
        "product page, page of the shop no longer says “26 AWG”: "
        "changed after our letter of 2031-07-01 and before 2031-08-01."
    )


def test_days_after_the_letter_both_are_named() -> None:
    state = rechecked(letter=moment(7, 1), between=moment(7, 9))
    assert (
        "changed after 2031-07-09 (after our letter of 2031-07-01) and before "
        "2031-08-01"
    ) in change(state)


def test_without_a_copy_after_the_letter_nothing_is_put_after_it() -> None:
    said = change(rechecked(letter=moment(7, 1), between=None))
    assert "changed after 2031-03-03 and before 2031-08-01" in said
    assert "no copy says whether the change came before or after it" in said
    assert "after our letter" not in said


def test_copy_of_the_same_day_but_before_the_letter_is_not_after_it() -> None:
    said = change(rechecked(letter=moment(7, 1, 12), between=moment(7, 1, 9)))
    assert "after our letter" not in said


def test_without_a_letter_only_the_copies_bound_it() -> None:
    said = change(rechecked(letter=None, between=moment(7, 9)))
    assert said.endswith("changed after 2031-07-09 and before 2031-08-01.")


def test_letter_to_somebody_else_is_not_mentioned() -> None:
    state = rechecked(letter=None, between=moment(7, 9))
    others = like(
        LetterSent,
        to="Wexcombe Twine Works",
        role="maker",
        sentences=(),
        sent_at=moment(7, 1),
    )
    bodies = [entry.body for entry in state.entries[1:]]
    assert "letter" not in change(state_of(*bodies, others))


def test_nothing_changed_where_both_copies_say_it() -> None:
    bodies = [entry.body for entry in rechecked(letter=None, between=None).entries[1:]]
    same = [*bodies[:-1], searched("c3", "26 AWG")]
    assert changes_at(state_of(*same)) == ()


def test_no_change_is_said_to_have_a_motive() -> None:
    said = change(rechecked(letter=moment(7, 1, 12), between=moment(7, 1, 18)))
    for motive in ("because", "remov", "hid", "react", "tried"):
        assert motive not in said


def test_lines_gone_and_new_and_words_told_apart() -> None:
    found = compare_texts(
        "Tern lead\nCores 26 AWG\n129.00", "Tern lead\n129.00\nNew!", ["26 AWG", "Tern"]
    )
    assert [(line.kind, line.words) for line in found.lines] == [
        ("gone", "Cores 26 AWG"),
        ("new", "New!"),
    ]
    assert (found.gone, found.kept, found.came) == (("26 AWG",), ("Tern",), ())
    assert not found.same


@given(LINES)
def test_a_text_is_the_same_as_itself_with_other_spaces(text: str) -> None:
    assert compare_texts(text, text.replace("\n", " \n\n "), []).same


@given(LINES, LINES)
def test_gone_and_new_lines_turn_one_text_into_the_other(one: str, two: str) -> None:
    """Counts of lines balance: what the first lost and won makes the second."""
    found = compare_texts(one, two, [])
    plain = [
        [" ".join(x.split()) for x in t.splitlines() if x.split()] for t in (one, two)
    ]
    gone = [line.words for line in found.lines if line.kind == "gone"]
    new = [line.words for line in found.lines if line.kind == "new"]
    assert sorted(plain[0] + new) == sorted(plain[1] + gone)


def test_four_questions_say_what_is_not_known() -> None:
    answers = dict(capture_answers(page("c1", moment(3, 3, 19, 12), complete=False)))
    assert answers["What is it?"] == "product page, a part of it only"
    assert answers["Where from?"] == "page of the shop"
    assert answers["When, and by whom?"] == "2031-03-03 19:12 UTC, R"
    assert answers["Unchanged since?"] == "not known"
    since = page("c2", moment(3, 3), captured_by="", unchanged_since=moment(2, 1))
    answers = dict(capture_answers(since))
    assert answers["Unchanged since?"] == "2031-02-01 12:00 UTC"
    assert "by whom is not known" in answers["When, and by whom?"]
