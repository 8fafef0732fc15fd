"""From a resistance to a conductivity: what was read, by which rules, the result."""

from dataclasses import dataclass
from typing import Literal

from strandproof.quantity import (
    Agreement,
    Correlation,
    Input,
    Interval,
    Quantity,
)
from strandproof.records.electrical.bench import FourWireSeries
from strandproof.records.flags import Flag

CoefficientRule = Literal["fixed", "scaled"]
ResistivityRoute = Literal["mass", "density", "diameter"]
ConductorForm = Literal["straight", "stranded", "twisted"]


@dataclass(frozen=True, slots=True, kw_only=True)
class ResistanceMeasurement:
    """What was read on one piece of bare strand, or several strands in parallel.

    Every number is an `Input` with its unit: resistance in ohm, mohm or uohm,
    lengths in m or mm, mass in g or mg, temperature in degC. All are above zero,
    save the temperature. Strands in parallel have one length and one metal.

    Parameters
    ----------
    resistance : Input or FourWireSeries
        Four-wire resistance between the potential contacts, of all strands in
        parallel; or the raw readings, whose sources then stand in the budget one
        by one.
    temperature : Input or None
        Temperature of the wire, not of the room; without it nothing is stated.
    gauge_length : Input
        Length between the potential contacts: along the strand, or of the core
        where a lay factor is given.
    mass : Input or None
        Mass of bare metal of the weighed piece, all strands together; needed on
        the mass and density routes.
    specimen_length : Input or None
        Length of the weighed piece, where it differs from the gauge length; None
        when the weighed piece is the piece between the contacts, so that one
        length enters twice. Always along the strand.
    form : {"straight", "stranded", "twisted"} or None
        How the conductor lay when its length was taken; None where nobody said.
    lay_factor : Input or None
        Length of a strand over that of the core [1]; needed for a stranded or
        twisted one, whose strands are longer than the core.
    """

    resistance: Input | FourWireSeries
    temperature: Input | None
    gauge_length: Input
    mass: Input | None = None
    specimen_length: Input | None = None
    form: ConductorForm | None = None
    lay_factor: Input | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class EvaluationRules:
    """Every option that an evaluation went by.

    Parameters
    ----------
    coefficient : {"fixed", "scaled"}
        Temperature coefficient: 0.00393 /K for every copper, or that value times
        the conductivity in units of 100 % IACS.
    confidence : float
        Two-sided confidence of intervals, between 0 and 1.
    correlations : tuple of Correlation
        Correlated inputs, by the symbols ``"resistance"``, ``"temperature"``,
        ``"coefficient"``, ``"mass"``, ``"gauge_length"``, ``"specimen_length"``,
        ``"density"``, ``"diameter"``.
    """

    coefficient: CoefficientRule = "fixed"
    confidence: float = 0.95
    correlations: tuple[Correlation, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class BandJudgement:
    """Where a conductivity lies against the band in which copper is plausible.

    Parameters
    ----------
    verdict : {"inside", "above", "below"}
        Judged on the value alone.
    crossed : tuple of {"floor", "ceiling"}
        Edges of the band inside the interval.
    floor, ceiling : float
        Edges of the band [% IACS].
    sentence : str
        The judgement in words.
    """

    verdict: Literal["inside", "above", "below"]
    crossed: tuple[Literal["floor", "ceiling"], ...]
    floor: float
    ceiling: float
    sentence: str


@dataclass(frozen=True, slots=True, kw_only=True)
class ConductivityResult:
    """Resistivity and conductivity of one piece by one route.

    Parameters
    ----------
    route : {"mass", "density", "diameter"}
        How the geometry was found: mass and length; these and a density; a
        diameter.
    resistance_at_20c : Quantity
        Resistance at 20 degC [ohm].
    resistivity : Quantity
        Mass resistivity [ohm g/m^2] on the mass route, else volume resistivity
        [ohm m], at 20 degC.
    percent_iacs : Quantity
        Conductivity [% IACS], with the full budget.
    interval : Interval
        Interval of the conductivity, at the rules' confidence.
    coverage_factor : float
        Factor from the standard uncertainty to half the interval.
    band : BandJudgement
        Whether the value is plausible for copper.
    second_opinion : Agreement or None
        Comparison with Monte Carlo; None when it was not asked for.
    rules : EvaluationRules
        Options it went by.
    flags : tuple of Flag
        What a reader has to know.
    """

    route: ResistivityRoute
    resistance_at_20c: Quantity
    resistivity: Quantity
    percent_iacs: Quantity
    interval: Interval
    coverage_factor: float
    band: BandJudgement
    second_opinion: Agreement | None
    rules: EvaluationRules
    flags: tuple[Flag, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class RouteComparison:
    """Volume resistivity by density and by diameter, side by side.

    Parameters
    ----------
    by_density, by_diameter : ConductivityResult
        The two results.
    difference : Quantity
        By diameter less by density [ohm m]; what both routes share (resistance,
        temperature) cancels in its uncertainty.
    difference_percent : float
        The difference in percent of the resistivity by density.
    interval : Interval
        Interval of the difference, at the rules' confidence.
    agree : bool
        Whether the interval of the difference holds zero.
    flags : tuple of Flag
        ``geometry_routes_disagree`` where they do not.
    """

    by_density: ConductivityResult
    by_diameter: ConductivityResult
    difference: Quantity
    difference_percent: float
    interval: Interval
    agree: bool
    flags: tuple[Flag, ...]
