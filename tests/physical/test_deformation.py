from itertools import combinations

import numpy as np
import pytest
from scipy import stats

from strandproof.physical import compare_deformation, permutation_probability
from strandproof.records.physical import (
    DeformationComparison,
    HandlingFacts,
    Objection,
    SlipTraceField,
)

POLISHED = HandlingFacts(
    handling="bent ten times round 5 mm",
    polished_before=True,
    touched_after=False,
    objection="bending",
)


def field(
    lines: float, *, direction: float = 40.0, alignment: float = 0.8
) -> SlipTraceField:
    return SlipTraceField(
        name="",
        lines_per_mm=lines,
        directions_deg=(),
        lines_per_mm_by_direction=(),
        main_direction_deg=direction,
        alignment=alignment,
        area_mm2=0.01,
    )


def fields(
    mean: float,
    *,
    n: int = 8,
    spread: float = 1.0,
    seed: int = 1,
    direction: float = 40.0,
) -> list[SlipTraceField]:
    chance = np.random.default_rng(seed)
    return [
        field(
            max(0.0, chance.normal(mean, spread)), direction=chance.normal(direction, 3)
        )
        for _ in range(n)
    ]


def compared(
    before: list[SlipTraceField],
    after: list[SlipTraceField],
    facts: HandlingFacts = POLISHED,
) -> DeformationComparison:
    return compare_deformation(before, after, facts)


def test_more_lines_are_a_change() -> None:
    found = compared(fields(20.0), fields(60.0, seed=2))
    assert found.verdict == "changed"
    assert found.density_probability is not None
    assert found.density_probability < 0.001
    assert "does not show that bending made boundaries" in " ".join(found.sentences)


def test_turned_lines_are_a_change() -> None:
    found = compared(fields(40.0), fields(40.0, seed=2, direction=110.0))
    assert found.verdict == "changed"
    assert found.density_probability is not None
    assert found.density_probability > 0.025
    assert found.direction_probability is not None
    assert found.direction_probability < 0.001


def test_alike_fields_are_not_changed() -> None:
    found = compared(fields(40.0), fields(40.0, seed=2))
    assert found.verdict == "not changed"
    assert "answers the objection that bending made the lines" in found.sentences[2]
    assert not found.flags


def test_scatter_leaves_it_open() -> None:
    found = compared(fields(40.0, spread=25.0), fields(40.0, spread=25.0, seed=2))
    assert found.verdict == "cannot tell"
    assert "Picture more fields" in found.sentences[0]


def test_few_fields_leave_it_open() -> None:
    found = compared(fields(20.0, n=4), fields(60.0, n=4, seed=2))
    assert found.verdict == "cannot tell"
    assert found.density_probability is None
    assert [flag.name for flag in found.flags] == ["few_fields_compared"]


@pytest.mark.parametrize("polished", [False, None])
def test_no_change_on_an_unpolished_surface_means_nothing(
    *, polished: bool | None
) -> None:
    facts = HandlingFacts(
        handling="bent",
        polished_before=polished,
        touched_after=False,
        objection="bending",
    )
    same = compared(fields(40.0), fields(40.0, seed=2), facts)
    assert same.verdict == "cannot tell"
    assert "steps show only on a surface polished before" in same.sentences[0]
    assert [flag.name for flag in same.flags] == ["not_polished_before_bending"]
    assert compared(fields(20.0), fields(60.0, seed=2), facts).verdict == "changed"


@pytest.mark.parametrize("touched", [True, None])
def test_a_surface_touched_after_says_nothing(*, touched: bool | None) -> None:
    facts = HandlingFacts(
        handling="bent",
        polished_before=True,
        touched_after=touched,
        objection="bending",
    )
    assert compared(fields(20.0), fields(60.0, seed=2), facts).verdict == "cannot tell"


@pytest.mark.parametrize("objection", ["bending", "heat", "preparation"])
def test_a_bend_test_never_answers_heat(objection: Objection) -> None:
    facts = HandlingFacts(
        handling="bent", polished_before=True, touched_after=False, objection=objection
    )
    said = " ".join(compared(fields(40.0), fields(40.0, seed=2), facts).sentences)
    assert "does not answer the objection that heat made the grains" in said
    assert ("answers the objection that bending" in said) == (objection == "bending")


def test_no_lines_before_nor_after() -> None:
    none = [field(0.0, alignment=0.0)] * 6
    found = compared(none, none)
    assert found.verdict == "not changed"
    assert found.change_that_matters == 5.0


def test_permutation_agrees_with_a_library() -> None:
    chance = np.random.default_rng(7)
    first, second = chance.normal(0, 1, 6), chance.normal(1, 1, 5)
    library = stats.permutation_test(
        (first, second),
        lambda a, b, axis: np.abs(a.mean(axis=axis) - b.mean(axis=axis)),
        vectorized=True,
        n_resamples=10_000,  # more than the 462 splits: all are tried
        alternative="greater",
    )
    mine = permutation_probability(first[:, None], second[:, None], chance)
    np.testing.assert_allclose(mine, library.pvalue, rtol=1e-12)


def test_permutation_of_vectors_by_hand() -> None:
    rows = np.random.default_rng(3).normal(size=(7, 2))
    observed = np.linalg.norm(rows[3:].mean(axis=0) - rows[:3].mean(axis=0))
    lengths = [
        np.linalg.norm(
            rows[[k for k in range(7) if k not in chosen]].mean(axis=0)
            - rows[list(chosen)].mean(axis=0)
        )
        for chosen in combinations(range(7), 3)
    ]
    expected = np.mean(np.array(lengths) >= observed - 1e-12)
    found = permutation_probability(rows[:3], rows[3:], np.random.default_rng(1))
    np.testing.assert_allclose(found, expected, rtol=1e-12)


def test_many_fields_are_sampled_and_never_give_zero() -> None:
    low, high = np.zeros((12, 1)), np.ones((12, 1))
    found = permutation_probability(low, high, np.random.default_rng(1))
    assert 0 < found < 0.001


def test_false_changes_are_rarer_than_stated() -> None:
    """300 comparisons in which nothing changed; exact 99 % limit of 5 % in 300: 25."""
    said = 0
    for seed in range(300):
        said += (
            compared(fields(40.0, n=5, seed=seed), fields(40.0, n=5, seed=seed + 9000))
        ).verdict == "changed"
    assert said <= stats.binom.ppf(0.99, 300, 0.05)
