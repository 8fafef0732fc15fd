"""The grid: said, not said, not looked at; nothing turns silence into a denial.

The rows of case H7 are those of the product brief, feature M2 (typed there).
"""

import pytest
from case_examples import moment
from hypothesis import given
from hypothesis import strategies as st
from pydantic import ValidationError
from report_examples import like, state_of

from strandproof.records.case_facts.claim_grid import (
    Said,
    claim_grid,
    holds_words,
    said_nowhere,
)
from strandproof.records.case_state import CaseState
from strandproof.records.entries import (
    Capture,
    CaptureSearch,
    CaseRecord,
    Claim,
    OwnStatement,
)

GAUGE = "26 AWG"


def capture(name: str, **changes: object) -> Capture:
    return like(Capture, **{"id": name, "medium": name, "place": name, **changes})


def claim(**changes: object) -> Claim:
    return like(
        Claim,
        **{
            "id": "K3",
            "words": "cores 26 AWG",
            "wordings": (GAUGE,),
            "speaker_role": "shop",
            "speaker": "Lantern Row",
            "captures": ("page",),
            **changes,
        },
    )


def search(of: str, *found: str, **changes: object) -> CaptureSearch:
    return like(
        CaptureSearch,
        **{
            "id": f"{of}-search",
            "capture": of,
            "looked_for": (GAUGE,),
            "found": found,
            **changes,
        },
    )


def cell(state: CaseState, place: str, wording: str = GAUGE) -> tuple[Said, str]:
    row = next(r for r in claim_grid(state).rows if r.wording == wording)
    found = next(c for c in row.cells if c.place.medium == place)
    return found.said, found.words


def said_at(place: str, *bodies: CaseRecord) -> Said:
    return cell(state_of(capture("page"), claim(), *bodies), place)[0]


def test_place_of_the_claim_says_it_with_the_day_of_the_copy() -> None:
    state = state_of(capture("page", captured_at=moment(3, 3)), claim())
    assert cell(state, "page") == (Said.SAID, "said 2031-03-03")


def test_copy_that_nobody_searched_is_not_looked_at() -> None:
    assert said_at("sheet", capture("sheet")) is Said.NOT_LOOKED_AT


def test_searched_whole_copy_without_the_words_denies_them() -> None:
    bodies = (capture("sheet", captured_at=moment(3, 4)), search("sheet"))
    state = state_of(capture("page"), claim(), *bodies)
    assert cell(state, "sheet") == (Said.NOT_SAID, "not said 2031-03-04")


def test_searched_part_of_a_place_denies_nothing() -> None:
    part = capture("sheet", complete=False)
    assert said_at("sheet", part, search("sheet")) is Said.NOT_LOOKED_AT
    assert said_at("sheet", part, search("sheet", GAUGE)) is Said.SAID


def test_search_for_other_words_says_nothing_of_these() -> None:
    other = search("sheet", looked_for=("4N7",))
    assert said_at("sheet", capture("sheet"), other) is Said.NOT_LOOKED_AT


def test_words_found_by_one_of_two_searches_are_there() -> None:
    twice = (search("sheet"), search("sheet", GAUGE, id="again"))
    assert said_at("sheet", capture("sheet"), *twice) is Said.SAID


def test_another_claim_of_that_place_with_these_words_says_them() -> None:
    makers = claim(id="K9", words="Drain and cores: 26 awg", captures=("tag",))
    assert said_at("tag", capture("tag"), makers) is Said.SAID


def test_own_words_are_a_place_and_their_silence_is_no_denial() -> None:
    own = like(OwnStatement, words="The cores are 26 AWG.", repeats_claim="K3")
    purity = claim(id="K2", words="4N7, drain tinned", wordings=("4N7", "drain tinned"))
    state = state_of(capture("page"), claim(), purity, own)
    assert cell(state, "own words") == (Said.SAID, "said 2031-01-15")
    assert cell(state, "own words", "4N7")[0] is Said.NOT_LOOKED_AT


def test_two_copies_of_one_place_are_one_column_with_its_history() -> None:
    first = capture("page", captured_at=moment(3, 3))
    later = capture(
        "page-2",
        medium="page",
        place="page",
        earlier_capture="page",
        captured_at=moment(8, 1),
    )
    grid = claim_grid(state_of(first, claim(), later, search("page-2")))
    assert [place.medium for place in grid.places] == ["page"]
    assert grid.rows[0].cells[0].words == "said 2031-03-03; not said 2031-08-01"
    assert grid.rows[0].cells[0].said is Said.SAID


def test_later_copy_under_another_name_joins_its_place() -> None:
    moved = capture("moved", earlier_capture="page")
    grid = claim_grid(state_of(capture("page"), claim(), moved))
    assert len(grid.places) == 1


