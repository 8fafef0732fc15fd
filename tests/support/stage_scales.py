"""Synthetic pictures of stage scales with a known line spacing, drawn from formulas."""

from dataclasses import dataclass
from math import cos, radians, sin

import numpy as np
import numpy.typing as npt
from scipy.special import erf

FloatArray = npt.NDArray[np.float64]


@dataclass(frozen=True, slots=True, kw_only=True)
class DrawnScale:
    """How a stage scale is drawn.

    Parameters
    ----------
    spacing_px : float
        Distance of neighbouring lines [px].
    angle_deg : float
        Direction across the lines, from the column axis towards rising rows [deg].
    shape : tuple of int
        Rows and columns of the picture [px].
    line_px : float
        Width of a line [px].
    blur_px : float
        Standard deviation of the blur [px].
    noise : float
        Standard deviation of the noise; the ground is 0.8 bright.
    line : float
        Brightness of a line.
    placing_px : float
        Standard deviation of the error of a line's place, the same along the line.
    height : float
        Length of the shortest lines as a share of the picture's shorter side.
    levels : bool
        Longer lines at every fifth and tenth division, and a line along the feet.
    """

    spacing_px: float
    angle_deg: float = 0.0
    shape: tuple[int, int] = (360, 480)
    line_px: float = 3.0
    blur_px: float = 0.8
    noise: float = 0.03
    line: float = 0.2
    placing_px: float = 0.0
    height: float = 0.6
    levels: bool = True


def drawn(scale: DrawnScale, chance: np.random.Generator) -> FloatArray:
    """Draw a stage scale, grey values of about 0 to 1."""
    n_rows, n_cols = scale.shape
    rows, columns = np.indices(scale.shape, dtype=np.float64)
    rows -= (n_rows - 1) / 2
    columns -= (n_cols - 1) / 2
    angle = radians(scale.angle_deg)
    across = columns * cos(angle) + rows * sin(angle)
    along = rows * cos(angle) - columns * sin(angle)
    across -= chance.uniform(-0.5, 0.5) * scale.spacing_px
    number = np.rint(across / scale.spacing_px).astype(int)
    most = int(np.abs(number).max())
    errors = chance.normal(0, scale.placing_px, 2 * most + 1)
    off = across - number * scale.spacing_px - errors[number + most]
    covered = _edge(off + scale.line_px / 2, scale) - _edge(
        off - scale.line_px / 2, scale
    )
    side = min(n_rows, n_cols)
    foot = -0.5 * scale.height * side
    length = np.full(scale.shape, scale.height * side)
    if scale.levels:
        length[number % 5 == 0] *= 1.25
        length[number % 10 == 0] *= 1.2
    covered *= _edge(along - foot, scale) - _edge(along - foot - length, scale)
    if scale.levels:
        base = _edge(along - foot + 2, scale) - _edge(along - foot - 2, scale)
        covered = np.maximum(covered, base)
    grey = 0.8 + (scale.line - 0.8) * covered
    return np.asarray(grey + chance.normal(0, scale.noise, scale.shape))


def _edge(distance: FloatArray, scale: DrawnScale) -> FloatArray:
    return np.asarray(0.5 * (1 + erf(distance / (scale.blur_px * 2**0.5))))
