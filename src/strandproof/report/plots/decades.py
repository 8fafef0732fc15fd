"""Axes that go by powers of ten, for the plots of the residual ratio."""

from collections.abc import Callable
from math import ceil, floor

from strandproof.report.plots.canvas import FILL, LINE, Scale, line, words


def decade_lines(scale: Scale, across: tuple[float, float], *, upright: bool) -> str:
    """Draw a quiet line at every power of ten of a scale.

    Parameters
    ----------
    scale : Scale
        Scale of logarithms to base 10.
    across : tuple of float
        Where the lines begin and end in the other direction.
    upright : bool
        True for a horizontal scale, whose lines are vertical.

    Returns
    -------
    str
        The lines.
    """
    look = f'stroke="{FILL}"'
    parts = []
    for power in decades(scale):
        at = scale.place(power)
        ends = (
            ((at, across[0]), (at, across[1]))
            if upright
            else ((across[0], at), (across[1], at))
        )
        parts.append(line(ends[0], ends[1], style=look))
    return "".join(parts)


def decade_axis(
    scale: Scale, y: float, *, label: str, named: Callable[[int], str]
) -> str:
    """Draw a horizontal axis with powers of ten below it.

    Parameters
    ----------
    scale : Scale
        Scale of logarithms to base 10.
    y : float
        Where the axis lies.
    label : str
        Quantity and unit.
    named : callable
        Gives the words for a power of ten.

    Returns
    -------
    str
        The axis; it needs 44 units below `y`.
    """
    parts = [line((scale.start, y), (scale.end, y))]
    for power in decades(scale):
        x = scale.place(power)
        parts.append(line((x, y), (x, y + 5)))
        parts.append(words(named(power), x, y + LINE, anchor="middle"))
    middle = (scale.start + scale.end) / 2
    parts.append(words(label, middle, y + 2 * LINE + 2, anchor="middle"))
    return "".join(parts)


def decades(scale: Scale) -> range:
    """Give the powers of ten on a scale of logarithms.

    Parameters
    ----------
    scale : Scale
        The scale.

    Returns
    -------
    range
        Whole powers from its low to its high end.

    Examples
    --------
    >>> list(decades(Scale(-1.0, 1.5, 0.0, 100.0)))
    [-1, 0, 1]
    """
    return range(ceil(scale.low - 1e-9), floor(scale.high + 1e-9) + 1)


def plain_power(power: int) -> str:
    """Write a power of ten in plain digits, with a thin gap from 10 000 on.

    Parameters
    ----------
    power : int
        The exponent.

    Returns
    -------
    str
        Its digits.

    Examples
    --------
    >>> plain_power(-2), plain_power(3), plain_power(5)
    ('0.01', '1000', '100 000')
    """
    if power < 4:
        return f"{10.0**power:g}"
    return f"{10**power:,}".replace(",", " ")
