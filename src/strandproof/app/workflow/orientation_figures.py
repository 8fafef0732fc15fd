"""Figures of orientations as people read them."""

from math import floor, log10

from strandproof.grainsize.orientations import brandon_limit_deg


def twin_rule() -> str:
    """Say what counts as twin-related.

    Returns
    -------
    str
        Brandon's limit and the relation.
    """
    return f"within {brandon_limit_deg(3):.2f}° of 60° about <111>"


def amount(length_um: float | None, edges: int) -> str:
    """Say how much boundary there is.

    Parameters
    ----------
    length_um : float or None
        Length [um]; None on a line of points.
    edges : int
        Pairs of points.

    Returns
    -------
    str
        The length, or how many boundaries the line crosses.
    """
    if length_um is None:
        return f"{edges} on the line"
    return f"{length(length_um)} along the edges of the cells"


def length(length_um: float) -> str:
    """Show a length with three figures.

    Parameters
    ----------
    length_um : float
        Length [um].

    Returns
    -------
    str
        In mm from 1000 um upward.
    """
    if length_um >= 1000.0:
        return f"{figures(length_um / 1000.0)} mm"
    return f"{figures(length_um)} µm"


def percent(share: float) -> str:
    """Show a share, never rounded up to all nor down to none.

    Parameters
    ----------
    share : float
        0 to 1.

    Returns
    -------
    str
        Per cent with one decimal.
    """
    value = 100.0 * share
    if 0.0 < value < 0.1:
        return "under 0.1 %"
    if 99.9 < value < 100.0:
        return "over 99.9 %"
    return f"{value:.1f} %" if value < 100.0 else "100 %"


def figures(value: float) -> str:
    """Show a number with three figures.

    Parameters
    ----------
    value : float
        Any finite number.

    Returns
    -------
    str
        Without an exponent.
    """
    if value == 0.0:
        return "0"
    place = 2 - floor(log10(abs(value)))
    return f"{round(value, place):.{max(0, place)}f}"
