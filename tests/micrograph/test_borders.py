"""Pixel pairs between regions, counted by hand and against closed forms."""

import numpy as np
import numpy.typing as npt
import pytest

from strandproof.micrograph.borders import Borders, borders_of

Labels = npt.NDArray[np.int32]


def by_regions(borders: Borders) -> dict[tuple[int, int], int]:
    keys = zip(borders.first.tolist(), borders.second.tolist(), strict=True)
    return dict(zip(keys, borders.lengths.astype(int).tolist(), strict=True))


def mosaic() -> Labels:
    return np.random.default_rng(5).integers(0, 6, (23, 31)).astype(np.int32)


def test_a_plane_of_four_pixels_has_four_pairs() -> None:
    borders = borders_of(np.array([[1, 2], [3, 1]], np.int32))
    assert by_regions(borders) == {(1, 2): 2, (1, 3): 2}
    # first the pairs one above the other, then those side by side
    assert borders.pixel.tolist() == [0, 1, 0, 2]
    assert borders.neighbour.tolist() == [2, 3, 1, 3]


def test_regions_that_touch_at_a_corner_share_no_border() -> None:
    assert by_regions(borders_of(np.array([[1, 0], [0, 2]], np.int32))) == {}


@pytest.mark.parametrize("shape", [(0, 0), (1, 1), (1, 5), (5, 1), (4, 4)])
def test_one_region_has_no_border(shape: tuple[int, int]) -> None:
    borders = borders_of(np.ones(shape, np.int32))
    assert (borders.first.size, borders.pixel.size, borders.lengths.size) == (0, 0, 0)


def test_every_pair_lies_in_the_two_regions_of_its_border() -> None:
    labels = mosaic()
    borders = borders_of(labels)
    pairs = np.stack([labels.flat[borders.pixel], labels.flat[borders.neighbour]])
    assert np.array_equal(pairs.min(axis=0), borders.first[borders.border_of_pair])
    assert np.array_equal(pairs.max(axis=0), borders.second[borders.border_of_pair])
    assert (borders.first < borders.second).all()
    assert (borders.first > 0).all()


def test_borders_are_sorted_and_each_is_named_once() -> None:
    borders = borders_of(mosaic())
    pairs = list(zip(borders.first.tolist(), borders.second.tolist(), strict=True))
    assert pairs == sorted(set(pairs))


def test_mirrored_and_turned_planes_have_the_same_borders() -> None:
    labels = mosaic()
    expected = by_regions(borders_of(labels))
    for seen in (labels[:, ::-1], labels[::-1], labels.T, np.rot90(labels)):
        assert by_regions(borders_of(seen.copy())) == expected


def test_large_region_numbers_do_not_overflow() -> None:
    most = np.iinfo(np.int32).max - 1
    labels = np.array([[most - 1, most]], np.int32)
    assert by_regions(borders_of(labels)) == {(most - 1, most): 1}


def test_pairs_around_a_disc_are_eight_radii() -> None:
    """A convex outline has as many pairs as its bounding box has sides."""
    rows, cols = np.indices((101, 101)) - 50
    labels = 1 + (np.hypot(rows, cols) <= 40).astype(np.int32)
    assert by_regions(borders_of(labels)) == {(1, 2): 4 * 81}


def test_sums_of_ones_are_the_lengths_and_a_number_goes_to_its_border() -> None:
    borders = borders_of(mosaic())
    ones = np.ones(borders.pixel.size)
    assert np.array_equal(borders.sums(ones), borders.lengths)
    one_pair = np.zeros(borders.pixel.size)
    one_pair[7] = 2.5
    sums = borders.sums(one_pair)
    assert np.flatnonzero(sums).tolist() == [borders.border_of_pair[7]]
    assert sums.sum() == 2.5
