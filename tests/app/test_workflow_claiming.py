"""Claims frozen, places looked at again, copies searched, the grid printed."""

from collections.abc import Mapping
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import Any

import pytest
from workflow_examples import NOON, contents

from strandproof.app.workflow import Desk, enter, enter_claim, open_case, start_case
from strandproof.app.workflow.claiming.copies import (
    enter_search,
    freeze_place,
    recheck_place,
    search_all_copies,
    search_copy,
    text_of_copy,
)
from strandproof.app.workflow.claiming.grid_words import (
    due_data,
    due_in_words,
    grid_data,
    grid_in_words,
    questions_in_words,
    recheck_data,
    recheck_in_words,
    still_online,
    usual_days,
)
from strandproof.app.workflow.claiming.interests import (
    blanks_in_words,
    costs_data,
    costs_in_words,
)
from strandproof.app.workflow.claiming.questions import claim_questions
from strandproof.errors import (
    ClaimQuestionsError,
    NoTextError,
    ParameterError,
    UnknownLabelError,
    WordsFoundError,
)
from strandproof.records.entries import CaptureSearch

SEEN = datetime(2031, 3, 3, 19, 12, tzinfo=UTC)
CLAIM: Mapping[str, Any] = {
    "id": "K3",
    "words": "cores 26 AWG",
    "wordings": ["26 AWG"],
    "speaker": "Lantern Row",
    "speaker_role": "shop",
    "medium": "product page",
    "place": "page of the lead",
    "said_at": SEEN,
    "kinds": ["build"],
    "readings": [{"words": "Each core holds 0.1288 mm².", "kind": "build"}],
}
PAGE = "<h1>Tern lead</h1><p>Cores 26 AWG</p><p>129.00</p>"


@pytest.fixture
def desk(tmp_path: Path) -> Desk:
    """A case with claim K3 on a saved page."""
    desk = at(tmp_path / "H7", SEEN)
    start_case(desk, {"id": "H7", "title": "The Tern earphone lead", "owner": "R"})
    enter_claim(desk, CLAIM, capture=file(tmp_path, "page.html", PAGE))
    return desk


def at(folder: Path, moment: datetime) -> Desk:
    return Desk(folder, "R", lambda: moment)


def file(folder: Path, name: str, content: str | bytes) -> Path:
    path = folder / name
    data = content.encode() if isinstance(content, str) else content
    path.write_bytes(data)
    return path


def searches(desk: Desk) -> list[CaptureSearch]:
    return list(open_case(desk.folder).records(CaptureSearch))


@pytest.mark.parametrize(
    ("blank", "question"),
    [
        ({"speaker_role": ""}, "Who says this\\? maker, shop, tester, other"),
        ({"speaker": " "}, "Who says this\\?"),
        ({"medium": None}, "What is it: product page"),
        ({"said_at": None}, "When was it said or seen\\?"),
        ({"words": ""}, "What are the exact words\\?"),
    ],
)
def test_claim_that_leaves_a_question_open_is_not_saved(
    desk: Desk, tmp_path: Path, blank: dict[str, object], question: str
) -> None:
    before = contents(desk.folder)
    page = file(tmp_path, "p.txt", "x")
    with pytest.raises(ClaimQuestionsError, match=question):
        enter_claim(desk, {**CLAIM, "id": "K9", **blank}, capture=page)
    assert contents(desk.folder) == before


def test_claim_without_a_file_is_asked_for_it_with_all_else(desk: Desk) -> None:
    with pytest.raises(ClaimQuestionsError) as refused:
        enter_claim(desk, {"id": "K9", "words": "pure"}, capture=None)
    assert len(refused.value.questions) == 4
    assert refused.value.questions[-1].startswith("Which file shows it")
    assert claim_questions(CLAIM, has_file=True) == ()


def test_place_without_a_claim_is_searched_when_it_is_a_text(
    desk: Desk, tmp_path: Path
) -> None:
    fields = {"id": "sheet", "medium": "data sheet", "place": "revision B"}
    entries = freeze_place(desk, fields, file=file(tmp_path, "s.txt", "4N7 copper"))
    assert [entry.kind for entry in entries] == ["capture", "capture_search"]
    (search,) = searches(desk)
    assert (search.looked_for, search.found) == (("26 AWG",), ())
    lines = grid_in_words(open_case(desk.folder))
    assert "    data sheet, revision B: not said 2031-03-03" in lines


