"""One piece of metal cut out of a picture, so that work is done on it alone."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt
from scipy import ndimage

from strandproof.errors import ParameterError
from strandproof.records import LabelledStructure, Strand


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class MetalPatch:
    """Labels of one piece of metal, with a rim of one pixel inside the picture.

    Because of the rim, metal reaches the border of the patch only where the
    patch ends at the frame of the picture.

    Parameters
    ----------
    labels : ndarray of int, shape (n_rows, n_cols)
        Number of the grain that each pixel of metal belongs to or, on a
        boundary, lies nearest to; 0 outside of the metal.
    metal : ndarray of bool, shape (n_rows, n_cols)
        True on this piece of metal, boundaries included.
    corner_px : tuple of int
        Row and column of the patch's first pixel in the picture [px].
    """

    labels: npt.NDArray[np.integer]
    metal: npt.NDArray[np.bool_]
    corner_px: tuple[int, int]

    @property
    def grains(self) -> int:
        """Number of different grains on this piece of metal."""
        numbers = np.bincount(self.labels.ravel())
        return int(np.count_nonzero(numbers[1:]))


def metal_patch(
    grain_labels: npt.NDArray[np.integer],
    metal: npt.NDArray[np.bool_],
    *,
    corner_px: tuple[int, int] = (0, 0),
) -> MetalPatch:
    """Patch of one piece of metal out of labels with drawn boundaries.

    Boundary pixels (label 0) are given to the nearest grain of the same piece,
    so that the width to which a boundary was drawn counts for nothing. Metal
    without any grain keeps the label 0.

    Parameters
    ----------
    grain_labels : ndarray of int, shape (n_rows, n_cols)
        Grain labels, 0 or above; 0 on boundaries.
    metal : ndarray of bool, shape (n_rows, n_cols)
        True on the piece of metal, boundaries included.
    corner_px : tuple of int
        Row and column of the first pixel in the picture [px].

    Returns
    -------
    MetalPatch
        The patch.

    Raises
    ------
    ParameterError
        If the arrays are not two-dimensional and of one shape, or a label is
        negative.

    Notes
    -----
    Passing over the boundary pixels instead would lose every chord shorter than
    the drawn width: on synthetic Poisson-Voronoi structures the mean intercept
    then comes out too long by 0.5 to 0.9 times that width.
    """
    require_labels(grain_labels, metal)
    labels = np.where(metal, grain_labels, 0)
    unlabelled = labels == 0
    if not unlabelled.all():
        nearest = ndimage.distance_transform_edt(
            unlabelled, return_distances=False, return_indices=True
        )
        labels = np.where(metal, labels[tuple(nearest)], 0)
    return MetalPatch(labels=labels, metal=metal, corner_px=corner_px)


def require_labels(
    grain_labels: npt.NDArray[np.integer], mask: npt.NDArray[np.bool_]
) -> None:
    """Refuse labels and a mask that do not belong together.

    Parameters
    ----------
    grain_labels : ndarray of int, shape (n_rows, n_cols)
        Grain labels.
    mask : ndarray of bool, shape (n_rows, n_cols)
        Metal, or the part of it that is counted.

    Raises
    ------
    ParameterError
        If they are not two-dimensional and of one shape, or a label is negative.
    """
    if grain_labels.ndim != 2 or grain_labels.shape != mask.shape:
        raise ParameterError(
            "grain_labels and mask",
            (grain_labels.shape, mask.shape),
            allowed="two arrays of one shape (n_rows, n_cols)",
        )
    if grain_labels.size and grain_labels.min() < 0:
        raise ParameterError(
            "grain_labels", int(grain_labels.min()), allowed="labels of 0 or above"
        )


def strand_patches(structure: LabelledStructure) -> tuple[MetalPatch, ...]:
    """Cut every strand of a structure out of its picture.

    Parameters
    ----------
    structure : LabelledStructure
        Labels of a picture.

    Returns
    -------
    tuple of MetalPatch
        One per strand, in the order of ``structure.strands``.

    Raises
    ------
    ParameterError
        If the arrays differ in shape, a label is negative, or a strand has no
        pixel.
    """
    require_labels(structure.grain_labels, structure.strand_labels > 0)
    boxes = ndimage.find_objects(structure.strand_labels)
    return tuple(
        _strand_patch(structure, strand, boxes) for strand in structure.strands
    )


def _strand_patch(
    structure: LabelledStructure,
    strand: Strand,
    boxes: Sequence[tuple[slice, ...] | None],
) -> MetalPatch:
    box = boxes[strand.number - 1] if 0 < strand.number <= len(boxes) else None
    if box is None:
        raise ParameterError(
            "strand number",
            strand.number,
            allowed="a number that strand_labels contains",
            remedy="Make strands and strand_labels from the same segmentation.",
        )
    rows, cols = (slice(max(0, part.start - 1), part.stop + 1) for part in box)
    return metal_patch(
        structure.grain_labels[rows, cols],
        structure.strand_labels[rows, cols] == strand.number,
        corner_px=(rows.start, cols.start),
    )
