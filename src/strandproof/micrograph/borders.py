"""Which regions touch, along which pixels."""

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

Labels = npt.NDArray[np.int32]
Integers = npt.NDArray[np.int64]
Floats = npt.NDArray[np.float64]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Borders:
    """Borders between regions of a label plane, and the pixel pairs they run in.

    A pair is two pixels side by side (or one above the other) in two regions.

    Parameters
    ----------
    first, second : ndarray of int64, shape (n_borders,)
        The two regions of each border, `first` < `second`.
    border_of_pair : ndarray of int64, shape (n_pairs,)
        Index of the border that a pair belongs to.
    pixel, neighbour : ndarray of int64, shape (n_pairs,)
        Flat indices of the two pixels of each pair.
    """

    first: Integers
    second: Integers
    border_of_pair: Integers
    pixel: Integers
    neighbour: Integers

    @property
    def lengths(self) -> Floats:
        """Number of pairs of each border [px], about 4/pi times its length."""
        count = np.bincount(self.border_of_pair, minlength=self.first.size)
        return count.astype(np.float64)

    def sums(self, per_pair: Floats) -> Floats:
        """Sum of a number per pair over each border.

        Parameters
        ----------
        per_pair : ndarray of float, shape (n_pairs,)
            The numbers.

        Returns
        -------
        ndarray of float64, shape (n_borders,)
            The sums.
        """
        sums = np.bincount(
            self.border_of_pair, weights=per_pair, minlength=self.first.size
        )
        return sums.astype(np.float64, copy=False)


def borders_of(labels: Labels) -> Borders:
    """Find all borders between regions of a label plane.

    Parameters
    ----------
    labels : ndarray of int32, shape (n_rows, n_cols)
        0 is no region and has no borders.

    Returns
    -------
    Borders
        Sorted by `first`, then `second`.
    """
    parts = [_pairs(labels, axis) for axis in (0, 1)]
    pixel = np.concatenate([part[0] for part in parts])
    neighbour = np.concatenate([part[1] for part in parts])
    one, other = labels.ravel()[pixel], labels.ravel()[neighbour]
    base = np.int64(labels.max(initial=0)) + 1
    key = np.minimum(one, other) * base + np.maximum(one, other)
    unique, border_of_pair = np.unique(key, return_inverse=True)
    return Borders(
        first=unique // base,
        second=unique % base,
        border_of_pair=border_of_pair.astype(np.int64, copy=False),
        pixel=pixel,
        neighbour=neighbour,
    )


def _pairs(labels: Labels, axis: int) -> tuple[Integers, Integers]:
    before = labels[:-1] if axis == 0 else labels[:, :-1]
    after = labels[1:] if axis == 0 else labels[:, 1:]
    differ = (before != after) & (before > 0) & (after > 0)
    rows, cols = np.nonzero(differ)
    pixel = rows * labels.shape[1] + cols
    return pixel, pixel + (labels.shape[1] if axis == 0 else 1)
