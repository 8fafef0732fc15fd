"""Pixel size from pictures of a stage scale, whose line spacing is found by itself."""

from collections.abc import Sequence
from dataclasses import dataclass
from math import degrees, hypot, sqrt

import numpy as np
import numpy.typing as npt

from strandproof.errors import (
    ParameterError,
    TooFewDivisionsError,
    UnevenSpacingError,
)
from strandproof.micrograph.calibration.numbering import (
    FEWEST_LINES,
    NO_CENTRES,
    LineCentres,
    least_squares,
    mean_by_line,
    numbered,
    residuals_of,
    without_outliers,
)
from strandproof.micrograph.calibration.ruled_lines import (
    FloatArray,
    direction_across,
    ruled_bands,
    turned,
)
from strandproof.micrograph.calibration.scale import (
    PixelCalibration,
    StageScale,
    grey_plane,
    refuse_unexpected,
    scale_inputs,
)
from strandproof.quantity import Input, ModelNumber, propagate

LARGEST_RESIDUAL = 0.12
LARGEST_SPACING_CHANGE = 0.01
_SIGNIFICANT = 4.0
_TURNS = 3


@dataclass(frozen=True, slots=True, kw_only=True)
class RulingFit:
    """The spacing of the lines in one picture of a stage scale.

    Parameters
    ----------
    spacing_px : float
        Distance of neighbouring lines at right angles to them [px].
    fit_uncertainty_px : float
        Standard uncertainty by the residuals of the lines from even places [px].
    fit_degrees_of_freedom : float
        Lines less two.
    readings_px : tuple of float
        Spacing in separate bands of the picture [px].
    lines : int
        Lines found.
    divisions : int
        Divisions from the first to the last.
    across_deg : float
        Direction across the lines, from the column axis towards rising rows [deg].
    residual_px : float
        Root mean square distance of a line from its even place [px].
    width_px, height_px : int
        Size of the picture [px].
    """

    spacing_px: float
    fit_uncertainty_px: float
    fit_degrees_of_freedom: float
    readings_px: tuple[float, ...]
    lines: int
    divisions: int
    across_deg: float
    residual_px: float
    width_px: int
    height_px: int


def fit_ruling(picture: npt.NDArray[np.floating]) -> RulingFit:
    """Find the spacing and direction of the lines in a picture of a stage scale.

    The lines have to be parallel, brighter or darker than the ground, at least 5 px
    apart, and at least 6 of them must be seen in three bands of the picture. A
    pattern of finer lines than the pixels can show cannot be told from a true one.

    Parameters
    ----------
    picture : ndarray of shape (n_rows, n_cols) or (n_rows, n_cols, n_channels)
        Grey or colour values, of any range.

    Returns
    -------
    RulingFit
        Spacing with its uncertainty, direction, and readings of separate bands.

    Raises
    ------
    ParameterError
        If the picture is no plane of finite numbers.
    TooFewDivisionsError
        If fewer than 6 lines, or even lines in fewer than three bands, are found.
    UnevenSpacingError
        If lines lie off even places by more than 12 % of the spacing, or the spacing
        changes across the picture by more than 1 %.
    UnresolvedDivisionsError
        If lines are closer than 5 px.

    Notes
    -----
    Least squares of c = a + p k + t v over all line centres c (number k, place v
    along the lines); spacing = p / sqrt(1 + t^2). Its uncertainty is that of the
    slope of a straight line through the mean residual of each line, with n - 2
    degrees of freedom: division errors of the scale, which all bands share, count
    in full.
    """
    plane = grey_plane(picture)
    angle, centres, slope = direction_across(plane), NO_CENTRES, 0.0
    for _ in range(_TURNS):
        angle = turned(angle, slope)
        centres = numbered(ruled_bands(plane, angle))
        slope = least_squares(centres)[2]
    centres = without_outliers(centres)
    spacing, residuals = _checked_fit(centres)
    return _ruling_fit(centres, spacing, residuals, turned(angle, slope), plane.shape)


def calibration_from_rulings(
    fits: Sequence[RulingFit],
    scale: StageScale,
    *,
    expected_um_per_px: float | None = None,
) -> PixelCalibration:
    """Turn the spacing in one or several pictures of a stage scale into a pixel size.

    Parameters
    ----------
    fits : sequence of RulingFit
        One for each picture, all with the settings that the calibration is for.
    scale : StageScale
        The scale.
    expected_um_per_px : float or None
        About what the pixel size should be [um], for example from objective and
        camera; catches a wrong division or a false pattern of unresolved lines.

    Returns
    -------
    PixelCalibration
        Pixel size with budget and readings.

    Raises
    ------
    ParameterError
        If there is no picture, or pictures differ in size.
    UnresolvedDivisionsError
        If the result is off the expected pixel size by more than 10 %.

    Notes
    -----
    Pixel size = division x (true over nominal) x (cosine of tilt) / spacing. The
    spacing is the mean over the pictures. Its standard uncertainty is the larger of
    (a) scatter of the readings over the square root of their number (the pictures,
    where there are two or more; else the bands of the one) and (b) mean uncertainty
    of the fits, since pictures of one scale share its division errors. Both hold the
    noise of the pixels, so that their sum would count it twice.
    """
    sizes = {(fit.width_px, fit.height_px) for fit in fits}
    if len(sizes) != 1:
        raise ParameterError(
            "pictures of the stage scale",
            sorted(sizes),
            allowed="one or more of the same width and height [px]",
        )
    spacing = _spacing_input(fits)
    length_um = min(fit.divisions for fit in fits) * scale.division_um

    def model(
        spacing: ModelNumber, true_over_nominal: ModelNumber, tilt_factor: ModelNumber
    ) -> ModelNumber:
        return scale.division_um * true_over_nominal * tilt_factor / spacing

    pixel_size = propagate(
        model, (spacing, *scale_inputs(scale, length_um=length_um)), unit="um"
    )
    refuse_unexpected(pixel_size, expected_um_per_px)
    return PixelCalibration(
        pixel_size=pixel_size,
        readings_um=tuple(scale.division_um / one for one in _readings(fits)),
        method=_method(fits, scale),
        width_px=fits[0].width_px,
        height_px=fits[0].height_px,
        flags=scale.flags,
    )


