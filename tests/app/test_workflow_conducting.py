"""A strand measured electrically: the brief's strand and core.

Product brief, section 2.1, M18 and Appendix A (computed there, invented readings):
1.7296 ohm at 23.8 degC, 22.28 mg on 500.0 mm give R20 1.7042 ohm and 100.93 % IACS;
19 strands of 0.08 mm give 0.0955 mm^2, in effect size 27.29. Printed digits compared.
"""

from pathlib import Path

import numpy as np
import pytest
from electrical_examples import diameter, length, mass, strand
from workflow_examples import add, bench, contents, started

from strandproof.app.workflow import (
    CoreReadings,
    Desk,
    ReadersAsked,
    combine_readings,
    enter_gauge_check,
    enter_micrograph,
    enter_resistance,
    open_case,
)
from strandproof.app.workflow.conducting import lower_resistance_sentence
from strandproof.errors import ParameterError, StrandproofError, UnknownLabelError
from strandproof.quantity import Quantity, normal_input
from strandproof.records.electrical import ResistanceMeasurement
from strandproof.records.entries import (
    ClaimKind,
    Entry,
    MeasuredValue,
    Measurement,
    MeasurementResult,
)
from strandproof.report import value_in_words
from strandproof.storage import encode_png

CORE = CoreReadings(
    diameter=diameter(),
    strands=19,
    mass=normal_input("mass of 19 strands", 846.7, 1.0, unit="mg"),
    length=normal_input("length of the core", 1.0, 0.0006, unit="m"),
)


@pytest.fixture(scope="module")
def entered(tmp_path_factory: pytest.TempPathFactory) -> tuple[Desk, Entry]:
    desk = started(tmp_path_factory.mktemp("resistance") / "H7")
    return desk, enter_resistance(desk, "ohm", "E1-s1", strand())


@pytest.fixture
def desk(tmp_path: Path) -> Desk:
    return started(tmp_path / "H7")


def results(entry: Entry) -> dict[str, MeasurementResult]:
    assert isinstance(entry.body, Measurement)
    return {each.name: each for each in entry.body.results}


def value(entry: Entry, name: str) -> MeasuredValue:
    found = results(entry)[name].value
    assert found is not None
    return found


def test_resistance_becomes_a_conductivity_by_mass(
    entered: tuple[Desk, Entry],
) -> None:
    desk, entry = entered
    assert open_case(desk.folder).record(Measurement, "ohm") == entry.body
    iacs = value(entry, "conductivity")
    assert iacs.value == pytest.approx(100.93, rel=0, abs=0.005)
    assert value_in_words(iacs) == "100.9 ± 0.4 % IACS (95 %)"
    r20 = value(entry, "resistance_at_20c").value
    assert r20 == pytest.approx(1.7042, rel=0, abs=5e-5)


def test_conductivity_brings_budget_band_and_second_opinion(
    entered: tuple[Desk, Entry],
) -> None:
    words = results(entered[1])["conductivity"].words
    assert "within the band of copper" in words
    assert "Budget in % IACS: mass of the strand 0.13" in words
    assert "Monte Carlo agrees" in words


def test_resistance_bears_on_performance_only(entered: tuple[Desk, Entry]) -> None:
    body = entered[1].body
    assert isinstance(body, Measurement)
    assert body.bears_on == (ClaimKind.PERFORMANCE,)
    assert set(body.does_not_bear_on) == set(ClaimKind) - {ClaimKind.PERFORMANCE}
    assert body.measures == "specimen/E1-s1"


def test_same_readings_give_the_same_numbers_twice(
    entered: tuple[Desk, Entry], desk: Desk
) -> None:
    again = enter_resistance(desk, "again", "E1-s1", strand())
    assert results(again) == results(entered[1])


def test_value_above_copper_is_flagged(desk: Desk) -> None:
    light = enter_resistance(desk, "light", "E1-s1", strand(weighed=mass(18.0)))
    body = light.body
    assert isinstance(body, Measurement)
    assert "above_copper_ceiling" in body.flags


def test_a_claim_of_lower_resistance_is_held_against_it(desk: Desk) -> None:
    """K4 of the product brief, Appendix A: 108.70 to 114.94 % IACS needed."""
    entry = enter_resistance(desk, "held", "E1-s1", strand(), lower_percent=(8.0, 13.0))
    words = results(entry)["lower_resistance"].words
    assert "needs 108.7 to 114.9 % IACS; copper ends at 103.3 %" in words
    assert "100.9 ± 0.4 % IACS, which lies below the needed range" in words


def test_without_a_grain_size_nothing_is_said_of_crystals(
    entered: tuple[Desk, Entry],
) -> None:
    found = results(entered[1])["crystals"]
    assert found.value is None
    assert "no grain size in this case" in found.words


