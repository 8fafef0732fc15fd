"""Ratios of resistances at two temperatures, and what they say about the metal."""

from dataclasses import dataclass
from typing import Literal

from strandproof.quantity import Agreement, Input, Interval, Quantity
from strandproof.records.electrical.conductivity import BandJudgement
from strandproof.records.flags import Flag

Bath = Literal["nitrogen", "helium"]
WorkState = Literal["annealed", "bent", "hard", "unknown"]
PurityVerdict = Literal["contradicted", "cannot tell"]


@dataclass(frozen=True, slots=True, kw_only=True)
class WarmReference:
    """A copper wire of known conductivity in the same two baths.

    Parameters
    ----------
    ratio : Input
        Its resistance at the upper over that at the lower temperature [1].
    percent_iacs : Input
        Its conductivity at 20 degC [% IACS].
    """

    ratio: Input
    percent_iacs: Input


@dataclass(frozen=True, slots=True, kw_only=True)
class WarmRatioReading:
    """Resistances of one free piece at two temperatures near room temperature.

    Parameters
    ----------
    ratio : Input
        Resistance at the upper over that at the lower temperature [1]; above 1.
    lower_temperature, upper_temperature : Input
        Temperatures of the wire [degC].
    reference : WarmReference or None
        A reference wire in the same baths; None: the slope of the table is used.
    """

    ratio: Input
    lower_temperature: Input
    upper_temperature: Input
    reference: WarmReference | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class WarmRatioResult:
    """Conductivity of copper from a ratio, without length, mass or diameter.

    Parameters
    ----------
    temperature_coefficient : Quantity
        Of the resistance at constant mass, at 20 degC [1/K].
    percent_iacs : Quantity
        Conductivity at 20 degC [% IACS], with its budget.
    interval : Interval
        Its 95 % interval.
    band : BandJudgement
        Whether it is plausible for copper.
    ratio_percent_per_percent_iacs : float
        How much one per cent IACS moves the ratio [%].
    second_opinion : Agreement or None
        Comparison with Monte Carlo; None when it was not asked for.
    flags : tuple of Flag
        What a reader has to know.
    sentence : str
        The result and how weak it is.
    """

    temperature_coefficient: Quantity
    percent_iacs: Quantity
    interval: Interval
    band: BandJudgement
    ratio_percent_per_percent_iacs: float
    second_opinion: Agreement | None
    flags: tuple[Flag, ...]
    sentence: str


@dataclass(frozen=True, slots=True, kw_only=True)
class ColdReference:
    """A copper wire of known residual ratio in the same bath.

    Parameters
    ----------
    ratio : Input
        Its resistance at room temperature over that in the bath [1].
    residual_ratio : Input
        Its known ratio of resistivity at 273.15 K to that at 4 K [1].
    """

    ratio: Input
    residual_ratio: Input


