"""A permutation test for two groups of fields."""

from functools import lru_cache
from itertools import combinations
from math import comb

import numpy as np
import numpy.typing as npt

Vectors = npt.NDArray[np.float64]

_MOST_SPLITS = 20_000
_SAMPLED = 9_999


def permutation_probability(
    first: Vectors, second: Vectors, generator: np.random.Generator
) -> float:
    """Chance of a difference of means at least as large if both groups are alike.

    Assumes that the values could be exchanged between the groups if nothing changed.

    Parameters
    ----------
    first, second : ndarray of float, shape (n, k)
        Values of k components, one row for each field.
    generator : numpy.random.Generator
        Used where there are more than 20 000 ways to split the rows.

    Returns
    -------
    float
        Exact where all splits were tried; else (count + 1)/(10 000), never zero.

    Notes
    -----
    The statistic is the length of the difference of the mean vectors. All
    (n1 + n2)! / (n1! n2!) splits, the observed one included, are tried, so that the
    chance of a value at or below p is at most p.

    Examples
    --------
    >>> low, high = np.arange(4.0)[:, None], 10 + np.arange(4.0)[:, None]
    >>> round(permutation_probability(low, high, np.random.default_rng(1)), 4)
    0.0286
    """
    pooled = np.concatenate((first, second))
    chosen, exact = _splits(len(pooled), len(first), generator)
    lengths = _difference_lengths(pooled, chosen)
    observed = _difference_lengths(pooled, _first_rows(len(first), len(pooled)))[0]
    # Sums in another order differ in the last digits; an equal split must count.
    edge = observed - 1e-9 * (1.0 + observed)
    count = int(np.sum(lengths >= edge))
    return count / lengths.size if exact else (count + 1) / (lengths.size + 1)


def _splits(
    total: int, size: int, generator: np.random.Generator
) -> tuple[Vectors, bool]:
    """Rows of ones where a value goes to the first group; whether these are all."""
    if comb(total, size) <= _MOST_SPLITS:
        return _all_splits(total, size), True
    order = np.argsort(generator.random((_SAMPLED, total)), axis=1)
    return _rows_of_ones(order[:, :size], total), False


@lru_cache(maxsize=4)
def _all_splits(total: int, size: int) -> Vectors:
    places = np.array(list(combinations(range(total), size)), np.intp)
    chosen = _rows_of_ones(places, total)
    chosen.flags.writeable = False  # one array serves many calls
    return chosen


def _rows_of_ones(places: npt.NDArray[np.intp], total: int) -> Vectors:
    chosen = np.zeros((len(places), total))
    np.put_along_axis(chosen, places, 1.0, axis=1)
    return chosen


def _first_rows(size: int, total: int) -> Vectors:
    return (np.arange(total) < size).astype(np.float64)[None, :]


def _difference_lengths(pooled: Vectors, chosen: Vectors) -> Vectors:
    size = float(chosen[0].sum())
    sums = chosen @ pooled
    rest = (pooled.sum(axis=0) - sums) / (len(pooled) - size)
    return np.asarray(np.linalg.norm(rest - sums / size, axis=1))
