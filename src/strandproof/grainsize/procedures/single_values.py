"""Single intercepts and grain areas of a picture, for drawings of their spread."""

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from strandproof.grainsize.intercepts import walk_patch
from strandproof.grainsize.patch import strand_patches
from strandproof.grainsize.procedures.settings import ProcedureSettings
from strandproof.grainsize.procedures.statistics import whole_grains
from strandproof.records import LabelledStructure


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class SingleValues:
    """What was met on one piece of metal, one by one.

    Parameters
    ----------
    number : int
        Number of the strand in the labelled structure.
    intercepts : ndarray of float, shape (n_intercepts,)
        Lengths between two boundaries along lines in four directions [um or px].
    areas : ndarray of float, shape (n_grains,)
        Areas of the grains that the frame does not cut [um^2 or px^2].
    """

    number: int
    intercepts: npt.NDArray[np.float64]
    areas: npt.NDArray[np.float64]


def single_values(
    structure: LabelledStructure, settings: ProcedureSettings
) -> tuple[SingleValues, ...]:
    """Give every whole intercept and every whole grain of a labelled picture.

    Pieces of line that end inside a grain and grains that the frame cuts are left
    out; they count in the means, so that a plain mean of these values is another
    number.

    Parameters
    ----------
    structure : LabelledStructure
        Labels of one picture.
    settings : ProcedureSettings
        Scale and rules.

    Returns
    -------
    tuple of SingleValues
        One for each strand; in pixels without a scale.
    """
    size = 1.0 if settings.pixel_size is None else settings.pixel_size.value
    found = []
    for strand, patch in zip(structure.strands, strand_patches(structure), strict=True):
        walked = walk_patch(
            patch,
            axis_deg=strand.axis_deg or 0.0,
            has_axis=strand.shape != "round",
            rules=settings.rules,
        )
        lengths = [np.diff(line.crossings_px) for each in walked.lines for line in each]
        found.append(
            SingleValues(
                number=strand.number,
                intercepts=size * np.concatenate([np.empty(0), *lengths]),
                areas=size**2 * whole_grains(patch).areas_px,
            )
        )
    return tuple(found)
