"""Readers' counts to a grain size: the brief's numbers, and what does not count.

The figures of case H7 (8.4 +- 0.8 um, G 10.49, kappa 0.87, twins 5.6 um) stand in
the product brief, section 2.1, as invented data; the tables that the demonstration
ships were typed to give them. Digits compared are the brief's.
"""

from math import hypot
from pathlib import Path

import pytest
from workflow_examples import (
    add,
    bench,
    contents,
    count,
    exhibit,
    pieces,
    rows,
    started,
    verdict,
)

from strandproof.app.workflow import (
    Desk,
    ReadersAsked,
    combine_readings,
    known_pieces_of,
    open_case,
)
from strandproof.errors import ParameterError, UnknownLabelError
from strandproof.records.entries import (
    ClaimKind,
    Measurement,
    MeasurementResult,
)
from strandproof.report import value_in_words

A1_AND_A2 = ReadersAsked(counter="A1", second="A2", calibration="stage")


@pytest.fixture(scope="module")
def h7(tmp_path_factory: pytest.TempPathFactory) -> Desk:
    return bench(tmp_path_factory.mktemp("bench") / "H7", late=True)


@pytest.fixture(scope="module")
def combined(h7: Desk) -> Measurement:
    entry = combine_readings(h7, "grain-size", A1_AND_A2)
    body = entry.body
    assert isinstance(body, Measurement)
    return body


def result(measurement: Measurement, name: str) -> MeasurementResult:
    return next(each for each in measurement.results if each.name == name)


def number(measurement: Measurement, name: str) -> float:
    value = result(measurement, name).value
    assert value is not None
    return value.value


def test_entered_as_a_measurement_of_the_case(h7: Desk, combined: Measurement) -> None:
    assert open_case(h7.folder).record(Measurement, "grain-size") == combined
    assert combined.measures == "case/H7"
    assert combined.measured_by == "A1"
    assert "3 leads, 9 strands, 45 fields; twins excluded" in combined.method


def test_mean_intercept_with_its_interval_by_lead(combined: Measurement) -> None:
    found = result(combined, "mean_intercept")
    assert found.value is not None
    assert value_in_words(found.value) == "8.4 ± 0.8 µm (95 %)"
    assert found.value.degrees_of_freedom == 2
    assert found.words == (
        "By lead: E1 8.33 µm; E2 8.80 µm; E3 8.20 µm. Twins excluded."
    )


def test_calibration_is_in_the_interval(combined: Measurement) -> None:
    """0.0004 of 0.1726 um is 0.23 %; 9.27 and 1.96 times that add in squares."""
    joined = hypot(9.27, 1.96 * 0.2317)
    assert number(combined, "relative_accuracy") == pytest.approx(
        joined, rel=0, abs=0.01
    )
    found = result(combined, "mean_intercept").value
    assert found is not None
    assert "calibration (pixel size)" in found.interval_method
    words = result(combined, "parts_of_the_interval").words
    assert "sampling by lead ± 9.3 %; calibration (pixel size) ± 0.45 %" in words
    assert "no known pieces like these were given" in words


def test_every_level_is_told_with_what_it_speaks_for(combined: Measurement) -> None:
    words = result(combined, "intervals_by_level").words
    assert "By lead ± 0.78 µm (2 degrees of freedom)" in words
    assert "By field ± 0.30 µm (36 degrees of freedom), for these sections" in words
    scatter = result(combined, "scatter_by_level").words
    assert "by strand and section 0.00 µm" in scatter
    more = result(combined, "what_more_would_bring").words
    assert "as it is: about 9.3 %; 1 more lead: about 5.9 %" in more


def test_uncertain_marks_are_compared(combined: Measurement) -> None:
    found = result(combined, "mean_intercept_with_uncertain_marks")
    assert number(combined, found.name) < number(combined, "mean_intercept")
    assert "−1.7 %" in found.words


KNOWN = [
    {"name": "k1", "family": "annealed", "shown": 100, "found": 97, "false": 2},
    {"name": "k2", "family": "annealed", "shown": 120, "found": 113, "false": 1},
    {"name": "k3", "family": "annealed", "shown": 110, "found": 108, "false": 4},
]


