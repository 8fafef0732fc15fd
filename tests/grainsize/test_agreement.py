"""Cohen's kappa against a general statistics library and the brief's example."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from statsmodels.stats.inter_rater import cohens_kappa

from strandproof.errors import ParameterError
from strandproof.grainsize.agreement import ReaderDifference, reader_agreement

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
    expected = cohens_kappa(table)
    found = reader_agreement(
        [CATEGORIES[k] for k in first], [CATEGORIES[k] for k in second]
    )
    assert found.kappa == pytest.approx(expected.kappa, abs=1e-12)
    assert found.kappa95 is not None
    assert found.kappa95.lower == pytest.approx(expected.kappa_low, abs=1e-12)
    assert found.kappa95.upper == pytest.approx(min(1, expected.kappa_upp), abs=1e-12)


def test_one_category_throughout_leaves_kappa_open() -> None:
    agreement = reader_agreement(["none"] * 3, ["none"] * 3)
    assert agreement.kappa is None
    assert agreement.kappa95 is None


def test_full_agreement_states_no_width_of_kappa_but_limits_of_the_share() -> None:
    """24 of 24 alike: the share is at least 0.05^(1/24) one-sided, 0.858 two-sided."""
    verdicts = ["boundary"] * 20 + ["none"] * 4
    agreement = reader_agreement(verdicts, verdicts)
    assert agreement.kappa == 1.0
    assert agreement.kappa95 is None
    assert agreement.share95.lower == pytest.approx(0.025 ** (1 / 24), abs=1e-9)
    assert agreement.share95.upper == 1.0


def test_differences_name_the_piece_and_both_categories() -> None:
    agreement = reader_agreement(["a", "a", "b"], ["a", "b", "b"])
    assert agreement.differences == (ReaderDifference(place=1, first="a", second="b"),)


CATEGORY = st.sampled_from(CATEGORIES)


@given(pairs=st.lists(st.tuples(CATEGORY, CATEGORY), min_size=1, max_size=30))
def test_order_of_readers_and_pieces_does_not_matter(
    pairs: list[tuple[str, str]],
) -> None:
    forth = reader_agreement([a for a, _ in pairs], [b for _, b in pairs])
    back = reader_agreement([b for _, b in pairs[::-1]], [a for a, _ in pairs[::-1]])
    assert forth.kappa == back.kappa
    assert forth.same + len(forth.differences) == forth.pieces
    assert (forth.kappa95 is None) == (back.kappa95 is None)
    if forth.kappa95 and back.kappa95:
        assert forth.kappa95.lower == pytest.approx(back.kappa95.lower, abs=1e-9)


@pytest.mark.parametrize(("first", "second"), [([], []), (["a"], ["a", "b"])])
def test_unequal_or_empty_lists_are_refused(
    first: list[str], second: list[str]
) -> None:
    with pytest.raises(ParameterError, match="as many categories"):
        reader_agreement(first, second)
