"""Cohen's kappa against a general statistics library and the brief's example."""

import numpy as np
import pytest
from statsmodels.stats.inter_rater import cohens_kappa

from strandproof.errors import ParameterError
from strandproof.grainsize.agreement import reader_agreement

CATEGORIES = ("boundary", "none", "not readable")


def test_example_of_the_brief() -> None:
    """Product brief, appendix A (computed there): 23 of 24, kappa 0.867."""
    first = ["boundary"] * 20 + ["none"] * 4
    second = ["boundary"] * 19 + ["not readable"] + ["none"] * 4
    agreement = reader_agreement(first, second)
    assert (agreement.same, agreement.pieces) == (23, 24)
    assert agreement.kappa == pytest.approx(0.867, abs=0.0005)


@pytest.mark.parametrize("seed", range(20))
def test_kappa_equals_that_of_statsmodels(seed: int) -> None:
    chance = np.random.default_rng(seed)
    first = chance.integers(0, 3, 40)
    second = np.where(chance.random(40) < 0.7, first, chance.integers(0, 3, 40))
    table = np.zeros((3, 3))
    np.add.at(table, (first, second), 1)
    expected = cohens_kappa(table, return_results=False)
    found = reader_agreement(
        [CATEGORIES[k] for k in first], [CATEGORIES[k] for k in second]
    )
    assert found.kappa == pytest.approx(expected, abs=1e-12)


def test_one_category_throughout_leaves_kappa_open() -> None:
    assert reader_agreement(["none"] * 3, ["none"] * 3).kappa is None


@pytest.mark.parametrize(("first", "second"), [([], []), (["a"], ["a", "b"])])
def test_unequal_or_empty_lists_are_refused(
    first: list[str], second: list[str]
) -> None:
    with pytest.raises(ParameterError, match="as many categories"):
        reader_agreement(first, second)
