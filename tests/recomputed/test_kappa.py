"""Cohen's kappa against an example told in many textbooks, FROM MEMORY.

Two readers judge 50 grant applications: both yes 20, both no 15, yes/no 5, no/yes 10.
p_o = 0.70, p_e = 0.5 x 0.6 + 0.5 x 0.4 = 0.50, kappa = 0.40 (exact arithmetic; the
example itself was not read anywhere for this test).
"""

import pytest

from strandproof.grainsize.agreement import reader_agreement


def test_grant_applications() -> None:
    first = ["yes"] * 25 + ["no"] * 25
    second = ["yes"] * 20 + ["no"] * 5 + ["yes"] * 10 + ["no"] * 15
    agreement = reader_agreement(first, second)
    assert (agreement.same, agreement.pieces) == (35, 50)
    assert agreement.kappa == pytest.approx(0.40, abs=1e-15)
    assert dict(agreement.table) == {
        ("no", "no"): 15,
        ("no", "yes"): 10,
        ("yes", "no"): 5,
        ("yes", "yes"): 20,
    }
