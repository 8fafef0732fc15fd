"""The preparation log: what is missing before a section may be counted."""

from typing import Any

import pytest
from case_examples import FILE_SHA256, moment
from custody_examples import case_of, cut, lead, strand

from strandproof.records.case_state import CaseState
from strandproof.records.entries import CaseRecord, Micrograph, PreparationStep
from strandproof.records.preparation import (
    preparation_flags,
    preparation_state,
    section_line,
    section_may_be_counted,
)

SECTION = cut(made_by="A1", mount="m1")


def step(kind: str, order: int, *, pictured: bool = True) -> PreparationStep:
    fields: dict[str, Any] = {
        "id": f"step-{order}",
        "sections": ("s1-L",),
        "step": kind,
        "order": order,
        "description": "by the laboratory's own procedure",
        "at": moment(5, 10),
        "by": "A1",
        "picture_sha256": FILE_SHA256 if pictured else None,
    }
    return PreparationStep.model_validate(fields)


def shown(etch_step: str, name: str = "f1") -> Micrograph:
    return Micrograph(
        id=name,
        section="s1-L",
        file_sha256=FILE_SHA256,
        width_px=10,
        height_px=10,
        etch_step=etch_step,
    )


def case(*bodies: CaseRecord) -> CaseState:
    return case_of(lead(), strand(), SECTION, *bodies)


def missing(*bodies: CaseRecord) -> str:
    return ", ".join(preparation_state(case(*bodies), "s1-L").missing)


@pytest.mark.parametrize(
    "etched",
    [step("etch", 1), shown("etched"), shown("etch step 2"), shown("etched, bright")],
)
def test_one_etched_picture_lacks_what_the_brief_says(etched: CaseRecord) -> None:
    """Feature M12 of the product brief, word for word."""
    assert missing(etched) == "as-polished picture, first etch step"


def test_full_log_is_complete() -> None:
    log = (step("polish", 1, pictured=False), step("look", 2), step("etch", 3))
    assert missing(*log) == "second etch step"
    state = case(*log, step("etch", 4))
    found = preparation_state(state, "s1-L")
    assert found.complete
    assert found.not_recorded == ()
    assert section_may_be_counted(state, "s1-L") == ()
    assert section_line(found) == "s1-L: complete."


def test_pictures_may_come_as_micrographs() -> None:
    pictures = [shown("as polished", "a"), shown("etch step 1", "b")]
    assert missing(*pictures, shown("etch step 2", "c")) == ""


def test_every_logged_etch_step_needs_its_picture() -> None:
    log = (step("look", 1), step("etch", 2), step("etch", 3), step("etch", 4))
    assert missing(*log) == ""
    assert missing(*log[:2], step("etch", 3, pictured=False), log[3]) == (
        "second etch step"
    )


def test_a_look_after_etching_is_no_look_as_polished() -> None:
    assert "as-polished" in missing(step("etch", 1), step("look", 2))
    again = (step("etch", 1), step("repolish", 2, pictured=False), step("look", 3))
    assert "as-polished" not in missing(*again)


def test_unetched_words_are_no_etched_picture() -> None:
    assert missing(shown("unetched, as polished")) == (
        "as-polished picture, first etch step, second etch step"
    )


def test_without_a_log_counts_are_flagged_not_refused() -> None:
    state = case()
    found = preparation_state(state, "s1-L")
    assert not found.logged
    assert section_may_be_counted(state, "s1-L") == ()
    assert preparation_flags(state, ["s1-L"]) == ("preparation_not_logged",)
    assert section_line(found).endswith(
        "counts are flagged; not recorded: grinding and polishing."
    )


def test_begun_log_with_holes_gives_its_reasons() -> None:
    state = case(step("etch", 1))
    assert section_may_be_counted(state, "s1-L") == (
        "as-polished picture",
        "first etch step",
    )
    assert preparation_flags(state, ["s1-L"]) == ("preparation_incomplete",)
    assert "incomplete: may be shown, not counted; missing: as-polished picture" in (
        section_line(preparation_state(state, "s1-L"))
    )


def test_steps_that_nobody_noted_are_named() -> None:
    bare = case_of(lead(), strand(), cut())
    assert preparation_state(bare, "s1-L").not_recorded == (
        "cut",
        "mount",
        "grinding and polishing",
    )
