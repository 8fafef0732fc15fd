"""What is known of a stage scale: its division and its certificate."""

from collections.abc import Sequence
from dataclasses import dataclass
from math import cos, isfinite, radians

import numpy as np
import numpy.typing as npt

from strandproof.errors import ParameterError, UnresolvedDivisionsError
from strandproof.quantity import Input, Quantity, normal_input, rectangular_input
from strandproof.records import Flag

FloatArray = npt.NDArray[np.float64]

STEEPEST_TILT_DEG = 1.0
EXPECTED_WITHIN = 0.1


@dataclass(frozen=True, slots=True, kw_only=True)
class PixelCalibration:
    """The size of a pixel and what it rests on.

    Parameters
    ----------
    pixel_size : Quantity
        Pixel size with its budget [um].
    readings_um : tuple of float
        Single readings of the pixel size [um].
    method : str
        How it was found, in words.
    width_px, height_px : int or None
        Size of the picture it was found in [px]; None where not known.
    flags : tuple of Flag
        What a reader must know.
    """

    pixel_size: Quantity
    readings_um: tuple[float, ...]
    method: str
    width_px: int | None = None
    height_px: int | None = None
    flags: tuple[Flag, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class StageScale:
    """A ruled scale under the microscope.

    Parameters
    ----------
    division_um : float
        Distance of neighbouring lines [um]; above 0.
    certificate_um : float or None
        Standard uncertainty of the distance of any two lines of it [um], from its
        certificate (where that states an expanded uncertainty, half of it for k = 2);
        None where there is none.
    tilt_deg : float
        Steepest tilt of the scale against the focal plane that is possible [deg], 0
        to 30. The default is a judgement of ours: over a field of 0.3 mm one degree
        takes 5 um of focus, which is seen.

    Raises
    ------
    ParameterError
        If a number is out of range.
    """

    division_um: float
    certificate_um: float | None = None
    tilt_deg: float = STEEPEST_TILT_DEG

    def __post_init__(self) -> None:
        if not (isfinite(self.division_um) and self.division_um > 0):
            raise ParameterError(
                "division_um", self.division_um, allowed="a length above 0 um"
            )
        doubt = self.certificate_um
        if doubt is not None and not (isfinite(doubt) and doubt >= 0):
            raise ParameterError(
                "certificate_um", doubt, allowed="a length of 0 um or above"
            )
        if not 0 <= self.tilt_deg <= 30:
            raise ParameterError("tilt_deg", self.tilt_deg, allowed="0 to 30 degrees")

    @property
    def flags(self) -> tuple[Flag, ...]:
        """``scale_not_certified`` where no certificate is known."""
        return () if self.certificate_um is not None else (Flag("scale_not_certified"),)


def scale_inputs(scale: StageScale, *, length_um: float) -> Sequence[Input]:
    """Give what the scale itself adds to the uncertainty of a length on it.

    Parameters
    ----------
    scale : StageScale
        The scale.
    length_um : float
        Length that was used [um]; above 0.

    Returns
    -------
    sequence of Input
        ``true_over_nominal`` and ``tilt_factor``, both pure numbers.

    Notes
    -----
    A certificate speaks for the distance of any two lines, so its relative weight
    falls with the length used. A tilt by an angle a shows a length shorter by cos a;
    the factor is taken as equally likely from cos(tilt) to 1 (GUM 4.3.7).
    """
    doubt = 0.0 if scale.certificate_um is None else scale.certificate_um
    shortest = cos(radians(scale.tilt_deg))
    return (
        normal_input(
            "true over nominal length of the scale",
            1.0,
            doubt / length_um,
            unit="1",
            symbol="true_over_nominal",
        ),
        rectangular_input(
            "tilt of the scale (cosine)",
            (1 + shortest) / 2,
            (1 - shortest) / 2,
            unit="1",
            symbol="tilt_factor",
        ),
    )


def grey_plane(picture: npt.NDArray[np.floating]) -> FloatArray:
    """Turn a picture into a plane of grey values.

    Parameters
    ----------
    picture : ndarray of shape (n_rows, n_cols) or (n_rows, n_cols, n_channels)
        Grey or colour values, of any range.

    Returns
    -------
    ndarray of shape (n_rows, n_cols)
        Mean over the channels.

    Raises
    ------
    ParameterError
        If it is no plane of finite numbers, or smaller than 16 by 16 px.
    """
    plane = np.asarray(picture, dtype=np.float64)
    if plane.ndim == 3:
        plane = plane.mean(axis=2)
    if plane.ndim != 2 or min(plane.shape) < 16 or not np.isfinite(plane).all():
        raise ParameterError(
            "picture",
            plane.shape,
            allowed="finite grey or colour values, at least 16 by 16 pixels",
        )
    return plane


def refuse_unexpected(pixel_size: Quantity, expected: float | None) -> None:
    """Refuse a pixel size far off the expected one.

    Parameters
    ----------
    pixel_size : Quantity
        As found [um].
    expected : float or None
        About what it should be [um]; None checks nothing.

    Raises
    ------
    ParameterError
        If the expected size is not above zero.
    UnresolvedDivisionsError
        If the two differ by more than a tenth.
    """
    if expected is None:
        return
    if expected <= 0:
        raise ParameterError(
            "expected_um_per_px", expected, allowed="a pixel size above 0 um"
        )
    if abs(pixel_size.value / expected - 1) > EXPECTED_WITHIN:
        found = (
            f"The scale gives a pixel of {pixel_size.value:.4g} um, but about "
            f"{expected:.4g} um was expected"
        )
        allowed = f"a difference of {100 * EXPECTED_WITHIN:.0f} %"
        raise UnresolvedDivisionsError(found, allowed=allowed)
