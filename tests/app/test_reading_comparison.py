"""Two readers side by side, and the program as a third."""

import json
from pathlib import Path

import pytest
from reading_examples import (
    LINE,
    blind_bench,
    case_with_micrographs,
    lines_file,
    lock,
    marked,
    marks_file,
)
from workflow_examples import NOON, add

from strandproof.app.workflow import Desk
from strandproof.app.workflow.reading_by_people import (
    compare_readers,
    comparison_data,
    comparison_in_words,
    direction_hint,
    enter_reading,
    lock_reading,
    re_class,
)
from strandproof.errors import ParameterError, ReadingsOpenError

ALIKE = [60.0] * 8


@pytest.fixture
def both(tmp_path: Path) -> Desk:
    """Give a field that A1 and A2 marked on the same line, locked."""
    desk = case_with_micrographs(tmp_path)
    marked(desk, "f1-A1", ["boundary"] * 8, ALIKE, reader="A1")
    marked(desk, "f1-A2", ["boundary"] * 7 + ["twin"], ALIKE, reader="A2")
    lock_reading(desk, "f1-A1")
    lock_reading(desk, "f1-A2")
    return desk


def test_nothing_is_compared_before_all_readings_are_locked(tmp_path: Path) -> None:
    desk = blind_bench(tmp_path, locked=False)
    lock(desk, ["E1-s1-L-A1", "E1-s1-L-A2"], "A1")
    with pytest.raises(ReadingsOpenError) as refusal:
        compare_readers(desk.folder, "A1", "A2")
    assert len(refusal.value.readings) == 46
    assert "46 readings are still open" in str(refusal.value)


def test_counts_that_stay_open_do_not_stand_in_the_way(tmp_path: Path) -> None:
    """A1's counts on fields are no verdicts of sections and are not shown."""
    found = compare_readers(blind_bench(tmp_path).folder, "A1", "A2")
    assert (found.verdicts.same, found.verdicts.pieces) == (23, 24)
    assert len(found.things) == 24
    assert (found.marked, found.third, found.not_blind) == ((), (), ())
    (odd,) = found.differences
    assert (odd.reads, odd.second.reason) == ("section/E2-s3-T", "over-etched")


def test_order_of_the_readers_turns_the_words_around(tmp_path: Path) -> None:
    found = compare_readers(blind_bench(tmp_path).folder, "A2", "A1")
    assert found.differences[0].first.reader == "A2"
    assert found.verdicts.kappa == pytest.approx(0.867, abs=0.0005)


def test_marks_on_the_same_lines_are_set_side_by_side(both: Desk) -> None:
    found = compare_readers(both.folder, "A1", "A2")
    (field,) = found.marked
    assert field.reads == "micrograph/f1"
    assert field.first.counts["boundary"] == 8
    assert field.second.counts["twin"] == 1
    assert [pair.same for pair in field.comparison.pairs] == [True] * 7 + [False]
    words = "\n".join(comparison_in_words(found))
    assert "8 marks: 7 set by both and classed alike, 1 classed differently" in words
    assert "line 1, 533 px along: A1 boundary; A2 twin" in words


def test_what_was_locked_is_compared_not_what_a_hint_made_of_it(both: Desk) -> None:
    direction_hint(both, "f1-A2")
    re_class(both, "f1-A2", {1: "scratch", 2: "scratch"}, reason="parallel")
    found = compare_readers(both.folder, "A1", "A2")
    assert found.marked[0].second.counts["scratch"] == 0
    (anew,) = found.classed_anew
    assert anew.count.counts["scratch"] == 2
    words = "\n".join(comparison_in_words(found))
    assert "A2 classed marks of f1-A2 anew after the hint" in words


def test_marks_on_other_lines_are_not_matched(tmp_path: Path) -> None:
    desk = case_with_micrographs(tmp_path)
    marked(desk, "f1-A1", ["boundary"], reader="A1")
    other = {**LINE, "start_px": [100.0, 160.0], "end_px": [700.0, 160.0]}
    enter_reading(
        desk,
        {"id": "f1-A2", "reads": "micrograph/f1", "reader": "A2", "blind": False},
        lines=lines_file(desk, lines=[other]),
        marks=marks_file(desk, ["boundary"]),
    )
    lock(desk, ["f1-A1", "f1-A2"], "A1")
    found = compare_readers(desk.folder, "A1", "A2")
    assert found.marked == ()
    assert found.not_blind == ("f1-A2",)
    assert comparison_in_words(found)[-1] == "Not read blind: f1-A2."


def test_automatic_measurement_stands_beside_as_a_third_reading(both: Desk) -> None:
    size = {"value": 8.4, "unit": "um", "lower": 7.9, "upper": 8.9, "confidence": 0.95}
    fields = {
        "id": "f1-grains",
        "measures": "micrograph/f1",
        "method": "automatic grain measurement (classical)",
        "method_version": "1",
        "results": [{"name": "mean_intercept", "value": size}],
        "verdict": "poly",
        "measured_at": NOON,
        "measured_by": "Strandproof",
    }
    by_hand = {**fields, "id": "by-hand", "method": "lineal intercepts"}
    add(both, [("measurement", fields), ("measurement", by_hand)])
    found = compare_readers(both.folder, "A1", "A2")
    assert [third.measurement.id for third in found.third] == ["f1-grains"]
    assert comparison_in_words(found)[-1] == (
        "Program on micrograph/f1: poly, mean intercept 8.4 ± 0.5 µm (95 %) within "
        "this picture. A third reading; it decides nothing."
    )


def test_plain_data_say_the_same(both: Desk) -> None:
    direction_hint(both, "f1-A2")
    re_class(both, "f1-A2", {1: "scratch"}, reason="parallel")
    data = json.loads(
        json.dumps(comparison_data(compare_readers(both.folder, "A1", "A2")))
    )
    assert data["verdicts"]["same"] == 1
    assert data["verdicts"]["kappa"] is None
    field = data["marked"][0]
    assert field["first"]["mean_intercept"]["value"] == pytest.approx(
        600 * 0.1726 / 8, rel=1e-12
    )
    assert [mark["same"] for mark in field["marks"]] == [True] * 7 + [False]
    assert data["classed_anew"][0]["counts"]["scratch"] == 1


def test_data_keep_both_reasons(tmp_path: Path) -> None:
    found = compare_readers(blind_bench(tmp_path).folder, "A1", "A2")
    (odd,) = comparison_data(found)["differences"]
    assert odd["second"] == {"verdict": "not_readable", "reason": "over-etched"}


@pytest.mark.parametrize(("first", "second"), [("A1", "A9"), ("A1", "A1")])
def test_readers_who_have_nothing_in_common(
    both: Desk, first: str, second: str
) -> None:
    with pytest.raises(ParameterError, match="Readers in this case: A1, A2"):
        compare_readers(both.folder, first, second)
