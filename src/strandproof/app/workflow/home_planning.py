"""What can be decided at home with the equipment at hand, before anything is read."""

from collections.abc import Sequence
from dataclasses import dataclass
from math import pi, sqrt

from strandproof.electrical import (
    conductivity_by_mass,
    larger_specimen,
    planned_measurement,
    strand_area_by_mass,
)
from strandproof.errors import ParameterError
from strandproof.physical import (
    air_density,
    density_by_buoyancy,
    density_by_geometry,
    metal_in_words,
    property_range,
)
from strandproof.quantity import (
    Input,
    Quantity,
    expanded_uncertainty,
    normal_input,
)
from strandproof.records.physical import BuoyancyWeighing, MetalProperty

_COPPER_G_PER_CM3 = 8.89
_COPPER_OHM_G_PER_M2 = 0.15328
_WATER_G_PER_CM3 = 0.9982
_SEPARATED = 3.0  # standard uncertainties between the ends of two ranges; judgement
_GAUGE_STEP_PERCENT = 20.7  # area of one wire gauge less, 1 - 92^(-2/39)
_COLD_WORK_PERCENT = 1.0  # least effect of cold work, 1 to 3 %
_RIVALS = ("clad_aluminium", "clad_steel", "brass", "silver")


@dataclass(frozen=True, slots=True, kw_only=True)
class HomeEquipment:
    """What is at hand, and the piece it would be used on.

    Parameters
    ----------
    scale_u_mg : float
        Standard uncertainty of the scale [mg]; above zero.
    metres : float
        Length of the piece between the contacts and weighed [m].
    length_u_mm : float
        Its standard uncertainty [mm].
    millimetres : float
        Diameter of a strand [mm].
    diameter_u_um : float
        Its standard uncertainty [um].
    strands : int
        Strands weighed and measured together.
    milligrams : float or None
        Mass to expect, if weighed already [mg]; None works it out for copper.
    meter_percent, meter_ohm : float or None
        Specification of a four-wire meter: so many per cent of the reading plus so
        many ohm, as half-width; None: no such meter.
    celsius_u : float
        Standard uncertainty of the wire's temperature [K].
    all_strands : int
        Strands in the conductor, for the advice.
    """

    scale_u_mg: float
    metres: float
    millimetres: float
    length_u_mm: float = 1.0
    diameter_u_um: float = 2.0
    strands: int = 1
    milligrams: float | None = None
    meter_percent: float | None = None
    meter_ohm: float = 0.0
    celsius_u: float = 0.5
    all_strands: int = 1


@dataclass(frozen=True, slots=True, kw_only=True)
class HomeDecision:
    """One question, and whether this equipment can answer it.

    Parameters
    ----------
    question : str
        In words.
    can : bool
        Whether it can be decided.
    reason : str
        How, or why not.
    """

    question: str
    can: bool
    reason: str


@dataclass(frozen=True, slots=True, kw_only=True)
class HomePlan:
    """What the equipment reaches and decides.

    Parameters
    ----------
    mass_mg : float
        Mass of the piece [mg].
    mass_per_metre_percent : float
        Expanded uncertainty of the mass per metre, and so of the metal area with a
        density of 0.4 % [%].
    conductivity_percent : float or None
        Expanded uncertainty of the conductivity [% of it]; None without a meter.
    density_by_water, density_by_diameter : float
        Expanded uncertainty of the density [g/cm3].
    decisions : tuple of HomeDecision
        Questions, those that can be decided first.
    advice : tuple of str
        What would help most.
    """

    mass_mg: float
    mass_per_metre_percent: float
    conductivity_percent: float | None
    density_by_water: float
    density_by_diameter: float
    decisions: tuple[HomeDecision, ...]
    advice: tuple[str, ...]


def plan_at_home(equipment: HomeEquipment) -> HomePlan:
    """Say before anything is measured what the equipment can and cannot decide.

    Parameters
    ----------
    equipment : HomeEquipment
        Scale, meter, ruler, piece.

    Returns
    -------
    HomePlan
        Uncertainties to expect for copper, decisions, advice.

    Raises
    ------
    ParameterError
        If a number is zero or negative where it must not be.
    """
    _require_equipment(equipment)
    mass, length = _mass(equipment), _length(equipment)
    conductivity = _conductivity_percent(equipment, mass, length)
    water = _water_uncertainty(mass)
    geometry = _geometry_density(equipment, mass, length)
    area = strand_area_by_mass(mass, length)
    area_percent = 100.0 * expanded_uncertainty(area) / area.value
    decisions = (
        *_by_property("density", water.standard_uncertainty, "weighing in water"),
        *_by_mass_resistivity(conductivity),
        _gauge(area_percent),
        *_by_conductivity(conductivity),
        *_never(conductivity),
    )
    return HomePlan(
        mass_mg=mass.estimate,
        mass_per_metre_percent=area_percent,
        conductivity_percent=conductivity,
        density_by_water=expanded_uncertainty(water),
        density_by_diameter=expanded_uncertainty(geometry),
        decisions=tuple(sorted(decisions, key=lambda one: not one.can)),
        advice=_advice(equipment, mass, length, conductivity),
    )


def _require_equipment(equipment: HomeEquipment) -> None:
    for name in ("scale_u_mg", "metres", "millimetres"):
        value = getattr(equipment, name)
        if not value > 0:
            raise ParameterError(name, value, allowed="a number above zero")
    if equipment.strands < 1 or equipment.all_strands < 1:
        strands = (equipment.strands, equipment.all_strands)
        raise ParameterError("strands", strands, allowed="1 or more")


def _mass(equipment: HomeEquipment) -> Input:
    area_mm2 = 0.25 * pi * equipment.strands * equipment.millimetres**2
    expected = 1e3 * _COPPER_G_PER_CM3 * area_mm2 * equipment.metres
    mass = equipment.milligrams or expected
    return normal_input("mass", mass, equipment.scale_u_mg, unit="mg")


