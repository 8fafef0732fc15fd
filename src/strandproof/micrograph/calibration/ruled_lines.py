"""Sub-pixel centres of the parallel lines of a ruling, in bands along the lines."""

from dataclasses import dataclass
from math import atan, cos, pi, sin

import numpy as np
import numpy.typing as npt
from scipy import ndimage, signal

FloatArray = npt.NDArray[np.float64]

_GRADIENT_SIGMA_PX = 1.5
_BAND_HEIGHT_PX = 32
_FEWEST_BANDS = 16
_LOWEST_BAND_PX = 6
# A line of a band stands out by this share of the fourth strongest of the same band.
_SHARE_OF_STRONG_LINES = 0.4
# A band is one of the ruling when this share of its gaps is within a sixth of their
# median; letters and noise make gaps of any size.
_EVEN_SHARE = 0.7
_EVEN_WITHIN = 1 / 6
_FEWEST_LINES = 4
_SHARE_OF_OTHER_SIGN = 0.6
_CENTRE_STEPS = 15


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Band:
    """A strip of the picture along the lines, and the lines that cross it.

    Parameters
    ----------
    along_px : float
        Place of the strip along the lines, from the middle of the picture [px].
    centres_px : ndarray of shape (n_lines,)
        Centres of the lines across, in rising order [px].
    """

    along_px: float
    centres_px: FloatArray

    @property
    def gap_px(self) -> float:
        """Median distance of neighbouring lines [px]."""
        return float(np.median(np.diff(self.centres_px)))


def direction_across(plane: FloatArray) -> float:
    """Find the direction at right angles to most edges of a picture.

    Parameters
    ----------
    plane : ndarray of shape (n_rows, n_cols)
        Grey values.

    Returns
    -------
    float
        Angle from the column axis towards rising rows [rad], 0 to pi, good to about
        a degree; the straight-line fit makes it finer.

    Notes
    -----
    Mean of the doubled gradient angles within 8 degrees of the commonest one, each
    gradient counted by its square.
    """
    across = ndimage.gaussian_filter(plane, _GRADIENT_SIGMA_PX, order=(0, 1))
    down = ndimage.gaussian_filter(plane, _GRADIENT_SIGMA_PX, order=(1, 0))
    # The frame mirrors the picture, so that slanted lines bend there.
    inner = (slice(4, -4), slice(4, -4))
    weight = (across**2 + down**2)[inner].ravel()
    angle = np.arctan2(down, across)[inner].ravel() % pi
    counts, _edges = np.histogram(angle, bins=180, range=(0, pi), weights=weight)
    smooth = ndimage.gaussian_filter1d(counts, 2.0, mode="wrap")
    commonest = (int(np.argmax(smooth)) + 0.5) * pi / 180
    doubled = np.exp(2j * (angle - commonest))
    near = doubled.real > cos(2 * 8 * pi / 180)
    mean = np.sum(weight[near] * doubled[near])
    return float((commonest + 0.5 * np.angle(mean)) % pi)


def ruled_bands(plane: FloatArray, angle: float) -> tuple[Band, ...]:
    """Find the lines of a ruling, band by band.

    Parameters
    ----------
    plane : ndarray of shape (n_rows, n_cols)
        Grey values, lines brighter or darker than the ground.
    angle : float
        Direction across the lines [rad].

    Returns
    -------
    tuple of Band
        Those bands in which even lines were found.
    """
    profiles, first_px, places = _profiles(plane, angle)
    bright, dark = (_bands(sign * profiles, first_px, places) for sign in (1.0, -1.0))
    # The ground between thin lines has crests too, but wide ones; noise has crests,
    # but few even ones.
    sizes = [sum(len(band.centres_px) for band in found) for found, _ in (bright, dark)]
    if min(sizes) < _SHARE_OF_OTHER_SIGN * max(sizes):
        return bright[0] if sizes[0] > sizes[1] else dark[0]
    return bright[0] if bright[1] <= dark[1] else dark[0]


def turned(angle: float, slope: float) -> float:
    """Turn a direction by the slope that lines still have in its frame.

    Parameters
    ----------
    angle : float
        Direction across the lines [rad].
    slope : float
        Shift of a line across for one pixel along.

    Returns
    -------
    float
        Direction across the lines [rad].
    """
    return angle - atan(slope)