def test_with_a_grain_size_it_says_why_it_cannot_tell(tmp_path: Path) -> None:
    """Effect 0.1 to 0.3 %, uncertainty 0.4 %: brief, fact 8 (coefficient of memory)."""
    desk = bench(tmp_path / "H7")
    combine_readings(desk, "size", ReadersAsked("A1", "A2", "stage"))
    path = tmp_path / "field.png"
    path.write_bytes(encode_png(np.full((20, 30), 90, np.uint8)))
    enter_micrograph(desk, {"id": "f1", "section": "E1-s1-L"}, picture=path)
    others = ("specimen/C5", "micrograph/f1")
    add(desk, [other_size(f"m{k}", each) for k, each in enumerate(others)])
    words = results(enter_resistance(desk, "ohm", "E1-s1", strand()))["crystals"].words
    assert words.startswith("cannot tell crystals: expected 0.1-0.3 %")


def other_size(label: str, measures: str) -> tuple[str, dict[str, object]]:
    """A mean intercept 1000 times as large, of a control or of one picture."""
    fields: dict[str, object] = {
        "id": label,
        "measures": measures,
        "method": "lineal intercept",
        "method_version": "1",
        "results": [
            {"name": "mean_intercept", "value": {"value": 8400.0, "unit": "um"}}
        ],
        "measured_at": "2031-06-01T12:00:00Z",
        "measured_by": "A1",
    }
    return "measurement", fields


@pytest.mark.parametrize(
    ("readings", "said"),
    [
        (
            ResistanceMeasurement(
                resistance=strand().resistance,
                temperature=None,
                gauge_length=length(),
                mass=mass(),
            ),
            "temperature",
        ),
        (
            ResistanceMeasurement(
                resistance=strand().resistance,
                temperature=strand().temperature,
                gauge_length=length(),
            ),
            "mass",
        ),
    ],
)
def test_missing_temperature_or_mass_is_refused_and_changes_nothing(
    desk: Desk, readings: ResistanceMeasurement, said: str
) -> None:
    before = contents(desk.folder)
    with pytest.raises(StrandproofError, match=said):
        enter_resistance(desk, "ohm", "E1-s1", readings)
    assert contents(desk.folder) == before


def test_unknown_specimen_is_refused_and_changes_nothing(desk: Desk) -> None:
    before = contents(desk.folder)
    with pytest.raises(UnknownLabelError, match="no specimen 'E9'; it has: E1-s1"):
        enter_resistance(desk, "ohm", "E9", strand())
    with pytest.raises(UnknownLabelError, match="no specimen 'E9'"):
        enter_gauge_check(desk, "area", "E9", readings=CORE, gauge=26)
    assert contents(desk.folder) == before


def test_core_against_its_claimed_gauge(desk: Desk) -> None:
    entry = enter_gauge_check(desk, "area", "E1-s1", readings=CORE, gauge=26)
    assert value(entry, "copper_area").value == pytest.approx(0.0955, rel=0, abs=5e-5)
    by_mass = value(entry, "copper_area_by_mass").value
    assert by_mass == pytest.approx(0.0952, rel=0, abs=5e-5)
    claimed = value(entry, "claimed_area").value
    assert claimed == pytest.approx(0.1288, rel=0, abs=5e-5)
    ratio = value(entry, "ratio_to_claimed").value
    assert ratio == pytest.approx(0.74, rel=0, abs=0.005)
    size = value(entry, "effective_gauge").value
    assert size == pytest.approx(27.29, rel=0, abs=0.005)
    assert "does not conform" in results(entry)["gap"].words
    body = entry.body
    assert isinstance(body, Measurement)
    assert body.bears_on == (ClaimKind.BUILD,)


def test_core_without_uncertainty_says_so(desk: Desk) -> None:
    exact = CoreReadings(
        diameter=normal_input("diameter", 0.08, 0.0, unit="mm"),
        strands=19,
        mass=CORE.mass,
        length=CORE.length,
    )
    entry = enter_gauge_check(desk, "area", "E1-s1", readings=exact, gauge=26)
    assert results(entry)["gap"].words == "no uncertainty stated"


def test_no_strand_at_all_is_refused_and_changes_nothing(desk: Desk) -> None:
    none = CoreReadings(
        diameter=CORE.diameter, strands=0, mass=CORE.mass, length=CORE.length
    )
    before = contents(desk.folder)
    with pytest.raises(ParameterError, match="strands"):
        enter_gauge_check(desk, "area", "E1-s1", readings=none, gauge=26)
    assert contents(desk.folder) == before


def test_claim_of_lower_resistance_needs_more_than_copper_has() -> None:
    """Brief, section 2.1: 8 to 13 % lower would need 108.7 to 114.9 % IACS."""
    words = lower_resistance_sentence(8, 13, Quantity(100.93, "% IACS", 0.2))
    assert "108.7" in words
    assert "114.9" in words
