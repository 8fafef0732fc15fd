"""Strand count, diameters and metal area from labels of a calibrated picture."""

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt
from scipy import ndimage

from strandproof.errors import ParameterError
from strandproof.physical.outlines import DIRECTIONS, Outline, outline_of
from strandproof.physical.section_edges import (
    edge_flags,
    in_mm2,
    metal_area,
    metal_length,
    require_resolved,
    shape_flags,
)
from strandproof.records import Flag
from strandproof.records.physical import EdgeKnowledge, SectionGeometry, StrandFace

Labels = npt.NDArray[np.integer]


@dataclass(frozen=True, slots=True)
class _Found:
    number: int
    outline: Outline


def section_from_labels(labels: Labels, *, edge: EdgeKnowledge) -> SectionGeometry:
    """Count and measure the faces of strands on a section across them.

    Assumes that each label is one strand cut square. Faces that the frame cuts are
    counted apart and not measured. The strands' own edge is uncertain by what the
    picture blurs, alike on all of them.

    Parameters
    ----------
    labels : ndarray of int, shape (n_rows, n_cols)
        0 outside of metal, k on strand k.
    edge : EdgeKnowledge
        Pixel size and resolution.

    Returns
    -------
    SectionGeometry
        Faces, total area, mean diameter, each with its budget.

    Raises
    ------
    ParameterError
        If no whole face is in the picture.
    NotResolvedError
        If a face is too small for the picture's pixels or resolution.

    Notes
    -----
    A = N p^2 + G e with N the pixels of metal, p the pixel size, G the girth and e
    the error of the edge's place: 0, anywhere within half of the blur to either side.
    Mean diameter d = p mean(D) + 2 e.

    Examples
    --------
    >>> from strandproof.quantity import Quantity
    >>> rows, columns = np.indices((220, 220))
    >>> labels = (np.hypot(rows - 110, columns - 110) <= 80).astype(int)
    >>> edge = EdgeKnowledge(pixel_size=Quantity(0.5, "um", 0.001), resolution_um=1.0)
    >>> found = section_from_labels(labels, edge=edge)
    >>> found.strands, round(found.mean_diameter.value, 1)
    (1, 80.0)
    """
    faces, cut = _faces(labels)
    if not faces:
        raise ParameterError(
            "labels",
            f"{cut} cut face(s)",
            allowed="a picture with one whole face or more",
            remedy="Take a picture that shows the whole section.",
        )
    for face in faces:
        require_resolved(float(face.outline.diameters_px.min()), edge)
    found = tuple(_measured(face, edge) for face in faces)
    area_px = sum(face.outline.area_px for face in faces)
    girth_px = sum(face.outline.girth_px for face in faces)
    mean_px = float(np.mean([face.outline.diameters_px for face in faces]))
    area = metal_area(area_px, girth_px, edge)
    return SectionGeometry(
        method="picture",
        strands=len(found),
        faces=found,
        cut_faces=cut,
        total_area=in_mm2(area),
        mean_diameter=metal_length(mean_px, edge),
        flags=(*edge_flags(edge), *shape_flags(found), *_cut_flags(cut)),
    )


def _faces(labels: Labels) -> tuple[list[_Found], int]:
    whole, cut = [], 0
    for number, place in enumerate(ndimage.find_objects(labels), start=1):
        if place is not None and _inside(place, labels.shape):
            whole.append(_Found(number, outline_of(labels[place] == number)))
        elif place is not None:
            cut += 1
    return whole, cut


def _inside(place: tuple[slice, ...], shape: tuple[int, ...]) -> bool:
    sides = zip(place, shape, strict=True)
    return all(part.start > 0 and part.stop < end for part, end in sides)


def _measured(face: _Found, edge: EdgeKnowledge) -> StrandFace:
    outline, size = face.outline, edge.pixel_size.value
    diameters = size * outline.diameters_px
    mean = float(diameters.mean())
    return StrandFace(
        number=face.number,
        area=metal_area(outline.area_px, outline.girth_px, edge),
        mean_diameter=metal_length(float(outline.diameters_px.mean()), edge),
        smallest_um=float(diameters.min()),
        largest_um=float(diameters.max()),
        ovality=float(np.ptp(diameters)) / mean,
        directions=DIRECTIONS,
    )


def _cut_flags(cut: int) -> tuple[Flag, ...]:
    return (Flag("faces_cut_by_frame", f"{cut} left out"),) if cut else ()
