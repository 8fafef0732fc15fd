"""Curvature smoothing of a label plane and its enlargement to the picture's grid.

Each round blurs the grains' indicator functions and gives every point to the
strongest: threshold dynamics, which moves boundaries by their curvature and
draws triple junctions towards 120 degrees [1]_. Grains share a small number of
colours, so that a few planes stand for thousands of grains.

References
----------
.. [1] B. Merriman, J. K. Bence, S. J. Osher, "Motion of multiple junctions: a
   level set approach", J. Comput. Phys. 112 (1994) 334-363 (from memory).
"""

import numpy as np
import numpy.typing as npt
from scipy import ndimage

from strandproof.micrograph.render.noise import FloatPlane, spline_rows, spread_knots

LabelPlane = npt.NDArray[np.int32]

_APART = 3  # working pixels: nearer grains never share a colour
_BLUR = 1.2  # working pixels
_SEARCH = sorted(
    ((y, x) for y in range(-3, 4) for x in range(-3, 4) if (y, x) != (0, 0)),
    key=lambda step: (step[0] ** 2 + step[1] ** 2, step),
)


def colour_grains(labels: LabelPlane) -> npt.NDArray[np.int8]:
    """Give each grain (labels 0..n-1) a colour that no near neighbour has."""
    first, second = _neighbour_pairs(labels)
    n_grains = int(labels.max()) + 1
    starts = np.searchsorted(first, np.arange(n_grains + 1))
    colours = [-1] * n_grains
    neighbours = second.tolist()
    for grain in range(n_grains):
        taken = {colours[k] for k in neighbours[starts[grain] : starts[grain + 1]]}
        colour = 0
        while colour in taken:
            colour += 1
        colours[grain] = colour
    return np.array(colours, np.int8)


def _neighbour_pairs(
    labels: LabelPlane,
) -> tuple[npt.NDArray[np.int64], npt.NDArray[np.int64]]:
    steps = [(0, k) for k in range(1, _APART + 1)]
    steps += [(k, 0) for k in range(1, _APART + 1)]
    steps += [(2, 2), (2, -2), (1, 1), (1, -1)]
    codes = []
    n_grains = int(labels.max()) + 1
    for down, right in steps:
        here, there = _shifted_pair(labels, down, right)
        differ = here != there
        here64, there64 = here[differ].astype(np.int64), there[differ].astype(np.int64)
        codes += [here64 * n_grains + there64, there64 * n_grains + here64]
    pairs = np.unique(np.concatenate(codes))
    return pairs // n_grains, pairs % n_grains


def _shifted_pair(
    labels: LabelPlane, down: int, right: int
) -> tuple[LabelPlane, LabelPlane]:
    n_rows, n_cols = labels.shape
    left = max(0, -right)
    here = labels[: n_rows - down, left : n_cols - max(0, right)]
    there = labels[down:, left + right : n_cols + min(0, right)]
    return here, there


class RelaxedGrains:
    """Grains on a coarse working grid, smoothed, ready to be read off finely.

    Parameters
    ----------
    labels : ndarray of int32, shape (n_rows, n_cols)
        Grain numbers from 0 on the working grid.
    metal : ndarray of bool, shape (n_rows, n_cols)
        Where there is metal; boundaries meet its edge at right angles.
    rounds : int
        Rounds of smoothing.
    """

    def __init__(
        self, labels: LabelPlane, metal: npt.NDArray[np.bool_], *, rounds: int
    ) -> None:
        self._colour_of = colour_grains(labels)
        self._labels = labels
        for _ in range(rounds):
            shares = _blurred_shares(self._colours(), metal)
            self._labels = _follow(self._labels, self._colour_of, shares.argmax(axis=0))
        self._shares = _blurred_shares(self._colours(), metal)

    def _colours(self) -> npt.NDArray[np.int8]:
        return self._colour_of[self._labels]

    def read(
        self, rows: npt.NDArray[np.float64], columns: npt.NDArray[np.float64]
    ) -> LabelPlane:
        """Labels on a finer grid given by working coordinates of rows and columns."""
        n_rows, n_cols = self._labels.shape
        weights = spline_rows(rows, n_rows), spline_rows(columns, n_cols)
        best = spread_knots(self._shares[0], *weights)
        winner = np.zeros(best.shape, np.int8)
        for colour in range(1, len(self._shares)):
            share = spread_knots(self._shares[colour], *weights)
            better = share > best
            winner[better] = colour
            np.maximum(best, share, out=best)
        near = np.ix_(_nearest(rows, n_rows), _nearest(columns, n_cols))
        return self._resolve(winner, rows, columns, self._labels[near])

    def _resolve(
        self,
        winner: npt.NDArray[np.int8],
        rows: npt.NDArray[np.float64],
        columns: npt.NDArray[np.float64],
        guess: LabelPlane,
    ) -> LabelPlane:
        """Turn colours back into grains: the nearest grain of the winning colour."""
        open_y, open_x = np.nonzero(self._colour_of[guess] != winner)
        n_rows, n_cols = self._labels.shape
        base_y = _nearest(rows, n_rows)[open_y]
        base_x = _nearest(columns, n_cols)[open_x]
        found = _search(
            self._labels, self._colour_of, (base_y, base_x), winner[open_y, open_x]
        )
        known = found >= 0
        guess[open_y[known], open_x[known]] = found[known]
        return guess


def _nearest(positions: npt.NDArray[np.float64], n: int) -> npt.NDArray[np.int64]:
    return np.clip(np.rint(positions), 0, n - 1).astype(np.int64)


def _blurred_shares(
    colours: npt.NDArray[np.int8], metal: npt.NDArray[np.bool_]
) -> FloatPlane:
    n_colours = int(colours.max()) + 1
    shares = np.empty((n_colours, *colours.shape), np.float32)
    for colour in range(n_colours):
        plane = ((colours == colour) & metal).astype(np.float32)
        ndimage.gaussian_filter(plane, _BLUR, output=shares[colour], truncate=3.0)
    return shares


def _follow(
    labels: LabelPlane, colour_of: npt.NDArray[np.int8], winner: npt.NDArray[np.int64]
) -> LabelPlane:
    moved_y, moved_x = np.nonzero(colour_of[labels] != winner)
    found = _search(labels, colour_of, (moved_y, moved_x), winner[moved_y, moved_x])
    known = found >= 0
    followed = labels.copy()
    followed[moved_y[known], moved_x[known]] = found[known]
    return followed


def _search(
    labels: LabelPlane,
    colour_of: npt.NDArray[np.int8],
    places: tuple[npt.NDArray[np.int64], npt.NDArray[np.int64]],
    wanted: npt.NDArray[np.integer],
) -> LabelPlane:
    """Nearest label with the wanted colour around each place; -1 where none is."""
    n_rows, n_cols = labels.shape
    found = np.full(wanted.size, -1, np.int32)
    open_ = np.arange(wanted.size)
    for down, right in _SEARCH:
        y = np.clip(places[0][open_] + down, 0, n_rows - 1)
        x = np.clip(places[1][open_] + right, 0, n_cols - 1)
        label = labels[y, x]
        hit = colour_of[label] == wanted[open_]
        found[open_[hit]] = label[hit]
        open_ = open_[~hit]
        if open_.size == 0:
            break
    return found
