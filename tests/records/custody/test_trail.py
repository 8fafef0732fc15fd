"""The trail of one thing: holders, inherited parts, every kind of gap."""

from case_examples import moment
from custody_examples import TO_BENCH, case_of, cut, lead, part, passed, strand

from strandproof.records.case_state import CaseState
from strandproof.records.custody import CustodyTrail, custody_records, custody_trail
from strandproof.records.entries import Disposal


def trail(state: CaseState, thing: str = "specimen/s1") -> CustodyTrail:
    return custody_trail(custody_records(state), thing)


def holders(found: CustodyTrail) -> list[str]:
    return [each.holder for each in found.holdings]


def test_hand_to_hand_leaves_no_gap() -> None:
    now = moment(5, 6)
    given = passed("h1", "R", "A1", given=now, received=now)
    found = trail(case_of(lead(), strand(), given))
    assert holders(found) == ["R", "R", "A1"]
    assert found.holdings[-1].end is None
    assert found.gaps == ()


def test_time_under_way_is_nobodys_whoever_carried_it() -> None:
    found = trail(case_of(lead(), strand(), TO_BENCH))
    (gap,) = found.own_gaps
    assert (gap.kind, gap.start, gap.end) == (
        "under_way",
        moment(5, 6, 16, 40),
        moment(5, 8, 9, 15),
    )
    assert (gap.last_holder, gap.next_holder) == ("R", "A1")


def test_carrier_who_signs_closes_the_gap() -> None:
    out, back = moment(5, 6, 16, 40), moment(5, 8, 9, 15)
    found = trail(
        case_of(
            lead(),
            strand(),
            passed("h1", "R", "courier", given=out, received=out),
            passed("h2", "courier", "A1", given=back, received=back),
        )
    )
    assert found.gaps == ()
    assert holders(found)[-2:] == ["courier", "A1"]


def test_giver_who_never_received_leaves_the_longest_gap() -> None:
    late = moment(5, 20)
    found = trail(
        case_of(
            lead(),
            strand(),
            TO_BENCH,
            passed("h2", "B", "R", given=late, received=late),
        )
    )
    gap = found.own_gaps[-1]
    assert (gap.kind, gap.start, gap.end) == ("no_hand_over", moment(5, 8, 9, 15), late)
    assert (gap.last_holder, gap.next_holder) == ("A1", "B")


def test_order_of_entry_does_not_matter() -> None:
    late = moment(5, 20)
    back = passed("back", "A1", "R", given=late, received=late)
    one = trail(case_of(lead(), strand(), TO_BENCH, back))
    other = trail(case_of(back, TO_BENCH, strand(), lead()))
    assert one == other


def test_not_received_stays_open_until_somebody_has_it() -> None:
    sent = passed("h1", "R", "A1", given=moment(5, 6), received=None)
    (gap,) = trail(case_of(lead(), strand(), sent)).gaps
    assert gap.end is None
    assert gap.bounded_at is None
    on = passed("h2", "A1", "A2", given=moment(5, 9), received=moment(5, 9))
    later = trail(case_of(lead(), strand(), sent, on))
    assert later.gaps[0].end is None
    assert later.gaps[0].bounded_at == moment(5, 9)
    assert holders(later)[-1] == "A2"


def test_cut_by_somebody_who_did_not_hold_it() -> None:
    found = trail(case_of(lead(), strand(taken_by="C")))
    (gap,) = found.own_gaps
    assert (gap.kind, gap.last_holder, gap.next_holder) == ("cut_by_another", "R", "C")
    assert (gap.start, gap.end) == (moment(4, 2), moment(4, 5))


def test_portion_and_specimen_inherit_up_to_the_cut_only() -> None:
    sent = passed(
        "whole", "R", "Q", given=moment(4, 10), received=moment(4, 11),
        items=("exhibit/E1", "portion/E1-test"),
    )  # fmt: skip
    state = case_of(lead(), part(), strand(portion="E1-test"), sent)
    assert holders(trail(state)) == ["R", "R", "R"]
    assert trail(state).gaps == ()
    assert holders(trail(state, "portion/E1-test"))[-1] == "Q"


def test_what_was_under_way_when_cut_is_inherited_not_repeated() -> None:
    sent = passed(
        "whole", "R", "Q", given=moment(4, 4), received=moment(4, 8),
        items=("exhibit/E1",),
    )  # fmt: skip
    found = trail(case_of(lead(), strand(taken_by="Q"), sent))
    assert [gap.thing for gap in found.gaps] == ["exhibit/E1"]
    assert found.gaps[0].bounded_at == moment(4, 5)
    assert found.own_gaps == ()


def test_section_without_a_date_goes_with_its_specimen() -> None:
    state = case_of(lead(), strand(), cut(), TO_BENCH)
    assert holders(trail(state, "section/s1-L"))[-1] == "A1"
    assert trail(state, "section/s1-L").own_gaps == ()


def test_moments_out_of_order_are_named() -> None:
    early = passed("h1", "R", "A1", given=moment(4, 1), received=moment(4, 1))
    (gap,) = trail(case_of(lead(), strand(), early)).own_gaps
    assert gap.kind == "times_disagree"
    before = strand(taken_at=moment(4, 1))
    assert trail(case_of(lead(), before)).own_gaps[0].kind == "times_disagree"
    backwards = passed("h1", "R", "A1", given=moment(5, 6), received=moment(5, 5))
    assert trail(case_of(lead(), strand(), backwards)).own_gaps[0].kind == (
        "times_disagree"
    )


def test_disposal_ends_the_trail() -> None:
    gone = Disposal(
        id="d1",
        items=("specimen/s1",),
        fate="consumed",
        reason="dissolved for analysis",
        at=moment(6, 1),
        by="R",
    )
    found = trail(case_of(lead(), strand(), gone))
    assert found.ended == moment(6, 1)
    assert found.holdings[-1].end == moment(6, 1)


def test_thing_that_nobody_took_in_has_an_empty_trail() -> None:
    assert trail(case_of(), "exhibit/E9").holdings == ()


def test_other_things_are_followed_from_their_first_hand_over() -> None:
    sent = passed(
        "paper", "R", "A1", given=moment(5, 1), received=moment(5, 1),
        items=("document/mill",),
    )  # fmt: skip
    assert holders(trail(case_of(sent), "document/mill")) == ["A1"]