def test_picture_is_not_searched_and_stays_not_looked_at(
    desk: Desk, tmp_path: Path
) -> None:
    fields = {
        "id": "tag",
        "medium": "hang tag",
        "place": "bag",
        "speaker_role": "maker",
    }
    entries = freeze_place(desk, fields, file=file(tmp_path, "tag.png", b"\x89PNG"))
    assert [entry.kind for entry in entries] == ["capture"]
    assert search_all_copies(desk)[0].body.id == "K3-capture-search-1"
    assert "    hang tag, bag: not looked at" in grid_in_words(open_case(desk.folder))
    with pytest.raises(NoTextError, match=r"tag \(tag.png\) is no text"):
        search_copy(desk, "tag")
    enter_search(desk, "tag", looked_for=(), found=(), method="read")
    lines = grid_in_words(open_case(desk.folder))
    assert "    hang tag, bag: not said 2031-03-03" in lines
    assert "“26 AWG”: not said by the maker in any place captured (hang tag)." in lines


def test_nobody_can_enter_as_absent_what_stands_in_a_text(desk: Desk) -> None:
    before = contents(desk.folder)
    with pytest.raises(WordsFoundError, match="holds “26 AWG”"):
        enter_search(desk, "K3-capture", looked_for=(), found=(), method="read")
    assert contents(desk.folder) == before
    entry = enter_search(
        desk, "K3-capture", looked_for=("4N7",), found=("26 AWG",), method="read"
    )
    assert isinstance(entry.body, CaptureSearch)
    assert entry.body.looked_for == ("4N7", "26 AWG")


def test_copies_already_searched_are_left_alone_until_a_new_claim(
    desk: Desk, tmp_path: Path
) -> None:
    assert len(search_all_copies(desk)) == 1
    assert search_all_copies(desk) == ()
    other = {**CLAIM, "id": "K2", "words": "4N7", "wordings": [], "medium": "sheet"}
    enter_claim(desk, other, capture=file(tmp_path, "s.txt", "4N7"))
    assert len(search_all_copies(desk)) == 2


def recheck(desk: Desk, tmp_path: Path, text: str | bytes, name: str = "r.html") -> Any:  # noqa: ANN401 - the record of a recheck
    """Look again on 1 August, after a letter of 1 July and a copy of that evening."""
    letter = {
        "id": "L1",
        "to": "Lantern Row",
        "role": "shop",
        "channels": ["post"],
        "sent_at": datetime(2031, 7, 1, 12, tzinfo=UTC),
        "deadline": datetime(2031, 7, 15, tzinfo=UTC),
    }
    enter(desk, "letter_sent", letter)
    evening = at(desk.folder, datetime(2031, 7, 1, 18, tzinfo=UTC))
    same = file(tmp_path, "again.html", PAGE + "\n")
    recheck_place(evening, "K3-capture", same, name="K3-july")
    august = at(desk.folder, datetime(2031, 8, 1, 9, tzinfo=UTC))
    return recheck_place(
        august, "K3-capture", file(tmp_path, name, text), name="K3-august"
    )


def test_recheck_of_the_brief(desk: Desk, tmp_path: Path) -> None:
    found = recheck(desk, tmp_path, "<h1>Tern lead</h1><p>129.00</p>")
    lines = recheck_in_words(found)
    assert "- Cores 26 AWG" in lines
    assert "“26 AWG”: not in the later copy." in lines
    assert lines[-1].endswith(
        "changed after our letter of 2031-07-01 and before 2031-08-01."
    )
    data = recheck_data(found)
    assert (data["earlier"], data["same_words"]) == ("K3-july", False)
    assert data["gone"] == ["26 AWG"]
    grid = grid_in_words(open_case(desk.folder))
    cell = next(line for line in grid if line.startswith("    product page"))
    assert cell.endswith("said 2031-03-03; not said 2031-08-01")
    assert grid_data(open_case(desk.folder))["changes"] == [lines[-1]]