def _checked_fit(centres: LineCentres) -> tuple[float, FloatArray]:
    """Give the spacing and the mean residual of each line.

    Raises
    ------
    TooFewDivisionsError
        If too few lines are left.
    UnevenSpacingError
        If they are not even.
    """
    _origin, pitch, slope = least_squares(centres)
    numbers, means, _places = mean_by_line(centres, residuals_of(centres))
    if len(numbers) < FEWEST_LINES:
        raise TooFewDivisionsError(len(numbers), needed=FEWEST_LINES)
    largest = float(np.abs(means).max()) / pitch
    if largest > LARGEST_RESIDUAL:
        found = f"one line lies {100 * largest:.0f} % of a spacing off its even place"
        raise UnevenSpacingError(found, allowed=f"{100 * LARGEST_RESIDUAL:.0f} %")
    change, doubt = _change_of_spacing(numbers, means, pitch)
    if abs(change) > max(LARGEST_SPACING_CHANGE, _SIGNIFICANT * doubt):
        found = f"the spacing changes by {100 * abs(change):.1f} % across the picture"
        raise UnevenSpacingError(found, allowed=f"{100 * LARGEST_SPACING_CHANGE:.0f} %")
    return pitch / hypot(1.0, slope), means


def _change_of_spacing(
    numbers: npt.NDArray[np.int64], means: FloatArray, pitch: float
) -> tuple[float, float]:
    """Relative change of spacing from first to last line, and its uncertainty."""
    span = float(np.ptp(numbers))
    x = (numbers - numbers.mean()) / span
    design = np.column_stack([np.ones(len(x)), x, x**2])
    solution = np.linalg.lstsq(design, means, rcond=None)[0]
    freedom = max(len(x) - 3, 1)
    variance = float(np.sum((means - design @ solution) ** 2)) / freedom
    u = sqrt(variance * float(np.linalg.inv(design.T @ design)[2, 2]))
    scale = 2.0 / (span * pitch)
    return float(solution[2]) * scale, u * scale


def _ruling_fit(
    centres: LineCentres,
    spacing: float,
    means: FloatArray,
    angle: float,
    shape: tuple[int, ...],
) -> RulingFit:
    numbers = np.unique(centres.number)
    freedom = float(len(numbers) - 2)
    spread = float(np.sum((numbers - numbers.mean()) ** 2))
    variance = float(np.sum(means**2)) / freedom
    return RulingFit(
        spacing_px=spacing,
        fit_uncertainty_px=sqrt(variance / spread),
        fit_degrees_of_freedom=freedom,
        readings_px=_band_readings(centres),
        lines=len(numbers),
        divisions=int(np.ptp(numbers)),
        across_deg=degrees(angle) % 180,
        residual_px=sqrt(float(np.mean(means**2))),
        width_px=shape[1],
        height_px=shape[0],
    )


def _band_readings(centres: LineCentres) -> tuple[float, ...]:
    """Spacing in each band, at right angles to the lines."""
    slope = least_squares(centres)[2]
    readings = []
    for band in np.unique(centres.band):
        here = centres.band == band
        if here.sum() >= FEWEST_LINES:
            pitch = np.polyfit(centres.number[here], centres.across[here], 1)[0]
            readings.append(float(pitch) / hypot(1.0, slope))
    return tuple(readings)


def _readings(fits: Sequence[RulingFit]) -> tuple[float, ...]:
    if len(fits) > 1:
        return tuple(fit.spacing_px for fit in fits)
    return fits[0].readings_px


def _spacing_input(fits: Sequence[RulingFit]) -> Input:
    readings = np.array(_readings(fits))
    by_fit = float(np.mean([fit.fit_uncertainty_px for fit in fits]))
    n = len(readings)
    by_scatter = float(readings.std(ddof=1)) / sqrt(n) if n > 1 else 0.0
    larger = by_scatter > by_fit
    fit_freedom = min(fit.fit_degrees_of_freedom for fit in fits)
    return Input(
        name="spacing of the lines (scatter)"
        if larger
        else "spacing of the lines (straight-line fit)",
        estimate=float(np.mean([fit.spacing_px for fit in fits])),
        unit="px",
        standard_uncertainty=max(by_scatter, by_fit),
        degrees_of_freedom=float(n - 1) if larger else fit_freedom,
        distribution="student",
        symbol="spacing",
    )


def _method(fits: Sequence[RulingFit], scale: StageScale) -> str:
    pictures = "1 picture" if len(fits) == 1 else f"{len(fits)} pictures"
    lines = min(fit.lines for fit in fits)
    return (
        f"stage scale, divisions of {scale.division_um:g} um, lines found by program: "
        f"{pictures}, at least {lines} lines, {len(_readings(fits))} readings"
    )
