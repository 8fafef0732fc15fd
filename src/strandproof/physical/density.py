"""Density of a strand: weighed in water, or from mass, length and diameter."""

from math import pi

from strandproof.errors import ParameterError
from strandproof.physical.given_units import above_zero, in_unit
from strandproof.physical.rules import rule
from strandproof.physical.water import (
    require_liquid,
    surface_pull_mg,
    water_density,
)
from strandproof.quantity import (
    Input,
    ModelNumber,
    Quantity,
    coverage_factor,
    expanded_interval,
    format_plus_minus,
    normal_input,
    propagate,
    rectangular_input,
)
from strandproof.records import Flag
from strandproof.records.physical import (
    BuoyancyWeighing,
    DensityMethod,
    DensityResult,
)

_UNIT = "g/cm3"


def density_by_buoyancy(weighing: BuoyancyWeighing) -> DensityResult:
    """Density from the weight in air and in water.

    Assumes that the specimen is all metal (bare, no enamel, no thread), fully under
    water, free of bubbles, and that the hanger's own reading in water was taken off.
    It fails for hollow or porous things and for a strand that keeps air between its
    wires.

    Parameters
    ----------
    weighing : BuoyancyWeighing
        Two readings of one balance, temperature of the water, density of the air.

    Returns
    -------
    DensityResult
        Density [g/cm3] with budget.

    Raises
    ------
    UnitError
        If a unit does not fit.
    ParameterError
        If a reading is not above zero, the specimen is not heavier in air than in
        water, or the water is not between 0 and 40 degC.

    Notes
    -----
    With the readings A in air and W in water, the densities a of air and w of water:
    density = (A w - W a)/(A - W). The density of the balance's own weights cancels,
    because both readings carry the same factor. The pull of the water's surface on the
    suspension, and its change, enter W.

    References
    ----------
    Archimedes' law with air buoyancy (textbook). Water: Tanaka et al., Metrologia 38
    (2001) 301. Air: OIML R 111-1, E.3.

    Examples
    --------
    >>> found = density_by_buoyancy(BuoyancyWeighing(
    ...     in_air=normal_input("reading in air", 500.0, 0.1, unit="mg"),
    ...     in_water=normal_input("reading in water", 444.1, 0.1, unit="mg"),
    ...     water_temperature=normal_input("water", 20.0, 0.2, unit="degC"),
    ...     air_density=normal_input("air", 1.2, 0.02, unit="kg/m3"),
    ... ))
    >>> round(found.density.value, 2)
    8.92
    """
    inputs = _inputs_of_weighing(weighing)
    density = propagate(_buoyancy, inputs, unit=_UNIT)
    lost_mg = 1e3 * (inputs[0].estimate - inputs[1].estimate)
    return _result(
        "buoyancy",
        density,
        spoilers=(_bubble_sentence(lost_mg), *_pull_sentences(weighing)),
        flags=_flags_of_weighing(weighing),
    )


def density_by_geometry(
    mass: Input, length: Input, diameter: Input, *, strands: int = 1
) -> DensityResult:
    """Density from the mass, length and diameter of round strands.

    The diameter counts twice: 1 um on 0.1 mm is 2 %. Right only for bare, round, even
    strands whose length is measured along the strand.

    Parameters
    ----------
    mass : Input
        Mass of bare metal, all strands together [g or mg].
    length : Input
        Length of each strand [m or mm].
    diameter : Input
        Mean diameter [mm or um]; its uncertainty is common to all strands.
    strands : int
        Strands weighed together; 1 or more.

    Returns
    -------
    DensityResult
        Density [g/cm3] with budget.

    Raises
    ------
    UnitError
        If a unit does not fit.
    ParameterError
        If a number is not above zero.

    Notes
    -----
    4 m/(n pi d^2 L).

    Examples
    --------
    >>> found = density_by_geometry(
    ...     normal_input("mass", 847.0, 1.0, unit="mg"),
    ...     normal_input("length", 1.0, 0.001, unit="m"),
    ...     normal_input("diameter", 0.080, 0.0005, unit="mm"),
    ...     strands=19,
    ... )
    >>> round(found.density.value, 2), round(found.density.standard_uncertainty, 2)
    (8.87, 0.11)
    """
    if strands < 1:
        raise ParameterError("strands", strands, allowed="1 or more")
    inputs = (
        above_zero(in_unit(mass, unit="g", symbol="mass")),
        above_zero(in_unit(length, unit="mm", symbol="length")),
        above_zero(in_unit(diameter, unit="mm", symbol="diameter")),
    )

    def model(
        mass: ModelNumber, length: ModelNumber, diameter: ModelNumber
    ) -> ModelNumber:
        volume_mm3 = 0.25 * pi * strands * diameter * diameter * length
        return 1e3 * mass / volume_mm3

    spoiler = "The diameter counts twice; a micrometer squeezes a soft strand."
    silent = [one.name for one in inputs if one.standard_uncertainty == 0]
    flags = (Flag("incomplete_budget", ", ".join(silent)),) if silent else ()
    return _result(
        "geometry",
        propagate(model, inputs, unit=_UNIT),
        spoilers=(spoiler,),
        flags=flags,
    )


