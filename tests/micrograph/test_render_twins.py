"""Twins keep straight, parallel sides however the grains are bent."""

from dataclasses import replace

import numpy as np
import pytest

from strandproof.micrograph.render import TwinHabit
from strandproof.micrograph.render.twins import draw_twins, no_twins

ONE_GRAIN = np.ones((200, 240), np.int32)
PLAIN = TwinHabit(
    grain_fraction=1,
    mean_lamellae=3,
    thickness_fraction=(0.1, 0.2),
    ending_fraction=0,
    corner_fraction=0,
    crossing_fraction=0,
)


def side_residuals(inside: np.ndarray) -> tuple[float, float, float]:
    """Deviation of both sides from a line [px], and their angle apart [deg]."""
    if not (inside.any(axis=0).sum() > inside.any(axis=1).sum()):
        inside = inside.T
    columns = np.nonzero(inside[1:-1].any(axis=0))[0]
    lines, worst = [], []
    for edge in (inside.argmax(axis=0), inside.shape[0] - 1 - inside[::-1].argmax(0)):
        used = columns[(edge[columns] > 0) & (edge[columns] < inside.shape[0] - 1)]
        line = np.polyfit(used, edge[used], 1)
        worst.append(float(np.abs(np.polyval(line, used) - edge[used]).max()))
        lines.append(np.rad2deg(np.arctan(line[0])))
    return worst[0], worst[1], abs(float(lines[0] - lines[1]))


def test_sides_are_straight_and_parallel() -> None:
    stepped, apart = [], []
    for seed in range(12):
        twins = draw_twins(ONE_GRAIN, PLAIN, np.random.default_rng(seed))
        for number in range(1, len(twins.sets)):
            inside = twins.labels == number
            if inside.sum() < 2000:
                continue
            first, second, angle = side_residuals(inside)
            # The pixels of a straight side leave its line by at most one.
            stepped.append(max(first, second) > 1.0)
            if not stepped[-1]:
                apart.append(angle)
    assert len(apart) >= 15
    assert max(apart) < 0.5
    # One lamella in seven has a step in one side.
    assert np.mean(stepped) < 0.35


def test_a_grain_without_twins_stays_plain() -> None:
    none = replace(PLAIN, grain_fraction=0.0)
    twins = draw_twins(ONE_GRAIN, none, np.random.default_rng(0))
    assert not twins.labels.any()
    assert not no_twins((3, 4)).labels.any()


def test_several_lamellae_share_a_grain_and_do_not_touch() -> None:
    counts = []
    for seed in range(30):
        twins = draw_twins(ONE_GRAIN, PLAIN, np.random.default_rng(seed))
        counts.append(len(twins.sets) - 1)
        for first, second in (
            (twins.labels[:, 1:], twins.labels[:, :-1]),
            (twins.labels[1:], twins.labels[:-1]),
        ):
            both = (first > 0) & (second > 0)
            assert np.array_equal(first[both], second[both])
    assert np.mean(counts) > 1.5
    assert max(counts) >= 3


def test_some_lamellae_end_inside() -> None:
    ending = replace(PLAIN, ending_fraction=1.0, mean_lamellae=1.0)
    crossing = replace(PLAIN, mean_lamellae=1.0)
    areas = []
    for habit in (ending, crossing):
        drawn = [
            draw_twins(ONE_GRAIN, habit, np.random.default_rng(seed)).labels > 0
            for seed in range(40)
        ]
        areas.append(np.mean(drawn))
    assert areas[0] < 0.8 * areas[1]


def test_a_second_set_runs_in_another_direction() -> None:
    both = replace(PLAIN, crossing_fraction=1.0)
    seen = set()
    for seed in range(10):
        sets = draw_twins(ONE_GRAIN, both, np.random.default_rng(seed)).sets
        seen |= set(sets[1:].tolist())
    assert seen == {1, 2}


@pytest.mark.parametrize("seed", range(5))
def test_small_grains_carry_no_twin(seed: int) -> None:
    y, x = np.mgrid[:90, :90]
    grains = (1 + y // 9 * 10 + x // 9).astype(np.int32)
    twins = draw_twins(grains, PLAIN, np.random.default_rng(seed))
    assert not twins.labels.any()


def test_details_of_no_share_change_no_twin() -> None:
    plain = draw_twins(ONE_GRAIN, TwinHabit(), np.random.default_rng(6))
    same = replace(TwinHabit(), shaped_end_fraction=0.0, thin_fraction=0.0)
    again = draw_twins(ONE_GRAIN, same, np.random.default_rng(6))
    assert np.array_equal(plain.labels, again.labels)


def test_shaped_ends_are_narrower_than_cut_ones() -> None:
    ending = replace(
        PLAIN, ending_fraction=1.0, stepped_fraction=0.0, mean_lamellae=1.0
    )
    shaped = replace(ending, shaped_end_fraction=1.0)
    areas = []
    for habit in (ending, shaped):
        drawn = [
            draw_twins(ONE_GRAIN, habit, np.random.default_rng(seed)).labels > 0
            for seed in range(40)
        ]
        areas.append(np.mean(drawn))
    # The same lamellae but for their ends.
    assert 0.7 * areas[0] < areas[1] < 0.97 * areas[0]


def test_thin_lamellae_are_two_to_four_pixels() -> None:
    thin = replace(PLAIN, thin_fraction=1.0, mean_lamellae=1.0)
    thicknesses = []
    for seed in range(30):
        twins = draw_twins(ONE_GRAIN, thin, np.random.default_rng(seed))
        inside = twins.labels == 1
        if not inside.any():
            continue
        y, x = np.nonzero(inside)
        spread = np.linalg.eigvalsh(np.cov(np.stack((y, x)).astype(float)))
        # A strip of width w has the variance w^2 / 12 across.
        thicknesses.append(float(np.sqrt(12 * spread[0])))
    assert len(thicknesses) >= 25
    assert min(thicknesses) > 1.5
    assert max(thicknesses) < 4.5


def test_all_steps_or_none_follow_the_share() -> None:
    def share_stepped(fraction: float) -> float:
        habit = replace(PLAIN, stepped_fraction=fraction, mean_lamellae=1.0)
        stepped = []
        for seed in range(20):
            twins = draw_twins(ONE_GRAIN, habit, np.random.default_rng(seed))
            inside = twins.labels == 1
            if inside.sum() >= 2000:
                stepped.append(max(side_residuals(inside)[:2]) > 1.0)
        return float(np.mean(stepped))

    assert share_stepped(0.0) == 0
    assert share_stepped(1.0) > 0.6
