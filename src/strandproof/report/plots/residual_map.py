"""Residual ratio against dissolved impurity, with a reading's band across it."""

from collections.abc import Sequence
from dataclasses import dataclass
from math import log10

from markupsafe import Markup

from strandproof.errors import ParameterError
from strandproof.report.plots.canvas import (
    INK,
    LINE,
    QUIET,
    RANGE,
    WIDTH,
    Scale,
    heading,
    line,
    number,
    paragraph,
    require_finite,
    svg_plot,
    words,
)
from strandproof.report.plots.decades import (
    decade_axis,
    decade_lines,
    decades,
    plain_power,
)

_LEFT, _RIGHT, _HEIGHT = 66, WIDTH - 24, 280
_TOP = 44  # for the scale's name and the nines above the drawing
_PPM = (0.1, 1000.0)
_RATIOS = (10.0, 100_000.0)
_NINES = ((100.0, "4N"), (10.0, "5N"), (1.0, "6N"))
_DASHES = ("", "9 4", "2 4")
_MOST_PAIRS = len(_DASHES)


@dataclass(frozen=True, slots=True, kw_only=True)
class PurityCurve:
    """Residual ratio against the content of one impurity.

    Parameters
    ----------
    name : str
        Which impurity.
    ppm : tuple of float
        Dissolved contents [ppm by mass], above zero and rising.
    ratios : tuple of float
        Residual ratio of this piece, one for each content.
    bare_ratios : tuple of float
        The same without boundaries and surface: one large crystal.
    """

    name: str
    ppm: tuple[float, ...]
    ratios: tuple[float, ...]
    bare_ratios: tuple[float, ...]


def residual_map_svg(
    curves: Sequence[PurityCurve],
    *,
    band: tuple[float, float | None] | None,
    piece: str,
    title: str,
) -> Markup:
    """Draw the residual ratio against dissolved impurity, both by powers of ten.

    Each impurity has a strong line for the piece with its boundaries and surface, and
    a thin one for a large crystal without them. Where the band crosses the lines is
    what a reading allows.

    Parameters
    ----------
    curves : sequence of PurityCurve
        One to three.
    band : tuple of float, or None
        Lower and upper end of the residual ratio read; the upper may be open. None
        before anything is measured.
    piece : str
        What the strong lines hold for, for example "boundaries every 8 um".
    title : str
        What is shown.

    Returns
    -------
    Markup
        An SVG element, 390 units wide.

    Raises
    ------
    ParameterError
        If there are none or too many curves, or a number is not finite.

    Examples
    --------
    >>> curve = PurityCurve(
    ...     name="silver", ppm=(1.0, 100.0), ratios=(300.0, 290.0),
    ...     bare_ratios=(9000.0, 1900.0),
    ... )
    >>> drawn = residual_map_svg(
    ...     [curve], band=(160.0, 180.0), piece="small grains", title="One strand"
    ... )
    >>> "this reading: 160 to 180" in drawn
    True
    """
    _check(curves, band)
    title_words, top = heading(title)
    upper, bottom = top + _TOP, top + _TOP + _HEIGHT
    across = Scale(log10(_PPM[0]), log10(_PPM[1]), _LEFT, _RIGHT)
    up = Scale(log10(_RATIOS[0]), log10(_RATIOS[1]), bottom, upper)
    parts = [title_words, _band(band, up), _grid(across, up)]
    for curve, dashes in zip(curves, _DASHES, strict=False):
        parts.append(_line(curve.ppm, curve.bare_ratios, across, up, (1.0, dashes)))
        parts.append(_line(curve.ppm, curve.ratios, across, up, (2.6, dashes)))
    y = bottom + 2 * LINE + 12
    for curve, dashes in zip(curves, _DASHES, strict=False):
        parts.append(_key(curve.name, y, dashes))
        y += LINE
    if band is not None:
        parts.append(_swatch((0, y + 4), (88, 10)))
        parts.append(words(_band_words(band), 96, y + LINE * 0.75))
        y += LINE
    note, end = paragraph(_note(piece, band), y + 4)
    return svg_plot(
        title=title,
        description=_described(curves, band, piece),
        body="".join(parts) + note,
        height=end + 6,
    )


