from collections.abc import Callable
from dataclasses import replace
from typing import Any

import numpy as np
import numpy.typing as npt
import pytest

from strandproof.errors import ParameterError
from strandproof.grainsize.patch import metal_patch, strand_patches

Labels = npt.NDArray[np.int32]


def test_boundary_pixels_go_to_the_nearest_grain() -> None:
    labels = np.array([[1, 1, 0, 0, 0, 2, 2]], np.int32)
    patch = metal_patch(labels, np.ones((1, 7), np.bool_))
    assert patch.labels[0, [2, 4]].tolist() == [1, 2]
    assert patch.grains == 2


def test_grains_of_another_strand_are_not_taken() -> None:
    labels = np.array([[1, 0, 0, 5]], np.int32)
    metal = np.array([[True, True, True, False]])
    assert metal_patch(labels, metal).labels.tolist() == [[1, 1, 1, 0]]


def test_metal_without_a_grain_keeps_the_label_zero() -> None:
    patch = metal_patch(np.zeros((3, 3), np.int32), np.ones((3, 3), np.bool_))
    assert patch.grains == 0
    assert not patch.labels.any()


@pytest.mark.parametrize(
    "metal", [np.ones((2, 3), np.bool_), np.ones(4, np.bool_)], ids=["size", "axes"]
)
def test_labels_and_metal_must_fit(metal: npt.NDArray[np.bool_]) -> None:
    with pytest.raises(ParameterError, match="two arrays of one shape"):
        metal_patch(np.ones((2, 2), np.int32), metal)


def test_negative_labels_are_refused() -> None:
    with pytest.raises(ParameterError, match="labels of 0 or above"):
        metal_patch(np.array([[-1]], np.int32), np.ones((1, 1), np.bool_))


def test_a_strand_is_cut_out_with_a_rim(one_strand: Callable[..., Any]) -> None:
    metal = np.zeros((20, 30), np.bool_)
    metal[5:10, :8] = True
    labels = np.where(metal, 3, 0).astype(np.int32)
    (patch,) = strand_patches(one_strand(labels, metal=metal, shape="piece"))
    # A rim above, below and at the right; the frame of the picture at the left.
    assert patch.corner_px == (4, 0)
    assert patch.metal.shape == (7, 9)
    assert patch.metal[1:-1, :-1].all()
    assert np.count_nonzero(patch.metal) == 40


def test_a_strand_that_is_not_in_the_labels_is_refused(
    one_strand: Callable[..., Any],
) -> None:
    structure = one_strand(np.ones((4, 4), np.int32))
    strand = replace(structure.strands[0], number=2)
    with pytest.raises(ParameterError, match="a number that strand_labels contains"):
        strand_patches(replace(structure, strands=(strand,)))