def _profiles(plane: FloatArray, angle: float) -> tuple[FloatArray, float, FloatArray]:
    """Mean grey value across the lines, one row a band; NaN where a band ends."""
    n_rows, n_cols = plane.shape
    rows = np.arange(n_rows, dtype=np.float64)[:, None] - (n_rows - 1) / 2
    columns = np.arange(n_cols, dtype=np.float64)[None, :] - (n_cols - 1) / 2
    across = (columns * cos(angle) + rows * sin(angle)).ravel()
    along = (rows * cos(angle) - columns * sin(angle)).ravel()
    low, high = float(along.min()), float(along.max()) + 1e-6
    wanted = max(_FEWEST_BANDS, round((high - low) / _BAND_HEIGHT_PX))
    n_bands = max(1, min(wanted, int((high - low) / _LOWEST_BAND_PX)))
    band = ((along - low) * (n_bands / (high - low))).astype(np.int64)
    first = float(np.floor(across.min()))
    n_bins = int(np.ceil(across.max()) - first) + 2
    left = np.floor(across - first).astype(np.int64)
    share = across - first - left
    grey = plane.ravel()
    size = n_bands * n_bins
    total, weight = np.zeros(size), np.zeros(size)
    # Each pixel is shared between two places, so that no centre is pulled to one.
    for place, part in ((left, 1 - share), (left + 1, share)):
        index = band * n_bins + place
        total += np.bincount(index, weights=part * grey, minlength=size)
        weight += np.bincount(index, weights=part, minlength=size)
    enough = weight > 0.5 * (high - low) / n_bands
    means = np.where(enough, total / np.maximum(weight, 1e-9), np.nan)
    middles = low + (np.arange(n_bands) + 0.5) * (high - low) / n_bands
    return means.reshape(n_bands, n_bins), first, middles


def _bands(
    profiles: FloatArray, first_px: float, places: FloatArray
) -> tuple[tuple[Band, ...], float]:
    """Give the even bands and the median share of a gap that a line is wide."""
    bands, widths = [], []
    for profile, place in zip(profiles, places, strict=True):
        centres, width = _line_centres(profile)
        if len(centres) < _FEWEST_LINES or not _are_even(centres):
            continue
        bands.append(Band(along_px=float(place), centres_px=centres + first_px))
        widths.append(width / bands[-1].gap_px)
    return tuple(bands), float(np.median(widths)) if widths else np.inf


def _line_centres(profile: FloatArray) -> tuple[FloatArray, float]:
    """Centres of the crests of a profile, and their median width at half height."""
    seen = _longest_run(np.isfinite(profile))
    nothing = np.empty(0), np.inf
    if len(seen) < 4 * _FEWEST_LINES:
        return nothing
    values = profile[seen]
    smooth = ndimage.gaussian_filter1d(values, 0.8, mode="nearest")
    peaks, found = signal.find_peaks(smooth, prominence=1e-9)
    if len(peaks) < _FEWEST_LINES:
        return nothing
    # Noise makes many low crests between the lines; a few high ones may be dust.
    strong = float(np.sort(found["prominences"])[-_FEWEST_LINES])
    kept = peaks[found["prominences"] >= _SHARE_OF_STRONG_LINES * strong]
    width = float(np.median(signal.peak_widths(smooth, kept, rel_height=0.5)[0]))
    gap = float(np.median(np.diff(kept)))
    return _centroids(values, kept, width=width, gap=gap) + seen[0], width


def _longest_run(mask: npt.NDArray[np.bool_]) -> npt.NDArray[np.intp]:
    """Places of the longest unbroken stretch that is true."""
    places = np.flatnonzero(mask)
    runs = np.split(places, np.flatnonzero(np.diff(places) > 1) + 1)
    return max(runs, key=len)


def _centroids(
    values: FloatArray, peaks: npt.NDArray[np.intp], *, width: float, gap: float
) -> FloatArray:
    """Centres by a window that follows its own centroid; lines at the ends go out.

    For a symmetric line on an even ground the fixed point is its centre.
    """
    reach = max(2, round(0.5 * gap))
    inside = (peaks >= reach + 1) & (peaks < len(values) - reach - 1)
    peaks = peaks[inside]
    steps = np.arange(-reach, reach + 1)
    places = peaks[:, None] + steps
    heights = values[places]
    # The ground is a straight line through both ends of the window.
    side = max(1, reach // 4)
    left, right = heights[:, :side].mean(axis=1), heights[:, -side:].mean(axis=1)
    share = (steps + reach) / (2 * reach)
    heights = heights - (left[:, None] * (1 - share) + right[:, None] * share)
    spread = float(np.clip(1.5 * width / 2.355, 1.0, 0.25 * gap))
    centres = peaks.astype(np.float64)
    for _ in range(_CENTRE_STEPS):
        weight = heights * np.exp(-0.5 * ((places - centres[:, None]) / spread) ** 2)
        total = weight.sum(axis=1)
        safe = np.where(total > 0, total, 1.0)
        moved = (weight * places).sum(axis=1) / safe
        centres = np.clip(np.where(total > 0, moved, centres), peaks - 2, peaks + 2)
    return centres


def _are_even(centres: FloatArray) -> bool:
    gaps = np.diff(centres)
    middle = float(np.median(gaps))
    near = np.abs(gaps - middle) <= _EVEN_WITHIN * middle
    return bool(near.mean() >= _EVEN_SHARE)
