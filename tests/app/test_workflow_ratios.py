"""Use cases on ratios: what goes in, what is entered, what is refused."""

import numpy as np
import pytest

from strandproof.app.workflow.ratio_words import (
    ratio_data,
    ratio_finding,
    ratio_in_words,
)
from strandproof.app.workflow.ratios import RatioAnswer, TypedRatio, judge_ratio
from strandproof.errors import MissingMeasurementError, ParameterError
from strandproof.records.electrical import MetalState
from strandproof.records.entries import ClaimKind

STRAND = MetalState(mean_intercept_um=8.444, strand_mm=0.08)


def helium(**changes: object) -> RatioAnswer:
    given: dict[str, object] = {
        "kind": "helium",
        "ratio": (180.0, 2.0),
        "state": STRAND,
    }
    return judge_ratio(TypedRatio(**(given | changes)))  # type: ignore[arg-type]


def test_brief_d6() -> None:
    words = " ".join(ratio_in_words(helium()))
    assert "Cannot tell the purity" in words
    assert "cap the ratio near 330-980" in words
    assert "trained staff" in words
    assert "R(293 K)/R(4 K): 177 to 185" in words


def test_two_resistances_are_the_same_as_their_ratio() -> None:
    by_ohm = judge_ratio(
        TypedRatio(kind="helium", room_ohm=(1.8, 0.0), other_ohm=(0.01, 0.0001))
    )
    by_ratio = judge_ratio(TypedRatio(kind="helium", ratio=(180.0, 1.8)))
    assert by_ohm.residual is not None
    assert by_ratio.residual is not None
    np.testing.assert_allclose(
        by_ohm.residual.residual_resistivity.standard_uncertainty,
        by_ratio.residual.residual_resistivity.standard_uncertainty,
        rtol=1e-9,
    )
    warm = judge_ratio(
        TypedRatio(
            kind="warm",
            room_ohm=(1.0, 1e-4),
            other_ohm=(1.3142, 1e-4),
            warm_celsius=(100.0, 0.1),
        )
    )
    assert warm.warm is not None
    np.testing.assert_allclose(warm.warm.percent_iacs.value, 100.0, atol=0.02)


def test_ratio_that_is_open_above_is_said_so() -> None:
    found = judge_ratio(
        TypedRatio(
            kind="nitrogen",
            ratio=(8.93, 0.004),
            reference_ratio=(8.45, 0.004),
            reference_value=(200.0, 1.0),
        )
    )
    words = " ".join(ratio_in_words(found))
    assert "or more; R(293 K)/R(4 K)" in words
    assert "e+0" not in words
    assert "a lower bound only" in words


def test_unknown_work_is_flagged_and_known_work_is_not() -> None:
    assert "cold_work_unknown" in [flag.name for flag in helium().flags]
    soft = helium(state=MetalState(work="annealed"))
    assert "cold_work_unknown" not in [flag.name for flag in soft.flags]


def test_finding_of_a_cold_ratio_bears_on_composition_alone() -> None:
    finding = ratio_finding(helium())
    assert finding.bears_on == (ClaimKind.COMPOSITION,)
    assert ClaimKind.CRYSTAL_STATE in finding.does_not_bear_on
    value = finding.results[0].value
    assert finding.results[0].name == "residual_ratio"
    assert value is not None
    np.testing.assert_allclose(value.value, 166.2, atol=0.1)
    assert finding.flags == ("cold_work_unknown",)


def test_finding_of_a_warm_ratio_bears_on_performance_alone() -> None:
    found = judge_ratio(
        TypedRatio(kind="warm", ratio=(1.3142, 2e-4), warm_celsius=(100.0, 0.05))
    )
    finding = ratio_finding(found)
    assert finding.bears_on == (ClaimKind.PERFORMANCE,)
    assert "weak" in finding.sentence
    assert "Monte Carlo" in " ".join(ratio_in_words(found))


def test_data_hold_bounds_for_every_element() -> None:
    data = ratio_data(helium())
    assert data["nines"] == dict.fromkeys(("4N", "5N", "6N", "7N"), "cannot tell")
    phosphorus = data["elements"][0]
    assert phosphorus["symbol"] == "P"
    assert 3 < phosphorus["if_all_ppm"] < phosphorus["at_most_ppm"] < 8
    assert "Liquid helium" in data["safety"]


def test_a_reference_in_nitrogen_is_used() -> None:
    alone = judge_ratio(TypedRatio(kind="nitrogen", ratio=(8.1, 0.02), state=STRAND))
    beside = judge_ratio(
        TypedRatio(
            kind="nitrogen",
            ratio=(8.1, 0.02),
            reference_ratio=(8.45, 0.02),
            reference_value=(200.0, 4.0),
            state=STRAND,
        )
    )
    assert alone.residual is not None
    assert beside.residual is not None
    assert "no_reference_wire" in [flag.name for flag in alone.flags]
    assert "no_reference_wire" not in [flag.name for flag in beside.flags]
    assert (
        beside.residual.residual_resistivity.standard_uncertainty
        < 0.5 * alone.residual.residual_resistivity.standard_uncertainty
    )


def test_refusals() -> None:
    with pytest.raises(MissingMeasurementError, match="Neither a ratio nor both"):
        judge_ratio(TypedRatio(kind="helium", room_ohm=(1.8, 0.01)))
    with pytest.raises(MissingMeasurementError, match="upper temperature"):
        judge_ratio(TypedRatio(kind="warm", ratio=(1.3, 1e-3)))
    with pytest.raises(ParameterError, match="or neither"):
        helium(reference_ratio=(190.0, 1.0))
    with pytest.raises(ParameterError, match="above zero"):
        judge_ratio(
            TypedRatio(kind="helium", room_ohm=(1.8, 0.1), other_ohm=(0.0, 0.1))
        )
    with pytest.raises(ParameterError, match="warm, nitrogen or helium"):
        helium(kind="neon")