def test_known_pieces_correct_the_mean_and_widen_the_interval(
    tmp_path: Path, combined: Measurement
) -> None:
    known = known_pieces_of(KNOWN)
    asked = ReadersAsked("A1", "A2", "stage", known)
    body = combine_readings(bench(tmp_path / "H7"), "size", asked).body
    assert isinstance(body, Measurement)
    # Reported 325 of 330 shown.
    assert number(body, "mean_intercept") == pytest.approx(
        number(combined, "mean_intercept") * 325 / 330, rel=1e-12, abs=0
    )
    assert number(body, "relative_accuracy") > number(combined, "relative_accuracy")
    words = result(body, "parts_of_the_interval").words
    assert "detection (3 known pieces: annealed)" in words
    assert "12 of 330 boundaries were missed (share 0.019 to 0.063" in words
    assert "Corrected by 0.985" in result(body, "mean_intercept").words


@pytest.mark.parametrize(
    "changes", [{"shown": "100"}, {"shown": 100.5}, {"more": 1}, {"found": True}]
)
def test_known_pieces_with_wrong_fields_are_refused(
    changes: dict[str, object],
) -> None:
    with pytest.raises(ParameterError, match="whole numbers shown, found and false"):
        known_pieces_of([{**KNOWN[0], **changes}])


def test_grain_size_number_and_what_twins_would_make_of_it(
    combined: Measurement,
) -> None:
    assert number(combined, "g_intercept") == pytest.approx(10.49, rel=0, abs=0.005)
    with_twins = result(combined, "mean_intercept_with_twins")
    assert number(combined, with_twins.name) == pytest.approx(5.6, rel=0, abs=0.05)
    assert "G 11.7" in with_twins.words


def test_too_narrow_intervals_are_named_as_such(combined: Measurement) -> None:
    words = result(combined, "interval_if_wrongly_independent").words
    assert "± 0.29 µm by field: too narrow" in words


def test_agreement_of_the_readers_leaves_late_controls_out(
    combined: Measurement,
) -> None:
    words = result(combined, "agreement_of_readers").words
    assert "agree on 23 of 24 sections, Cohen's kappa 0.87" in words


def test_strand_few_grains_wide_is_flagged(combined: Measurement) -> None:
    """80 um over 8.4 um is 9.5 grains, fewer than about ten."""
    assert combined.flags == ("few_grains_across", "preparation_not_logged")


def test_bears_on_crystals_only(combined: Measurement) -> None:
    assert combined.bears_on == (ClaimKind.CRYSTAL_STATE,)
    assert set(combined.does_not_bear_on) == set(ClaimKind) - set(combined.bears_on)


FIELD = {
    "field": "9",
    "line_length_px": "1000",
    "boundary": "100",
    "twin": "0",
    "scratch": "0",
    "uncertain": "0",
}


@pytest.mark.parametrize(
    ("section", "changes"),
    [
        pytest.param("C3-L", {}, id="field of a control"),
        pytest.param("E1-s1-T", {}, id="transverse section"),
        pytest.param("E1-s1-L", {"verdict": "not_readable"}, id="not readable"),
        pytest.param("E1-s1-L", {"reader": "A2"}, id="field of the other reader"),
        pytest.param("E1-s1-L", {"line_length_px": None}, id="no test line"),
    ],
)
def test_field_that_does_not_count(
    tmp_path: Path, combined: Measurement, section: str, changes: dict[str, object]
) -> None:
    desk = bench(tmp_path / "H7")
    add(desk, [count({**FIELD, "section": section}, id="extra", **changes)])
    body = combine_readings(desk, "grain-size", A1_AND_A2).body
    assert isinstance(body, Measurement)
    assert "45 fields" in body.method
    assert number(body, "mean_intercept") == number(combined, "mean_intercept")


def two_leads(folder: Path) -> Desk:
    """Two leads with one section and one micrograph each, nothing read yet."""
    desk = started(folder)
    table = [row for row in rows("H7-sections.csv") if row["section"] == "E2-s1-L"]
    long_section = {"id": "L", "specimen": "E1-s1", "direction": "longitudinal"}
    other = [d for d in pieces(table) if d[0] == "section"]
    specimen = {k: v for k, v in pieces(table)[0][1].items() if k != "conductor_type"}
    add(
        desk,
        [
            exhibit("E2"),
            ("specimen", specimen),
            ("section", long_section),
            *other,
        ],
    )
    return desk


