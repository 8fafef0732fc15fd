"""Area of strands from diameters that somebody read by hand."""

from collections.abc import Sequence
from math import pi, sqrt

import numpy as np

from strandproof.errors import ParameterError
from strandproof.physical.section_edges import in_mm2, shape_flags
from strandproof.quantity import (
    Input,
    ModelNumber,
    Quantity,
    Readings,
    normal_input,
    propagate,
    rectangular_input,
)
from strandproof.records import Flag
from strandproof.records.physical import SectionGeometry, StrandFace


def section_from_readings(
    faces_um: Sequence[Sequence[float]],
    *,
    instrument_uncertainty_um: float,
    strands: int | None = None,
) -> SectionGeometry:
    """Area of strands from diameters that were read by hand.

    The instrument's error is taken as common to all readings, so that it does not
    average out.

    Parameters
    ----------
    faces_um : sequence of sequence of float
        For each strand measured, its diameter in one or more directions evenly
        spread [um].
    instrument_uncertainty_um : float
        Standard uncertainty that all readings share: scale, edge, pressure of a
        micrometer [um]; zero or above.
    strands : int, optional
        Strands of the conductor; None: those measured. With more than were measured
        the rest are taken as alike, and the scatter between strands counts.

    Returns
    -------
    SectionGeometry
        Faces, total area, mean diameter, each with its budget.

    Raises
    ------
    ParameterError
        If a number is out of range, or only one of several strands was measured.

    Notes
    -----
    A = n (pi/4) (d + i)^2 (1 + s^2/d^2) (1 - c), with s^2 the variance between
    strands, i the instrument's error and c what an oval shape takes off: for a
    diameter d (1 + (o/2) cos 2t), Cauchy's and the area's support formula give
    c = 3 o^2/8; c is taken as anywhere between 0 and that.
    """
    _require_readings(faces_um, instrument_uncertainty_um)
    total = len(faces_um) if strands is None else strands
    if total < len(faces_um) or (total > 1 and len(faces_um) == 1):
        raise ParameterError(
            "strands",
            total,
            allowed=f"the {len(faces_um)} measured, or more if two were measured",
            remedy="Measure the diameter of several strands.",
        )
    instrument = normal_input(
        "instrument", 0.0, instrument_uncertainty_um, unit="um", symbol="instrument"
    )
    found = tuple(
        _face_of_readings(number, tuple(face), instrument)
        for number, face in enumerate(faces_um, start=1)
    )
    means = tuple(float(np.mean(face)) for face in faces_um)
    inputs = (*_strand_input(means, total), instrument)
    ovality = max((face.ovality or 0.0 for face in found), default=0.0)
    variance = float(np.var(means)) / float(np.mean(means)) ** 2
    area = _round_area(inputs, ovality, spread=variance, strands=total)
    return SectionGeometry(
        method="readings",
        strands=total,
        faces=found,
        cut_faces=0,
        total_area=in_mm2(area),
        mean_diameter=propagate(_shifted, inputs, unit="um"),
        flags=(*shape_flags(found), *_reading_flags(found)),
    )


def _shifted(diameter: ModelNumber, instrument: ModelNumber) -> ModelNumber:
    return diameter + instrument


def _round_area(
    inputs: tuple[Input, ...], ovality: float, *, spread: float, strands: int
) -> Quantity:
    half = 3.0 * ovality**2 / 16.0
    shape = (
        rectangular_input("oval shape", half, half, unit="1", symbol="oval")
        if half
        else normal_input("oval shape", 0.0, 0.0, unit="1", symbol="oval")
    )

    def area(
        diameter: ModelNumber, instrument: ModelNumber, oval: ModelNumber
    ) -> ModelNumber:
        read = diameter + instrument
        return 0.25 * pi * strands * (1.0 + spread) * read * read * (1.0 - oval)

    return propagate(area, (*inputs, shape), unit="um^2")


def _strand_input(means: tuple[float, ...], total: int) -> tuple[Input]:
    """Mean diameter; strands that were not measured make it uncertain."""
    measured = len(means)
    if measured == 1:
        return (
            normal_input(
                "strand diameter", means[0], 0.0, unit="um", symbol="diameter"
            ),
        )
    readings = Readings(name="strand diameter", values=means, unit="um")
    left_out = sqrt(1.0 - measured / total)
    return (
        Input(
            name="strand diameter",
            estimate=readings.mean,
            unit="um",
            standard_uncertainty=readings.standard_uncertainty_of_mean * left_out,
            degrees_of_freedom=float(measured - 1),
            symbol="diameter",
        ),
    )


def _face_of_readings(
    number: int, diameters: tuple[float, ...], instrument: Input
) -> StrandFace:
    mean = float(np.mean(diameters))
    several = len(diameters) > 1
    ovality = float(np.ptp(diameters)) / mean if several else None
    inputs = (
        normal_input("strand diameter", mean, 0.0, unit="um", symbol="diameter"),
        instrument,
    )
    return StrandFace(
        number=number,
        area=_round_area(inputs, ovality or 0.0, spread=0.0, strands=1),
        mean_diameter=propagate(_shifted, inputs, unit="um"),
        smallest_um=min(diameters),
        largest_um=max(diameters),
        ovality=ovality,
        directions=len(diameters),
    )


def _reading_flags(faces: Sequence[StrandFace]) -> tuple[Flag, ...]:
    single = [str(face.number) for face in faces if face.directions == 1]
    return (
        (Flag("one_direction_read", f"strand {', '.join(single)}"),) if single else ()
    )


def _require_readings(faces_um: Sequence[Sequence[float]], uncertainty: float) -> None:
    if not faces_um or not all(
        face and all(0 < each < 1e5 for each in face) for face in faces_um
    ):
        raise ParameterError(
            "faces_um",
            [list(face) for face in faces_um],
            allowed="one strand or more, each with diameters above zero, in um",
        )
    if not 0 <= uncertainty < 1e5:
        raise ParameterError(
            "instrument_uncertainty_um", uncertainty, allowed="zero or above, in um"
        )
