"""What speaks for a boundary at each pixel, however it was found.

This record is the seam of the segmentation: a learned method has to make one of
these and nothing else; the partition, the twins and the verdict go on from it.
"""

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

FloatPlane = npt.NDArray[np.float32]
Mask = npt.NDArray[np.bool_]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class BoundaryEvidence:
    """Strength of the evidence for a boundary at each pixel of a picture.

    Parameters
    ----------
    strength : ndarray of float32, shape (n_rows, n_cols)
        0 (none) to 1 (certain); 0.5 where a boundary is as likely as not.
        It must have its crest on the boundary's centre line, and be 0 outside of
        metal, since it is smoothed before the metal is cut out.
    line_strength : ndarray of float32, shape (n_rows, n_cols)
        The part of `strength` that needs no difference in shade between the two
        sides to be believed (an etched groove); a learned method gives
        `strength` again.
    shade : ndarray of float32, shape (n_rows, n_cols, n_channels)
        Lightness and colour without the grooves, in units of one clear step:
        two regions whose means differ by 1 are as likely two grains as one.
        Zeros where a method does not use it.
    shade_weight : ndarray of float32, shape (n_rows, n_cols)
        How much of the pixel lies outside of grooves, 0 to 1.
    metal : ndarray of bool, shape (n_rows, n_cols)
        True on metal.
    visible_line_depth : float
        Least depth of a groove that counts [L*]; infinity if not known.
    visible_step : float
        Least difference between two grains that counts [L*a*b* distance];
        infinity if not known.

    Notes
    -----
    `visible_line_depth` and `visible_step` say what the picture could have shown;
    "single" is never concluded from a picture that could not show a boundary.
    """

    strength: FloatPlane
    line_strength: FloatPlane
    shade: FloatPlane
    shade_weight: FloatPlane
    metal: Mask
    visible_line_depth: float
    visible_step: float
