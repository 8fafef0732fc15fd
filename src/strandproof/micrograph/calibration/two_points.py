"""Pixel size from an operator's repeated marks on a stage scale."""

from collections.abc import Sequence
from math import cos, hypot, isfinite, radians
from statistics import median

from strandproof.errors import ParameterError
from strandproof.micrograph.calibration.scale import (
    PixelCalibration,
    StageScale,
    refuse_unexpected,
    scale_inputs,
)
from strandproof.quantity import (
    Input,
    ModelNumber,
    input_from_readings,
    propagate,
    rectangular_input,
    triangular_input,
)

MOST_OBLIQUE_DEG = 1.0
ALIKE_WITHIN = 0.05


def marked_length_px(first: tuple[float, float], second: tuple[float, float]) -> float:
    """Distance of two marks.

    Parameters
    ----------
    first, second : tuple of float
        Column and row of each mark [px].

    Returns
    -------
    float
        Length [px].

    Examples
    --------
    >>> marked_length_px((10.0, 20.0), (310.0, 420.0))
    500.0
    """
    return hypot(second[0] - first[0], second[1] - first[1])


def calibration_from_marks(
    lengths_px: Sequence[float],
    scale: StageScale,
    *,
    divisions: int,
    resolution_px: float = 1.0,
    size_px: tuple[int, int] | None = None,
    expected_um_per_px: float | None = None,
) -> PixelCalibration:
    """Turn repeated marks over the same number of divisions into a pixel size.

    Each reading has to be marked anew, at both ends, without sight of the last one;
    the same edge of the line at both ends.

    Parameters
    ----------
    lengths_px : sequence of float
        The readings [px]; two or more.
    scale : StageScale
        The scale.
    divisions : int
        Divisions between the two marks; 1 or more.
    resolution_px : float
        Finest step of a mark [px]: 1 for whole pixels, less on an enlarged view.
    size_px : tuple of int or None
        Columns and rows of the picture; None where not known.
    expected_um_per_px : float or None
        About what the pixel size should be [um]; catches a wrong division.

    Returns
    -------
    PixelCalibration
        Pixel size with budget; the readings one by one.

    Raises
    ------
    ParameterError
        If there are fewer than two readings, one is not above zero or is more than
        5 % off their median (a miscounted division), or a number is out of range.
    UnresolvedDivisionsError
        If the result is off the expected pixel size by more than 10 %.

    Notes
    -----
    Pixel size = n d (true over nominal) (cosine of tilt) / ((L + e) cos a), with n
    divisions of d, mean length L (Type A: s / sqrt(m), m - 1 degrees of freedom),
    the steps of two marks e (each rectangular, so triangular together) and a line
    drawn obliquely by up to a = 1 degree (judgement). GUM 4.2, 4.3, 5.1.2.

    Examples
    --------
    >>> found = calibration_from_marks(
    ...     (577.6, 581.9, 579.2, 576.2, 582.1),
    ...     StageScale(division_um=10.0, certificate_um=0.05),
    ...     divisions=10,
    ... )
    >>> size = found.pixel_size
    >>> round(size.value, 4), round(size.standard_uncertainty, 4)
    (0.1726, 0.0004)
    """
    _check(lengths_px, divisions, resolution_px)
    nominal_um = divisions * scale.division_um

    def model(
        length: ModelNumber,
        marks: ModelNumber,
        oblique_factor: ModelNumber,
        true_over_nominal: ModelNumber,
        tilt_factor: ModelNumber,
    ) -> ModelNumber:
        shown = nominal_um * true_over_nominal * tilt_factor
        return shown / ((length + marks) * oblique_factor)

    inputs = (
        input_from_readings(
            "marked length (scatter)", lengths_px, unit="px", symbol="length"
        ),
        triangular_input(
            "steps of the two marks", 0.0, resolution_px, unit="px", symbol="marks"
        ),
        _oblique_input(),
        *scale_inputs(scale, length_um=nominal_um),
    )
    pixel_size = propagate(model, inputs, unit="um")
    refuse_unexpected(pixel_size, expected_um_per_px)
    return PixelCalibration(
        pixel_size=pixel_size,
        readings_um=tuple(nominal_um / length for length in lengths_px),
        method=(
            f"stage scale, {divisions} divisions of {scale.division_um:g} um "
            f"marked by hand {len(lengths_px)} times"
        ),
        width_px=None if size_px is None else size_px[0],
        height_px=None if size_px is None else size_px[1],
        flags=scale.flags,
    )


def _oblique_input() -> Input:
    shortest = cos(radians(MOST_OBLIQUE_DEG))
    return rectangular_input(
        "oblique marking (cosine)",
        (1 + shortest) / 2,
        (1 - shortest) / 2,
        unit="1",
        symbol="oblique_factor",
    )


def _check(lengths_px: Sequence[float], divisions: int, resolution_px: float) -> None:
    """Check what the operator gave.

    Raises
    ------
    ParameterError
        If a number is out of range, or the readings do not belong together.
    """
    if divisions < 1:
        raise ParameterError("divisions", divisions, allowed="1 or more")
    if not (isfinite(resolution_px) and resolution_px >= 0):
        raise ParameterError("resolution_px", resolution_px, allowed="0 px or above")
    if len(lengths_px) < 2:
        raise ParameterError(
            "marked lengths",
            tuple(lengths_px),
            allowed="two readings or more",
            remedy="Mark the same divisions again, five times is usual.",
        )
    middle = median(lengths_px)
    for length in lengths_px:
        if not (isfinite(length) and length > 0):
            raise ParameterError("marked length", length, allowed="above 0 px")
        if abs(length - middle) > ALIKE_WITHIN * middle:
            raise ParameterError(
                "marked length",
                length,
                allowed=f"within 5 % of the median of all, {middle:g} px",
                remedy="Count the divisions again, or leave this reading out and "
                "say so in the note.",
            )
