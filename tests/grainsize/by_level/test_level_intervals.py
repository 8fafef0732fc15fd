"""The interval of each level, and how often it covers what it speaks for."""

import numpy as np
import pytest
from scipy import stats

from strandproof.errors import ParameterError
from strandproof.grainsize.by_level import NestedValues, intervals_by_level

LEVELS = ("cable", "strand", "field")


def drawn(
    source: np.random.Generator, cables: int, strands: int, fields: int
) -> tuple[NestedValues, float]:
    """Values about 8 with scatter at every level, and the true mean of the cables."""
    places, values, true = [], [], []
    for cable in range(cables):
        of_cable = 8.0 + source.normal(0, 0.5)
        true.append(of_cable)
        for strand in range(strands):
            of_strand = of_cable + source.normal(0, 0.4)
            for field in range(fields):
                places.append((str(cable), str(strand), str(field)))
                values.append(of_strand + source.normal(0, 0.6))
    nested = NestedValues(levels=LEVELS, places=tuple(places), values=tuple(values))
    return nested, float(np.mean(true))


def test_each_level_by_hand() -> None:
    values = NestedValues(
        levels=("cable", "field"),
        places=(("a", "1"), ("a", "2"), ("b", "1"), ("b", "2"), ("b", "3")),
        values=(8.0, 10.0, 4.0, 6.0, 5.0),
    )
    cable, field = intervals_by_level(values, unit="um")
    # Cables 9 and 5: s = sqrt(8), u = s / sqrt(2) = 2.
    assert cable.estimate.quantity.value == pytest.approx(7.0, rel=1e-12, abs=0)
    assert cable.estimate.quantity.standard_uncertainty == pytest.approx(
        2.0, rel=1e-12, abs=0
    )
    # Fields about their cables: (1 + 1 + 1 + 1 + 0) / 3 in squares; weights 1/4, 1/6.
    u = np.sqrt(4 / 3 * (2 / 16 + 3 / 36))
    assert field.degrees_of_freedom == 3
    assert field.estimate.quantity.standard_uncertainty == pytest.approx(
        u, rel=1e-12, abs=0
    )
    assert field.estimate.interval95 is not None
    assert field.estimate.interval95.half_width == pytest.approx(
        stats.t.ppf(0.975, 3) * u, rel=1e-12, abs=0
    )
    assert field.speaks_for == "these cables, had other fields of them been taken"


def test_a_level_without_two_units_side_by_side_has_no_interval() -> None:
    values = NestedValues(
        levels=LEVELS,
        places=(("a", "1", "x"), ("a", "1", "y"), ("a", "1", "z")),
        values=(8.0, 9.0, 10.0),
    )
    assert [each.level for each in intervals_by_level(values, unit="um")] == ["field"]


def test_a_wrong_confidence_is_refused() -> None:
    values = NestedValues(levels=("field",), places=(("a",),), values=(8.0,))
    with pytest.raises(ParameterError, match="confidence"):
        intervals_by_level(values, unit="um", confidence=95.0)


def test_each_interval_covers_what_it_speaks_for() -> None:
    """1000 designs: the cables' interval the population, the strands' these cables."""
    source, trials, hits = np.random.default_rng(5), 1000, {"cable": 0, "strand": 0}
    for _ in range(trials):
        values, of_these_cables = drawn(source, 3, 3, 2)
        for each in intervals_by_level(values, unit="um")[:2]:
            interval = each.estimate.interval95
            assert interval is not None
            true = 8.0 if each.level == "cable" else of_these_cables
            hits[each.level] += (
                (interval.lower or 0.0) <= true <= (interval.upper or 0.0)
            )
    # Exact t intervals: 95 % within three standard errors of 1000 trials.
    for covered in hits.values():
        assert covered / trials == pytest.approx(0.95, rel=0, abs=0.02)
