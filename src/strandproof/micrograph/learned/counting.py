"""Counting and renumbering of label planes in strips, so that memory is bounded."""

from typing import Any

import numpy as np
import numpy.typing as npt

Labels = npt.NDArray[np.int32]
AnyLabels = npt.NDArray[np.integer[Any]]
Integers = npt.NDArray[np.int64]

_ROWS_AT_ONCE = 256


def areas_of(labels: AnyLabels, n_labels: int) -> Integers:
    """Count the pixels of each label.

    Parameters
    ----------
    labels : ndarray of int32, shape (n_rows, n_cols)
        Labels from 0 to `n_labels`.
    n_labels : int
        Highest label.

    Returns
    -------
    ndarray of int64, shape (n_labels + 1,)
        Pixels of each label.
    """
    areas = np.zeros(n_labels + 1, np.int64)
    for start in range(0, labels.shape[0], _ROWS_AT_ONCE):
        strip = labels[start : start + _ROWS_AT_ONCE].ravel()
        areas += np.bincount(strip, minlength=n_labels + 1)
    return areas


def owners_of(labels: Labels, surrounding: Labels, n_labels: int) -> Integers:
    """Give for each label the surrounding label that it lies in.

    Parameters
    ----------
    labels, surrounding : ndarray of int32, shape (n_rows, n_cols)
        Each label lies in one surrounding label.
    n_labels : int
        Highest label.

    Returns
    -------
    ndarray of int64, shape (n_labels + 1,)
        Surrounding labels; 0 for a label that is nowhere.
    """
    owner = np.zeros(n_labels + 1, np.int64)
    for start in range(0, labels.shape[0], _ROWS_AT_ONCE):
        rows = slice(start, start + _ROWS_AT_ONCE)
        owner[labels[rows]] = surrounding[rows]
    owner[0] = 0
    return owner


def renumbered(labels: AnyLabels, numbers: AnyLabels) -> Labels:
    """Put another number in the place of each label.

    Parameters
    ----------
    labels : ndarray of int32, shape (n_rows, n_cols)
        Labels.
    numbers : ndarray of int, shape (n_labels + 1,)
        The new number of each label.

    Returns
    -------
    ndarray of int32, shape (n_rows, n_cols)
        New labels.
    """
    new: Labels = numbers.astype(np.int32)[labels]
    return new


def grown_into(labels: Labels, mask: npt.NDArray[np.bool_]) -> Labels:
    """Let labels grow step by step into what is free of a mask.

    Parameters
    ----------
    labels : ndarray of int32, shape (n_rows, n_cols)
        Labels; 0 is free.
    mask : ndarray of bool, shape (n_rows, n_cols)
        Where labels may grow to.

    Returns
    -------
    ndarray of int32, shape (n_rows, n_cols)
        Each free pixel of the mask holds the label that reaches it first, by
        sides; what no label reaches stays 0.
    """
    grown = np.pad(labels, 1)
    width = grown.shape[1]
    flat = grown.ravel()
    free = np.flatnonzero(np.pad(mask & (labels == 0), 1).ravel())
    while free.size:
        best = np.zeros(free.size, np.int32)
        for step in (-width, -1, 1, width):
            best = np.where(best == 0, flat[free + step], best)
        reached = best > 0
        if not reached.any():
            break
        flat[free[reached]] = best[reached]
        free = free[~reached]
    inner: Labels = grown[1:-1, 1:-1].copy()
    return inner
