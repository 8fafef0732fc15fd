"""What the network should answer for a rendered section."""

from dataclasses import dataclass, replace

import numpy as np
import numpy.typing as npt
import trained_planes as planes
from scipy import ndimage

from strandproof.micrograph.render import SyntheticSection

Bytes = npt.NDArray[np.uint8]
Mask = npt.NDArray[np.bool_]
Labels = npt.NDArray[np.int32]

_CREST_PX = 0.8  # standard deviation of the crest beside a line of two pixels
_CONTACT_REACH_PX = 2.0


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Sample:
    """A picture and the answers to it.

    Parameters
    ----------
    picture : ndarray of uint8, shape (3, n_rows, n_cols)
        sRGB.
    targets : ndarray of uint8, shape (n_planes, n_rows, n_cols)
        The planes of `trained_planes`, 255 for 1.
    """

    picture: Bytes
    targets: Bytes


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Labelled:
    """A picture and its exact labels, all of the same size."""

    picture: npt.NDArray[np.float32]
    strands: Labels
    grains: Labels
    twins: Labels
    line: Mask
    defect: Mask
    unreadable: Mask


def labelled(section: SyntheticSection) -> Labelled:
    """Take what the targets need from a section."""
    return Labelled(
        picture=section.picture,
        strands=section.strand_labels,
        grains=section.grain_labels,
        twins=section.twin_labels,
        line=section.scratch | section.slip_trace,
        defect=section.defect,
        unreadable=section.overlay | section.unreadable,
    )


def zoomed(sample: Labelled, factor: float) -> Labelled:
    """Enlarge or shrink picture and labels; lines are found anew afterwards.

    Parameters
    ----------
    sample : Labelled
        Picture and labels.
    factor : float
        New size over old size.

    Returns
    -------
    Labelled
        The same section at another size.
    """
    picture = sample.picture
    if factor < 1:  # what a larger pixel would have gathered
        soft = 0.4 * (1 / factor - 1)
        picture = ndimage.gaussian_filter(picture, (soft, soft, 0))
    order = 1 if factor < 1 else 3
    picture = ndimage.zoom(picture, (factor, factor, 1), order=order, mode="nearest")

    def same(plane: npt.NDArray[np.generic]) -> npt.NDArray[np.generic]:
        rows, cols = (
            np.minimum((np.arange(new) + 0.5) / new * old, old - 1).astype(int)
            for new, old in zip(picture.shape[:2], plane.shape, strict=True)
        )
        return plane[np.ix_(rows, cols)]

    rest = ("strands", "grains", "twins", "line", "defect", "unreadable")
    return replace(
        sample,
        picture=np.clip(picture, 0, 1),
        **{name: same(getattr(sample, name)) for name in rest},
    )


def sample_of(section: Labelled) -> Sample:
    """Make picture and targets in bytes.

    Parameters
    ----------
    section : Labelled
        Picture and exact labels.

    Returns
    -------
    Sample
        Bytes for training.
    """
    metal = section.strands > 0
    boundary = _changes(section.grains, within=section.strands)
    twin = _changes(section.twins, within=section.grains) & ~boundary
    targets = np.zeros((planes.N_PLANES, *metal.shape), np.uint8)
    targets[planes.METAL] = 255 * metal
    targets[planes.GRAIN_BOUNDARY] = _crest(boundary)
    targets[planes.TWIN_BOUNDARY] = _crest(twin)
    targets[planes.SCRATCH] = 255 * section.line
    targets[planes.DEFECT] = 255 * section.defect
    targets[planes.UNREADABLE] = 255 * section.unreadable
    targets[planes.STRAND_CONTACT] = _crest(_contacts(section.strands))
    away = ndimage.distance_transform_edt(metal & ~boundary)
    targets[planes.DISTANCE] = np.rint(
        255 * (1 - np.exp(-away / planes.DISTANCE_SCALE_PX))
    )
    picture = np.rint(255 * section.picture).astype(np.uint8)
    return Sample(
        picture=np.ascontiguousarray(picture.transpose(2, 0, 1)), targets=targets
    )


def _changes(labels: Labels, *, within: Labels) -> Mask:
    """Pixels with a 4-neighbour of another label in the same surrounding."""
    found = np.zeros(labels.shape, np.bool_)
    for axis in (0, 1):
        here = [slice(None), slice(None)]
        there = [slice(None), slice(None)]
        here[axis], there[axis] = slice(None, -1), slice(1, None)
        one, other = tuple(here), tuple(there)
        change = (labels[one] != labels[other]) & (within[one] == within[other])
        change &= within[one] > 0
        found[one] |= change
        found[other] |= change
    return found


def _crest(line: Mask) -> Bytes:
    if not line.any():
        return np.zeros(line.shape, np.uint8)
    away = ndimage.distance_transform_edt(~line)
    crest: Bytes = np.rint(255 * np.exp(-(away**2) / (2 * _CREST_PX**2))).astype(
        np.uint8
    )
    return crest


def _contacts(strands: Labels) -> Mask:
    """Pixels within reach of two strands."""
    size = 2 * round(_CONTACT_REACH_PX) + 1
    highest = ndimage.maximum_filter(strands, size)
    lowest = ndimage.minimum_filter(
        np.where(strands > 0, strands, np.iinfo(np.int32).max), size
    )
    contact: Mask = (highest > lowest) & (lowest < np.iinfo(np.int32).max)
    return contact & (highest > 0)
