"""Mean, interval and relative accuracy by level against scipy.

The statistics of ASTM E562 and E112 section 15 (read in secondary sources): mean, s,
95 % CI = t s / sqrt(n), %RA = 100 CI / mean. Held against `scipy.stats.t.interval` and,
for a mean per unit, `scipy.stats.ttest_1samp`, which know nothing of levels.
"""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import stats

from strandproof.grainsize.by_level import NestedValues, intervals_by_level, unit_means

COUNTS = st.lists(
    st.lists(st.floats(2.0, 40.0), min_size=1, max_size=6), min_size=2, max_size=8
)


@given(COUNTS)
def test_the_interval_by_cable_is_scipys_over_the_cables_means(
    cables: list[list[float]],
) -> None:
    values = NestedValues(
        levels=("cable", "field"),
        places=tuple(
            (str(cable), str(field))
            for cable, fields in enumerate(cables)
            for field in range(len(fields))
        ),
        values=tuple(value for fields in cables for value in fields),
    )
    by_cable = intervals_by_level(values, unit="um")[0]
    means = np.array(list(unit_means(values, 1).values()))
    interval = by_cable.estimate.interval95
    assert interval is not None
    if stats.sem(means) > 1e-9:
        expected = stats.t.interval(
            0.95, means.size - 1, loc=means.mean(), scale=stats.sem(means)
        )
        assert (interval.lower, interval.upper) == pytest.approx(
            expected, rel=1e-9, abs=1e-9
        )
        tested = stats.ttest_1samp(means, 0.0).confidence_interval(0.95)
        assert interval.upper == pytest.approx(tested.high, rel=1e-9, abs=1e-9)
    accuracy = by_cable.estimate.relative_accuracy_percent
    half = stats.t.ppf(0.975, means.size - 1) * stats.sem(means)
    assert accuracy == pytest.approx(100 * half / means.mean(), rel=1e-7, abs=1e-7)