def _buoyancy(
    *,
    in_air: ModelNumber,
    in_water: ModelNumber,
    water_temperature: ModelNumber,
    water: ModelNumber,
    air: ModelNumber,
    pull: ModelNumber,
) -> ModelNumber:
    reading = in_water - pull
    wet = water_density(water_temperature) + water
    return 1e-3 * (in_air * wet - reading * air) / (in_air - reading)


def _inputs_of_weighing(weighing: BuoyancyWeighing) -> tuple[Input, ...]:
    in_air = above_zero(in_unit(weighing.in_air, unit="g", symbol="in_air"))
    in_water = above_zero(in_unit(weighing.in_water, unit="g", symbol="in_water"))
    if not in_air.estimate > in_water.estimate:
        raise ParameterError(
            "in_water",
            weighing.in_water.estimate,
            allowed=f"less than the reading in air, {weighing.in_air.estimate:g} "
            f"{weighing.in_air.unit}",
            remedy="Take the hanger's own reading in water off, and check the units.",
        )
    temperature = in_unit(
        weighing.water_temperature, unit="degC", symbol="water_temperature"
    )
    require_liquid(temperature.estimate)
    quality = normal_input(
        "purity of the water", 0.0, rule("water.quality"), unit="kg/m3", symbol="water"
    )
    air = above_zero(in_unit(weighing.air_density, unit="kg/m3", symbol="air"))
    return (in_air, in_water, temperature, quality, air, _pull(weighing))


def _pull(weighing: BuoyancyWeighing) -> Input:
    force = surface_pull_mg(weighing.wire_diameter_um or 0.0)
    half_width = 1e-3 * rule("suspension.share") * force
    return rectangular_input(
        "pull of the surface on the suspension",
        0.0,
        half_width,
        unit="g",
        symbol="pull",
    )


def _bubble_sentence(lost_mg: float) -> str:
    return (
        f"A bubble of {0.01 * lost_mg:.2g} mm3 that clings to it takes 1 % off the "
        "density."
    )


def _pull_sentences(weighing: BuoyancyWeighing) -> tuple[str, ...]:
    if weighing.wire_diameter_um is None:
        return ("Nothing was said about the wire that crosses the water's surface.",)
    pull = surface_pull_mg(weighing.wire_diameter_um)
    sentence = (
        f"The water's surface pulls on the suspension with up to {pull:.2g} mg; its "
        "change between tare and reading is in the budget."
    )
    return (sentence,)


def _flags_of_weighing(weighing: BuoyancyWeighing) -> tuple[Flag, ...]:
    flags = []
    if not weighing.bubbles_removed:
        flags.append(Flag("bubbles_not_excluded"))
    if not weighing.pure_water:
        flags.append(Flag("water_not_pure"))
    given = (weighing.in_air, weighing.in_water, weighing.water_temperature)
    silent = [one.name for one in given if one.standard_uncertainty == 0]
    if weighing.wire_diameter_um is None:
        silent.append("suspension")
    if silent:
        flags.append(Flag("incomplete_budget", ", ".join(silent)))
    return tuple(flags)


def _result(
    method: DensityMethod,
    density: Quantity,
    *,
    spoilers: tuple[str, ...],
    flags: tuple[Flag, ...],
) -> DensityResult:
    interval = expanded_interval(density, 0.95)
    shown = format_plus_minus(density.value, interval.half_width or 0.0, unit=_UNIT)
    how = "weighing in water" if method == "buoyancy" else "mass, length and diameter"
    return DensityResult(
        method=method,
        density=density,
        interval=interval,
        coverage_factor=coverage_factor(
            0.95, degrees_of_freedom=density.degrees_of_freedom
        ),
        sentences=(f"Density by {how}: {shown} (95 %).", *spoilers),
        flags=flags,
    )
