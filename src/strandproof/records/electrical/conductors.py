"""Conductors: in parallel, with a layer, expected per metre, read at the bench."""

from dataclasses import dataclass
from typing import Literal

from strandproof.errors import ParameterError
from strandproof.quantity import Input, Quantity
from strandproof.records.electrical.claims import ConformityDecision
from strandproof.records.flags import Flag


@dataclass(frozen=True, slots=True, kw_only=True)
class ParallelConductor:
    """One type of conductor among those that a resistance was measured across.

    Parameters
    ----------
    name : str
        What it is, for example ``"core"`` or ``"drain"``.
    strands : int
        Strands of this type in all; 1 or more.
    metal : str
        Metal of the strands, for example ``"copper"``.
    layer : str
        Metal of a layer on them, for example ``"tin"``; empty for bare or
        enamelled strands.

    Raises
    ------
    ParameterError
        If there is no strand, or name or metal is empty.
    """

    name: str
    strands: int
    metal: str
    layer: str = ""

    def __post_init__(self) -> None:
        if self.strands < 1:
            raise ParameterError("strands", self.strands, allowed="1 or more")
        if not self.name or not self.metal:
            raise ParameterError(
                "conductor", (self.name, self.metal), allowed="a name and a metal"
            )


@dataclass(frozen=True, slots=True, kw_only=True)
class LayerEffect:
    """What a metal layer is worth in one round strand, its outer diameter given.

    Parameters
    ----------
    layer : str
        Metal of the layer.
    strand_area : Quantity
        Area of the strands, layer included [mm^2].
    core_diameter : Quantity
        Diameter under the layer [mm].
    core_area : Quantity
        Area under the layer, all strands [mm^2].
    volume_percent, mass_percent : Quantity
        Share of the layer by volume and by mass [%].
    resistance_change_percent : Quantity
        Resistance of the strand against one wholly of the core's metal [%].
    """

    layer: str
    strand_area: Quantity
    core_diameter: Quantity
    core_area: Quantity
    volume_percent: Quantity
    mass_percent: Quantity
    resistance_change_percent: Quantity


@dataclass(frozen=True, slots=True, kw_only=True)
class ExpectedCore:
    """Mass and resistance that a metal area gives per metre at 20 degC.

    Parameters
    ----------
    metal : str
        Name of the metal.
    mass_per_metre : Quantity
        Mass per length of conductor [g/m].
    resistance_per_metre : Quantity
        Resistance per length of conductor [mohm/m].
    percent_iacs : float
        Conductivity by volume [% IACS].
    percent_iacs_by_mass : float
        What the mass route would print [% IACS]; far above 100 for a light metal.
    """

    metal: str
    mass_per_metre: Quantity
    resistance_per_metre: Quantity
    percent_iacs: float
    percent_iacs_by_mass: float


@dataclass(frozen=True, slots=True, kw_only=True)
class LargerSpecimen:
    """What weighing more of the same strand would bring.

    Parameters
    ----------
    strands : int
        Strands to weigh together.
    length_m : float
        Length to weigh [m].
    mass_mg : float
        Mass to expect [mg].
    relative_uncertainty_percent : float
        Standard uncertainty of the same balance at that mass [%].
    sentence : str
        The advice in words.
    """

    strands: int
    length_m: float
    mass_mg: float
    relative_uncertainty_percent: float
    sentence: str


@dataclass(frozen=True, slots=True, kw_only=True)
class ReversalReading:
    """Resistance from readings with the current forward and reversed.

    Parameters
    ----------
    resistance : Quantity
        Resistance, constant thermal voltages cancelled [ohm].
    thermal_voltage : Quantity
        The voltage that cancelled [V].
    """

    resistance: Quantity
    thermal_voltage: Quantity


@dataclass(frozen=True, slots=True, kw_only=True)
class SelfHeating:
    """What two currents say about the warming of the wire by the measurement.

    Parameters
    ----------
    power_at_lower_current : Quantity
        Power in the wire [W].
    resistance_at_zero_current : Quantity
        Extrapolated resistance [ohm].
    rise_at_lower_current : Quantity
        Temperature of the wire above that without current [K].
    flags : tuple of Flag
        ``self_heating`` where the rise exceeds the uncertainty of temperature.
    """

    power_at_lower_current: Quantity
    resistance_at_zero_current: Quantity
    rise_at_lower_current: Quantity
    flags: tuple[Flag, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class CoreReading:
    """Incoming inspection of one core: weighed, counted, measured.

    Parameters
    ----------
    label : str
        Which core.
    strands : int
        Strands counted.
    length : Input
        Length of bare conductor weighed and measured [m or mm].
    mass : Input
        Its mass [g or mg].
    resistance : Input
        Its four-wire resistance [ohm or mohm].
    temperature : Input or None
        Temperature of the wire [degC].
    diameter : Input or None
        Diameter of a strand [mm or um], where it was measured.
    """

    label: str
    strands: int
    length: Input
    mass: Input
    resistance: Input
    temperature: Input | None
    diameter: Input | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class ScreeningLimits:
    """What a core must reach to be accepted.

    Parameters
    ----------
    strands : int
        Strands it must have.
    least_mass_per_metre_g : float
        Least mass per metre [g/m].
    most_resistance_per_metre_mohm : float
        Highest resistance per metre at 20 degC [mohm/m].
    least_diameter_mm : float or None
        Least diameter of a strand [mm]; None for no such limit.
    """

    strands: int
    least_mass_per_metre_g: float
    most_resistance_per_metre_mohm: float
    least_diameter_mm: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class ScreeningResult:
    """Accept or hold, with the decisions behind it.

    Parameters
    ----------
    label : str
        Which core.
    action : {"accept", "hold"}
        Accept only when strand count, mass and resistance all conform.
    reasons : tuple of str
        Why it is held; empty when accepted.
    mass_per_metre : ConformityDecision
        Mass per metre [g/m] against its limit.
    resistance_per_metre : ConformityDecision
        Resistance per metre at 20 degC [mohm/m] against its limit.
    percent_iacs_by_mass : Quantity
        Conductivity by mass [% IACS]; about 157 for clad aluminium.
    flags : tuple of Flag
        Band and budget flags of that conductivity.
    diameter : ConformityDecision or None
        Diameter of a strand [mm] against its limit; None without one.
    likeness : str
        The metal of the table that mass and resistance together fit, in words.
    """

    label: str
    action: Literal["accept", "hold"]
    reasons: tuple[str, ...]
    mass_per_metre: ConformityDecision
    resistance_per_metre: ConformityDecision
    percent_iacs_by_mass: Quantity
    flags: tuple[Flag, ...]
    diameter: ConformityDecision | None = None
    likeness: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class LotResult:
    """Several cores of one lot, each accepted or held, and what follows for the lot.

    Parameters
    ----------
    cores : tuple of ScreeningResult
        One for each core.
    action : {"accept", "hold"}
        Accept only when every core is accepted.
    held : tuple of str
        Labels of the cores held.
    bad_share_upper : float
        Upper 95 % limit of the share of cores in the lot that would be held.
    sentence : str
        The same in words, with the rule.
    """

    cores: tuple[ScreeningResult, ...]
    action: Literal["accept", "hold"]
    held: tuple[str, ...]
    bad_share_upper: float
    sentence: str
