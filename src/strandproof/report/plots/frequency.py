"""How far a conductor's resistance rises with frequency, over many decades."""

from collections.abc import Sequence
from dataclasses import dataclass
from math import ceil, floor, log10

from markupsafe import Markup

from strandproof.errors import ParameterError
from strandproof.report.plots.canvas import (
    FILL,
    INK,
    LINE,
    QUIET,
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

_LEFT, _RIGHT, _HEIGHT = 62, WIDTH - 20, 230
_LABEL = 30  # for the scale's name and 20 kHz, clear of the topmost tick
_FLOOR_PERCENT = 1e-4  # less is nothing that any bench would see
_MOST_CURVES = 4
_DASHES = ("", "9 4", "2 4", "9 3 2 3")
_BESIDE = 46  # letters that fit beside the sample of a line
_AUDIO_HZ = 20e3


@dataclass(frozen=True, slots=True, kw_only=True)
class RiseCurve:
    """One conductor's rise of resistance.

    Parameters
    ----------
    name : str
        Which conductor.
    frequencies_hz : tuple of float
        Frequencies [Hz], above zero and rising.
    ratios : tuple of float
        Resistance over that at direct current, one for each frequency.
    at_20_khz : float
        The same at 20 kHz.
    """

    name: str
    frequencies_hz: tuple[float, ...]
    ratios: tuple[float, ...]
    at_20_khz: float


def frequency_svg(curves: Sequence[RiseCurve], *, title: str) -> Markup:
    """Draw by how many per cent the resistance lies above that at direct current.

    Both scales go by powers of ten. A curve begins where it passes 0.0001 %.

    Parameters
    ----------
    curves : sequence of RiseCurve
        One to four.
    title : str
        What is shown.

    Returns
    -------
    Markup
        An SVG element, 390 units wide.

    Raises
    ------
    ParameterError
        If there are none or too many curves, a number is not finite, or a curve has
        fewer than two points.

    Examples
    --------
    >>> curve = RiseCurve(name="1 mm", frequencies_hz=(1e3, 1e6), ratios=(1.00007, 4.0),
    ...                   at_20_khz=1.027)
    >>> "2.7 % at 20 kHz" in frequency_svg([curve], title="One wire")
    True
    """
    _check(curves)
    top_words, top = heading(title)
    bottom = top + _LABEL + _HEIGHT
    across, up = _scales(curves, top + _LABEL, bottom)
    parts = [top_words, _grid(across, up, bottom), _audio(across, up)]
    for curve, dashes in zip(curves, _DASHES, strict=False):
        parts.append(_curve(curve, across, up, dashes=dashes))
    y = bottom + 2 * LINE + 8
    for curve, dashes in zip(curves, _DASHES, strict=False):
        drawn, y = _key(curve, y, dashes=dashes)
        parts.append(drawn)
    note, end = paragraph(_NOTE, y + 4)
    return svg_plot(
        title=title,
        description=" ".join(f"{_in_words(curve)}." for curve in curves) + f" {_NOTE}",
        body="".join(parts) + note,
        height=end + 6,
    )


_NOTE = (
    "Both scales go by powers of ten; a curve begins at 0.0001 %. Whether a rise "
    "could be heard is another question."
)


def _check(curves: Sequence[RiseCurve]) -> None:
    if not 1 <= len(curves) <= _MOST_CURVES:
        raise ParameterError(
            "curves", len(curves), allowed=f"from 1 to {_MOST_CURVES} curves"
        )
    for curve in curves:
        require_finite("frequencies_hz", curve.frequencies_hz)
        require_finite("ratios", (*curve.ratios, curve.at_20_khz))
        if len(curve.ratios) != len(curve.frequencies_hz) or len(curve.ratios) < 2:
            raise ParameterError(
                "ratios",
                len(curve.ratios),
                allowed="two or more, one for each frequency",
            )
        if not all(each > 0 for each in curve.frequencies_hz):
            raise ParameterError(
                "frequencies_hz", curve.frequencies_hz, allowed="above zero"
            )


def _scales(
    curves: Sequence[RiseCurve], top: float, bottom: float
) -> tuple[Scale, Scale]:
    every = [log10(f) for curve in curves for f in curve.frequencies_hz]
    highest = max(_percent(ratio) for curve in curves for ratio in curve.ratios)
    most = max(ceil(log10(highest)) if highest > 0 else 0, log10(_FLOOR_PERCENT) + 1)
    across = Scale(min(every), max(every), _LEFT, _RIGHT)
    return across, Scale(log10(_FLOOR_PERCENT), most, bottom, top)


def _percent(ratio: float) -> float:
    return 100.0 * (ratio - 1.0)


def _grid(across: Scale, up: Scale, bottom: float) -> str:
    parts = [words("above direct current, %", 0, up.end - 14)]
    look = f'stroke="{FILL}"'
    for power in range(floor(up.low + 0.5), floor(up.high + 0.5) + 1):
        y = up.place(power)
        parts.append(line((_LEFT, y), (_RIGHT, y), style=look))
        parts.append(words(_power_words(power), _LEFT - 6, y + 4.5, anchor="end"))
    for power in range(ceil(across.low - 1e-9), floor(across.high + 1e-9) + 1):
        x = across.place(power)
        parts.append(line((x, bottom), (x, up.end), style=look))
        parts.append(line((x, bottom), (x, bottom + 5)))
        parts.append(words(_hertz(power), x, bottom + LINE, anchor="middle"))
    parts.append(line((_LEFT, bottom), (_RIGHT, bottom)))
    middle = (_LEFT + _RIGHT) / 2
    parts.append(words("frequency, Hz", middle, bottom + 2 * LINE, anchor="middle"))
    return "".join(parts)


def _power_words(power: int) -> str:
    return f"{10.0**power:g}" if power > -5 else f"1e{power}"


def _hertz(power: int) -> str:
    names = {3: "1 k", 4: "10 k", 5: "100 k", 6: "1 M"}
    return names.get(power, f"{10**power:g}")


def _audio(across: Scale, up: Scale) -> str:
    """Draw where 20 kHz lies, if it is within the drawing."""
    place = log10(_AUDIO_HZ)
    if not across.low < place < across.high:
        return ""
    x = across.place(place)
    look = f'stroke="{QUIET}" stroke-dasharray="1 3"'
    return line((x, up.start), (x, up.end - 8), style=look) + words(
        "20 kHz", x, up.end - 14, anchor="middle"
    )


def _curve(curve: RiseCurve, across: Scale, up: Scale, *, dashes: str) -> str:
    shown = _from_floor(curve)
    if len(shown) < 2:
        return ""
    places = " ".join(
        f"{number(across.place(x))},{number(up.place(y))}" for x, y in shown
    )
    return f'<polyline points="{places}" fill="none" {_look(dashes)}/>'


def _from_floor(curve: RiseCurve) -> list[tuple[float, float]]:
    """Give the part above the floor, beginning on it, as powers of ten."""
    floor_power = log10(_FLOOR_PERCENT)
    points = [
        (log10(f), log10(max(_percent(ratio), 1e-12)))
        for f, ratio in zip(curve.frequencies_hz, curve.ratios, strict=True)
    ]
    shown: list[tuple[float, float]] = []
    for before, point in zip([None, *points], points, strict=False):
        if point[1] < floor_power:
            continue
        if before is not None and before[1] < floor_power:
            share = (floor_power - before[1]) / (point[1] - before[1])
            shown.append((before[0] + share * (point[0] - before[0]), floor_power))
        shown.append(point)
    return shown


def _look(dashes: str) -> str:
    dashed = f' stroke-dasharray="{dashes}"' if dashes else ""
    return f'stroke="{INK}" stroke-width="2"{dashed}'


def _key(curve: RiseCurve, top: float, *, dashes: str) -> tuple[str, float]:
    sample = line((0, top + 9), (44, top + 9), style=_look(dashes))
    told, bottom = _beside(_in_words(curve), top)
    return sample + told, bottom


def _beside(text: str, top: float) -> tuple[str, float]:
    """Write beside the sample of a line, or below it where that is too narrow."""
    if len(text) <= _BESIDE:
        return words(text, 52, top + LINE * 0.75), top + LINE
    return paragraph(text, top + LINE)


def _in_words(curve: RiseCurve) -> str:
    return f"{curve.name}: {rise_in_words(curve.at_20_khz)} at 20 kHz"


def rise_in_words(ratio: float) -> str:
    """Say by how many per cent a resistance lies above that at direct current.

    Parameters
    ----------
    ratio : float
        Resistance over that at direct current.

    Returns
    -------
    str
        Two digits, never in powers of ten.

    Examples
    --------
    >>> rise_in_words(1.0267), rise_in_words(1.0000011), rise_in_words(1.0)
    ('2.7 %', '0.00011 %', 'less than 0.0001 %')
    """
    percent = _percent(ratio)
    if percent < _FLOOR_PERCENT:
        return f"less than {_FLOOR_PERCENT:.4f} %"
    decimals = max(0, 1 - floor(log10(float(f"{percent:.1e}"))))
    return f"{percent:.{decimals}f} %"
