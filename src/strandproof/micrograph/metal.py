"""Tell metal from the mount beside it.

A mount is what reaches the edge of the picture in large, even, almost colourless
areas, clearly darker (or, where it holds most of the picture's edge, clearly
brighter) than what is left. Everything else is metal, dark grains included.
"""

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt
from scipy import ndimage

from strandproof.micrograph.lab import LabPicture

FloatPlane = npt.NDArray[np.float32]
Mask = npt.NDArray[np.bool_]
Colour = npt.NDArray[np.float32]

_SEARCH_SIDE_PX = 512  # the mount is sought in a picture reduced to this
_BAND = 0.02  # of the side: what counts as the edge of the picture
_DARK_BELOW, _BRIGHT_ABOVE = 35.0, 75.0  # L* of a mount
_LARGEST_CHROMA = 15.0  # a mount is almost colourless, dark tinted grains are not
_DARK_DISTANCE, _BRIGHT_DISTANCE = 42.0, 20.0  # L*a*b* distance from metal
_TOLERANCE = (0.3, 0.45)  # of that distance: what still belongs to the mount
_LARGEST_SPREAD = 0.18  # of that distance: 90 % of the mount are as even as this
_DARK_SHARE, _BRIGHT_SHARE = 0.04, 0.4  # of the picture's edge
_BRIGHT_PIECE = 0.15  # of the picture's edge, in one piece: bright grains hold less
_LEAST_AREA = 0.01  # of the picture
_LEAST_RADIUS = 0.03  # of the side: radius of the largest circle inside
_POCKET_RADIUS = 0.01  # the same for a pocket of mount between strands
_SHARP_SHARE = 0.6  # of the mount's outline must be a clear step
_LETTERING_ABOVE, _LETTERING_SHARE = 93.0, 0.05  # L*, and share of the metal
_BLACK_BELOW = 12.0  # L*: nothing brighter than this is not metal


@dataclass(frozen=True, slots=True, kw_only=True)
class _Mount:
    """Colour of the mount, and the largest distance that still belongs to it."""

    colour: Colour
    tolerance: float
    distance: float  # to the metal
    dark: bool


