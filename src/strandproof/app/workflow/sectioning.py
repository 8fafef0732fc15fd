"""Use cases that measure sizes on a section: strands, flat tape."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any

from strandproof.app.workflow.measuring import Progress
from strandproof.electrical import (
    compare_with_gauge,
    effective_gauge,
    gauge_number,
)
from strandproof.errors import NoScaleError, ParameterError
from strandproof.micrograph import segment
from strandproof.micrograph.edits import Edit, with_edits
from strandproof.physical import (
    section_from_labels,
    section_from_readings,
    tape_section,
)
from strandproof.quantity import Quantity
from strandproof.records import Flag
from strandproof.records.electrical import GaugeComparison
from strandproof.records.physical import (
    EdgeKnowledge,
    SectionGeometry,
    TapeSection,
)
from strandproof.storage import DecodedPicture, read_picture

# What the finding of strands says about the picture, and sizes suffer from too.
_CARRIED = frozenset(
    {"blurred", "resized", "sharpened", "saturated", "lossy_compression"}
    | {"over_etched", "scale_from_file_only", "synthetic"}
)


@dataclass(frozen=True, slots=True, kw_only=True)
class SectionSizes:
    """Sizes on a section, and what gauge their area is.

    Parameters
    ----------
    geometry : SectionGeometry
        Strands, diameters, area.
    gauge : GaugeComparison or None
        The area beside a claimed gauge; None where none was given.
    effective_gauge : Quantity
        Gauge number of the area, fractions included [1].
    """

    geometry: SectionGeometry
    gauge: GaugeComparison | None
    effective_gauge: Quantity


@dataclass(frozen=True, slots=True, kw_only=True)
class SectionPicture:
    """A picture of a section as typed.

    Parameters
    ----------
    path : Path
        The picture.
    pixel_size : Quantity or None
        Pixel size [um]; None takes the file's own.
    resolution_um : float or None
        Width of a blurred edge [um]; None where not measured.
    edits : sequence of Edit
        A person's edits of the strands found.
    """

    path: Path
    pixel_size: Quantity | None
    resolution_um: float | None = None
    edits: Sequence[Edit] = ()


def section_on_picture(
    given: SectionPicture,
    *,
    gauge: str | None = None,
    tolerance_percent: float = 0.0,
    progress: Progress | None = None,
) -> SectionSizes:
    """Measure the strands on a picture of a section across them.

    Parameters
    ----------
    given : SectionPicture
        Picture, scale, resolution, edits.
    gauge : str or None
        Claimed gauge to hold the area against, for example ``"26 AWG"``.
    tolerance_percent : float
        By how much the area may fall short of it [%].
    progress : callable or None
        Called with a fraction and words.

    Returns
    -------
    SectionSizes
        Faces, area, gauge.

    Raises
    ------
    NoScaleError
        If no pixel size is known.
    """
    labels, edge, flags = _labelled(given, progress)
    geometry = section_from_labels(labels, edge=edge)
    geometry = replace(geometry, flags=(*flags, *geometry.flags))
    return _with_gauge(geometry, gauge, tolerance_percent)


def section_by_hand(
    faces_um: Sequence[Sequence[float]],
    *,
    instrument_uncertainty_um: float,
    strands: int | None = None,
    gauge: str | None = None,
    tolerance_percent: float = 0.0,
) -> SectionSizes:
    """Work out the area of strands from diameters that somebody read.

    Parameters
    ----------
    faces_um : sequence of sequence of float
        Diameters of each strand measured [um].
    instrument_uncertainty_um : float
        Standard uncertainty that all readings share [um].
    strands : int or None
        Strands of the conductor; None: those measured.
    gauge : str or None
        Claimed gauge to hold the area against, for example ``"26 AWG"``.
    tolerance_percent : float
        By how much the area may fall short of it [%].

    Returns
    -------
    SectionSizes
        Faces, area, gauge.
    """
    geometry = section_from_readings(
        faces_um, instrument_uncertainty_um=instrument_uncertainty_um, strands=strands
    )
    return _with_gauge(geometry, gauge, tolerance_percent)


def tape_on_picture(
    given: SectionPicture, *, progress: Progress | None = None
) -> TapeSection:
    """Measure a flat tape on a picture of a section across it.

    Parameters
    ----------
    given : SectionPicture
        Picture, scale, resolution, edits.
    progress : callable or None
        Called with a fraction and words.

    Returns
    -------
    TapeSection
        Thickness, width, area.

    Raises
    ------
    NoScaleError
        If no pixel size is known.
    ParameterError
        If there is not exactly one piece of metal.
    """
    labels, edge, flags = _labelled(given, progress)
    pieces = int(labels.max())
    if pieces != 1:
        raise ParameterError(
            "pieces of metal",
            pieces,
            allowed="one tape in the picture",
            remedy="Cut the picture to one tape, or take away the rest by an edit.",
        )
    found = tape_section(labels == 1, edge=edge)
    return replace(found, flags=(*flags, *found.flags))


def _labelled(
    given: SectionPicture, progress: Progress | None
) -> tuple[Any, EdgeKnowledge, tuple[Flag, ...]]:
    picture = read_picture(given.path, page=None, um_per_px=given.pixel_size)
    size = given.pixel_size or _size_of_file(picture)
    if size is None:
        raise NoScaleError(given.path.name)
    structure = segment(picture.pixels, valid=picture.valid, progress=progress)
    if given.edits:
        structure = with_edits(structure, given.edits)
    edge = EdgeKnowledge(pixel_size=size, resolution_um=given.resolution_um)
    names = dict.fromkeys(
        flag.name
        for flag in (*picture.flags, *structure.flags)
        if flag.name in _CARRIED
    )
    return structure.strand_labels, edge, tuple(Flag(name) for name in names)


def _size_of_file(picture: DecodedPicture) -> Quantity | None:
    stated = picture.pixel_size
    return None if stated is None else Quantity(stated.value_um, "um")


def _with_gauge(
    geometry: SectionGeometry, gauge: str | None, tolerance_percent: float
) -> SectionSizes:
    area = geometry.total_area
    compared = (
        None
        if gauge is None
        else compare_with_gauge(
            area, gauge=gauge_number(gauge), tolerance_percent=tolerance_percent
        )
    )
    return SectionSizes(
        geometry=geometry, gauge=compared, effective_gauge=effective_gauge(area)
    )
