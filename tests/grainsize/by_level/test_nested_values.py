"""Means and weights of units within units."""

from math import fsum

import pytest
from hypothesis import given
from hypothesis import strategies as st

from strandproof.errors import ParameterError
from strandproof.grainsize.by_level import NestedValues, unit_means, unit_weights

LEVELS = ("cable", "strand", "field")
PLACES = (("a", "1", "x"), ("a", "1", "y"), ("a", "2", "x"), ("b", "1", "x"))
VALUES = NestedValues(levels=LEVELS, places=PLACES, values=(7.0, 9.0, 10.0, 6.0))


def nested(sizes: list[list[int]], start: float = 5.0) -> NestedValues:
    """Fields numbered on, so many in each strand of each cable."""
    places = [
        (str(cable), str(strand), str(field))
        for cable, strands in enumerate(sizes)
        for strand, fields in enumerate(strands)
        for field in range(fields)
    ]
    return NestedValues(
        levels=LEVELS,
        places=tuple(places),
        values=tuple(start + 0.7 * k % 3 for k in range(len(places))),
    )


SIZES = st.lists(
    st.lists(st.integers(1, 4), min_size=1, max_size=3), min_size=1, max_size=4
)


def test_parts_weigh_the_same_whatever_their_number() -> None:
    assert unit_means(VALUES, 2) == {("a", "1"): 8.0, ("a", "2"): 10.0, ("b", "1"): 6.0}
    assert unit_means(VALUES, 1) == {("a",): 9.0, ("b",): 6.0}
    assert unit_means(VALUES, 0) == {(): 7.5}
    assert unit_weights(VALUES, 3) == {
        ("a", "1", "x"): 0.125,
        ("a", "1", "y"): 0.125,
        ("a", "2", "x"): 0.25,
        ("b", "1", "x"): 0.5,
    }


@given(SIZES)
def test_weights_are_shares_and_give_the_grand_mean(sizes: list[list[int]]) -> None:
    values = nested(sizes)
    for depth in range(4):
        weights, means = unit_weights(values, depth), unit_means(values, depth)
        assert fsum(weights.values()) == pytest.approx(1.0, rel=1e-12, abs=0)
        total = fsum(weights[unit] * mean for unit, mean in means.items())
        assert total == pytest.approx(unit_means(values, 0)[()], rel=1e-12, abs=0)


@pytest.mark.parametrize(
    ("places", "values", "said"),
    [
        ((), (), "one value or more"),
        ((("a",),), (1.0, 2.0), "one value or more"),
        ((("a",), ("b",)), (1.0, float("nan")), "finite numbers"),
        ((("a", "1"), ("b", "1")), (1.0, 2.0), "a unit at every level: field"),
        ((("a",), ("a",)), (1.0, 2.0), "Give repeated readings of one field"),
    ],
)
def test_impossible_designs_are_refused(
    places: tuple[tuple[str, ...], ...], values: tuple[float, ...], said: str
) -> None:
    with pytest.raises(ParameterError, match=said):
        NestedValues(levels=("field",), places=places, values=values)
