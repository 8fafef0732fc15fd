"""What a segmentation finds in one picture: strands, grains, boundaries.

Made by `strandproof.micrograph`, measured by `strandproof.grainsize`; neither
knows the other, both know this record. A learned method and a person's edited
labels arrive in the same form.
"""

from dataclasses import dataclass
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
        Name of the method, for example ``"classical"``.
    method_version : str
        Version of the method.
    """

    grain_labels: npt.NDArray[np.int32]
    strand_labels: npt.NDArray[np.int32]
    strands: tuple[Strand, ...]
    flags: tuple[Flag, ...]
    method: str
    method_version: str
