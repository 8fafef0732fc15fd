"""Missed and false boundaries: rates, limits, and the factor of a mean intercept."""

from math import inf, sqrt

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import stats
from scipy.optimize import linear_sum_assignment

from strandproof.errors import ParameterError
from strandproof.grainsize.by_level import (
    DetectionRates,
    KnownPiece,
    matched_crossings,
    rates_by_family,
)


def piece(
    shown: int, found: int, false: int, name: str = "p", family: str = "annealed"
) -> KnownPiece:
    return KnownPiece(name=name, family=family, shown=shown, found=found, false=false)


def rates(*pieces: KnownPiece) -> DetectionRates:
    return DetectionRates(family="annealed", pieces=pieces)


def test_limits_are_exact() -> None:
    known = rates(piece(100, 95, 3), piece(80, 78, 1))
    missed, false = known.missed_share95(), known.false_per_boundary95()
    assert missed.lower == pytest.approx(stats.beta.ppf(0.025, 7, 174), rel=1e-9, abs=0)
    assert missed.upper == pytest.approx(stats.beta.ppf(0.975, 8, 173), rel=1e-9, abs=0)
    assert false.lower == pytest.approx(stats.chi2.ppf(0.025, 8) / 360, rel=1e-9, abs=0)
    assert false.upper == pytest.approx(
        stats.chi2.ppf(0.975, 10) / 360, rel=1e-9, abs=0
    )


def test_the_factor_and_its_uncertainty_by_hand() -> None:
    # Reported 90 and 120 of 100 each: c = 1.05, d = -/+ 15/105.
    found = rates(piece(100, 85, 5), piece(100, 98, 22)).correction(fields=4)
    assert found.factor == pytest.approx(1.05, rel=1e-12, abs=0)
    scatter = sqrt(2 * (15 / 105) ** 2)
    assert found.relative_standard_uncertainty == pytest.approx(
        scatter * sqrt(1 / 2 + 1 / 4), rel=1e-12, abs=0
    )
    assert found.degrees_of_freedom == 1
    known = rates(piece(100, 85, 5), piece(100, 98, 22)).correction(fields=inf)
    assert known.relative_standard_uncertainty == pytest.approx(
        scatter * sqrt(1 / 2), rel=1e-12, abs=0
    )


def test_pieces_that_agree_by_luck_keep_the_scatter_of_counts() -> None:
    found = rates(piece(100, 90, 10), piece(100, 90, 10)).correction()
    assert found.factor == 1.0
    # Found 180 of 200, 20 false: (180 * 20 / 200 + 20) / 2 for a piece of 100.
    scatter = sqrt((180 * 20 / 200 + 20) / 2) / 100
    assert found.relative_standard_uncertainty == pytest.approx(
        scatter * sqrt(1 / 2 + 1), rel=1e-12, abs=0
    )


def test_a_perfect_method_changes_nothing() -> None:
    found = rates(piece(50, 50, 0), piece(70, 70, 0)).correction()
    assert (found.factor, found.relative_standard_uncertainty) == (1.0, 0.0)


def test_the_factor_covers_a_new_field() -> None:
    """Pieces differ in their rates; 95 % of new fields lie within the factor's t."""
    source, trials, hits = np.random.default_rng(11), 2000, 0

    def read(shown: int) -> KnownPiece:
        share = source.beta(45, 5)
        found = int(source.binomial(shown, share))
        return piece(shown, found, int(source.poisson(0.08 * shown)))

    for _ in range(trials):
        found = rates(*(read(150) for _ in range(8))).correction()
        new = read(150)
        factor = stats.t.ppf(0.975, found.degrees_of_freedom)
        half = factor * found.relative_standard_uncertainty
        hits += abs(new.reported / new.shown / found.factor - 1) <= half
    assert hits / trials == pytest.approx(0.95, rel=0, abs=0.02)


def test_families_are_never_pooled() -> None:
    pieces = [
        piece(10, 9, 0, family="drawn"),
        piece(20, 19, 1),
        piece(10, 8, 0, family="drawn"),
        piece(30, 30, 0),
    ]
    drawn, annealed = rates_by_family(pieces)
    assert (drawn.family, drawn.shown, drawn.found, drawn.false) == ("drawn", 20, 17, 0)
    assert (annealed.family, annealed.shown) == ("annealed", 50)
    with pytest.raises(ParameterError, match="of the family 'annealed' only"):
        rates(*pieces)


def test_what_tells_nothing_is_refused() -> None:
    with pytest.raises(ParameterError, match="two known pieces or more"):
        rates(piece(10, 9, 0))
    with pytest.raises(ParameterError, match="gives no size"):
        rates(piece(10, 0, 0), piece(10, 0, 0))
    with pytest.raises(ParameterError, match="fields"):
        rates(piece(10, 9, 0), piece(10, 9, 0)).correction(fields=0)


@pytest.mark.parametrize("counts", [(0, 0, 0), (10, 11, 0), (10, -1, 0), (10, 9, -1)])
def test_impossible_counts_are_refused(counts: tuple[int, int, int]) -> None:
    with pytest.raises(ParameterError, match="allowed is"):
        piece(*counts)


PLACES = st.lists(st.integers(0, 30).map(float), max_size=7)


@given(PLACES, PLACES, st.integers(0, 6).map(float))
def test_matching_makes_as_many_pairs_as_can_be(
    shown: list[float], reported: list[float], tolerance: float
) -> None:
    found, false = matched_crossings(shown, reported, tolerance=tolerance)
    near = np.abs(np.subtract.outer(shown, reported)) <= tolerance
    pairs = linear_sum_assignment(
        near.reshape(len(shown), len(reported)), maximize=True
    )
    assert found == near[pairs].sum()
    assert false == len(reported) - found


def test_a_negative_tolerance_is_refused() -> None:
    with pytest.raises(ParameterError, match="tolerance"):
        matched_crossings((1.0,), (1.0,), tolerance=-1.0)
