"""Residual ratio predicted for a hypothesis."""

import numpy as np
import pytest

from strandproof.electrical.residual import predicted_residual, work_term
from strandproof.errors import ParameterError
from strandproof.records.electrical import MetalState

SOFT = MetalState(work="annealed")


def test_parts_add() -> None:
    state = MetalState(mean_intercept_um=20.0, strand_mm=0.1, work="bent")
    found = predicted_residual({"Fe": 2.0, "Ag": 20.0}, state)
    assert len(found.terms) == 5
    np.testing.assert_allclose(
        found.residual_nohm_m[1], sum(term.best for term in found.terms), rtol=1e-12
    )
    for term in found.terms:
        assert term.lower <= term.best <= term.upper
    for ratio in (found.ratio_273, found.ratio_293, found.nitrogen_ratio):
        assert list(ratio) == sorted(ratio)


def test_six_nines_in_a_thin_annealed_strand_reads_hundreds() -> None:
    """Facts 1.8: about 600, not 5000, for 0.1 mm with 20 um grains."""
    state = MetalState(mean_intercept_um=20.0, strand_mm=0.1, work="annealed")
    low, best, high = predicted_residual({"Sb": 1.0}, state).ratio_273
    assert low < 618 < high
    np.testing.assert_allclose(best, 618, rtol=0.1)


def test_hard_strand_reads_tens_whatever_its_purity() -> None:
    for ppm in (0.1, 10.0):
        hard = predicted_residual({"Ni": ppm}, MetalState(work="hard")).ratio_273
        assert hard[0] < 30 < hard[1] < 75


def test_precipitated_impurities_hardly_show() -> None:
    dissolved = predicted_residual({"Fe": 10.0}, SOFT)
    locked = predicted_residual({"Fe": 10.0}, SOFT, solution="precipitated")
    fold = locked.ratio_273[1] / dissolved.ratio_273[1]
    assert 10 < fold < 50
    assert "precipitated" in locked.terms[0].name


def test_silver_beats_phosphorus_at_a_hundredth_of_its_content() -> None:
    silver = predicted_residual({"Ag": 100.0}, SOFT).ratio_273[1]
    phosphorus = predicted_residual({"P": 1.0}, SOFT).ratio_273[1]
    assert silver > phosphorus


def test_unknown_work_spans_soft_to_hard() -> None:
    unknown = work_term("unknown")
    assert unknown.lower == work_term("annealed").lower
    assert unknown.upper == work_term("hard").upper


def test_refusals() -> None:
    with pytest.raises(ParameterError, match="element"):
        predicted_residual({"Xx": 1.0}, SOFT)
    with pytest.raises(ParameterError, match="content of Fe"):
        predicted_residual({"Fe": -1.0}, SOFT)
