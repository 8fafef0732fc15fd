"""Density by weighing in water, and by mass, length and diameter."""

from dataclasses import dataclass
from typing import Literal

from strandproof.quantity import Input, Interval, Quantity
from strandproof.records.flags import Flag

DensityMethod = Literal["buoyancy", "geometry"]


@dataclass(frozen=True, slots=True, kw_only=True)
class BuoyancyWeighing:
    """What was read when a specimen was weighed in air and in water.

    Parameters
    ----------
    in_air : Input
        Reading of the balance with the specimen in air [g or mg].
    in_water : Input
        Reading with the specimen in water, the hanger's own reading in water
        taken off [g or mg].
    water_temperature : Input
        Temperature of the water [degC], 0 to 40.
    air_density : Input
        Density of the air [kg/m3]; see `air_density`.
    wire_diameter_um : float or None
        Diameter of the wire or thread that crosses the water's surface [um]; None
        where nothing crosses it or it is not known.
    bubbles_removed : bool or None
        Whether somebody states that bubbles were removed; None: nothing is said.
    pure_water : bool or None
        Whether the water was distilled or demineralised; None: nothing is said.
    """

    in_air: Input
    in_water: Input
    water_temperature: Input
    air_density: Input
    wire_diameter_um: float | None = None
    bubbles_removed: bool | None = None
    pure_water: bool | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class DensityResult:
    """Density of one specimen.

    Parameters
    ----------
    method : {"buoyancy", "geometry"}
        By weighing in water, or by mass, length and diameter.
    density : Quantity
        Density [g/cm3], with budget.
    interval : Interval
        95 % interval.
    coverage_factor : float
        Factor from the standard uncertainty to half the interval.
    sentences : tuple of str
        The finding and what spoils it, in words.
    flags : tuple of Flag
        What a reader has to know.
    """

    method: DensityMethod
    density: Quantity
    interval: Interval
    coverage_factor: float
    sentences: tuple[str, ...]
    flags: tuple[Flag, ...]
