"""What a segmentation finds in one picture: strands, grains, boundaries.

Made by `strandproof.micrograph`, measured by `strandproof.grainsize`; neither
knows the other, both know this record. A learned method and a person's edited
labels arrive in the same form.
"""

from dataclasses import dataclass
from math import pi, sqrt
from typing import Literal

import numpy as np
import numpy.typing as npt

from strandproof.records.flags import Flag

StrandVerdict = Literal["single", "poly", "undecided"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Strand:
    """One piece of metal in the picture.

    Parameters
    ----------
    number : int
        1, 2, ...; the value of this strand in `LabelledStructure.strand_labels`.
    area_px : float
        Area of metal [px^2].
    centroid_px : tuple of float
        Row and column of the centre [px].
    length_px, width_px : float
        Extent along and across the axis [px].
    axis_deg : float or None
        Direction of the strand axis [deg], from the picture's +x (columns)
        towards +y upwards, in [-90, 90); None where no axis shows (a round
        face, or a field that is metal from edge to edge).
    shape : {"field", "long", "round", "piece"}
        Metal from edge to edge; a long section with two edges; a round face;
        anything else.
    verdict : {"single", "poly", "undecided"}
        Whether more than one crystal was resolved in this piece.
    verdict_reason : str
        One sentence with the figures behind the verdict.
    ovality : float or None
        Of a round face: largest less smallest diameter, over their mean.
    """

    number: int
    area_px: float
    centroid_px: tuple[float, float]
    length_px: float
    width_px: float
    axis_deg: float | None
    shape: Literal["field", "long", "round", "piece"]
    verdict: StrandVerdict
    verdict_reason: str
    ovality: float | None = None

    @property
    def equivalent_diameter_px(self) -> float:
        """Diameter of the circle of the same area [px]."""
        return 2 * sqrt(self.area_px / pi)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class BoundarySegments:
    """Boundaries between two grains each, and how sure each one is.

    Parameters
    ----------
    first, second : ndarray of int32, shape (n_segments,)
        The two grains of each segment, `first` < `second`.
    length_px : ndarray of float32, shape (n_segments,)
        Length [px].
    probability : ndarray of float32, shape (n_segments,)
        Mean probability along the segment that it is a grain boundary, 0 to 1,
        by the method that found it; 1 where a person drew it.
    """

    first: npt.NDArray[np.int32]
    second: npt.NDArray[np.int32]
    length_px: npt.NDArray[np.float32]
    probability: npt.NDArray[np.float32]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class LabelledStructure:
    """Labels of one picture and what is known about their making.

    Parameters
    ----------
    grain_labels : ndarray of int32, shape (n_rows, n_cols)
        0 outside of metal or on a boundary; 1..N grains with twins merged.
    strand_labels : ndarray of int32, shape (n_rows, n_cols)
        0 outside of metal; k on strand number k (boundaries included).
    strands : tuple of Strand
        The strands, by number.
    flags : tuple of Flag
        Quality flags raised while segmenting.
    method : str
        Name of the method, for example ``"trained network"``.
    method_version : str
        Version of the method.
    segments : BoundarySegments or None
        Every boundary between two grains; None where the method does not say.
    twin_boundary : ndarray of bool, shape (n_rows, n_cols), or None
        Lines of about one pixel along the sides of twins, which part no grains.
    unreadable : ndarray of bool, shape (n_rows, n_cols), or None
        Where nothing can be told; grain and strand labels are 0 there.
    """

    grain_labels: npt.NDArray[np.int32]
    strand_labels: npt.NDArray[np.int32]
    strands: tuple[Strand, ...]
    flags: tuple[Flag, ...]
    method: str
    method_version: str
    segments: BoundarySegments | None = None
    twin_boundary: npt.NDArray[np.bool_] | None = None
    unreadable: npt.NDArray[np.bool_] | None = None
