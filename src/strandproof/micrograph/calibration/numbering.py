"""Which line each centre belongs to, and the straight lines through all of them."""

from collections.abc import Sequence
from dataclasses import dataclass
from math import pi

import numpy as np
import numpy.typing as npt

from strandproof.errors import TooFewDivisionsError, UnresolvedDivisionsError
from strandproof.micrograph.calibration.ruled_lines import Band, FloatArray

FEWEST_LINES = 6
CLOSEST_LINES_PX = 5.0
_FEWEST_BANDS = 3
_FULL_BAND = 0.7
_SAME_GAP = 0.05
_SEEN_SHARE = 1 / 3
_OUTLIER = 6.0


@dataclass(frozen=True, slots=True, eq=False)
class LineCentres:
    """Line centres of all bands: number of the line, place along, place across."""

    number: npt.NDArray[np.int64]
    along: FloatArray
    across: FloatArray
    band: npt.NDArray[np.int64]


NO_CENTRES = LineCentres(
    np.empty(0, np.int64), np.empty(0), np.empty(0), np.empty(0, np.int64)
)


def _full_bands(bands: tuple[Band, ...]) -> tuple[list[Band], int]:
    """Keep the bands of the commonest spacing that show most of its lines.

    Letters, the feet of the lines, and bands that only the longest lines reach show
    other spacings.
    """
    groups = [
        [other for other in bands if abs(other.gap_px / band.gap_px - 1) < _SAME_GAP]
        for band in bands
    ]
    sizes = [sum(len(band.centres_px) for band in group) for group in groups]
    common = groups[int(np.argmax(sizes))] if groups else []
    most = max((len(band.centres_px) for band in common), default=0)
    full = [band for band in common if len(band.centres_px) >= _FULL_BAND * most]
    return full, most if len(full) >= _FEWEST_BANDS else 0


def numbered(bands: tuple[Band, ...]) -> LineCentres:
    """Give every line centre the number of its line, by the fullest bands.

    Raises
    ------
    TooFewDivisionsError
        If too few bands or lines are left.
    UnresolvedDivisionsError
        If the lines are too close.
    """
    full, most = _full_bands(bands)
    if most < FEWEST_LINES:
        raise TooFewDivisionsError(most, needed=FEWEST_LINES)
    gap = float(np.median([band.gap_px for band in full]))
    if gap < CLOSEST_LINES_PX:
        found = f"The lines found are {gap:.1f} px apart"
        allowed = f"{CLOSEST_LINES_PX:g} px or more"
        raise UnresolvedDivisionsError(found, allowed=allowed)
    pitch = _common_pitch(full, gap)
    offsets = _offsets(full, pitch)
    parts = [
        (np.rint((band.centres_px - offset) / pitch), band)
        for band, offset in zip(full, offsets, strict=True)
    ]
    numbers = np.concatenate([number for number, _band in parts]).astype(np.int64)
    return _often_seen(
        LineCentres(
            numbers,
            np.concatenate([np.full(len(n), band.along_px) for n, band in parts]),
            np.concatenate([band.centres_px for _number, band in parts]),
            np.repeat(np.arange(len(parts)), [len(n) for n, _band in parts]),
        ),
        n_bands=len(full),
    )


def _common_pitch(bands: Sequence[Band], gap: float) -> float:
    """Give the spacing near a first guess that most centres of all bands follow.

    Notes
    -----
    Largest sum over the bands of |sum over lines of exp(2 pi i c / p)|^2, which does
    not change when bands are shifted against each other.
    """
    most = max(len(band.centres_px) for band in bands)
    pitches = gap * np.linspace(0.92, 1.08, 16 * most + 1)
    power = sum(
        np.abs(np.exp(2j * pi * band.centres_px / pitches[:, None]).sum(axis=1)) ** 2
        for band in bands
    )
    return float(pitches[int(np.argmax(power))])


def _offsets(bands: Sequence[Band], pitch: float) -> FloatArray:
    """Place of line 0 in each band; neighbouring bands differ by less than half."""
    phases = [
        np.angle(np.exp(2j * pi * band.centres_px / pitch).sum()) for band in bands
    ]
    return np.asarray(np.unwrap(phases) * pitch / (2 * pi), dtype=np.float64)


def _often_seen(centres: LineCentres, *, n_bands: int) -> LineCentres:
    """Leave out lines that few bands show: dust, noise, and cut corners."""
    _numbers, places, counts = np.unique(
        centres.number, return_inverse=True, return_counts=True
    )
    return _chosen(centres, counts[places] >= max(2, _SEEN_SHARE * n_bands))


def _chosen(centres: LineCentres, kept: npt.NDArray[np.bool_]) -> LineCentres:
    return LineCentres(
        centres.number[kept],
        centres.along[kept],
        centres.across[kept],
        centres.band[kept],
    )


def least_squares(centres: LineCentres) -> tuple[float, float, float]:
    """Origin, pitch and slope of c = a + p k + t v."""
    columns = (np.ones(len(centres.number)), centres.number, centres.along)
    solution = np.linalg.lstsq(np.column_stack(columns), centres.across, rcond=None)[0]
    origin, pitch, slope = map(float, solution)
    return origin, pitch, slope


def residuals_of(centres: LineCentres) -> FloatArray:
    """Distance of every centre from its even place [px].

    Parameters
    ----------
    centres : LineCentres
        Numbered centres.

    Returns
    -------
    ndarray of shape (n_centres,)
        Found less expected [px].
    """
    origin, pitch, slope = least_squares(centres)
    expected = origin + pitch * centres.number + slope * centres.along
    return np.asarray(centres.across - expected, dtype=np.float64)


def mean_by_line(
    centres: LineCentres, values: FloatArray
) -> tuple[npt.NDArray[np.int64], FloatArray, npt.NDArray[np.intp]]:
    """Mean of a value over all bands, line by line.

    Parameters
    ----------
    centres : LineCentres
        Numbered centres.
    values : ndarray of shape (n_centres,)
        One value for each centre.

    Returns
    -------
    numbers : ndarray of shape (n_lines,)
        Numbers of the lines, rising.
    means : ndarray of shape (n_lines,)
        Mean of each line.
    places : ndarray of shape (n_centres,)
        Place of each centre's line in the two above.
    """
    numbers, places = np.unique(centres.number, return_inverse=True)
    means = np.bincount(places, weights=values) / np.bincount(places)
    return numbers, means, places


def without_outliers(centres: LineCentres) -> LineCentres:
    """Leave out centres far off the other bands' places of the same line: dust."""
    residuals = residuals_of(centres)
    _numbers, _means, places = mean_by_line(centres, residuals)
    medians = np.array(
        [np.median(residuals[places == line]) for line in range(places.max() + 1)]
    )
    off = np.abs(residuals - medians[places])
    limit = max(_OUTLIER * 1.4826 * float(np.median(off)), 0.05)
    return _chosen(centres, off <= limit)
