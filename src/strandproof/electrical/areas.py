"""Metal area of strands, and what an area gives per metre."""

from math import pi

from strandproof.electrical.copper_standard import Metal
from strandproof.electrical.given_inputs import given_inputs, input_of_quantity
from strandproof.electrical.iacs import (
    percent_iacs_of_mass_resistivity,
    percent_iacs_of_volume_resistivity,
)
from strandproof.electrical.route_models import Values, standard_density
from strandproof.errors import ParameterError
from strandproof.quantity import (
    Input,
    ModelNumber,
    Quantity,
    propagate,
    propagate_several,
)
from strandproof.records.electrical import ExpectedCore


def strand_area(diameter: Input, *, strands: int = 1) -> Quantity:
    """Metal area of round strands, from their diameter.

    Parameters
    ----------
    diameter : Input
        Mean diameter of the metal of one strand [mm or um]; its uncertainty is
        taken as common to all strands (one instrument), so it does not average
        out.
    strands : int
        Strands; 1 or more.

    Returns
    -------
    Quantity
        Area of all strands [mm^2].

    Raises
    ------
    UnitError
        If the diameter is not a length.
    ParameterError
        If it is not above zero, or there is no strand.

    Notes
    -----
    n pi d^2/4.

    Examples
    --------
    >>> from strandproof.quantity import normal_input
    >>> diameter = normal_input("strand diameter", 0.080, 0.0005, unit="mm")
    >>> round(strand_area(diameter, strands=19).value, 4)
    0.0955
    """
    _require_strands(strands)
    given = given_inputs(diameter=("length", diameter))

    def area(values: Values) -> ModelNumber:
        return 1e6 * 0.25 * pi * strands * values["diameter"] * values["diameter"]

    return propagate(given.model(area), given.inputs, unit="mm^2")


def strand_area_by_mass(
    mass: Input, length: Input, *, strands: int = 1, density: Input | None = None
) -> Quantity:
    """Metal area of strands, from the mass of one weighed strand.

    Parameters
    ----------
    mass : Input
        Mass of the weighed strand, bare [g or mg].
    length : Input
        Its length [m or mm].
    strands : int
        Strands alike to sum over; 1 when all were weighed together.
    density : Input, optional
        Density; None takes 8.89 g/cm3 with 0.4 %.

    Returns
    -------
    Quantity
        Area of all strands [mm^2].

    Raises
    ------
    UnitError
        If a unit does not fit.
    ParameterError
        If a number is not above zero, or there is no strand.

    Notes
    -----
    n m/(L d).

    Examples
    --------
    >>> from strandproof.quantity import normal_input
    >>> area = strand_area_by_mass(
    ...     normal_input("mass", 22.28, 0.0285, unit="mg"),
    ...     normal_input("length", 0.5, 0.0003, unit="m"),
    ...     strands=19,
    ... )
    >>> round(area.value, 4)
    0.0952
    """
    _require_strands(strands)
    given = given_inputs(
        mass=("mass", mass),
        length=("length", length),
        density=("density", density or standard_density()),
    )

    def area(values: Values) -> ModelNumber:
        return 1e6 * strands * values["mass"] / (values["length"] * values["density"])

    return propagate(given.model(area), given.inputs, unit="mm^2")


def expected_core(area: Quantity, metal: Metal) -> ExpectedCore:
    """Mass and resistance per metre at 20 degC that an area of a metal gives.

    Parameters
    ----------
    area : Quantity
        Metal area [mm^2 or m^2]; above zero.
    metal : Metal
        Its metal; its values carry no uncertainty here.

    Returns
    -------
    ExpectedCore
        Per metre of conductor, not of cable.

    Raises
    ------
    UnitError
        If the area is not in mm^2 or m^2.
    ParameterError
        If it is not above zero.

    Examples
    --------
    >>> from strandproof.electrical.copper_standard import metal
    >>> clad = expected_core(Quantity(0.0955, "mm^2"), metal("clad_aluminium_15"))
    >>> round(clad.mass_per_metre.value, 3), round(clad.percent_iacs, 1)
    (0.347, 64.3)
    """
    given = given_inputs(area=("area", input_of_quantity(area, name="metal area")))

    def per_metre(values: Values) -> dict[str, ModelNumber]:
        return {
            "mass": 1e6 * metal.density_g_per_cm3 * values["area"],
            "resistance": 1e3 * metal.resistivity_ohm_m / values["area"],
        }

    quantities = propagate_several(
        given.model(per_metre),
        given.inputs,
        units={"mass": "g/m", "resistance": "mohm/m"},
    ).quantities
    mass_resistivity = 1e6 * metal.density_g_per_cm3 * metal.resistivity_ohm_m
    return ExpectedCore(
        metal=metal.name,
        mass_per_metre=quantities["mass"],
        resistance_per_metre=quantities["resistance"],
        percent_iacs=percent_iacs_of_volume_resistivity(metal.resistivity_ohm_m),
        percent_iacs_by_mass=percent_iacs_of_mass_resistivity(mass_resistivity),
    )


def _require_strands(strands: int) -> None:
    if strands < 1:
        raise ParameterError("strands", strands, allowed="1 or more")
