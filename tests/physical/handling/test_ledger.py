"""Highest temperature and all handling of every specimen."""

import pytest
from case_examples import moment
from custody_examples import case_of, cut, heated, lead, part, strand

from strandproof.errors import UnknownLabelError
from strandproof.physical.handling import ancestry, ledger, ledger_row, row_line
from strandproof.records.entries import PreparationStep


def test_row_names_the_warmest_and_its_time() -> None:
    state = case_of(
        lead(), strand(), heated("a", 42, event="cold mount"), heated("b", 180)
    )
    row = ledger_row(state, "s1")
    assert (row.highest_temperature_c, row.duration_s) == (180, 480)
    assert row.hottest == "hot mount 180 °C, 8 min"
    assert len(row.events) == 2
    assert [flag.name for flag in row.flags] == ["F1"]
    assert row_line(row) == (
        "s1: at most 180 °C; cold mount 42 °C, 8 min; hot mount 180 °C, 8 min. "
        "Flags: F1."
    )


def test_specimen_shares_what_its_exhibit_saw_before_the_cut_only() -> None:
    before = heated("a", 60, items=("exhibit/E1",), at=moment(4, 2, 18), event="drying")
    after = heated("b", 180, items=("exhibit/E1",), at=moment(4, 6))
    state = case_of(lead(), part(), strand(portion="E1-test"), before, after)
    row = ledger_row(state, "s1")
    assert row.highest_temperature_c == 60
    assert row.flags == ()


def test_heat_of_a_section_is_that_of_its_specimen() -> None:
    step = PreparationStep(
        id="mount",
        sections=("s1-L",),
        step="mount",
        order=1,
        description="own procedure",
        temperature_c=170,
        at=moment(5, 9),
        by="A1",
    )
    state = case_of(lead(), strand(), cut(), step)
    row = ledger_row(state, "s1")
    assert row.highest_temperature_c == 170
    assert row.duration_s is None
    assert len(row.flags) == 1


def test_specimen_that_saw_nothing_has_an_empty_row() -> None:
    state = case_of(lead(), strand(), strand("s2"), heated("hot", 180))
    rows = {row.specimen: row for row in ledger(state)}
    assert rows["s2"].highest_temperature_c is None
    assert row_line(rows["s2"]) == "s2: nothing recorded."


def test_temperature_that_nobody_recorded_is_said() -> None:
    row = ledger_row(case_of(lead(), strand(), heated("m", None)), "s1")
    assert "temperature not recorded" in row_line(row)


def test_ancestry_ends_at_each_cut() -> None:
    state = case_of(lead(), part(), strand(portion="E1-test"), cut())
    assert ancestry(state, "s1") == {
        "section/s1-L": None,
        "specimen/s1": None,
        "portion/E1-test": moment(4, 5),
        "exhibit/E1": moment(4, 3),
    }


def test_unknown_specimen_is_refused() -> None:
    with pytest.raises(UnknownLabelError, match="no specimen 's9'"):
        ledger_row(case_of(lead()), "s9")
