"""Where test lines cross found boundaries, and what the picture shows there."""

from dataclasses import dataclass
from typing import Any

import numpy as np
import numpy.typing as npt

FloatPlane = npt.NDArray[np.float32]
Labels = npt.NDArray[np.integer[Any]]
Places = npt.NDArray[np.intp]

REACH_PX = 24
_LINES_A_WAY = 96
_MOST_PROFILES = 2000
_LONGEST_GAP_PX = 40  # boundary pixels without a grain between two grains


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class LineCrossings:
    """Crossings of one set of parallel test lines, rows or columns.

    Parameters
    ----------
    upright : bool
        True for columns.
    line, place, strand : ndarray of int, shape (n_crossings,)
        Number of the row or column, place along it [px], strand.
    chord_line, chord_middle : ndarray of int, shape (n_chords,)
        Row or column of each piece between neighbouring crossings of one line in
        one strand, and the place of its middle [px].
    chord_px : ndarray of float, shape (n_chords,)
        Lengths of these pieces [px].
    length_px : ndarray of float, shape (n_strands + 1,)
        Length of test line in each strand [px]; the first entry is unused.
    """

    upright: bool
    line: Places
    place: Places
    strand: Places
    chord_line: Places
    chord_middle: Places
    chord_px: npt.NDArray[np.float64]
    length_px: npt.NDArray[np.float64]


def line_crossings(
    grain_labels: Labels, strand_labels: Labels
) -> tuple[LineCrossings, LineCrossings]:
    """Cross the labels with about a hundred rows and a hundred columns.

    Parameters
    ----------
    grain_labels : ndarray of int, shape (n_rows, n_cols)
        Grains; 0 outside of metal or on a boundary.
    strand_labels : ndarray of int, shape (n_rows, n_cols)
        Strands; 0 outside of metal.

    Returns
    -------
    tuple of LineCrossings
        Along rows and along columns.
    """
    n_strands = int(strand_labels.max(initial=0))
    return (
        _crossings(grain_labels, strand_labels, n_strands, upright=False),
        _crossings(grain_labels.T, strand_labels.T, n_strands, upright=True),
    )


def _crossings(
    grains: Labels, strands: Labels, n_strands: int, *, upright: bool
) -> LineCrossings:
    step = max(1, grains.shape[0] // _LINES_A_WAY)
    lines = np.arange(step // 2, grains.shape[0], step)
    grain, strand = grains[lines], strands[lines]
    length = np.bincount(strand.ravel(), minlength=n_strands + 1).astype(np.float64)
    row, col = np.nonzero((grain > 0) & (strand > 0))
    number, owner = grain[row, col], strand[row, col]
    meets = (number[1:] != number[:-1]) & (row[1:] == row[:-1])
    meets &= (owner[1:] == owner[:-1]) & (col[1:] - col[:-1] <= _LONGEST_GAP_PX)
    first = np.nonzero(meets)[0]
    place = (col[first] + col[first + 1] + 1) // 2
    line, within = row[first], owner[first]
    together = (line[1:] == line[:-1]) & (within[1:] == within[:-1])
    return LineCrossings(
        upright=upright,
        line=lines[line],
        place=place,
        strand=within.astype(np.intp),
        chord_line=lines[line[1:]][together],
        chord_middle=((place[1:] + place[:-1]) // 2)[together],
        chord_px=(place[1:] - place[:-1])[together].astype(np.float64),
        length_px=length,
    )


def profiles_at_crossings(lab: FloatPlane, crossings: LineCrossings) -> FloatPlane:
    """Read colours along the test line around each crossing.

    Parameters
    ----------
    lab : ndarray of float32, shape (n_rows, n_cols, n_channels)
        L* alone, or L*, a*, b*.
    crossings : LineCrossings
        Where.

    Returns
    -------
    ndarray of float32, shape (n_profiles, 2 * REACH_PX + 1, n_channels)
        One row a crossing, 2000 at most, evenly chosen; those too near the
        picture's edge are left out.
    """
    return _profiles(lab, crossings.line, crossings.place, upright=crossings.upright)


def profiles_inside(
    lab: FloatPlane, crossings: LineCrossings, *, least_chord_px: float
) -> FloatPlane:
    """Read colours along the test line in the middle of long chords.

    Parameters
    ----------
    lab : ndarray of float32, shape (n_rows, n_cols, n_channels)
        L* alone, or L*, a*, b*.
    crossings : LineCrossings
        Where.
    least_chord_px : float
        Shorter chords are left out [px].

    Returns
    -------
    ndarray of float32, shape (n_profiles, 2 * REACH_PX + 1, n_channels)
        As of `profiles_at_crossings`.
    """
    long = crossings.chord_px >= least_chord_px
    line, middle = crossings.chord_line[long], crossings.chord_middle[long]
    return _profiles(lab, line, middle, upright=crossings.upright)


def _profiles(
    lab: FloatPlane, line: Places, place: Places, *, upright: bool
) -> FloatPlane:
    turned = lab.swapaxes(0, 1) if upright else lab
    inside = (place >= REACH_PX) & (place < turned.shape[1] - REACH_PX)
    chosen = np.nonzero(inside)[0]
    chosen = chosen[:: max(1, -(-chosen.size // _MOST_PROFILES))]
    along = place[chosen, None] + np.arange(-REACH_PX, REACH_PX + 1)
    profiles: FloatPlane = turned[line[chosen, None], along]
    return profiles
