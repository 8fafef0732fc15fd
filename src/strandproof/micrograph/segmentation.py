"""From a picture to strands and grains, with every step behind one call."""

from collections.abc import Callable
from dataclasses import replace
from typing import Final

import numpy as np
import numpy.typing as npt
from skimage.morphology import skeletonize

from strandproof.micrograph.lab import checked_bytes
from strandproof.micrograph.learned import planes
from strandproof.micrograph.learned.counting import areas_of
from strandproof.micrograph.learned.grains import Grains, grains_of
from strandproof.micrograph.learned.maps import structure_maps
from strandproof.micrograph.learned.metal import metal_map
from strandproof.micrograph.learned.verdicts import verdicts_of
from strandproof.micrograph.quality import quality_flags
from strandproof.micrograph.strands import described_strands
from strandproof.records import BoundarySegments, Flag, LabelledStructure

FloatPlane = npt.NDArray[np.float32]
Bytes = npt.NDArray[np.uint8]
Mask = npt.NDArray[np.bool_]
Labels = npt.NDArray[np.int32]
Progress = Callable[[float, str], None]

METHOD = "trained network"
METHOD_VERSION = "1"

_HALF: Final = 128  # as likely as not, in bytes
_PER_PAIR = np.pi / 4  # length of a line per pixel pair, mean over all directions


def segment(
    picture: FloatPlane, *, valid: Mask | None = None, progress: Progress | None = None
) -> LabelledStructure:
    """Find strands and grains in a picture of an etched section.

    Parameters
    ----------
    picture : ndarray of float, shape (n_rows, n_cols) or (n_rows, n_cols, 3)
        Grey or sRGB in [0, 1].
    valid : ndarray of bool, shape (n_rows, n_cols), optional
        False where the picture shows nothing.
    progress : callable, optional
        Called with a fraction and words; raising from it cancels.

    Returns
    -------
    LabelledStructure
        Labels, strands, segments, flags.

    Raises
    ------
    ParameterError
        If a shape or a type does not fit, or if a visible pixel is not a number
        from 0 to 1.
    """
    report = progress or _silent
    report(0.0, "reading colours")
    pixels = checked_bytes(picture, valid=valid)
    maps = structure_maps(
        pixels, progress=lambda done: report(0.02 + 0.58 * done, "finding boundaries")
    )
    report(0.6, "finding strands")
    metal = metal_map(maps, valid=valid)
    boundary, twin = (
        maps[planes.GRAIN_BOUNDARY].copy(),
        maps[planes.TWIN_BOUNDARY].copy(),
    )
    del maps  # a large picture's planes are most of the memory
    strand_labels = np.where(metal.unreadable, np.int32(0), metal.strand_labels)
    report(0.65, "closing boundaries")
    grains = grains_of(boundary, twin, strand_labels)
    report(0.85, "describing strands")
    verdicts = verdicts_of(boundary, metal, strand_labels, grains)
    structure = LabelledStructure(
        grain_labels=_with_boundary_lines(grains.labels, strand_labels),
        strand_labels=strand_labels,
        strands=described_strands(strand_labels, verdicts),
        flags=_structure_flags(grains, strand_labels),
        method=METHOD,
        method_version=METHOD_VERSION,
        segments=_segments(grains),
        twin_boundary=_twin_lines(boundary, twin, strand_labels),
        unreadable=metal.unreadable,
    )
    report(0.93, "judging the picture")
    flags = quality_flags(
        pixels,
        valid=valid,
        grain_labels=structure.grain_labels,
        strand_labels=strand_labels,
        probability=boundary,
    )
    report(1.0, "segmented")
    return replace(structure, flags=(*flags, *structure.flags))


def _segments(grains: Grains) -> BoundarySegments:
    graph = grains.graph
    return BoundarySegments(
        first=graph.first.astype(np.int32),
        second=graph.second.astype(np.int32),
        length_px=(_PER_PAIR * graph.length).astype(np.float32),
        probability=graph.boundary_strength().astype(np.float32),
    )


def _twin_lines(boundary: Bytes, twin: Bytes, strand_labels: Labels) -> Mask:
    likely = (twin >= _HALF) & (twin > boundary) & (strand_labels > 0)
    lines: Mask = skeletonize(likely)
    return lines


def _with_boundary_lines(grains: Labels, strand_labels: Labels) -> Labels:
    """Draw lines of one pixel between grains of one strand."""
    drawn = grains.copy()
    for axis in (0, 1):
        here = [slice(None), slice(None)]
        there = [slice(None), slice(None)]
        here[axis], there[axis] = slice(None, -1), slice(1, None)
        a, b = grains[tuple(here)], grains[tuple(there)]
        same = strand_labels[tuple(here)] == strand_labels[tuple(there)]
        drawn[tuple(here)][(a != b) & (a > 0) & (b > 0) & same] = 0
    return _kept_alive(drawn, grains)


def _kept_alive(drawn: Labels, grains: Labels) -> Labels:
    """Give grains that lines swallowed whole their pixels back."""
    n_grains = int(grains.max(initial=0)) + 1
    lost = areas_of(drawn, n_grains - 1) == 0
    lost[0] = False
    if lost.any():
        np.copyto(drawn, grains, where=lost[grains])
    return drawn


def _structure_flags(grains: Grains, strand_labels: Labels) -> tuple[Flag, ...]:
    n_grains = int(grains.labels.max(initial=0))
    flags = []
    if not strand_labels.any():
        flags.append(Flag("no_metal"))
    elif n_grains <= 1:
        flags.append(Flag("no_boundary_found"))
    if n_grains > 1:
        flags.append(Flag("twins_not_tested_on_real_copper"))
    return tuple(flags)


def _silent(_fraction: float, _words: str) -> None:
    return None
