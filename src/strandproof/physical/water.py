"""Density of water and air, and the pull of water's surface on a wire."""

from math import pi

from strandproof.errors import ParameterError
from strandproof.physical.rules import rule
from strandproof.quantity import Input, ModelNumber, exp, normal_input

_STANDARD_GRAVITY = 9.80665  # m/s2, by definition
_COLDEST_C, _WARMEST_C = 0.0, 40.0


def water_density(temperature_c: ModelNumber) -> ModelNumber:
    """Density of air-free pure water at ordinary pressure.

    Parameters
    ----------
    temperature_c : float or number of the uncertainty library or ndarray
        Temperature [degC], 0 to 40.

    Returns
    -------
    float or number of the same kind
        Density [kg/m3].

    Raises
    ------
    ParameterError
        If a plain number is outside of 0 to 40 degC; of other kinds of number the
        caller checks the estimate with `require_liquid`.

    Notes
    -----
    a5 (1 - (t + a1)^2 (t + a2)/(a3 (t + a4))), Tanaka et al. 2001, equation 1; the
    constants stand in ``physical_rules.csv``, from memory.

    References
    ----------
    M. Tanaka, G. Girard, R. Davis, A. Peuto, N. Bignell, 2001, Recommended table for
    the density of water between 0 C and 40 C, Metrologia 38, 301-309.

    Examples
    --------
    >>> round(water_density(20.0), 3)
    998.207
    """
    if isinstance(temperature_c, int | float):
        require_liquid(temperature_c)
    offset = temperature_c + rule("water.a1")
    above = offset * offset * (temperature_c + rule("water.a2"))
    below = rule("water.a3") * (temperature_c + rule("water.a4"))
    return rule("water.a5") * (1.0 - above / below)


def require_liquid(temperature_c: float) -> None:
    """Refuse a temperature for which the formula of water does not hold.

    Parameters
    ----------
    temperature_c : float
        Temperature [degC].

    Raises
    ------
    ParameterError
        If it is outside of 0 to 40 degC.
    """
    if not _COLDEST_C <= temperature_c <= _WARMEST_C:
        raise ParameterError(
            "water_temperature",
            temperature_c,
            allowed="a temperature from 0 to 40 degC",
        )


def air_density(
    temperature_c: float, *, pressure_hpa: float = 1013.25, humidity_percent: float = 50
) -> Input:
    """Density of the room's air, as an input with its uncertainty.

    Parameters
    ----------
    temperature_c : float
        Temperature of the air [degC], 0 to 40.
    pressure_hpa : float
        Pressure at the place, not reduced to sea level [hPa], 600 to 1100.
    humidity_percent : float
        Relative humidity [%], 0 to 100.

    Returns
    -------
    Input
        Density [kg/m3], with 0.02 kg/m3 for a room whose air was not measured.

    Raises
    ------
    ParameterError
        If a number is out of range.

    Notes
    -----
    (0.34848 p - 0.009 h exp(0.061 t))/(273.15 + t), the approximation of OIML
    R 111-1:2004, E.3 (from memory).

    Examples
    --------
    >>> round(air_density(20.0).estimate, 3)
    1.199
    """
    ranges = (
        ("temperature_c", temperature_c, 0.0, 40.0),
        ("pressure_hpa", pressure_hpa, 600.0, 1100.0),
        ("humidity_percent", humidity_percent, 0.0, 100.0),
    )
    for name, value, low, high in ranges:
        if not low <= value <= high:
            raise ParameterError(name, value, allowed=f"from {low:g} to {high:g}")
    moisture = (
        rule("air.b") * humidity_percent * float(exp(rule("air.c") * temperature_c))
    )
    density = (rule("air.a") * pressure_hpa - moisture) / (273.15 + temperature_c)
    return normal_input(
        "density of the air", density, rule("air.standard_uncertainty"), unit="kg/m3"
    )


def surface_pull_mg(wire_diameter_um: float) -> float:
    """Largest pull of the water's surface on a wire that crosses it.

    Parameters
    ----------
    wire_diameter_um : float
        Diameter of the wire [um]; zero or above.

    Returns
    -------
    float
        What a balance shows for it [mg].

    Raises
    ------
    ParameterError
        If the diameter is negative.

    Notes
    -----
    pi d s/g with the surface tension s of pure water (72.7 mN/m, from memory).

    Examples
    --------
    >>> round(surface_pull_mg(100.0), 2)
    2.33
    """
    if wire_diameter_um < 0:
        raise ParameterError("wire_diameter_um", wire_diameter_um, allowed="0 or above")
    newton_per_m = 1e-3 * rule("water.surface_tension")
    return pi * wire_diameter_um * newton_per_m / _STANDARD_GRAVITY
