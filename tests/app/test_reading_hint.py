"""The direction hint: after the lock, noted, and followed by new versions only."""

from pathlib import Path

import pytest
from reading_examples import case_with_micrographs, marked
from workflow_examples import contents

from strandproof.app.workflow import Desk, open_case
from strandproof.app.workflow.reading_by_people import (
    direction_hint,
    lock_reading,
    locked_version,
    re_class,
    reading_versions,
)
from strandproof.errors import (
    InvalidEntryError,
    NoHintShownError,
    ParameterError,
    ReadingsOpenError,
    UnknownLabelError,
)
from strandproof.records.entries import Reading, ReadingLock
from strandproof.records.entries.laboratory import MarkFeature

ALIKE = [60.0] * 8
UNLIKE = [5.0, 25.0, 100.0, 125.0]


@pytest.fixture
def desk(tmp_path: Path) -> Desk:
    desk = case_with_micrographs(tmp_path)
    marked(desk, "f1-A2", ["boundary"] * 12, [*ALIKE, *UNLIKE])
    return desk


def test_no_hint_before_the_lock(desk: Desk) -> None:
    before = contents(desk.folder)
    with pytest.raises(ReadingsOpenError, match="1 reading is still open: f1-A2"):
        direction_hint(desk, "f1-A2")
    with pytest.raises(ReadingsOpenError, match="A new class"):
        re_class(desk, "f1-A2", {1: "scratch"}, reason="why not")
    assert contents(desk.folder) == before


def test_hint_is_noted_once_with_its_words_and_the_moment(desk: Desk) -> None:
    lock_reading(desk, "f1-A2")
    hint = direction_hint(desk, "f1-A2")
    lock = hint.entry.body
    assert isinstance(lock, ReadingLock)
    assert lock.hint == hint.words
    assert lock.hint_shown_at == desk.clock()
    assert hint.entry.reason == "direction hint shown"
    count = len(open_case(desk.folder).entries)
    assert direction_hint(desk, "f1-A2").words == hint.words
    assert len(open_case(desk.folder).entries) == count


def test_hint_counts_marks_from_one_and_shows_the_rose(desk: Desk) -> None:
    lock_reading(desk, "f1-A2")
    hint = direction_hint(desk, "f1-A2")
    assert hint.clusters[0].marks == tuple(range(1, 9))
    assert sum(hint.rose.counts) == 12
    assert hint.rose.counts[4] == 8
    assert "Marks 1, 2, 3, 4, 5, 6, 7, 8." in hint.words[0]
    assert "longer one way" in hint.words[-1]


def test_hint_that_finds_nothing_is_noted_too(tmp_path: Path) -> None:
    desk = case_with_micrographs(tmp_path)
    marked(desk, "f1-A2", ["boundary"] * 4, UNLIKE)
    lock_reading(desk, "f1-A2")
    hint = direction_hint(desk, "f1-A2")
    assert hint.clusters == ()
    (words,) = hint.words
    assert words == (
        "No direction stands out: at most 1 of 4 marks lie within 3 deg. Chance "
        "explains that."
    )
    assert isinstance(hint.entry.body, ReadingLock)
    assert hint.entry.body.hint_shown_at is not None


def test_marks_without_directions_give_no_hint(tmp_path: Path) -> None:
    desk = case_with_micrographs(tmp_path)
    marked(desk, "f1-A2", ["boundary"] * 4)
    lock_reading(desk, "f1-A2")
    assert direction_hint(desk, "f1-A2").words[0].startswith("No directions were noted")


def test_nothing_is_classed_anew_without_a_hint(desk: Desk) -> None:
    lock_reading(desk, "f1-A2")
    with pytest.raises(NoHintShownError, match="the locked reading stands"):
        re_class(desk, "f1-A2", {1: "scratch"}, reason="changed my mind")


def test_new_version_holds_and_the_locked_one_stays(desk: Desk) -> None:
    lock_reading(desk, "f1-A2")
    direction_hint(desk, "f1-A2")
    re_class(desk, "f1-A2", dict.fromkeys(range(1, 9), "scratch"), reason="parallel")
    re_class(desk, "f1-A2", {1: "uncertain"}, reason="not that one")
    state = open_case(desk.folder)
    versions = reading_versions(state, "f1-A2")
    assert [v.standing for v in versions] == [
        "locked",
        "after the hint",
        "after the hint",
    ]
    assert state.record(Reading, "f1-A2") == versions[-1].reading
    assert locked_version(state, "f1-A2") == versions[0].reading
    assert not versions[0].reading.after_hint
    assert [m.position_px for m in versions[0].reading.marks] == [
        m.position_px for m in versions[-1].reading.marks
    ]


def test_verdict_follows_new_classes(desk: Desk) -> None:
    lock_reading(desk, "f1-A2")
    direction_hint(desk, "f1-A2")
    everything: dict[int, MarkFeature] = dict.fromkeys(range(1, 13), "scratch")
    re_class(desk, "f1-A2", everything, reason="all of them cross the grains")
    assert open_case(desk.folder).record(Reading, "f1-A2").verdict == "none_resolved"


def test_verdict_that_new_classes_leave_open_has_to_be_said(desk: Desk) -> None:
    lock_reading(desk, "f1-A2")
    direction_hint(desk, "f1-A2")
    doubted: dict[int, MarkFeature] = dict.fromkeys(range(1, 13), "uncertain")
    with pytest.raises(InvalidEntryError, match="no mark is a sure boundary"):
        re_class(desk, "f1-A2", doubted, reason="cannot tell")
    entry = re_class(
        desk, "f1-A2", doubted, reason="cannot tell", verdict="none_resolved"
    )
    assert isinstance(entry.body, Reading)
    assert entry.body.verdict == "none_resolved"
    re_class(desk, "f1-A2", {1: "twin"}, reason="straight pair")
    assert open_case(desk.folder).record(Reading, "f1-A2").verdict == "none_resolved"


@pytest.mark.parametrize(
    ("features", "reason", "match"),
    [
        ({13: "scratch"}, "why", "1 to 12"),
        ({0: "scratch"}, "why", "1 to 12"),
        ({1: "boundary"}, "why", "at least one mark with another class"),
        ({}, "why", "at least one mark with another class"),
        ({1: "scratch"}, "  ", "the reason for it"),
    ],
)
def test_changes_that_are_none(
    desk: Desk, features: dict[int, MarkFeature], reason: str, match: str
) -> None:
    lock_reading(desk, "f1-A2")
    direction_hint(desk, "f1-A2")
    with pytest.raises(ParameterError, match=match):
        re_class(desk, "f1-A2", features, reason=reason)


def test_nobody_knows_that_reading(desk: Desk) -> None:
    with pytest.raises(UnknownLabelError, match="f1-A9"):
        direction_hint(desk, "f1-A9")