def test_grid_of_case_h7_as_the_brief_prints_it() -> None:
    media = ("hang tag", "data sheet", "product page", "interview")
    copies = {name: capture(f"c{n}", medium=name) for n, name in enumerate(media)}
    words = ("one crystal per 100 m", "4N7", "drain tinned", GAUGE)
    searches = [
        search(copy.id, id=f"s-{copy.id}", looked_for=words) for copy in copies.values()
    ]
    maker = {"speaker_role": "maker", "speaker": "Wexcombe Twine Works"}
    claims = [
        claim(
            id="K1",
            words="cast long-crystal copper, one crystal per 100 m",
            wordings=words[:1],
            captures=("c0",),
            **maker,
        ),
        claim(
            id="K2",
            words="4N7 copper (99.997 %), drain tinned",
            wordings=words[1:3],
            captures=("c1",),
            **maker,
        ),
        claim(captures=("c2",)),
        claim(id="K4", words="8 to 13 %", wordings=(), captures=("c3",), **maker),
    ]
    own = like(OwnStatement, words="The cores are 26 AWG.", repeats_claim="K3")
    grid = claim_grid(state_of(*copies.values(), *searches, *claims, own))
    said = {
        row.wording: [c.place.medium for c in row.cells if c.said is Said.SAID]
        for row in grid.rows
    }
    assert said["one crystal per 100 m"] == ["hang tag"]
    assert said["4N7"] == said["drain tinned"] == ["data sheet"]
    assert said[GAUGE] == ["product page", "own words"]
    crystal = next(row for row in grid.rows if row.claim.id == "K1")
    assert [c.said.value for c in crystal.cells[1:4]] == ["not said"] * 3
    assert (
        "“26 AWG”: not said by the maker in any place captured "
        "(hang tag, data sheet, interview)."
    ) in said_nowhere(grid)


def test_nobody_says_nowhere_while_one_place_was_not_looked_at() -> None:
    maker = claim(id="K1", words="one crystal", wordings=(), speaker_role="maker")
    tag = {"captures": ("tag",)}
    bodies = (capture("page"), capture("tag"), capture("sheet", speaker_role="maker"))
    claims = (claim(), maker.model_copy(update=tag))
    some = state_of(*bodies, *claims, search("tag"))
    assert not [s for s in said_nowhere(claim_grid(some)) if GAUGE in s]
    both = state_of(*bodies, *claims, search("tag"), search("sheet"))
    assert [s for s in said_nowhere(claim_grid(both)) if GAUGE in s]


@given(
    complete=st.lists(st.booleans(), min_size=1, max_size=4),
    searched=st.lists(st.sampled_from(["", GAUGE, "4N7"]), min_size=1, max_size=4),
)
def test_not_said_always_has_a_whole_copy_searched_for_these_words(
    complete: list[bool], searched: list[str]
) -> None:
    pairs = list(zip(complete, searched, strict=False))
    copies = [
        capture(f"c{n}", medium="sheet", place="sheet", complete=whole)
        for n, (whole, _) in enumerate(pairs)
    ]
    searches = [
        search(f"c{n}", id=f"s{n}", looked_for=(words,))
        for n, (_, words) in enumerate(pairs)
        if words
    ]
    found = cell(state_of(capture("page"), claim(), *copies, *searches), "sheet")[0]
    denied = any(whole and words == GAUGE for whole, words in pairs)
    assert found is (Said.NOT_SAID if denied else Said.NOT_LOOKED_AT)


@given(st.permutations(range(4)))
def test_order_of_entry_does_not_change_a_cell(order: list[int]) -> None:
    bodies = [
        capture("sheet", captured_at=moment(3, 4)),
        capture("sheet-2", medium="sheet", place="sheet", captured_at=moment(5, 4)),
        search("sheet", GAUGE),
        search("sheet-2"),
    ]
    state = state_of(capture("page"), claim(), *(bodies[n] for n in order))
    assert cell(state, "sheet")[1] == "said 2031-03-04; not said 2031-05-04"


@pytest.mark.parametrize(
    ("text", "words", "there"),
    [
        ("Cores 26\n  AWG.", "26 awg", True),
        ("cores 126 AWG", "26 AWG", False),
        ("cores 26 AWGs", "26 AWG", False),
        ("126 AWG, then 26 AWG", "26 AWG", True),
        ("", "26 AWG", False),
        ("99.997 %, tinned", "%", True),
    ],
)
def test_words_stand_whole_whatever_the_capitals(
    text: str, words: str, *, there: bool
) -> None:
    assert holds_words(text, words) is there


def test_wording_must_be_part_of_the_exact_words() -> None:
    with pytest.raises(ValidationError, match="does not stand in the exact words"):
        claim(wordings=("24 AWG",))


def test_found_must_be_among_what_was_looked_for() -> None:
    with pytest.raises(ValidationError, match="not among the words looked for"):
        search("tag", "4N7")
