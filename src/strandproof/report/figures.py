"""Micrographs for a report: the picture, a bar drawn from the calibration, a mark."""

import base64
from dataclasses import dataclass
from math import floor, log10

from markupsafe import Markup, escape

from strandproof.errors import ParameterError

_LARGEST_SHARE = 0.31


@dataclass(frozen=True, slots=True)
class MicrographPicture:
    """A reduced copy of a micrograph, ready to be shown.

    Parameters
    ----------
    png : bytes
        The picture as PNG.
    width_px, height_px : int
        Size of the original [px]; the bar is drawn on this grid.
    """

    png: bytes
    width_px: int
    height_px: int


def scale_bar_um(width_um: float) -> float:
    """Choose the length of a scale bar from the series 1, 2, 5.

    Parameters
    ----------
    width_um : float
        Width of the picture [um].

    Returns
    -------
    float
        The longest length of the series that is at most 31 % of the width [um];
        never less than 12.4 %.

    Raises
    ------
    ParameterError
        If the width is not above zero.

    Examples
    --------
    >>> scale_bar_um(310.7)
    50.0
    """
    if not width_um > 0:
        raise ParameterError("width_um", width_um, allowed="a length above zero")
    largest = _LARGEST_SHARE * width_um
    decade = 10.0 ** floor(log10(largest))
    return max(
        length for step in (1, 2, 5) if (length := step * decade) <= largest * 1.000001
    )


def micrograph_svg(
    picture: MicrographPicture, *, pixel_size_um: float | None, alt: str, mark: str
) -> Markup:
    """Draw a micrograph with its bar; without a calibration it says so instead.

    Parameters
    ----------
    picture : MicrographPicture
        The picture.
    pixel_size_um : float or None
        Pixel size from the calibration [um].
    alt : str
        What it shows, for those who cannot see it.
    mark : str
        Words in the corner, for example a code, or "synthetic".

    Returns
    -------
    Markup
        An SVG element that carries the picture within itself.
    """
    width, height = picture.width_px, picture.height_px
    data = base64.b64encode(picture.png).decode("ascii")
    letters = round(max(width, 400) / 32)
    parts = [
        (
            f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {width} {height}" '
            f'role="img" aria-label="{escape(alt)}">'
        ),
        f"<title>{escape(alt)}</title>",
        (
            f'<image width="{width}" height="{height}" '
            f'href="data:image/png;base64,{data}"/>'
        ),
        _box(mark, x=0, y=height - 1.8 * letters, letters=letters),
    ]
    if pixel_size_um is None:
        parts.append(_box("no scale", x=0, y=0, letters=letters))
    else:
        parts.append(_bar(picture, pixel_size_um, letters))
    return Markup("".join(parts) + "</svg>")  # noqa: S704 - all words are escaped


def _bar(picture: MicrographPicture, pixel_size_um: float, letters: int) -> str:
    length_um = scale_bar_um(picture.width_px * pixel_size_um)
    length_px = length_um / pixel_size_um
    margin = letters / 2
    box_width = length_px + 2 * margin
    x = picture.width_px - box_width
    y = picture.height_px - 2.4 * letters
    words = f"{length_um:g} µm" if length_um < 1000 else f"{length_um / 1000:g} mm"
    return (
        f'<rect x="{x:.1f}" y="{y:.1f}" width="{box_width:.1f}" '
        f'height="{2.4 * letters:.1f}" fill="#fff"/>'
        f'<rect x="{x + margin:.2f}" y="{y + 0.35 * letters:.1f}" '
        f'width="{length_px:.2f}" height="{0.3 * letters:.1f}" fill="#000"/>'
        f'<text x="{x + box_width / 2:.1f}" y="{y + 1.85 * letters:.1f}" '
        f'font-size="{letters}" text-anchor="middle" '
        f'font-family="sans-serif">{words}</text>'
    )


def _box(words: str, *, x: float, y: float, letters: int) -> str:
    if not words:
        return ""
    width = 0.62 * letters * len(words) + letters
    return (
        f'<rect x="{x}" y="{y:.1f}" width="{width:.1f}" height="{1.8 * letters:.1f}" '
        f'fill="#fff"/><text x="{x + letters / 2:.1f}" y="{y + 1.25 * letters:.1f}" '
        f'font-size="{letters}" font-family="sans-serif">{escape(words)}</text>'
    )