@dataclass(frozen=True, slots=True, kw_only=True)
class ColdRatioReading:
    """Resistance of one free piece at room temperature over that in a cold bath.

    Parameters
    ----------
    bath : {"nitrogen", "helium"}
        Which liquid.
    ratio : Input
        Resistance at room temperature over that in the bath [1]; above 1.
    room_temperature : Input
        Temperature of the wire at the first reading [degC].
    bath_temperature : Input
        Temperature of the bath [K].
    reference : ColdReference or None
        A reference wire in the same bath and read at the same room temperature.
    """

    bath: Bath
    ratio: Input
    room_temperature: Input
    bath_temperature: Input
    reference: ColdReference | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class ResidualResult:
    """Residual resistivity of a piece, and the residual ratio that follows.

    The ratio's ends are those of the residual share of the resistivity, turned over;
    its upper end is open where the residual resistivity cannot be told from zero.

    Parameters
    ----------
    bath : {"nitrogen", "helium"}
        Which liquid.
    residual_resistivity : Quantity
        What is left at 0 K [nohm m], with its budget.
    interval : Interval
        Its 95 % interval.
    at_most_nohm_m : float
        One-sided 95 % upper bound of the residual resistivity [nohm m].
    ratio_273, ratio_293 : Interval
        95 % interval of the resistivity at 273.15 K, and at 293.15 K, over the
        residual one.
    best_ratio_273 : float or None
        The first ratio at the best estimate; None where that is not above zero.
    flags : tuple of Flag
        What a reader has to know.
    """

    bath: Bath
    residual_resistivity: Quantity
    interval: Interval
    at_most_nohm_m: float
    ratio_273: Interval
    ratio_293: Interval
    best_ratio_273: float | None
    flags: tuple[Flag, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class MetalState:
    """What is known of a piece besides its impurities.

    Parameters
    ----------
    mean_intercept_um : float or None
        Mean distance of boundaries along a line, twins excluded [um]; None for
        one crystal, or where it is not known.
    strand_mm : float or None
        Diameter of the strand [mm]; None leaves the surface out.
    work : {"annealed", "bent", "hard", "unknown"}
        State; unknown means anything from annealed to hard.
    """

    mean_intercept_um: float | None = None
    strand_mm: float | None = None
    work: WorkState = "unknown"


@dataclass(frozen=True, slots=True, kw_only=True)
class ResidualTerm:
    """One thing that adds to the residual resistivity.

    Parameters
    ----------
    name : str
        What it is, in words of the trade.
    best, lower, upper : float
        Resistivity added [nohm m]: usual value and range of the sources.
    basis : str
        Formula and where its numbers come from.
    """

    name: str
    best: float
    lower: float
    upper: float
    basis: str


@dataclass(frozen=True, slots=True, kw_only=True)
class ResidualPrediction:
    """What a hypothesis about the metal predicts for the three ratios.

    Parameters
    ----------
    terms : tuple of ResidualTerm
        Impurities, boundaries, surface, cold work.
    residual_nohm_m : tuple of float
        Lowest, usual and highest sum of the terms [nohm m].
    ratio_273, ratio_293, nitrogen_ratio : tuple of float
        Lowest, usual and highest of the residual ratio at 273.15 K, at 293.15 K,
        and of the resistivity at 293.15 K over that at 77.35 K.
    """

    terms: tuple[ResidualTerm, ...]
    residual_nohm_m: tuple[float, float, float]
    ratio_273: tuple[float, float, float]
    ratio_293: tuple[float, float, float]
    nitrogen_ratio: tuple[float, float, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class ElementBound:
    """How much of one element a reading allows, if it is dissolved.

    Parameters
    ----------
    symbol : str
        Chemical symbol.
    if_all_ppm : float or None
        Content if everything left for impurities at the best estimate were this
        element, by its usual specific resistivity [ppm by mass]; None where
        nothing is left.
    at_most_ppm : float
        One-sided 95 % upper bound, by the lowest specific resistivity of the
        sources [ppm by mass].
    solubility_ppm : float or None
        Content above which the rest is precipitated and hardly seen.
    """

    symbol: str
    if_all_ppm: float | None
    at_most_ppm: float
    solubility_ppm: float | None


@dataclass(frozen=True, slots=True, kw_only=True)
class NinesVerdict:
    """What a reading says about a claimed number of nines.

    Parameters
    ----------
    nines : int
        Nines claimed, all impurities counted.
    allowed_ppm : float
        Impurities that the claim allows [ppm by mass].
    verdict : {"contradicted", "cannot tell"}
        Never "confirmed": silver, oxide and precipitates hardly show.
    """

    nines: int
    allowed_ppm: float
    verdict: PurityVerdict


@dataclass(frozen=True, slots=True, kw_only=True)
class PurityBound:
    """Range of purity that a residual resistivity allows.

    Parameters
    ----------
    state : MetalState
        What was known of the piece.
    other_terms : tuple of ResidualTerm
        Boundaries, surface, cold work.
    left_for_impurities_nohm_m : tuple of float
        Lower and upper one-sided 95 % bounds of what impurities add [nohm m].
    dissolved_total_ppm : tuple of float
        Least dissolved impurity that explains the reading (the most harmful
        element) and most that it allows (the least harmful) [ppm by mass].
    least_harmful, most_harmful : str
        Symbols of the two.
    without_silver_at_most_ppm : float
        Most that it allows if none of it is silver, cadmium or zinc [ppm by mass].
    elements : tuple of ElementBound
        Bound for each element alone.
    nines : tuple of NinesVerdict
        From four to seven nines.
    sentence : str
        What the reading can and cannot say.
    """

    state: MetalState
    other_terms: tuple[ResidualTerm, ...]
    left_for_impurities_nohm_m: tuple[float, float]
    dissolved_total_ppm: tuple[float, float]
    least_harmful: str
    most_harmful: str
    without_silver_at_most_ppm: float
    elements: tuple[ElementBound, ...]
    nines: tuple[NinesVerdict, ...]
    sentence: str


@dataclass(frozen=True, slots=True, kw_only=True)
class EffectSize:
    """How much one thing changes the resistance at three temperatures.

    Parameters
    ----------
    subject : {"boundaries", "surface", "purity", "cold work"}
        What is changed.
    name : str
        The change, with the model.
    basis : str
        Definition and status of its numbers.
    room_percent, nitrogen_percent, helium_percent : tuple of float
        Lower and upper increase at 293.15, 77.35 and 4.2 K, each over the metal
        without it [%].
    ratio_cap : tuple of float
        Lower and upper highest residual ratio (273.15 K) that it leaves, were all
        else perfect; the upper is None where the effect may be nothing.
    """

    subject: Literal["boundaries", "surface", "purity", "cold work"]
    name: str
    basis: str
    room_percent: tuple[float, float]
    nitrogen_percent: tuple[float, float]
    helium_percent: tuple[float, float]
    ratio_cap: tuple[float, float | None]


@dataclass(frozen=True, slots=True, kw_only=True)
class EffectSizes:
    """Effects beside the uncertainty that can be reached.

    Parameters
    ----------
    state : MetalState
        Piece that the effects were computed for.
    interior_ratio : float
        Residual ratio of the metal inside of the crystals that they are added to.
    effects : tuple of EffectSize
        The effects.
    room_reachable_percent : float or None
        Expanded uncertainty of the conductivity that the user's means reach [%];
        None where they were not given.
    ratio_reachable_percent : float or None
        Expanded uncertainty of a ratio [%]; None where it was not given.
    """

    state: MetalState
    interior_ratio: float
    effects: tuple[EffectSize, ...]
    room_reachable_percent: float | None
    ratio_reachable_percent: float | None
