"""How straight each border runs, which way, and where it ends."""

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from strandproof.micrograph.borders import Borders

Integers = npt.NDArray[np.int64]
Floats = npt.NDArray[np.float64]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Moments:
    """Number, sums and sums of squares of points, for many sets of points.

    Parameters
    ----------
    sums : ndarray of float64, shape (n_sets, 6)
        1, row, column, row^2, column^2, row x column, summed over each set.
    """

    sums: Floats

    def centres(self) -> Floats:
        """Mean row and column [px].

        Returns
        -------
        ndarray of float64, shape (n_sets, 2)
            The centres.
        """
        return self.sums[:, 1:3] / self._count()[:, None]

    def spreads(self) -> tuple[Floats, Floats, Floats]:
        """Variance along and across the best straight line, and its direction.

        Returns
        -------
        along, across : ndarray of float64, shape (n_sets,)
            Variances [px^2].
        direction : ndarray of float64, shape (n_sets, 2)
            Unit vector (row, column) of the line.
        """
        rows, cols, mixed = self.covariances()
        middle, half = (rows + cols) / 2, np.hypot((rows - cols) / 2, mixed)
        turn = np.arctan2(2 * mixed, cols - rows) / 2
        direction = np.stack([np.sin(turn), np.cos(turn)], axis=1)
        return middle + half, np.maximum(middle - half, 0), direction

    def covariances(self) -> tuple[Floats, Floats, Floats]:
        """Variance of rows, of columns, and covariance [px^2].

        Returns
        -------
        rows, cols, mixed : ndarray of float64, shape (n_sets,)
            The three numbers of each set.
        """
        count, centre = self._count(), self.centres()
        rows = self.sums[:, 3] / count - centre[:, 0] ** 2
        cols = self.sums[:, 4] / count - centre[:, 1] ** 2
        return rows, cols, self.sums[:, 5] / count - centre[:, 0] * centre[:, 1]

    def _count(self) -> Floats:
        return np.maximum(self.sums[:, 0], 1)


def moments_of(points: Floats, sets: Integers, n_sets: int) -> Moments:
    """Moments of sets of points.

    Parameters
    ----------
    points : ndarray of float64, shape (n_points, 2)
        Row and column [px].
    sets : ndarray of int64, shape (n_points,)
        Number of the set each point belongs to, below `n_sets`.
    n_sets : int
        Number of sets.

    Returns
    -------
    Moments
        One row per set.
    """
    rows, cols = points[:, 0], points[:, 1]
    terms = (None, rows, cols, rows**2, cols**2, rows * cols)
    sums = [np.bincount(sets, weights=term, minlength=n_sets) for term in terms]
    return Moments(sums=np.stack(sums, axis=1).astype(np.float64))


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class BorderLines:
    """Best straight line through each border.

    Parameters
    ----------
    moments : Moments
        Of the middles of each border's pixel pairs.
    direction : ndarray of float64, shape (n_borders, 2)
        Unit vector (row, column).
    roughness : ndarray of float64, shape (n_borders,)
        Root mean square distance from the line [px]; a straight line on the
        pixel grid has about 0.3.
    ends : ndarray of float64, shape (n_borders, 2, 2)
        Row and column of the two outermost points, projected on the line [px].
    """

    moments: Moments
    direction: Floats
    roughness: Floats
    ends: Floats

    @property
    def extent(self) -> Floats:
        """Distance of the two ends [px]."""
        extent: Floats = np.hypot(*(self.ends[:, 1] - self.ends[:, 0]).T)
        return extent


def pair_middles(borders: Borders, n_cols: int) -> Floats:
    """Points midway between the two pixels of each pair.

    Parameters
    ----------
    borders : Borders
        The borders.
    n_cols : int
        Width of the picture [px].

    Returns
    -------
    ndarray of float64, shape (n_pairs, 2)
        Row and column [px].
    """
    rows = (borders.pixel // n_cols + borders.neighbour // n_cols) / 2
    cols = (borders.pixel % n_cols + borders.neighbour % n_cols) / 2
    return np.stack([rows, cols], axis=1)


def border_lines(borders: Borders, n_cols: int) -> BorderLines:
    """Fit a straight line to each border.

    Parameters
    ----------
    borders : Borders
        The borders.
    n_cols : int
        Width of the picture [px].

    Returns
    -------
    BorderLines
        In the order of the borders.
    """
    points, sets = pair_middles(borders, n_cols), borders.border_of_pair
    moments = moments_of(points, sets, borders.first.size)
    _, across, direction = moments.spreads()
    centres = moments.centres()
    along = ((points - centres[sets]) * direction[sets]).sum(axis=1)
    low, high = np.zeros(across.size), np.zeros(across.size)
    np.minimum.at(low, sets, along)
    np.maximum.at(high, sets, along)
    ends = [centres + end[:, None] * direction for end in (low, high)]
    return BorderLines(
        moments=moments,
        direction=direction,
        roughness=np.sqrt(across),
        ends=np.stack(ends, axis=1),
    )
