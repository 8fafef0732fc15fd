"""Cohen's kappa with its interval against a printed example.

Source: printout of a SAS example, carried in the tests of statsmodels 0.15.0
(statsmodels/stats/tests/test_inter_rater.py, TestUnweightedCohens), read there; BSD
3-clause. Which SAS manual it comes from is not said. Four printed decimals.
"""

import pytest

from strandproof.grainsize.agreement import reader_agreement

TABLE = ((0, 4, 1), (0, 8, 0), (0, 1, 5))
PRINTED_HALF_DIGIT = 5e-5


def test_printed_example() -> None:
    first = [f"c{row}" for row in range(3) for col in range(3) for _ in at(row, col)]
    second = [f"c{col}" for row in range(3) for col in range(3) for _ in at(row, col)]
    agreement = reader_agreement(first, second)
    assert agreement.kappa == pytest.approx(0.4842, rel=0, abs=PRINTED_HALF_DIGIT)
    assert agreement.kappa95 is not None
    assert agreement.kappa95.lower == pytest.approx(
        0.2137, rel=0, abs=PRINTED_HALF_DIGIT
    )
    assert agreement.kappa95.upper == pytest.approx(
        0.7547, rel=0, abs=PRINTED_HALF_DIGIT
    )
    assert agreement.differences[0].place == 0
    assert len(agreement.differences) == 6


def at(row: int, col: int) -> range:
    return range(TABLE[row][col])