def test_recheck_that_reads_the_same_says_so(desk: Desk, tmp_path: Path) -> None:
    found = recheck(desk, tmp_path, PAGE.replace("<p>", "<p> "))
    assert recheck_in_words(found)[1:] == ("Both copies read the same.",)
    assert not found.same_bytes
    later = at(desk.folder, datetime(2031, 9, 1, tzinfo=UTC))
    copy = file(tmp_path, "x.html", PAGE.replace("<p>", "<p> "))
    again = recheck_place(later, "K3-july", copy, name="K3-september")
    assert "byte for byte" in recheck_in_words(again)[1]


def test_recheck_with_a_picture_leaves_the_answer_to_people(
    desk: Desk, tmp_path: Path
) -> None:
    found = recheck(desk, tmp_path, b"\x89PNG", "shot.png")
    assert "look at both" in recheck_in_words(found)[1]
    assert found.changes == ()
    assert recheck_data(found)["same_words"] is None
    assert text_of_copy(desk.folder, open_case(desk.folder), "K3-august") is None


def test_part_of_a_page_shows_no_change(desk: Desk, tmp_path: Path) -> None:
    part = file(tmp_path, "part.html", "<h1>Tern lead</h1>")
    found = recheck_place(desk, "K3-capture", part, name="part", complete=False)
    assert found.changes == ()
    assert "words absent from it are not gone" in recheck_in_words(found)[1]


def test_recheck_of_an_unknown_place_changes_nothing(
    desk: Desk, tmp_path: Path
) -> None:
    before = contents(desk.folder)
    with pytest.raises(UnknownLabelError, match="no capture 'K9'"):
        recheck_place(desk, "K9", file(tmp_path, "x.txt", "x"), name="x")
    assert contents(desk.folder) == before


def test_older_copy_is_no_recheck(desk: Desk, tmp_path: Path) -> None:
    before = contents(desk.folder)
    older = file(tmp_path, "old.html", PAGE)
    with pytest.raises(ParameterError, match="a moment after the oldest copy"):
        recheck_place(
            *(desk, "K3-capture", older),
            name="old",
            captured_at=SEEN - timedelta(days=1),
        )
    assert contents(desk.folder) == before


def test_pages_are_due_after_the_usual_days(desk: Desk) -> None:
    state = open_case(desk.folder)
    early = still_online(state, now=SEEN + timedelta(days=usual_days() - 1))
    assert due_in_words(early) == ("No place is due.",)
    due = still_online(state, now=SEEN + timedelta(days=usual_days()))
    assert "last captured 30 days ago" in due_in_words(due)[0]
    assert due_data(due)[0]["days"] == 30
    assert still_online(state, now=SEEN + timedelta(days=7), days=7)


def test_questions_and_readings_are_printed_claim_by_claim(desk: Desk) -> None:
    state = open_case(desk.folder)
    (asked,) = questions_in_words(state)
    assert asked.startswith("K3, copy K3-capture: What is it? product page")
    assert "When, and by whom? 2031-03-03 19:12 UTC, R." in asked
    assert (
        "K3, read as “Each core holds 0.1288 mm².” (literal, put to the test first, "
        "build (metal, plating, gauge, strand count)): not tested."
    ) in grid_in_words(state)


def test_costs_and_blanks_are_printed(desk: Desk) -> None:
    for name, spent in (("leads", {"amount": 214.9}), ("work", {"hours": 31})):
        fields = {"id": name, "purpose": name, "currency": "EUR", "paid_by": "R"}
        enter(desk, "cost", {**fields, "spent_at": NOON, **spent})
    state = open_case(desk.folder)
    assert costs_in_words(state)[:3] == (
        "leads: 214.90 EUR, R.",
        "work: 31 hours, R.",
        "In all: 214.90 EUR, 31 hours.",
    )
    assert costs_data(state)["hours"] == 31
    assert all(each.startswith("Before the plan") for each in blanks_in_words(state))
    none = {"id": "n", "person": "R", "kind": "none_declared", "statement": "none"}
    enter(desk, "disclosure", {**none, "declared_at": NOON})
    assert blanks_in_words(open_case(desk.folder)) == ("Nothing is blank.",)