def _check(
    curves: Sequence[PurityCurve], band: tuple[float, float | None] | None
) -> None:
    if not 1 <= len(curves) <= _MOST_PAIRS:
        raise ParameterError(
            "curves", len(curves), allowed=f"from 1 to {_MOST_PAIRS} curves"
        )
    for curve in curves:
        values = (*curve.ppm, *curve.ratios, *curve.bare_ratios)
        require_finite("ppm and ratios", values)
        if not all(value > 0 for value in values):
            raise ParameterError("ppm and ratios", values, allowed="above zero")
    if band is not None:
        require_finite("band", [end for end in band if end is not None])


def _grid(across: Scale, up: Scale) -> str:
    parts = [
        decade_lines(across, (up.start, up.end), upright=True),
        decade_lines(up, (_LEFT, _RIGHT), upright=False),
        words("R(273 K)/R(4 K)", 0, up.end - 28),
    ]
    for power in decades(up):
        y = up.place(power)
        parts.append(words(plain_power(power), _LEFT - 6, y + 4.5, anchor="end"))
    look = f'stroke="{QUIET}" stroke-dasharray="1 3"'
    for ppm, name in _NINES:
        x = across.place(log10(ppm))
        parts.append(line((x, up.start), (x, up.end - 8), style=look))
        parts.append(words(name, x, up.end - 11, anchor="middle"))
    label = "dissolved impurity, ppm by mass"
    parts.append(decade_axis(across, up.start, label=label, named=plain_power))
    return "".join(parts)


def _band(band: tuple[float, float | None] | None, up: Scale) -> str:
    if band is None:
        return ""
    low = up.place(log10(max(band[0], _RATIOS[0])))
    high = up.end if band[1] is None else up.place(log10(band[1]))
    height = max(low - high, 3.0)
    return _swatch((_LEFT, high), (_RIGHT - _LEFT, height))


def _swatch(corner: tuple[float, float], size: tuple[float, float]) -> str:
    return (
        f'<rect x="{number(corner[0])}" y="{number(corner[1])}" '
        f'width="{number(size[0])}" height="{number(size[1])}" fill="{RANGE}" '
        f'stroke="{QUIET}" stroke-width="0.8"/>'
    )


def _band_words(band: tuple[float, float | None]) -> str:
    if band[1] is None:
        return f"this reading: {_round(band[0])} or more"
    return f"this reading: {_round(band[0])} to {_round(band[1])}"


def _line(
    ppm: Sequence[float],
    ratios: Sequence[float],
    across: Scale,
    up: Scale,
    look: tuple[float, str],
) -> str:
    shown = [
        (log10(x), log10(y))
        for x, y in zip(ppm, ratios, strict=True)
        if _RATIOS[0] <= y <= _RATIOS[1] and _PPM[0] <= x <= _PPM[1]
    ]
    if len(shown) < 2:
        return ""
    places = " ".join(
        f"{number(across.place(x))},{number(up.place(y))}" for x, y in shown
    )
    return f'<polyline points="{places}" fill="none" {_stroke(*look)}/>'


def _stroke(width: float, dashes: str) -> str:
    dashed = f' stroke-dasharray="{dashes}"' if dashes else ""
    return f'stroke="{INK}" stroke-width="{width:g}"{dashed}'


def _key(name: str, top: float, dashes: str) -> str:
    middle = top + 9
    return (
        line((0, middle), (40, middle), style=_stroke(2.6, dashes))
        + line((48, middle), (88, middle), style=_stroke(1.0, dashes))
        + words(name, 96, top + LINE * 0.75)
    )


def _note(piece: str, band: tuple[float, float | None] | None) -> str:
    note = f"Strong lines: {piece}. Thin lines: one large crystal without them."
    if band is not None:
        note += (
            " The grey band crosses the lines of different elements at contents that "
            "lie decades apart."
        )
    return note


def _described(
    curves: Sequence[PurityCurve],
    band: tuple[float, float | None] | None,
    piece: str,
) -> str:
    lines = "; ".join(
        f"{curve.name}: {_round(curve.ratios[0])} at {curve.ppm[0]:g} ppm to "
        f"{_round(curve.ratios[-1])} at {curve.ppm[-1]:g} ppm (large crystal "
        f"{_round(curve.bare_ratios[0])} to {_round(curve.bare_ratios[-1])})"
        for curve in curves
    )
    read = "" if band is None else f" {_band_words(band).capitalize()}."
    return f"Residual ratio. {lines}.{read} {_note(piece, band)}"


def _round(ratio: float) -> str:
    return f"{float(f'{ratio:.3g}'):g}"
