"""From which heat and strain on a piece is doubted."""

import math

import pytest

from strandproof.errors import ParameterError
from strandproof.physical.handling import (
    bend_strain_percent,
    doubts_about_heat,
    doubts_about_strain,
    handling_rules,
    pull_stress_mpa,
)
from strandproof.tables import package_table


def test_hot_mount_of_the_brief_reads_as_written() -> None:
    (doubt,) = doubts_about_heat("hot mount", 180)
    assert f"{doubt.finding}; {doubt.remedy}." == (
        "can recrystallise cold-drawn pure copper; treat the bent single-crystal "
        "control alike, or mount cold."
    )
    assert doubt.flag == "heated_in_our_hands"


@pytest.mark.parametrize("celsius", [-196.0, 20.0, 42.0, 80.0])
def test_cold_pieces_raise_nothing(celsius: float) -> None:
    assert doubts_about_heat("cold mount", celsius) == ()


def test_warm_below_the_onset_names_very_pure_copper_only() -> None:
    (doubt,) = doubts_about_heat("sawing", 100)
    assert doubt.finding == "can recrystallise heavily drawn copper of very high purity"
    assert doubt.remedy.endswith("or cut cold, slowly and with coolant")
    (above,) = doubts_about_heat("drying", 150)
    assert above.finding == "can recrystallise cold-drawn pure copper"
    assert above.remedy.endswith("or do it without heat")


def test_unknown_temperature_is_a_flag_of_its_own() -> None:
    (doubt,) = doubts_about_heat("mounting", None)
    assert doubt.flag == "heat_not_recorded"


def test_bend_strain_closed_form() -> None:
    # Half the diameter over the radius of the middle line: 0.04 / 0.84.
    assert math.isclose(
        bend_strain_percent(0.08, 0.8), 100 * 0.04 / 0.84, rel_tol=1e-12
    )


def test_pull_stress_closed_form() -> None:
    assert math.isclose(pull_stress_mpa(2.0, math.pi), 1.0, rel_tol=1e-12)


@pytest.mark.parametrize("value", [0.0, -1.0, math.nan])
def test_impossible_sizes_are_refused(value: float) -> None:
    with pytest.raises(ParameterError, match="diameter_mm was given as"):
        bend_strain_percent(value, 1.0)
    with pytest.raises(ParameterError, match="bend_radius_mm was given as"):
        bend_strain_percent(1.0, value)
    with pytest.raises(ParameterError, match="pull_n was given as"):
        pull_stress_mpa(1.0, value)


def test_strain_is_judged_on_the_worst_strand() -> None:
    (bent,) = doubts_about_strain((0.02, 0.08), bend_radius_mm=3.0)
    assert bent.flag == "strained_in_our_hands"
    assert bent.finding.startswith("strained its surface by 1.3 %")
    assert doubts_about_strain((0.02,), bend_radius_mm=3.0) == ()
    (pulled,) = doubts_about_strain((0.08, 0.2), pull_n=0.05)
    assert pulled.finding.startswith("pulled it with 9.9 MPa")
    assert doubts_about_strain((0.2,), pull_n=0.05) == ()


def test_strain_that_cannot_be_judged_is_flagged() -> None:
    (words,) = doubts_about_strain((0.08,), in_words="bent by hand")
    (unknown,) = doubts_about_strain((0.08, None), bend_radius_mm=5.0)
    assert words.flag == unknown.flag == "strain_not_judged"
    assert "diameter" in unknown.finding
    assert doubts_about_strain((0.08,)) == ()


def test_limits_come_from_the_table_and_fit_together() -> None:
    rows, limits = package_table("handling_rules"), handling_rules()
    assert limits.flag_above_c == rows["heat.flag_above"].value
    assert limits.flag_above_c < limits.drawn_pure_from_c
    # What was read must not contradict the limit from which all pure copper is named.
    assert rows["heat.still_fibrous"].value < rows["heat.begins_in_30_min"].value
    assert rows["heat.begins_in_30_min"].value == limits.drawn_pure_from_c
    assert rows["heat.hot_mount_lowest"].value >= limits.drawn_pure_from_c
