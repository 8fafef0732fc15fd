"""Lay: a twisted strand is longer than its cable, and what ignoring that costs."""

from math import pi

from strandproof.electrical.given_inputs import given_inputs, input_of_quantity
from strandproof.electrical.route_models import Values
from strandproof.errors import ParameterError, UnitError
from strandproof.quantity import Input, ModelNumber, Quantity, propagate, sqrt
from strandproof.records.electrical import ResistivityRoute


def lay_factor(lay_length: Input, helix_diameter: Input) -> Quantity:
    """Length of a strand in a helix over the length of the cable.

    Assumes one helix of constant pitch; strands twisted within twisted cores have
    the product of two factors.

    Parameters
    ----------
    lay_length : Input
        Length of cable for one turn [mm or m].
    helix_diameter : Input
        Diameter of the helix along the strand's centre line [mm or um]: that of
        the bundle less one strand.

    Returns
    -------
    Quantity
        Lay factor k, above 1 [1].

    Raises
    ------
    UnitError
        If a unit does not fit.
    ParameterError
        If a length is not above zero.

    Notes
    -----
    k = sqrt(1 + (pi D/p)^2), geometry of a helix.

    Examples
    --------
    >>> from strandproof.quantity import normal_input
    >>> k = lay_factor(
    ...     normal_input("lay length", 15.0, 0.1, unit="mm"),
    ...     normal_input("helix diameter", 0.96, 0.02, unit="mm"),
    ... )
    >>> round(k.value, 2)
    1.02
    """
    given = given_inputs(
        lay_length=("length", lay_length), helix_diameter=("length", helix_diameter)
    )

    def factor(values: Values) -> ModelNumber:
        slope = pi * values["helix_diameter"] / values["lay_length"]
        return sqrt(1.0 + slope * slope)

    return propagate(given.model(factor), given.inputs, unit="1")


def conductor_length(cable_length: Input, factor: Quantity) -> Input:
    """Length of conductor in a length of cable, as an input for a route.

    Parameters
    ----------
    cable_length : Input
        Length of cable between the contacts [m or mm].
    factor : Quantity
        Lay factor [1]; 1 or more.

    Returns
    -------
    Input
        Length along the strand, in the unit of the cable's length, with the
        uncertainty of both.

    Raises
    ------
    UnitError
        If the factor has a unit, or the length none.
    ParameterError
        If the factor is below 1 or the length not above zero.
    """
    if factor.unit != "1":
        raise UnitError(factor.unit, expected="1 for a lay factor")
    _require_factor(factor.value)
    given = given_inputs(
        cable_length=("length", cable_length),
        factor=("ratio", input_of_quantity(factor, name="lay factor")),
    )

    def length(values: Values) -> ModelNumber:
        # Back into the unit of the cable's length.
        in_given_unit = values["cable_length"] / given.factors["cable_length"]
        return in_given_unit * values["factor"]

    along = propagate(given.model(length), given.inputs, unit=cable_length.unit)
    return input_of_quantity(along, name="length along the strand")


def lay_error_percent(factor: float, *, route: ResistivityRoute = "mass") -> float:
    """Error of a resistivity when the cable's length is taken for the strand's.

    Parameters
    ----------
    factor : float
        Lay factor; 1 or more.
    route : {"mass", "density", "diameter"}
        By mass and by density the length enters twice, by diameter once.

    Returns
    -------
    float
        How much too high the resistivity comes out [%].

    Raises
    ------
    ParameterError
        If the factor is below 1.

    Notes
    -----
    k^2 - 1 by mass and density, k - 1 by diameter.

    Examples
    --------
    >>> round(lay_error_percent(1.02), 1)
    4.0
    """
    _require_factor(factor)
    power = 1 if route == "diameter" else 2
    return 100.0 * (factor**power - 1.0)


def _require_factor(factor: float) -> None:
    if not factor >= 1:
        raise ParameterError("factor", factor, allowed="a lay factor of 1 or more")