def test_marks_count_where_no_counts_were_typed(tmp_path: Path) -> None:
    desk = two_leads(tmp_path / "H7")
    marks = [
        {"line": 1, "position_px": (10.0 * k, 5.0), "feature": feature}
        for k, feature in enumerate(["boundary", "boundary", "twin", "scratch"])
    ]
    for name, section in (("a", "L"), ("b", "E2-s1-L")):
        field = count({**FIELD, "section": section}, id=name, counts={}, marks=marks)
        add(desk, [field])
    asked = ReadersAsked(counter="A1", second="", calibration="stage")
    body = combine_readings(desk, "size", asked).body
    assert isinstance(body, Measurement)
    # 1000 px of 0.1726 um over two boundaries; over three crossings with the twin.
    assert number(body, "mean_intercept") == pytest.approx(86.3, rel=1e-12, abs=0)
    assert number(body, "mean_intercept_with_twins") == pytest.approx(
        172.6 / 3, rel=1e-12, abs=0
    )
    assert result(body, "agreement_of_readers").words == "no second reader"
    assert body.flags == ("preparation_not_logged",)


REFUSALS: dict[str, tuple[ReadersAsked, type[Exception], str]] = {
    "reader who counted nothing": (
        ReadersAsked(counter="A2", second="A1", calibration="stage"),
        ParameterError,
        "a reader with counts on test lines",
    ),
    "unknown reader": (
        ReadersAsked(counter="A9", second="A2", calibration="stage"),
        ParameterError,
        "a reader with counts on test lines",
    ),
    "unknown second reader": (
        ReadersAsked(counter="A1", second="A9", calibration="stage"),
        ParameterError,
        "a reader with verdicts in this case",
    ),
    "unknown calibration": (
        ReadersAsked(counter="A1", second="A2", calibration="ruler"),
        UnknownLabelError,
        "no calibration 'ruler'; it has: stage",
    ),
}


@pytest.mark.parametrize("wrong", REFUSALS)
def test_wrong_names_are_refused_and_change_nothing(h7: Desk, wrong: str) -> None:
    asked, kind, said = REFUSALS[wrong]
    before = contents(h7.folder)
    with pytest.raises(kind, match=said):
        combine_readings(h7, "again", asked)
    assert contents(h7.folder) == before


def test_one_lead_is_refused_and_changes_nothing(tmp_path: Path) -> None:
    desk = started(tmp_path / "H7")
    section = {"id": "L", "specimen": "E1-s1", "direction": "longitudinal"}
    add(desk, [("section", section), count({**FIELD, "section": "L"})])
    before = contents(desk.folder)
    with pytest.raises(ParameterError, match="fields of two leads or more"):
        combine_readings(desk, "size", ReadersAsked("A1", "", "stage"))
    assert contents(desk.folder) == before


def test_field_without_any_boundary_is_refused(tmp_path: Path) -> None:
    """A mean intercept needs boundaries; a bound is stated instead."""
    desk = two_leads(tmp_path / "H7")
    for name, section in (("a", "L"), ("b", "E2-s1-L")):
        add(desk, [count({**FIELD, "section": section, "boundary": "0"}, id=name)])
    with pytest.raises(ParameterError, match="state a bound on the rate instead"):
        combine_readings(desk, "size", ReadersAsked("A1", "", "stage"))


def test_readers_who_always_say_the_same_have_no_kappa(tmp_path: Path) -> None:
    desk = two_leads(tmp_path / "H7")
    for name in ("L", "E2-s1-L"):
        row = {"section": name, "A1": "boundaries", "A2": "boundaries"}
        field = count({**FIELD, "section": name}, id=f"{name}-f")
        add(desk, [field, verdict(row, "A1"), verdict(row, "A2")])
    body = combine_readings(desk, "size", A1_AND_A2).body
    assert isinstance(body, Measurement)
    words = result(body, "agreement_of_readers").words
    assert "agree on 2 of 2 sections, Cohen's kappa not defined" in words
