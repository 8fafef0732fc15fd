"""M15, M17 and S4 of the product brief, from files to the words a person sees.

The numbers are computed there (8.6, 6.1, 8.0 to 8.6 um from 103.6 um and 12, 17, 13
marks; 23 of 24, kappa 0.87; 14 marks within 3 deg, 11 classed anew).
"""

from collections import Counter
from pathlib import Path

from reading_examples import M15, blind_bench, case_with_micrographs, marked
from workflow_examples import rows

from strandproof.app.workflow import (
    compare_readers,
    comparison_in_words,
    direction_hint,
    lock_reading,
    open_case,
    re_class,
    reading_in_words,
)
from strandproof.app.workflow.reading_by_people import reading_versions
from strandproof.records.entries import Reading

# Fourteen scratches taken for boundaries, and sixteen boundaries that share nothing.
SCRATCHES = [40.0 + 0.2 * k for k in range(14)]
BOUNDARIES = [float(3 + 11 * k) for k in range(16)]
TRULY_SCRATCHES = range(1, 12)


def test_m15_intercepts_with_and_without_the_doubtful(tmp_path: Path) -> None:
    desk = case_with_micrographs(tmp_path)
    marked(desk, "f1-A2", M15)
    words = reading_in_words(desk.folder, "f1-A2")
    assert words[1] == (
        "12 boundaries, 5 twins, 2 scratches, 1 uncertain marked on 103.6 µm of test "
        "line in metal."
    )
    assert words[2] == "Mean intercept 8.6 µm without twins, 6.1 µm with twins counted."
    assert words[3] == (
        "Between 8.0 and 8.6 µm without twins, as 1 uncertain mark is in or out."
    )


def test_m17_two_blind_readers(tmp_path: Path) -> None:
    desk = blind_bench(tmp_path)
    words = comparison_in_words(compare_readers(desk.folder, "A1", "A2"))
    assert words[0].startswith("A1 and A2 agree on 23 of 24 ")
    assert "Cohen's kappa 0.87 " in words[0]
    assert words[0].endswith("not readable included.")
    (odd,) = (row for row in rows("H7-sections.csv") if row["A2"] == "not_readable")
    assert odd["section"] == "E2-s3-T"
    assert words[1] == (
        f"  {odd['code']} (section/E2-s3-T): A1 boundaries (no reason given); "
        "A2 not readable (over-etched)"
    )
    assert len(words) == 2


def test_s4_hint_after_the_lock_and_both_versions_kept(tmp_path: Path) -> None:
    desk = case_with_micrographs(tmp_path)
    marked(desk, "f1-A2", ["boundary"] * 30, [*SCRATCHES, *BOUNDARIES])
    lock_reading(desk, "f1-A2")
    hint = direction_hint(desk, "f1-A2")
    assert hint.words[0].startswith(
        "14 of 30 marks lie within 3 deg, about 41 deg: scratches?"
    )
    (cluster,) = hint.clusters
    assert cluster.marks == tuple(range(1, 15))
    assert cluster.chance_at_most < 1e-6
    re_class(
        desk,
        "f1-A2",
        dict.fromkeys(TRULY_SCRATCHES, "scratch"),
        reason="straight across grains",
    )
    before, after = reading_versions(open_case(desk.folder), "f1-A2")
    assert (before.standing, after.standing) == ("locked", "after the hint")
    assert _counted(before.reading) == {"boundary": 30, "scratch": 0}
    assert _counted(after.reading) == {"boundary": 19, "scratch": 11}
    assert after.entry.supersedes == before.entry.number
    assert after.entry.reason == "straight across grains"


def _counted(reading: Reading) -> dict[str, int]:
    features = Counter(mark.feature for mark in reading.marks)
    return {"boundary": features["boundary"], "scratch": features["scratch"]}
