"""The table of exact limits against the functions that compute them.

Rows ``computed`` and ``read`` alike; each to half a unit of its last printed digit.
"""

import re

import pytest

from strandproof.quantity import (
    Interval,
    binomial_interval,
    binomial_lower_limit,
    binomial_upper_limit,
    poisson_interval,
    poisson_upper_limit,
    trials_needed_with_none_failing,
)
from strandproof.tables import TableRow, package_table

TABLE = package_table("exact_limits")
_KEY = re.compile(
    r"(?P<law>poisson|binomial)\.(?P<sides>one|two)_sided_(?P<percent>\d+)"
    r"\.k(?P<count>\d+)(_n(?P<total>\d+))?\.(?P<side>lower|upper)(\.printed)?"
)
LIMITS = [key for key in TABLE if _KEY.fullmatch(key)]
SIZES = [key for key in TABLE if key not in LIMITS]


def _poisson(sides: str, count: int, exposure: float, confidence: float) -> Interval:
    limit = poisson_interval if sides == "two" else poisson_upper_limit
    return limit(count, exposure=exposure, unit="1", confidence=confidence)


def _binomial(
    sides: str, side: str, hits: int, trials: int, confidence: float
) -> Interval:
    if sides == "two":
        return binomial_interval(hits, trials, confidence=confidence)
    limit = binomial_upper_limit if side == "upper" else binomial_lower_limit
    return limit(hits, trials, confidence=confidence)


def _computed(key: str) -> float | None:
    found = _KEY.fullmatch(key)
    assert found is not None
    sides, side, count = found["sides"], found["side"], int(found["count"])
    confidence = int(found["percent"]) / 100
    if found["law"] == "poisson":
        interval = _poisson(sides, count, float(found["total"] or 1), confidence)
    else:
        interval = _binomial(sides, side, count, int(found["total"]), confidence)
    return interval.upper if side == "upper" else interval.lower


def _tolerance(row: TableRow) -> float:
    return 1.001 * row.half_digit


@pytest.mark.parametrize("key", LIMITS)
def test_limit_agrees_with_the_row(key: str) -> None:
    row = TABLE[key]
    assert _computed(key) == pytest.approx(row.value, rel=0, abs=_tolerance(row))


@pytest.mark.parametrize("key", SIZES)
def test_sample_size_agrees_with_the_row(key: str) -> None:
    decimals = key.rpartition("p0_")[2]
    assert trials_needed_with_none_failing(float(f"0.{decimals}")) == TABLE[key].value


def test_the_table_has_both_kinds_of_rows() -> None:
    assert len(LIMITS) == 58
    assert len(SIZES) == 4
    assert {row.status for row in TABLE.values()} == {"computed", "read"}
