"""Labels put in place of found ones: made elsewhere, or with twins apart."""

from collections.abc import Callable
from dataclasses import replace

import numpy as np
import numpy.typing as npt
from skimage import measure as shapes

from strandproof.errors import ParameterError
from strandproof.grainsize.patch import require_labels
from strandproof.records import LabelledStructure, Strand

_connected_regions: Callable[..., npt.NDArray[np.integer]] = shapes.label

# Flags that speak of how the replaced labels were made.
_OF_FOUND_LABELS = {"twins_not_tested_on_real_copper", "no_boundary_found"}


def with_given_labels(
    structure: LabelledStructure, labels: npt.NDArray[np.integer], *, method: str
) -> LabelledStructure:
    """Put given grain labels on the strands of a structure.

    Parameters
    ----------
    structure : LabelledStructure
        Whose strands (outline, axis, shape) are kept.
    labels : ndarray of int, shape (n_rows, n_cols)
        Grain labels; 0 on boundaries and off the metal.
    method : str
        Where they come from, for the record.

    Returns
    -------
    LabelledStructure
        Verdicts go by the number of grains in the given labels.

    Raises
    ------
    ParameterError
        If the labels are not of the picture's size, or one is negative.
    """
    require_labels(labels, structure.strand_labels > 0)
    grains = np.where(structure.strand_labels > 0, labels, 0).astype(np.int32)
    return replace(
        structure,
        grain_labels=grains,
        strands=tuple(_judged(each, structure, grains) for each in structure.strands),
        flags=tuple(
            flag for flag in structure.flags if flag.name not in _OF_FOUND_LABELS
        ),
        method=method,
        method_version="1",
        segments=None,
        twin_boundary=None,
    )


def with_twins_apart(structure: LabelledStructure) -> LabelledStructure | None:
    """Make every twin a region of its own, along the twin boundaries found.

    Parameters
    ----------
    structure : LabelledStructure
        Labels with twins merged.

    Returns
    -------
    LabelledStructure or None
        The same strands with twins apart; None where the method that made the
        labels does not say where twin boundaries lie.
    """
    if structure.twin_boundary is None:
        return None
    apart = np.where(structure.twin_boundary, 0, structure.grain_labels)
    regions = _connected_regions(apart, background=0, connectivity=1)
    return replace(structure, grain_labels=np.asarray(regions, dtype=np.int32))


def share_outside(
    structure: LabelledStructure, labels: npt.NDArray[np.integer]
) -> float:
    """Share of the labelled pixels that lie on no strand.

    Parameters
    ----------
    structure : LabelledStructure
        The strands.
    labels : ndarray of int, shape (n_rows, n_cols)
        Grain labels.

    Returns
    -------
    float
        From 0 to 1.

    Raises
    ------
    ParameterError
        If the labels hold no grain at all.
    """
    labelled = labels > 0
    if not labelled.any():
        raise ParameterError("labels", "no grain", allowed="labels of 1 or above")
    return float((structure.strand_labels[labelled] == 0).mean())


def _judged(
    strand: Strand, structure: LabelledStructure, grains: npt.NDArray[np.int32]
) -> Strand:
    own = grains[structure.strand_labels == strand.number]
    number = np.unique(own[own > 0]).size
    words = "1 grain" if number == 1 else f"{number} grains"
    return replace(
        strand,
        verdict="poly" if number > 1 else "undecided",
        verdict_reason=f"{words} in the labels given.",
    )
