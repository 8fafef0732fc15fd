"""The pocket scale of the product brief (M18), recomputed.

Source: the product brief, M18 and Appendix A: 1.7296 ohm at 23.8 degC, 22.28 mg on
500.0 mm; with u(m) 1 mg 101 +- 9 % IACS, 9.1 with k = 2; all 19 strands over 1 m weigh
847 mg. Status: computed there, recomputed here by plain squares. Tolerance: half a unit
of the last digit printed there.
"""

from math import hypot, pi, sqrt

import numpy as np
import pytest

from strandproof.app.workflow.home_planning import HomeEquipment, plan_at_home
from strandproof.electrical import conductivity_by_mass
from strandproof.errors import ParameterError
from strandproof.quantity import format_plus_minus, normal_input
from strandproof.records.electrical import ResistanceMeasurement

POCKET = HomeEquipment(
    scale_u_mg=1.0,
    metres=0.5,
    millimetres=0.08,
    length_u_mm=0.3,
    milligrams=22.28,
    meter_percent=0.05 * sqrt(3.0),
    celsius_u=0.2,
    all_strands=19,
)


def test_the_reading_of_the_brief_with_a_pocket_scale() -> None:
    result = conductivity_by_mass(
        ResistanceMeasurement(
            resistance=normal_input("resistance", 1.7296, 0.0005 * 1.7296, unit="ohm"),
            temperature=normal_input("temperature", 23.8, 0.2, unit="degC"),
            gauge_length=normal_input("length", 0.5, 0.0003, unit="m"),
            mass=normal_input("mass", 22.28, 1.0, unit="mg"),
        )
    )
    half = result.interval.half_width or 0.0
    shown = format_plus_minus(
        result.percent_iacs.value, half, unit="% IACS", ascii_only=True
    )
    assert shown == "101 +/- 9 % IACS"
    twice = 2.0 * result.percent_iacs.standard_uncertainty
    np.testing.assert_allclose(twice, 9.1, rtol=0, atol=0.05)


def test_the_plan_by_plain_squares() -> None:
    plan = plan_at_home(POCKET)
    parts = (100 / 22.28, 2 * 100 * 0.0003 / 0.5, 0.05, 0.393 * 0.2)
    relative = hypot(*parts)
    assert plan.conductivity_percent is not None
    np.testing.assert_allclose(plan.conductivity_percent, 1.96 * relative, rtol=1e-3)
    assert plan.advice[0].startswith(
        "The scale is the limit (4.5 % of the mass): weigh all 19 strands over 1 m "
        "(847 mg); it is then 0.12 %"
    )


def test_the_better_specimen_of_the_advice_decides_more() -> None:
    better = HomeEquipment(
        scale_u_mg=1.0,
        metres=1.0,
        millimetres=0.08,
        strands=19,
        length_u_mm=0.3,
        meter_percent=0.05,
        celsius_u=0.2,
        all_strands=19,
    )
    plan = plan_at_home(better)
    assert plan.conductivity_percent is not None
    assert plan.conductivity_percent < 0.5
    assert not plan.advice
    can = {one.question for one in plan.decisions if one.can}
    before = {one.question for one in plan_at_home(POCKET).decisions if one.can}
    assert before < can
    assert "soft or hard drawn" in can
    assert "copper or silver, by resistance, mass and length" in can
    assert not {"crystals", "casting route", "oxygen", "nines of purity"} & can


def test_mass_of_copper_is_worked_out() -> None:
    plan = plan_at_home(
        HomeEquipment(scale_u_mg=0.1, metres=2.0, millimetres=0.1, strands=7)
    )
    expected = 8.89 * 7 * pi / 4 * 0.1**2 * 2.0 * 1e3
    np.testing.assert_allclose(plan.mass_mg, expected, rtol=1e-12)
    assert plan.conductivity_percent is None


def test_no_strand_is_refused() -> None:
    with pytest.raises(ParameterError, match="1 or more"):
        plan_at_home(
            HomeEquipment(scale_u_mg=1.0, metres=1.0, millimetres=0.1, strands=0)
        )
