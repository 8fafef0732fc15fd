"""Counting, renumbering and growing of label planes."""

import numpy as np

from strandproof.micrograph.learned.counting import (
    areas_of,
    grown_into,
    owners_of,
    renumbered,
)

LABELS = np.random.default_rng(2).integers(0, 9, (600, 31)).astype(np.int32)


def test_areas_are_those_of_a_plain_count() -> None:
    expected = np.bincount(LABELS.ravel(), minlength=12)
    assert np.array_equal(areas_of(LABELS, 11), expected)


def test_each_label_has_its_surrounding() -> None:
    surrounding = (LABELS + 1) // 2
    assert owners_of(LABELS, surrounding.astype(np.int32), 9).tolist() == [
        *(0, 1, 1, 2, 2, 3, 3, 4, 4),
        0,
    ]


def test_renumbered_by_hand() -> None:
    assert renumbered(
        np.array([[0, 2], [1, 2]], np.int32), np.array([0, 7, 3])
    ).tolist() == [[0, 3], [7, 3]]


def test_labels_meet_half_way_and_stop_at_the_mask() -> None:
    labels = np.zeros((5, 12), np.int32)
    labels[:, 0], labels[:, 11] = 1, 2
    mask = np.ones((5, 12), np.bool_)
    mask[2] = False
    grown = grown_into(labels, mask)
    assert grown[0].tolist() == [1] * 6 + [2] * 6
    assert grown[2].tolist() == [1] + [0] * 10 + [2]
    assert labels[0, 1] == 0


def test_what_no_label_reaches_stays_free() -> None:
    labels = np.zeros((6, 6), np.int32)
    labels[0, 0] = 4
    mask = np.zeros((6, 6), np.bool_)
    mask[0, :3] = mask[4, 4] = True
    grown = grown_into(labels, mask)
    assert grown[0].tolist() == [4, 4, 4, 0, 0, 0]
    assert grown[4, 4] == 0
