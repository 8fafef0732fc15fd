"""How far two sets of boundaries agree, pixel by pixel."""

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt
from scipy import ndimage

from strandproof.errors import ParameterError

Mask = npt.NDArray[np.bool_]
Labels = npt.NDArray[np.integer]


@dataclass(frozen=True, slots=True, kw_only=True)
class BoundaryAgreement:
    """Agreement of found boundaries with reference boundaries.

    Parameters
    ----------
    precision : float
        Share of the found boundary pixels with a reference pixel in reach; 1
        where nothing was found.
    recall : float
        Share of the reference pixels with a found pixel in reach; 1 where the
        reference has none.
    f1 : float
        Harmonic mean of both.
    tolerance_px : float
        The reach [px].
    """

    precision: float
    recall: float
    f1: float
    tolerance_px: float


def boundary_agreement(
    found: Mask, reference: Mask, *, tolerance_px: float
) -> BoundaryAgreement:
    """Compare two boundary masks at a pixel tolerance.

    Parameters
    ----------
    found, reference : ndarray of bool, shape (n_rows, n_cols)
        True on a boundary; lines about one pixel wide.
    tolerance_px : float
        A pixel agrees if the other mask has a pixel within this distance [px],
        0 or above.

    Returns
    -------
    BoundaryAgreement
        Precision, recall, F1.

    Raises
    ------
    ParameterError
        If the shapes differ, or the tolerance is negative or no number.

    Notes
    -----
    P = share of found pixels within reach, R = share of reference pixels within
    reach, F1 = 2 P R / (P + R) (van Rijsbergen 1979, from memory), distances by
    the Euclidean distance transform. One pixel may serve several others, so
    thick or doubled lines are not punished.

    Examples
    --------
    >>> line = np.zeros((5, 9), np.bool_)
    >>> line[2] = True
    >>> boundary_agreement(np.roll(line, 1, 0), line, tolerance_px=1.0).f1
    1.0
    """
    if found.shape != reference.shape:
        raise ParameterError(
            "found", f"a mask of shape {found.shape}", allowed=f"{reference.shape}"
        )
    if not tolerance_px >= 0:
        raise ParameterError("tolerance_px", tolerance_px, allowed="0 or above")
    precision = _share_in_reach(found, reference, tolerance_px)
    recall = _share_in_reach(reference, found, tolerance_px)
    total = precision + recall
    return BoundaryAgreement(
        precision=precision,
        recall=recall,
        f1=2 * precision * recall / total if total else 0.0,
        tolerance_px=tolerance_px,
    )


def label_changes(labels: Labels) -> Mask:
    """Boundaries of a label plane without boundary pixels: change of label.

    Parameters
    ----------
    labels : ndarray of int, shape (n_rows, n_cols)
        One number per grain.

    Returns
    -------
    ndarray of bool, shape (n_rows, n_cols)
        True where the right or the lower neighbour has another label.
    """
    changes = np.zeros(labels.shape, np.bool_)
    changes[:, :-1] = labels[:, :-1] != labels[:, 1:]
    changes[:-1] |= labels[:-1] != labels[1:]
    return changes


def without_boundary_pixels(labels: Labels) -> Labels:
    """Give each boundary pixel (label 0) to the nearest grain.

    Parameters
    ----------
    labels : ndarray of int, shape (n_rows, n_cols)
        Grain labels; 0 is a boundary or no metal.

    Returns
    -------
    ndarray of int, shape (n_rows, n_cols)
        Labels without 0, unless there is nothing else.
    """
    empty = labels == 0
    if empty.all():
        return labels
    nearest = ndimage.distance_transform_edt(
        empty, return_distances=False, return_indices=True
    )
    filled: Labels = labels[tuple(nearest)]
    return filled


def _share_in_reach(of: Mask, to: Mask, tolerance_px: float) -> float:
    if not of.any():
        return 1.0
    if not to.any():
        return 0.0
    distance = ndimage.distance_transform_edt(~to)
    return float((distance[of] <= tolerance_px).mean())
