"""The band in which a conductivity is plausible for copper."""

from typing import Literal

from strandproof.electrical.copper_standard import (
    CopperStandard,
    package_copper_standard,
)
from strandproof.errors import ImpossibleDiameterError, UnitError
from strandproof.quantity import Input, Interval, Quantity, format_plus_minus
from strandproof.records import Flag
from strandproof.records.electrical import BandJudgement, ConductivityResult

Edge = Literal["floor", "ceiling"]
Verdict = Literal["inside", "above", "below"]


def judge_band(
    percent_iacs: Quantity,
    *,
    interval: Interval,
    standard: CopperStandard | None = None,
) -> BandJudgement:
    """Judge whether a conductivity is plausible for copper, on its value.

    A light metal by the mass route lies far above the band (clad aluminium near
    157 %), by a volume route far below (near 64 %).

    Parameters
    ----------
    percent_iacs : Quantity
        Conductivity [% IACS].
    interval : Interval
        Its interval; tells whether an edge of the band is crossed.
    standard : CopperStandard, optional
        Constants; None takes the package's.

    Returns
    -------
    BandJudgement
        Verdict, edges crossed, and a sentence.

    Raises
    ------
    UnitError
        If the conductivity or its interval is not in % IACS.

    Examples
    --------
    >>> from strandproof.quantity import expanded_interval
    >>> high = Quantity(105.9, "% IACS", 0.2)
    >>> judge_band(high, interval=expanded_interval(high)).sentence
    '105.9 ± 0.4 % IACS: above 103.3 %, probable error.'
    """
    for unit in (percent_iacs.unit, interval.unit):
        if unit != "% IACS":
            raise UnitError(unit, expected="% IACS")
    standard = standard or package_copper_standard()
    floor, ceiling = standard.floor_percent_iacs, standard.ceiling_percent_iacs
    verdict = _verdict(percent_iacs.value, floor, ceiling)
    crossed = _crossed(interval, floor, ceiling)
    shown = format_plus_minus(
        percent_iacs.value, interval.half_width or 0.0, unit=percent_iacs.unit
    )
    return BandJudgement(
        verdict=verdict,
        crossed=crossed,
        floor=floor,
        ceiling=ceiling,
        sentence=f"{shown}: {_words(verdict, floor, ceiling)}"
        f"{_words_of_edges(crossed, floor, ceiling)}.",
    )


def band_flags(percent_iacs: Quantity, band: BandJudgement) -> tuple[Flag, ...]:
    """Raise the flags of a judgement.

    Parameters
    ----------
    percent_iacs : Quantity
        Conductivity [% IACS].
    band : BandJudgement
        Its judgement.

    Returns
    -------
    tuple of Flag
        ``above_copper_ceiling``, ``below_copper_band``, ``edge_of_copper_band``.
    """
    detail = f"{percent_iacs.value:.1f} % IACS"
    names = {"above": "above_copper_ceiling", "below": "below_copper_band"}
    flags = [Flag(names[band.verdict], detail)] if band.verdict in names else []
    if band.crossed:
        flags.append(Flag("edge_of_copper_band", band.sentence))
    return tuple(flags)


def require_possible_diameter(result: ConductivityResult, diameter: Input) -> None:
    """Refuse a diameter that would make the metal conduct better than copper can.

    Parameters
    ----------
    result : ConductivityResult
        By diameter.
    diameter : Input
        The diameter it was made with.

    Raises
    ------
    ImpossibleDiameterError
        If the conductivity lies above the ceiling.
    """
    if result.band.verdict == "above":
        shown = f"{diameter.estimate:g} {diameter.unit}"
        raise ImpossibleDiameterError(
            shown,
            result.percent_iacs.value,
            result.band.ceiling,
        )


def _verdict(value: float, floor: float, ceiling: float) -> Verdict:
    if value > ceiling:
        return "above"
    return "below" if value < floor else "inside"


def _crossed(interval: Interval, floor: float, ceiling: float) -> tuple[Edge, ...]:
    edges: tuple[tuple[Edge, float], ...] = (("floor", floor), ("ceiling", ceiling))
    return tuple(name for name, edge in edges if _holds(interval, edge))


def _holds(interval: Interval, edge: float) -> bool:
    above_lower = interval.lower is None or interval.lower < edge
    below_upper = interval.upper is None or edge < interval.upper
    return above_lower and below_upper


def _words(verdict: Verdict, floor: float, ceiling: float) -> str:
    if verdict == "above":
        return f"above {ceiling:g} %, probable error"
    if verdict == "below":
        return (
            f"below {floor:g} %, probable error, or another metal "
            "(clad cores are near 64 %)"
        )
    return f"within the band of copper, {floor:g} to {ceiling:g} %"


def _words_of_edges(crossed: tuple[Edge, ...], floor: float, ceiling: float) -> str:
    if not crossed:
        return ""
    edges = {"floor": floor, "ceiling": ceiling}
    shown = " and ".join(f"{edges[name]:g} %" for name in crossed)
    return f"; the interval reaches across {shown}"
