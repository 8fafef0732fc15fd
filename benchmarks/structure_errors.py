"""Errors of the grain size number between two label planes of the same picture."""

from dataclasses import dataclass
from math import log2, nan
from typing import Any

import numpy as np
import numpy.typing as npt

Labels = npt.NDArray[np.integer[Any]]


@dataclass(frozen=True, slots=True)
class GrainSizeErrors:
    """Found G less true G; not a number where either has no boundary.

    Parameters
    ----------
    intercept, planimetric : float
        By mean intercept along rows and columns, and by grains per area.
    """

    intercept: float
    planimetric: float


def mean_intercept_px(labels: Labels) -> float:
    """Give the mean intercept along all rows and columns; 0 is no metal."""
    length = crossings = 0
    for plane in (labels, labels.T):
        here, there = plane[:, :-1], plane[:, 1:]
        both = (here > 0) & (there > 0)
        length += int(both.sum())
        crossings += int((both & (here != there)).sum())
    return length / crossings if crossings else nan


def grains_per_px2(labels: Labels) -> float:
    """Give whole grains per area; a grain cut by the frame counts one half."""
    n_labels = int(labels.max(initial=0)) + 1
    present = np.bincount(labels.ravel(), minlength=n_labels) > 0
    frame = np.concatenate([labels[0], labels[-1], labels[:, 0], labels[:, -1]])
    cut = np.bincount(frame, minlength=n_labels) > 0
    grains = int(present[1:].sum()) - int(cut[1:].sum()) / 2
    area = int((labels > 0).sum())
    return grains / area if area else nan


def g_errors(found: Labels, true: Labels) -> GrainSizeErrors:
    """Compare two label planes.

    G by intercepts goes as -2 log2(l), G by grains per area as log2(N_A); a scale
    drops out.
    """
    ratio = mean_intercept_px(found) / mean_intercept_px(true)
    density = grains_per_px2(found) / grains_per_px2(true)
    return GrainSizeErrors(
        intercept=-2 * log2(ratio) if ratio > 0 else nan,
        planimetric=log2(density) if density > 0 else nan,
    )
