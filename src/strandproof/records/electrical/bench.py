"""At the bench: meters and their specification, readings, checks, results."""

from dataclasses import dataclass
from typing import Literal

from strandproof.errors import ParameterError
from strandproof.quantity import Quantity
from strandproof.records.flags import Flag

ErrorShape = Literal["rectangular", "normal"]
SeriesReading = Literal["voltage", "resistance"]


@dataclass(frozen=True, slots=True, kw_only=True)
class MeterRange:
    """One range of a meter with its specification, "reading + range".

    Parameters
    ----------
    name : str
        Name in words of the trade; the same for all readings on this range.
    unit : str
        Unit of full scale and digit: V, mV, uV, A, mA, ohm, mohm or uohm.
    percent_of_reading : float
        Limit of the part that grows with the reading [%]; zero or above.
    percent_of_range, full_scale : float
        Limit of the part that does not [% of full scale], and full scale; both zero
        where the data sheet counts digits instead.
    counts, digit : float
        The same limit in counts of the last digit, and the size of that digit.
    shape : {"rectangular", "normal"}
        Limits within which every value is equally likely, or a 95 % statement
        (k = 2) where the data sheet says so.

    Raises
    ------
    ParameterError
        If a number is negative, or the name is empty.
    """

    name: str
    unit: str
    percent_of_reading: float = 0.0
    percent_of_range: float = 0.0
    full_scale: float = 0.0
    counts: float = 0.0
    digit: float = 0.0
    shape: ErrorShape = "rectangular"

    def __post_init__(self) -> None:
        if not self.name:
            raise ParameterError("name", self.name, allowed="a name for the range")
        for part in (
            "percent_of_reading",
            "percent_of_range",
            "full_scale",
            "counts",
            "digit",
        ):
            if not getattr(self, part) >= 0:
                raise ParameterError(part, getattr(self, part), allowed="0 or above")

    @property
    def range_part(self) -> float:
        """Limit of the part that does not grow with the reading, in `unit`."""
        return 0.01 * self.percent_of_range * self.full_scale + self.counts * self.digit


@dataclass(frozen=True, slots=True, kw_only=True)
class ReversalPair:
    """Two readings at one current, the current forward and reversed.

    Parameters
    ----------
    current : float
        Current, the same both times; above zero.
    forward, reverse : float
        Voltages, the reversed one with its sign; or resistances, both positive.
    seconds : float or None
        Time since the first pair [s].
    meter_range, current_range : str
        Name of the range read on; empty where there is only one.
    """

    current: float
    forward: float
    reverse: float
    seconds: float | None = None
    meter_range: str = ""
    current_range: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class FourWireSeries:
    """Raw four-wire readings at one or several currents.

    Parameters
    ----------
    pairs : tuple of ReversalPair
        The readings; one or more.
    reads : {"voltage", "resistance"}
        What `forward` and `reverse` are.
    unit : str
        Their unit: V, mV, uV, or ohm, mohm, uohm.
    current_unit : str
        A or mA.
    meter : tuple of MeterRange
        Ranges of the meter that reads them; one or more.
    ammeter : tuple of MeterRange
        Ranges of the instrument that tells the current; one or more for voltages,
        none for resistances, where the ohmmeter's specification holds both.

    Raises
    ------
    ParameterError
        If there is no pair, no meter, or an ammeter is missing or too many.
    """

    pairs: tuple[ReversalPair, ...]
    reads: SeriesReading
    unit: str
    current_unit: str
    meter: tuple[MeterRange, ...]
    ammeter: tuple[MeterRange, ...] = ()

    def __post_init__(self) -> None:
        if not self.pairs:
            raise ParameterError("pairs", self.pairs, allowed="one pair or more")
        if not self.meter:
            raise ParameterError("meter", self.meter, allowed="one range or more")
        if (self.reads == "voltage") != bool(self.ammeter):
            raise ParameterError(
                "ammeter",
                self.ammeter,
                allowed="one range or more with voltages, none with resistances",
            )


@dataclass(frozen=True, slots=True, kw_only=True)
class CurrentPoint:
    """What the pairs at one current gave.

    Parameters
    ----------
    current_a : float
        Current [A].
    pairs : int
        Pairs at this current.
    resistance : Quantity
        Resistance, constant thermal voltages cancelled [ohm].
    thermal_voltage_v : float
        Mean of the voltage that cancelled [V].
    power_w : float
        Power in the wire [W].
    """

    current_a: float
    pairs: int
    resistance: Quantity
    thermal_voltage_v: float
    power_w: float


@dataclass(frozen=True, slots=True, kw_only=True)
class SeriesResult:
    """Resistance of a wire out of a series of four-wire readings.

    Parameters
    ----------
    points : tuple of CurrentPoint
        One for each current, the lowest first.
    resistance : Quantity
        Resistance at zero current, or at the only current [ohm].
    extrapolated : bool
        Whether two currents or more were there to extrapolate from.
    rise_k : Quantity or None
        Temperature of the wire at the highest current above that without current
        [K]; None with one current only.
    scatter_v : float or None
        Standard deviation of half the difference of a pair about the straight line
        [V]; None where no pair is left over to show it.
    thermal_drift_v_per_min : float or None
        Change of the thermal voltage with time [V/min]; None without times.
    flags : tuple of Flag
        What a reader has to know.
    """

    points: tuple[CurrentPoint, ...]
    resistance: Quantity
    extrapolated: bool
    rise_k: Quantity | None
    scatter_v: float | None
    thermal_drift_v_per_min: float | None
    flags: tuple[Flag, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class LeadChecks:
    """Readings taken to check leads and contacts; None where one was not taken.

    Parameters
    ----------
    two_wire_ohm : float or None
        Resistance over the current leads, by two wires [ohm].
    compliance_v : float or None
        Highest voltage that the current source can give [V].
    swapped_ohm : float or None
        Resistance with the two potential leads changed over, without sign [ohm].
    zero_current_v : float or None
        Voltage with the current off [V].
    """

    two_wire_ohm: float | None = None
    compliance_v: float | None = None
    swapped_ohm: float | None = None
    zero_current_v: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class LeadFindings:
    """What the checks of leads and contacts say.

    Parameters
    ----------
    contacts_ohm : float or None
        Current leads and contacts together [ohm]; None without a two-wire value.
    sentences : tuple of str
        One for each check made.
    flags : tuple of Flag
        One for each check that failed, and one where none was made.
    """

    contacts_ohm: float | None
    sentences: tuple[str, ...]
    flags: tuple[Flag, ...]