def _length(equipment: HomeEquipment) -> Input:
    u = 1e-3 * equipment.length_u_mm
    return normal_input("length", equipment.metres, u, unit="m")


def _conductivity_percent(
    equipment: HomeEquipment, mass: Input, length: Input
) -> float | None:
    if equipment.meter_percent is None:
        return None
    resistance = 1e3 * _COPPER_OHM_G_PER_M2 * equipment.metres**2 / mass.estimate
    parts = (equipment.meter_percent, 100.0 * equipment.meter_ohm / resistance)
    planned = planned_measurement(
        mass=mass,
        gauge_length=length,
        temperature=normal_input("temperature", 20.0, equipment.celsius_u, unit="degC"),
        resistance_uncertainty_percent=sqrt(sum(part**2 for part in parts) / 3.0),
    )
    result = conductivity_by_mass(planned)
    return 100.0 * (result.interval.half_width or 0.0) / result.percent_iacs.value


def _water_uncertainty(mass: Input) -> Quantity:
    lost = mass.estimate * _WATER_G_PER_CM3 / _COPPER_G_PER_CM3
    u = mass.standard_uncertainty
    return density_by_buoyancy(
        BuoyancyWeighing(
            in_air=mass,
            in_water=normal_input(
                "reading in water", mass.estimate - lost, u, unit="mg"
            ),
            water_temperature=normal_input("water", 20.0, 0.5, unit="degC"),
            air_density=air_density(20.0),
            wire_diameter_um=0.0,
        )
    ).density


def _geometry_density(equipment: HomeEquipment, mass: Input, length: Input) -> Quantity:
    u = 1e-3 * equipment.diameter_u_um
    diameter = normal_input("diameter", equipment.millimetres, u, unit="mm")
    return density_by_geometry(
        mass, length, diameter, strands=equipment.strands
    ).density


def _by_property(what: MetalProperty, u: float, how: str) -> tuple[HomeDecision, ...]:
    copper = property_range("copper", what)
    found = []
    for rival in _RIVALS:
        other = property_range(rival, what)
        gap = max(other.lower - copper.upper, copper.lower - other.upper)
        distance = gap / u
        found.append(
            HomeDecision(
                question=f"copper or {metal_in_words(rival)}, by {how}",
                can=distance >= _SEPARATED,
                reason=f"the two ranges lie {_times(distance)} apart",
            )
        )
    return tuple(found)


def _times(distance: float) -> str:
    if distance <= 0:
        return "not"
    return f"{distance:.2g} standard uncertainties"


def _by_mass_resistivity(
    conductivity_percent: float | None,
) -> tuple[HomeDecision, ...]:
    if conductivity_percent is None:
        return ()
    u = 0.005 * conductivity_percent * _COPPER_OHM_G_PER_M2
    return _by_property("mass_resistivity", u, "resistance, mass and length")


def _gauge(area_percent: float) -> HomeDecision:
    return HomeDecision(
        question="wire gauge to one number, by mass and length",
        can=2.0 * area_percent <= _GAUGE_STEP_PERCENT,
        reason=f"the metal area is good to {area_percent:.2g} %; one gauge number is "
        f"{_GAUGE_STEP_PERCENT:g} %",
    )


def _by_conductivity(conductivity_percent: float | None) -> tuple[HomeDecision, ...]:
    if conductivity_percent is None:
        reason = "needs a four-wire meter; a two-wire meter reads its own leads"
        return (
            HomeDecision(
                question="gross impurity, soft or hard", can=False, reason=reason
            ),
        )
    return (
        HomeDecision(
            question="gross impurity, such as copper deoxidised with phosphorus",
            can=conductivity_percent <= 5.0,
            reason=f"conductivity is good to {conductivity_percent:.2g} %",
        ),
        HomeDecision(
            question="soft or hard drawn",
            can=conductivity_percent < _COLD_WORK_PERCENT,
            reason=f"cold work is worth 1 to 3 %, conductivity is good to "
            f"{conductivity_percent:.2g} %; purity does the same",
        ),
    )


def _never(conductivity_percent: float | None) -> tuple[HomeDecision, ...]:
    reached = (
        ""
        if conductivity_percent is None
        else f"; yours is good to {conductivity_percent:.2g} %"
    )
    cannot = {
        "crystals": f"boundaries are worth 0.1 to 0.3 % of the resistance{reached}",
        "casting route": "nothing in the finished strand's mass, length or resistance "
        "shows it",
        "oxygen": "needs a polished section, a hydrogen test or a gas analysis",
        "nines of purity": "a per cent of resistance is thousands of ppm or a few, by "
        "element",
        "plating": "a thin skin is within the error; it needs a section",
    }
    return tuple(
        HomeDecision(question=question, can=False, reason=reason)
        for question, reason in cannot.items()
    )


def _advice(
    equipment: HomeEquipment, mass: Input, length: Input, conductivity: float | None
) -> tuple[str, ...]:
    advice: Sequence[str] = ()
    share = 100.0 * mass.standard_uncertainty / mass.estimate
    if share > 0.5:
        larger = larger_specimen(
            mass,
            length,
            strands=max(equipment.all_strands, equipment.strands)
            if equipment.strands == 1
            else 1,
            length_m=max(1.0, equipment.metres),
        )
        sentence = (
            f"The scale is the limit ({share:.2g} % of the mass): {larger.sentence}; "
            f"it is then {larger.relative_uncertainty_percent:.2g} %."
        )
        advice = (sentence,)
    if conductivity is None:
        advice = (*advice, "A four-wire resistance would add the conductivity.")
    return tuple(advice)
