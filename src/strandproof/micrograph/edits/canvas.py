"""The label planes while edits are applied, and the operations they share."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, fields

import numpy as np
import numpy.typing as npt
from scipy import ndimage

Labels = npt.NDArray[np.int32]
Mask = npt.NDArray[np.bool_]
Integers = npt.NDArray[np.int64]
Place = tuple[int, int]
Places = Sequence[tuple[slice, ...] | None]

LEAST_PIECE_PX = 9
"""A smaller piece cut off a grain is part of the drawn line [px^2]."""


_MARGIN_PX = 8
_ROUNDS = 4


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Canvas:
    """Labels of a picture between two edits.

    Parameters
    ----------
    grains, strands : ndarray of int32, shape (n_rows, n_cols)
        Labels, those under excluded areas kept.
    hidden : ndarray of bool, shape (n_rows, n_cols)
        Where nothing can be told.
    unseen : ndarray of bool, shape (n_rows, n_cols)
        The part of `hidden` that the method gave no labels.
    twins : ndarray of bool, shape (n_rows, n_cols)
        Sides of twins.
    drawn : ndarray of bool, shape (n_rows, n_cols)
        Lines that a person drew.
    """

    grains: Labels
    strands: Labels
    hidden: Mask
    unseen: Mask
    twins: Mask
    drawn: Mask

    @property
    def seen_grains(self) -> Labels:
        """Grains without what is hidden, shape (n_rows, n_cols)."""
        return np.where(self.hidden, 0, self.grains).astype(np.int32)

    @property
    def seen_strands(self) -> Labels:
        """Strands without what is hidden, shape (n_rows, n_cols)."""
        return np.where(self.hidden, 0, self.strands).astype(np.int32)


@dataclass(frozen=True, slots=True, kw_only=True)
class Window:
    """A part of the picture in which an edit is done.

    Parameters
    ----------
    place : tuple of slice
        Rows and columns.
    highest : int
        Highest grain number of the whole picture.
    """

    place: tuple[slice, slice]
    highest: int

    def cut_out(self, canvas: Canvas) -> Canvas:
        """Cut the window out of all planes.

        Parameters
        ----------
        canvas : Canvas
            The whole picture.

        Returns
        -------
        Canvas
            Its part; the planes are views.
        """
        return Canvas(
            **{each.name: getattr(canvas, each.name)[self.place] for each in _PLANES}
        )

    def put_back(self, part: Canvas, canvas: Canvas, *, known: int) -> Canvas:
        """Put a changed window back.

        Parameters
        ----------
        part : Canvas
            The window; grain numbers above `known` are new.
        canvas : Canvas
            The whole picture.
        known : int
            Highest grain number in the window before it was changed.

        Returns
        -------
        Canvas
            The whole picture; new grains have numbers above all others.
        """
        planes = {each.name: getattr(canvas, each.name).copy() for each in _PLANES}
        for name, plane in planes.items():
            plane[self.place] = getattr(part, name)
        grains = planes["grains"][self.place]
        grains[grains > known] += self.highest - known
        return Canvas(**planes)


_PLANES = fields(Canvas)


def window_around(grains: Labels, low: Place, high: Place) -> Window:
    """Give the window with all grains near a box whole.

    Parameters
    ----------
    grains : ndarray of int32, shape (n_rows, n_cols)
        Grains of the whole picture.
    low, high : tuple of int
        First and last row and column of the box [px].

    Returns
    -------
    Window
        The box, the grains within 8 px of it, and 8 px around both.
    """
    near = _margined(tuple(slice(*each) for each in zip(low, high, strict=True)))
    places: Places = ndimage.find_objects(grains)
    numbers = np.unique(grains[near])
    boxes = [near, *(places[each - 1] for each in numbers.tolist() if each)]
    ends = np.array(
        [[(side.start, side.stop) for side in box] for box in boxes if box is not None]
    )
    first, last = ends[..., 0].min(axis=0), ends[..., 1].max(axis=0)
    rows, cols = (slice(int(a), int(b)) for a, b in zip(first, last, strict=True))
    return Window(place=_margined((rows, cols)), highest=len(places))


def _margined(place: tuple[slice, ...]) -> tuple[slice, slice]:
    # More than the reach of a stroke: the window's rim must not look like a frame.
    rows, cols = (
        slice(max(part.start - _MARGIN_PX, 0), part.stop + _MARGIN_PX) for part in place
    )
    return rows, cols


def filled(grains: Labels, strands: Labels) -> Labels:
    """Give boundary pixels to a nearest grain of the same strand.

    Parameters
    ----------
    grains, strands : ndarray of int32, shape (n_rows, n_cols)
        Labels; 0 on boundaries and off the metal.

    Returns
    -------
    ndarray of int32, shape (n_rows, n_cols)
        0 off the metal, and on strands without any grain.
    """
    full, waiting = grains.copy(), np.flatnonzero((grains == 0) & (strands > 0))
    # Lines are thin: a few rounds of one pixel fill nearly all, at little cost.
    for _ in range(_ROUNDS):
        if waiting.size == 0:
            return full
        found = _label_beside(waiting, full, strands)
        full.ravel()[waiting] = found
        waiting = waiting[found == 0]
    return _filled_from_afar(full, strands) if waiting.size else full


def _label_beside(place: Integers, full: Labels, strands: Labels) -> Labels:
    """Label of a side neighbour in the same strand for each flat place; else 0."""
    n_rows, n_cols = full.shape
    rows, cols = np.divmod(place, n_cols)
    found = np.zeros(place.size, np.int32)
    for down, right in ((0, 1), (1, 0), (0, -1), (-1, 0)):
        row = np.clip(rows + down, 0, n_rows - 1)
        col = np.clip(cols + right, 0, n_cols - 1)
        same = (strands[row, col] == strands[rows, cols]) & (found == 0)
        found[same] = full[row, col][same]
    return found


def _filled_from_afar(grains: Labels, strands: Labels) -> Labels:
    full = grains.copy()
    places: Places = ndimage.find_objects(strands)
    for number, place in enumerate(places, start=1):
        if place is None:
            continue
        own = strands[place] == number
        known = own & (grains[place] > 0)
        if not known.any() or known.sum() == own.sum():
            continue
        nearest = ndimage.distance_transform_edt(
            ~known, return_distances=False, return_indices=True
        )
        line = own & ~known
        full[place][line] = grains[place][tuple(nearest)][line]
    return full


def in_single_pieces(labels: Labels, which: Iterable[int]) -> Labels:
    """Give the pieces of some labels numbers of their own.

    Parameters
    ----------
    labels : ndarray of int32, shape (n_rows, n_cols)
        Labels; 0 is none.
    which : iterable of int
        Labels that may lie in several pieces (joined by sides, not by corners).

    Returns
    -------
    ndarray of int32, shape (n_rows, n_cols)
        The largest piece of each keeps its number; others get new ones above all
        old, or 0 where they are smaller than 9 px.
    """
    parted = labels.copy()
    following = int(labels.max(initial=0)) + 1
    places: Places = ndimage.find_objects(labels)
    for number in which:
        place = places[number - 1] if 0 < number <= len(places) else None
        if place is None:
            continue
        pieces, n_pieces = ndimage.label(labels[place] == number)
        sizes = np.bincount(pieces.ravel(), minlength=n_pieces + 1)
        sizes[0] = 0
        numbers = np.zeros(n_pieces + 1, np.int32)
        large = np.flatnonzero(sizes >= LEAST_PIECE_PX)
        numbers[large] = np.arange(following, following + large.size)
        following += large.size
        numbers[np.argmax(sizes)] = number
        parted[place][pieces > 0] = numbers[pieces[pieces > 0]]
    return parted


def piece_count(seen: Labels, which: Iterable[int]) -> int:
    """Count the pieces of some labels, without those too small to be a grain.

    Parameters
    ----------
    seen : ndarray of int32, shape (n_rows, n_cols)
        Labels; 0 is none.
    which : iterable of int
        The labels.

    Returns
    -------
    int
        Pieces of at least 9 px, and at least one for each label that is there.
    """
    places: Places = ndimage.find_objects(seen)
    count = 0
    for number in which:
        place = places[number - 1] if 0 < number <= len(places) else None
        if place is not None:
            pieces, _ = ndimage.label(seen[place] == number)
            sizes = np.bincount(pieces.ravel())[1:]
            count += max(1, int((sizes >= LEAST_PIECE_PX).sum()))
    return count


def closed_numbers(labels: Labels) -> Labels:
    """Close the gaps in labels: 1..N, in their old order.

    Parameters
    ----------
    labels : ndarray of int32, shape (n_rows, n_cols)
        Labels; 0 stays 0.

    Returns
    -------
    ndarray of int32, shape (n_rows, n_cols)
        Labels without gaps.
    """
    used = np.bincount(labels.ravel()) > 0
    used[0] = False
    closed: Labels = np.where(used, np.cumsum(used), 0).astype(np.int32)[labels]
    return closed