def metal_mask(picture: LabPicture) -> Mask:
    """Find the metal in a picture.

    Parameters
    ----------
    picture : LabPicture
        The picture.

    Returns
    -------
    ndarray of bool, shape (n_rows, n_cols)
        True on metal; all visible pixels where no mount was found, none where
        the whole picture is black.

    Notes
    -----
    Fails where a mount is as bright as the metal, brightly coloured or strongly
    patterned, where it does not reach the picture's edge (a pocket between
    strands is taken for metal), and where a grain at the edge is as dark, large
    and even as a mount.
    """
    valid = picture.valid
    if not valid.any() or _is_black(picture):
        return np.zeros_like(valid)
    step = -(-max(valid.shape) // _SEARCH_SIDE_PX)
    lab, visible = _reduced(picture.lab, step), valid[::step, ::step]
    for dark in (True, False):
        mount = _mount_colour(lab, visible, dark=dark)
        if mount is None:
            continue
        found = _mount_area(lab, visible, mount)
        if found is not None:
            return _without_mount(picture, found, mount, step)
    return valid.copy()


def _is_black(picture: LabPicture) -> bool:
    brightest = np.quantile(picture.lightness[picture.valid], 0.99)
    return bool(brightest < _BLACK_BELOW)


def _reduced(lab: FloatPlane, step: int) -> FloatPlane:
    small = np.empty((*lab[::step, ::step].shape,), np.float32)
    for channel in range(lab.shape[2]):
        smooth = ndimage.gaussian_filter(
            lab[..., channel], max(1.0, step / 2), mode="nearest"
        )
        small[..., channel] = smooth[::step, ::step]
    return small


def _edge_band(visible: Mask) -> Mask:
    width = max(1, round(_BAND * min(visible.shape)))
    return visible & ~ndimage.binary_erosion(visible, iterations=width)


def _mount_colour(lab: FloatPlane, visible: Mask, *, dark: bool) -> _Mount | None:
    """Most frequent colourless shade at the picture's edge, if it can be a mount."""
    band = lab[_edge_band(visible)]
    lightness, plain = band[:, 0], _chroma(band) <= _LARGEST_CHROMA
    side = lightness < _DARK_BELOW if dark else lightness > _BRIGHT_ABOVE
    fits = side & plain
    if fits.mean() < (_DARK_SHARE if dark else _BRIGHT_SHARE):
        return None
    near = np.abs(lightness - _most_frequent(lightness[fits])) <= 5
    colour = np.median(band[near & plain], axis=0)
    least = _DARK_DISTANCE if dark else _BRIGHT_DISTANCE
    away = _distance(lab, colour)[visible]
    rest = away[away > least / 2]
    if rest.size < _LEAST_AREA * visible.sum():
        return None
    distance = float(np.median(rest))
    spread = 1.4826 * float(np.median(_distance(band[near], colour)))
    low, high = _TOLERANCE[0] * distance, _TOLERANCE[1] * distance
    tolerance = float(np.clip(4 * spread, low, high))
    mount = _Mount(colour=colour, tolerance=tolerance, distance=distance, dark=dark)
    return mount if distance >= least else None


def _most_frequent(lightness: FloatPlane) -> float:
    count, edges = np.histogram(lightness, bins=100, range=(0, 100))
    smooth = ndimage.uniform_filter1d(count.astype(np.float64), 5, mode="constant")
    return float(edges[int(np.argmax(smooth))]) + 0.5


def _chroma(lab: FloatPlane) -> FloatPlane:
    chroma: FloatPlane = np.sqrt((lab[..., 1:] ** 2).sum(axis=-1))
    return chroma


def _distance(lab: FloatPlane, colour: Colour) -> FloatPlane:
    distance: FloatPlane = np.sqrt(((lab - colour) ** 2).sum(axis=-1))
    return distance


def _belongs(lab: FloatPlane, mount: _Mount) -> Mask:
    """Near the mount's colour, or beyond it (darker than dark)."""
    difference = lab - mount.colour
    beyond = difference[..., 0] < 0 if mount.dark else difference[..., 0] > 0
    difference[..., 0][beyond] = 0
    belongs: Mask = (difference**2).sum(axis=-1) <= mount.tolerance**2
    return belongs


def _mount_area(lab: FloatPlane, visible: Mask, mount: _Mount) -> Mask | None:
    """Area of the mount in the reduced picture, if it is one."""
    like_mount = visible & ndimage.binary_opening(
        _belongs(lab, mount) | ~visible, iterations=2
    )
    band = _edge_band(visible)
    area = _reaching(like_mount, band)
    if area.sum() < max(_LEAST_AREA * visible.sum(), 4):
        return None
    if not mount.dark and _largest_share(area, band) < _BRIGHT_PIECE:
        return None
    side = min(visible.shape)
    depth = ndimage.distance_transform_edt(np.pad(like_mount, 1, mode="edge"))
    depth = depth[1:-1, 1:-1]
    if depth[area].max() < _LEAST_RADIUS * side:
        return None
    rest = ndimage.binary_opening(visible & ~area, iterations=2)
    if rest.sum() < _LEAST_AREA * visible.sum():
        return None
    is_mount = _is_even(lab[area], mount) and _is_sharp(lab, visible, area, mount)
    wide = like_mount & (depth >= _POCKET_RADIUS * side)
    return area | _reaching(like_mount, wide) if is_mount else None


def _reaching(area: Mask, band: Mask) -> Mask:
    """Pieces of an area that reach a band."""
    pieces, n_pieces = ndimage.label(area)
    reaching = np.zeros(n_pieces + 1, np.bool_)
    reaching[pieces[band & area]] = True
    reaching[0] = False
    kept: Mask = reaching[pieces]
    return kept


def _largest_share(area: Mask, band: Mask) -> float:
    """Share of a band that the piece holding most of it holds."""
    pieces, n_pieces = ndimage.label(area)
    held = np.bincount(pieces[band], minlength=n_pieces + 1)[1:]
    return float(held.max(initial=0) / max(band.sum(), 1))


def _is_even(inside: FloatPlane, mount: _Mount) -> bool:
    """Dark grains beside dark grooves are not."""
    spread = np.quantile(_distance(inside, mount.colour), 0.9)
    return bool(spread <= _LARGEST_SPREAD * mount.distance)


def _is_sharp(lab: FloatPlane, visible: Mask, area: Mask, mount: _Mount) -> bool:
    """Most of the outline is a clear step; the shade of a grain fades or is small."""
    near = ndimage.binary_dilation(area, iterations=3)
    ring = ndimage.binary_dilation(area, iterations=6) & ~near & visible
    if not ring.any():
        return False
    step = _distance(lab[ring], mount.colour) > 0.5 * mount.distance
    return bool(step.mean() >= _SHARP_SHARE)


def _without_mount(picture: LabPicture, area: Mask, mount: _Mount, step: int) -> Mask:
    """Draw the mount's outline in the full picture."""
    near = ndimage.binary_dilation(area, iterations=3)
    n_rows, n_cols = picture.valid.shape
    near = near.repeat(step, 0).repeat(step, 1)[:n_rows, :n_cols]
    resin = near & _belongs(_reduced(picture.lab, 1), mount)
    resin = ndimage.binary_opening(resin | ~picture.valid, iterations=2)
    core = area.repeat(step, 0).repeat(step, 1)[:n_rows, :n_cols]
    return _without_lettering(picture.valid & ~_reaching(resin, core), picture)


def _without_lettering(metal: Mask, picture: LabPicture) -> Mask:
    """Leave out small pieces in the mount that are mostly white: a scale bar."""
    pieces, n_pieces = ndimage.label(metal, np.ones((3, 3)))
    areas = np.bincount(pieces.ravel(), minlength=n_pieces + 1)
    white = metal & (picture.lightness > _LETTERING_ABOVE)
    whites = np.bincount(pieces[white], minlength=n_pieces + 1)
    small = areas < _LETTERING_SHARE * max(int(np.count_nonzero(metal)), 1)
    is_lettering = small & (2 * whites > areas)
    kept: Mask = metal & ~is_lettering[pieces]
    return kept
