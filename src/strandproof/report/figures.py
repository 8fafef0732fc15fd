"""Micrographs for a report: the picture, a bar drawn from the calibration, a mark."""

import base64
from collections.abc import Mapping
from dataclasses import dataclass
from math import floor, isfinite, log10

from markupsafe import Markup, escape

from strandproof.errors import ParameterError
from strandproof.records.case_state import CaseState
from strandproof.records.entries import Calibration, Micrograph, Section
from strandproof.report.wording import value_in_words

_LARGEST_SHARE = 0.31


@dataclass(frozen=True, slots=True)
class MicrographPicture:
    """A reduced copy of a micrograph, ready to be shown.

    Parameters
    ----------
    jpeg : bytes
        The copy as JPEG; nothing is measured on it.
    width_px, height_px : int
        Size of the original [px]; the bar is drawn on this grid.
    """

    jpeg: bytes
    width_px: int
    height_px: int


@dataclass(frozen=True, slots=True)
class Figure:
    """A micrograph as a reader meets it.

    Parameters
    ----------
    micrograph : Micrograph
        Its record.
    svg : Markup
        The picture with its bar.
    alt : str
        What it shows, for those who cannot see it.
    caption : str
        Code, section, field, light, etch step, scale, original.
    """

    micrograph: Micrograph
    svg: Markup
    alt: str
    caption: str


@dataclass(frozen=True, slots=True)
class Drawing:
    """A drawing of numbers that stands beside the measurement that they belong to.

    Parameters
    ----------
    svg : Markup
        The drawing, which carries its own title and description.
    alt : str
        What it shows, for those who cannot see it.
    caption : str
        What to see in it.
    """

    svg: Markup
    alt: str
    caption: str


def micrograph_figures(
    state: CaseState, pictures: Mapping[str, MicrographPicture]
) -> tuple[Figure, ...]:
    """Draw every micrograph of a case that a copy is at hand for.

    Parameters
    ----------
    state : CaseState
        State of the case.
    pictures : mapping of str to MicrographPicture
        Reduced copies, by short name.

    Returns
    -------
    tuple of Figure
        In the order of entry.
    """
    return tuple(
        _figure(state, micrograph, pictures[micrograph.id])
        for micrograph in state.records(Micrograph)
        if micrograph.id in pictures
    )


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
        If the width is not a finite length above zero.

    Examples
    --------
    >>> scale_bar_um(310.7)
    50.0
    """
    if not (isfinite(width_um) and width_um > 0):
        raise ParameterError("width_um", width_um, allowed="a finite length above zero")
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
    data = base64.b64encode(picture.jpeg).decode("ascii")
    letters = round(max(width, 400) / 32)
    parts = [
        (
            f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {width} {height}" '
            f'role="img" aria-label="{escape(alt)}">'
        ),
        f"<title>{escape(alt)}</title>",
        (
            f'<image width="{width}" height="{height}" '
            f'href="data:image/jpeg;base64,{data}"/>'
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


def _figure(
    state: CaseState, micrograph: Micrograph, picture: MicrographPicture
) -> Figure:
    section = state.record(Section, micrograph.section)
    pixel_size, scale = None, "no calibration: shown, not measured"
    if micrograph.calibration is not None:
        calibration = state.record(Calibration, micrograph.calibration)
        pixel_size = calibration.pixel_size.value
        scale = f"{value_in_words(calibration.pixel_size)} per pixel"
    kind = "Synthetic picture" if micrograph.synthetic else "Micrograph"
    code = section.blind_code or section.id
    parts = [
        f"{kind} {micrograph.id}, code {code}, {section.direction} section",
        *filter(None, (micrograph.field, micrograph.light, micrograph.etch_step)),
        scale,
        f"original {micrograph.file_sha256[:12]}…",
    ]
    mark = f"{code} synthetic" if micrograph.synthetic else code
    alt = f"{kind} of a {section.direction} section, code {code}"
    alt += f", {micrograph.field}" if micrograph.field else ""
    svg = micrograph_svg(picture, pixel_size_um=pixel_size, alt=alt, mark=mark)
    return Figure(micrograph, svg, alt, "; ".join(parts) + ".")
