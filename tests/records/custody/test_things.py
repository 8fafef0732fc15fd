"""Which specimens a finding rests on, and what was cut from what."""

import pytest
from case_examples import BODIES
from custody_examples import case_of, cut, lead, part, strand

from strandproof.records.custody import (
    custody_records,
    part_of,
    things_behind,
    things_in_custody,
)
from strandproof.records.custody.things import pieces_of

EXAMPLE = case_of(*BODIES[1:])


@pytest.mark.parametrize(
    "reference",
    [
        "micrograph/f1",
        "section/E1-s1-L",
        "specimen/E1-s1",
        "portion/E1-maker",
        "exhibit/E1",
        "reading/f1-A2",
        "case/H7",
    ],
)
def test_specimens_behind_a_finding(reference: str) -> None:
    assert things_behind(EXAMPLE, reference) == ("E1-s1",)


def test_nothing_lies_behind_a_paper() -> None:
    assert things_behind(EXAMPLE, "document/mill") == ()


def test_pieces_are_found_through_all_cuts() -> None:
    state = case_of(lead(), part(), strand(portion="E1-test"), cut())
    assert things_in_custody(state) == (
        "exhibit/E1",
        "portion/E1-test",
        "specimen/s1",
        "section/s1-L",
    )
    assert pieces_of(custody_records(state), "exhibit/E1") == things_in_custody(state)
    assert part_of(lead()) is None
    assert part_of(strand()) == "exhibit/E1"
