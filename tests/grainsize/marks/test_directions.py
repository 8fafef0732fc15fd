"""Shared directions of marks, held against simulated chance."""

from collections.abc import Sequence

import numpy as np
import numpy.typing as npt
import pytest
from hypothesis import given
from hypothesis import strategies as st

from strandproof.errors import ParameterError
from strandproof.grainsize.marks import (
    LineMark,
    direction_rose,
    doubted_directions,
    greatest_cluster,
    shared_directions,
)

ANGLES = st.floats(0, 179.9)


def met_by_a_line(
    chance: np.random.Generator, *, count: int, line_deg: float
) -> npt.NDArray[np.float64]:
    """Directions of isotropic boundaries that a straight line meets: sine law."""
    return np.mod(line_deg + np.degrees(np.arccos(chance.uniform(-1, 1, count))), 180)


def most_within(angles: Sequence[float] | npt.NDArray[np.float64], width: float) -> int:
    """Count by a plain double loop over starting marks."""
    return max(sum(bool((b - a) % 180 <= width) for b in angles) for a in angles)


@pytest.mark.parametrize("lines_deg", [(0.0,), (0.0, 45.0, 90.0, 135.0)])
@pytest.mark.parametrize("count", [10, 40])
def test_stated_chance_is_above_the_simulated_one(
    count: int, lines_deg: tuple[float, ...]
) -> None:
    """4000 readings without any scratch: the bound must not be undercut.

    The simulation is judged with three standard errors to spare.
    """
    chance = np.random.default_rng(17)
    trials = 4000
    largest = np.zeros(trials, np.int64)
    for trial in range(trials):
        angles = np.concatenate(
            [
                met_by_a_line(chance, count=count // len(lines_deg), line_deg=deg)
                for deg in lines_deg
            ]
        )
        ahead = np.mod(angles[None, :] - angles[:, None], 180.0)
        largest[trial] = (ahead <= 3.0).sum(axis=1).max()
    used = len(lines_deg) * (count // len(lines_deg))
    for size in range(2, 9):
        others = np.linspace(10.0, 170.0, used - size)
        found = greatest_cluster([0.0] * size + others.tolist())
        assert found is not None
        assert len(found.marks) == size
        share = float((largest >= size).mean())
        error = np.sqrt(share * (1 - share) / trials)
        assert found.chance_at_most >= share - 3 * error


def test_bound_is_not_far_above_the_truth_where_it_matters() -> None:
    """One line, 20 marks, 5 of them alike: at most five times the simulated chance."""
    chance = np.random.default_rng(23)
    largest = [
        most_within(met_by_a_line(chance, count=20, line_deg=30.0), 3.0)
        for _ in range(1500)
    ]
    share = np.mean(np.array(largest) >= 5)
    found = greatest_cluster([0.0] * 5 + np.linspace(10, 170, 15).tolist())
    assert found is not None
    assert found.chance_at_most < 5 * share


@given(angles=st.lists(ANGLES, min_size=1, max_size=12))
def test_cluster_is_the_largest_there_is(angles: list[float]) -> None:
    found = greatest_cluster(angles)
    assert found is not None
    assert len(found.marks) == most_within([round(a, 6) for a in angles], 3.0 + 1e-5)
    assert found.to_deg - found.from_deg <= 3.0 + 1e-9
    assert 0 <= found.middle_deg < 180


@given(
    angles=st.lists(
        st.integers(0, 359).map(lambda half: half / 2), min_size=1, max_size=12
    ),
    turn=st.integers(-720, 720).map(lambda half: half / 2),
)
def test_turning_the_picture_changes_nothing(angles: list[float], turn: float) -> None:
    straight = greatest_cluster(angles)
    turned = greatest_cluster([angle + turn for angle in angles])
    assert straight is not None
    assert turned is not None
    assert len(straight.marks) == len(turned.marks)
    assert straight.chance_at_most == turned.chance_at_most


def test_cluster_through_the_horizontal() -> None:
    found = greatest_cluster([179.0, 0.5, 1.0, 90.0])
    assert found is not None
    assert (found.marks, found.from_deg, found.to_deg) == ((0, 1, 2), 179.0, 181.0)
    assert found.middle_deg == 0.0


def test_two_families_of_scratches_are_both_found() -> None:
    first = np.linspace(40.0, 42.0, 12)
    second = np.linspace(110.0, 112.0, 9)
    rest = np.linspace(0.0, 170.0, 8)
    found = shared_directions([*rest, *second, *first])
    assert [len(cluster.marks) for cluster in found] == [12, 9]
    assert found[0].marks == tuple(range(17, 29))
    assert found[1].marks == tuple(range(8, 17))
    assert (found[0].of_marks, found[1].of_marks) == (29, 17)


def test_chance_explains_evenly_spread_marks() -> None:
    assert shared_directions(np.linspace(0, 174, 30).tolist()) == ()
    assert shared_directions([]) == ()


def test_two_marks_are_never_called() -> None:
    """Two alike of two: chance does that, since any mark may come first."""
    found = greatest_cluster([10.0, 10.0])
    assert found is not None
    assert found.chance_at_most > 0.05
    assert shared_directions([10.0, 10.0]) == ()


def test_hint_looks_at_what_counts_or_might() -> None:
    marks = [
        LineMark(along_px=1, feature="boundary", direction_deg=10.0),
        LineMark(along_px=2, feature="scratch", direction_deg=20.0),
        LineMark(along_px=3, feature="uncertain", direction_deg=30.0),
        LineMark(along_px=4, feature="twin", direction_deg=40.0),
        LineMark(along_px=5, feature="boundary"),
    ]
    assert doubted_directions(marks) == ((0, 2), (10.0, 30.0))


@given(angles=st.lists(st.floats(-720, 720)), petal=st.sampled_from([5.0, 15.0, 90.0]))
def test_rose_holds_every_mark(angles: list[float], petal: float) -> None:
    rose = direction_rose(angles, petal_deg=petal)
    assert sum(rose.counts) == len(angles)
    assert len(rose.edges_deg) == len(rose.counts) + 1
    assert (rose.edges_deg[0], rose.edges_deg[-1]) == (0.0, 180.0)


def test_petal_holds_its_lower_border() -> None:
    assert direction_rose([15.0, 14.9, 195.0], petal_deg=15.0).counts[:2] == (1, 2)


@pytest.mark.parametrize("petal", [0.0, -15.0, 7.0, 200.0])
def test_petals_that_do_not_fill_a_half_turn(petal: float) -> None:
    with pytest.raises(ParameterError, match="divides 180 deg evenly"):
        direction_rose([1.0], petal_deg=petal)


@pytest.mark.parametrize("within", [0.0, 90.0])
def test_width_that_is_none(within: float) -> None:
    with pytest.raises(ParameterError, match="above 0 and below 90 deg"):
        greatest_cluster([1.0], within_deg=within)
