"""What pixel size and blurred edges do to areas and lengths on a picture."""

from collections.abc import Sequence
from dataclasses import replace

from strandproof.errors import NotResolvedError
from strandproof.physical.rules import rule
from strandproof.quantity import (
    Input,
    ModelNumber,
    Quantity,
    normal_input,
    propagate,
    rectangular_input,
)
from strandproof.records import Flag
from strandproof.records.physical import EdgeKnowledge, StrandFace

# Above this ovality a face may be two strands in contact, or a piece of something.
_NOT_ROUND = 0.25
_MM2 = 1e-6  # um2 in mm2


def require_resolved(smallest_px: float, edge: EdgeKnowledge) -> None:
    """Refuse a size that is too small for a picture.

    Parameters
    ----------
    smallest_px : float
        Smallest extent of the piece [px].
    edge : EdgeKnowledge
        Pixel size and resolution.

    Raises
    ------
    NotResolvedError
        If it is below the rules' number of pixels or of blur widths.
    """
    least_um = max(
        rule("section.least_pixels") * edge.pixel_size.value,
        rule("section.least_blurs") * edge.blur_um,
    )
    size_um = smallest_px * edge.pixel_size.value
    if size_um < least_um:
        what = f"A piece of metal {size_um:.3g} um across"
        raise NotResolvedError(
            what,
            f"{least_um:.3g} um in this picture ({edge.pixel_size.value:.3g} um a "
            f"pixel, edges {edge.blur_um:.3g} um wide)",
            remedy="Take the picture at higher magnification, or give the resolution "
            "if it is better than the two pixels assumed.",
        )


def edge_input(edge: EdgeKnowledge) -> Input:
    """Error of an edge's place: anywhere within half of the blur to either side.

    Parameters
    ----------
    edge : EdgeKnowledge
        Pixel size and resolution.

    Returns
    -------
    Input
        0 um, rectangular, symbol ``edge``.
    """
    half = 0.5 * edge.blur_um
    return rectangular_input("place of the edge", 0.0, half, unit="um", symbol="edge")


def edge_flags(edge: EdgeKnowledge) -> tuple[Flag, ...]:
    """Say what is not known about a picture's edges and scale.

    Parameters
    ----------
    edge : EdgeKnowledge
        Pixel size and resolution.

    Returns
    -------
    tuple of Flag
        Empty where both are known.
    """
    flags = []
    if not edge.pixel_size.standard_uncertainty:
        flags.append(Flag("pixel_size_without_uncertainty"))
    if edge.resolution_um is None:
        flags.append(Flag("resolution_not_given", f"{edge.blur_um:.3g} um assumed"))
    return tuple(flags)


def in_mm2(area: Quantity) -> Quantity:
    """Give an area in um^2 in mm^2, budget included.

    Parameters
    ----------
    area : Quantity
        Area [um^2].

    Returns
    -------
    Quantity
        The same [mm^2].
    """
    lines = tuple(
        replace(
            line,
            sensitivity=line.sensitivity * _MM2,
            component=line.component * _MM2,
        )
        for line in area.budget
    )
    return Quantity(
        area.value * _MM2,
        "mm^2",
        area.standard_uncertainty * _MM2,
        degrees_of_freedom=area.degrees_of_freedom,
        budget=lines,
    )


def shape_flags(faces: Sequence[StrandFace]) -> tuple[Flag, ...]:
    """Say which faces are far from round.

    Parameters
    ----------
    faces : sequence of StrandFace
        Faces.

    Returns
    -------
    tuple of Flag
        One for each such face.
    """
    return tuple(
        Flag("face_not_round", f"ovality {face.ovality:.0%}", strand=face.number)
        for face in faces
        if face.ovality is not None and face.ovality > _NOT_ROUND
    )


def _pixel_input(edge: EdgeKnowledge) -> Input:
    size = edge.pixel_size
    return normal_input(
        "pixel size",
        size.value,
        size.standard_uncertainty,
        unit="um",
        symbol="pixel",
        degrees_of_freedom=size.degrees_of_freedom,
    )


def metal_area(area_px: float, girth_px: float, edge: EdgeKnowledge) -> Quantity:
    """Area of metal with what pixel size and edge do to it.

    Parameters
    ----------
    area_px, girth_px : float
        Pixels of metal [px^2] and length of all edges [px].
    edge : EdgeKnowledge
        Pixel size and resolution.

    Returns
    -------
    Quantity
        Area [um^2].
    """
    girth_um = girth_px * edge.pixel_size.value

    def area(pixel: ModelNumber, edge: ModelNumber) -> ModelNumber:
        return area_px * pixel * pixel + girth_um * edge

    return propagate(area, (_pixel_input(edge), edge_input(edge)), unit="um^2")


def metal_length(length_px: float, edge: EdgeKnowledge) -> Quantity:
    """Distance of two edges with what pixel size and both edges do to it.

    Parameters
    ----------
    length_px : float
        Distance [px].
    edge : EdgeKnowledge
        Pixel size and resolution.

    Returns
    -------
    Quantity
        Length [um].
    """

    def length(pixel: ModelNumber, edge: ModelNumber) -> ModelNumber:
        return length_px * pixel + 2.0 * edge

    return propagate(length, (_pixel_input(edge), edge_input(edge)), unit="um")
