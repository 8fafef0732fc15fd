"""Custody in sentences, as feature M7 of the product brief prints them."""

from case_examples import moment
from custody_examples import TO_BENCH, case_of, lead, passed, strand

from strandproof.records.custody import (
    common_year,
    custody_gaps,
    custody_lines,
    custody_records,
    custody_trail,
    gap_in_words,
    gap_lines,
    things_in_words,
    trail_lines,
)
from strandproof.records.entries import GapExplanation

BODIES = (lead(), strand(), TO_BENCH)


def test_the_gap_of_the_brief_reads_as_written() -> None:
    (gap,) = custody_gaps(case_of(*BODIES))
    assert gap_in_words(gap, year=2031) == (
        "Gap: 05-06 16:40 to 05-08 09:15, no holder recorded"
    )
    assert gap_in_words(gap) == (
        "Gap: 2031-05-06 16:40 to 2031-05-08 09:15, no holder recorded"
    )


def test_unexplained_gap_says_so_and_names_the_carrier() -> None:
    state = case_of(*BODIES)
    assert gap_lines(state, custody_gaps(state)[0], year=2031) == [
        "G1. Gap: 05-06 16:40 to 05-08 09:15, no holder recorded (specimen s1).",
        "Under way from R to A1, carried by parcel service, who signed nothing.",
        "Not explained.",
    ]


def test_explanation_and_correction_stand_beside_the_gap() -> None:
    (gap,) = custody_gaps(case_of(*BODIES))
    said = GapExplanation(
        id="G1-1",
        gap="G1",
        items=gap.things,
        gap_from=gap.start,
        explanation="in the depot",
        explained_by="R",
        explained_at=moment(5, 20),
        evidence=("seal/a",),
    )
    mended = TO_BENCH.model_copy(update={"received_at": TO_BENCH.given_at})
    state = case_of(*BODIES, said, mended)
    lines = " ".join(custody_lines(state))
    assert "Gap: 05-06 16:40 to 05-08 09:15, no holder recorded" in lines
    assert "Since entry 6 the records say otherwise" in lines
    assert "stays listed" in lines
    assert "Explained by R, 05-20 12:00: in the depot. Rests on seal/a." in lines
    assert "Not explained" not in lines


def test_every_kind_of_gap_says_what_shows_it() -> None:
    late = moment(5, 20)
    state = case_of(
        lead(),
        strand(taken_by="C"),
        passed("h1", "C", "A1", given=moment(5, 1), received=moment(5, 1)),
        passed("h2", "B", "R", given=late, received=late),
        passed("h3", "R", "Q", given=moment(5, 10), received=moment(5, 11)),
    )
    lines = " ".join(custody_lines(state))
    assert (
        "Last received by R, cut by C; no hand-over from R to C is recorded." in lines
    )
    assert "Last received by A1, given on by B; no hand-over from A1 to B" in lines
    assert "Last received by A1, given on by R" in lines
    open_one = case_of(*BODIES[:2], TO_BENCH.model_copy(update={"received_at": None}))
    assert "from 05-06 16:40, no receipt recorded" in " ".join(custody_lines(open_one))
    early = passed("h1", "R", "A1", given=moment(4, 1), received=moment(4, 1))
    odd = " ".join(custody_lines(case_of(lead(), strand(), early)))
    assert "Times disagree: 04-01 12:00 to 04-05 12:00" in odd
    assert "does not fit the records" in odd


def test_case_without_a_gap_says_so() -> None:
    assert custody_lines(case_of(lead())) == ["No gap in custody is on record."]


def test_trail_lists_holders_and_gaps_in_order() -> None:
    lines = trail_lines(custody_trail(custody_records(case_of(*BODIES)), "specimen/s1"))
    assert lines == [
        "R, 2031-04-02 12:00 to 2031-04-05 12:00 (by exhibit/E1)",
        "R, 2031-04-05 12:00 to 2031-05-06 16:40 (by specimen/s1)",
        "nobody recorded, 2031-05-06 16:40 to 2031-05-08 09:15",
        "A1, 2031-05-08 09:15 to now (by hand_over/to-bench)",
    ]
    empty = trail_lines(custody_trail(custody_records(case_of()), "exhibit/E9"))
    assert empty == ["nobody took it in or handed it over"]


def test_many_things_are_counted() -> None:
    five = [f"specimen/s{k}" for k in range(5)]
    assert things_in_words(five) == "specimen s0, specimen s1, specimen s2 and 2 more"


def test_year_is_left_out_only_where_it_is_common() -> None:
    assert common_year([moment(1, 1), moment(2, 1)]) == 2031
    assert common_year([moment(1, 1), moment(1, 1).replace(year=2032)]) is None
    assert common_year([]) is None
