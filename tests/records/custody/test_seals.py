"""Seals: broken, opened, put on again, not looked at."""

from typing import Literal

from case_examples import moment
from custody_examples import TO_BENCH, case_of, lead, strand

from strandproof.records.custody import seal_findings
from strandproof.records.entries import Seal


def seal(
    name: str,
    event: Literal["applied", "found_intact", "found_broken", "opened"],
    day: int,
    number: str = "0071",
) -> Seal:
    return Seal(
        id=name,
        seal_number=number,
        on="specimen/s1",
        event=event,
        at=moment(5, day),
        by="R",
    )


def test_broken_opened_and_sealed_again_are_told() -> None:
    state = case_of(
        seal("a", "applied", 1),
        seal("b", "found_broken", 3),
        seal("c", "applied", 4, "0072"),
        seal("d", "opened", 6, "0072"),
    )
    found = seal_findings(state)
    assert [each.kind for each in found] == ["broken", "sealed_again", "opened"]
    assert found[0].words == (
        "Seal 0071 on specimen/s1 found broken by R, 2031-05-03 12:00 UTC."
    )


def test_corrected_finding_stays_listed() -> None:
    state = case_of(
        seal("b", "found_broken", 3),
        seal("b", "found_intact", 3),
        seal("x", "opened", 9),
    )
    broken, opened = seal_findings(state)
    assert broken.corrected
    assert "a later entry corrects this" in broken.words
    assert not opened.corrected


def test_seal_that_nobody_looked_at_on_arrival() -> None:
    sent = TO_BENCH.model_copy(update={"seal": "a"})
    put_on = seal("a", "applied", 5)
    (found,) = seal_findings(case_of(lead(), strand(), put_on, sent))
    assert found.kind == "not_checked"
    assert "nobody noted on arrival" in found.words
    looked = seal("c", "found_intact", 9)
    assert seal_findings(case_of(lead(), strand(), put_on, sent, looked)) == ()


def test_hand_over_without_a_seal_or_under_way_raises_nothing() -> None:
    sent = TO_BENCH.model_copy(update={"seal": "a", "received_at": None})
    state = case_of(lead(), strand(), seal("a", "applied", 5), sent)
    assert seal_findings(state) == ()
