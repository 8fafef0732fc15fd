"""What boundaries between crystals and the surface of a strand add, by two models."""

from math import log, log1p

from strandproof.electrical.crystals import boundary_share
from strandproof.errors import ParameterError
from strandproof.quantity import Quantity
from strandproof.records.electrical import BoundaryReading, ResidualTerm
from strandproof.tables import package_table, table_value

TABLE = "residual_terms"
_SERIES_FROM = 100.0
_SERIES_TERMS = 12


def mayadas_shatzkes_factor(strength: float) -> float:
    """Conductivity of a metal with boundaries over that of its crystals.

    Parameters
    ----------
    strength : float
        (mean free path/mean intercept) R/(1 - R), R the reflection at a boundary;
        zero or above.

    Returns
    -------
    float
        From 1, no boundaries, towards 0.

    Raises
    ------
    ParameterError
        If the strength is negative.

    Notes
    -----
    3 (1/3 - a/2 + a^2 - a^3 ln(1 + 1/a)) (from memory; abstract of Phys. Rev. B 1
    (1970) 1382 read). Above 100 the series 3 sum (-1)^k/((k + 4) a^(k + 1)) is used,
    since the closed form cancels there.

    Examples
    --------
    >>> round(100 * (1 / mayadas_shatzkes_factor(0.0399 * 0.3 / 0.7) - 1), 2)
    2.55
    """
    if not strength >= 0:
        raise ParameterError("strength", strength, allowed="zero or above")
    if strength == 0:
        return 1.0
    if strength > _SERIES_FROM:
        return 3.0 * sum(
            (-1.0) ** k / ((k + 4) * strength ** (k + 1)) for k in range(_SERIES_TERMS)
        )
    # The reciprocal of the smallest floats is infinite.
    logarithm = log1p(strength) - log(strength)
    return 3.0 * (1.0 / 3.0 - strength / 2.0 + strength**2 - strength**3 * logarithm)


def added_by_reflection_nohm_m(
    mean_intercept_um: float, *, interior_nohm_m: float, reflection: float
) -> float:
    """Resistivity that boundaries add by Mayadas and Shatzkes.

    Parameters
    ----------
    mean_intercept_um : float
        Mean distance of boundaries along a line, twins excluded [um]; above zero.
    interior_nohm_m : float
        Resistivity inside of the crystals at the temperature meant [nohm m];
        above zero.
    reflection : float
        Reflection at a boundary; 0 to below 1.

    Returns
    -------
    float
        Added resistivity [nohm m]; nearly the same at every temperature while the
        mean free path is short against the intercept.

    Raises
    ------
    ParameterError
        If a number is out of range.

    Notes
    -----
    The mean free path is 6.7e-16 ohm m2 over the resistivity (from memory). For
    few boundaries the sum tends to 1.5 (rho lambda) R/(1 - R)/intercept.

    Examples
    --------
    >>> added = added_by_reflection_nohm_m(
    ...     10.0, interior_nohm_m=16.78, reflection=0.3
    ... )
    >>> round(100 * added / 16.78, 3)
    0.256
    """
    _require_positive("mean_intercept_um", mean_intercept_um)
    _require_positive("interior_nohm_m", interior_nohm_m)
    if not 0 <= reflection < 1:
        raise ParameterError("reflection", reflection, allowed="0 to below 1")
    path_um = 1e15 * _mean_free_path_product() / interior_nohm_m
    strength = path_um / mean_intercept_um * reflection / (1.0 - reflection)
    return interior_nohm_m * (1.0 / mayadas_shatzkes_factor(strength) - 1.0)


def boundary_term(
    mean_intercept_um: float, *, reading: BoundaryReading = "per_boundary"
) -> ResidualTerm:
    """Residual resistivity that boundaries add, by a coefficient.

    Parameters
    ----------
    mean_intercept_um : float
        Mean distance of boundaries along a line, twins excluded [um]; above zero.
    reading : {"per_boundary", "per_area"}
        What the coefficient means.

    Returns
    -------
    ResidualTerm
        Range, and its middle.

    Raises
    ------
    ParameterError
        If the distance is not above zero.

    Notes
    -----
    As `boundary_share`.

    Examples
    --------
    >>> term = boundary_term(8.444)
    >>> round(term.lower, 4), round(term.upper, 4)
    (0.0158, 0.0474)
    """
    share = boundary_share(Quantity(mean_intercept_um, "um"), reading=reading)
    thermal = table_value(
        package_table("conductor_standards"), "pure_copper.resistivity_0c"
    )
    lower = thermal / share.upper_resistance_ratio_cap
    upper = thermal / share.lower_resistance_ratio_cap
    formula = (
        "f gamma/l, gamma 2 to 4e-16 ohm m2 per boundary crossed, f 2/3 to 1"
        if reading == "per_boundary"
        else "2 gamma/l, the same 2 to 4e-16 ohm m2 taken per boundary area"
    )
    return ResidualTerm(
        name=f"boundaries every {mean_intercept_um:g} µm",
        best=0.5 * (lower + upper),
        lower=lower,
        upper=upper,
        basis=f"{formula}; from memory",
    )


def surface_term(strand_mm: float) -> ResidualTerm:
    """Residual resistivity that the surface of a thin strand adds.

    Parameters
    ----------
    strand_mm : float
        Diameter of the strand [mm]; above zero.

    Returns
    -------
    ResidualTerm
        From nothing (a mirror) to a wholly diffuse surface, which is usual.

    Raises
    ------
    ParameterError
        If the diameter is not above zero.

    Notes
    -----
    6.7e-16 ohm m2/d (Nordheim; from memory).

    Examples
    --------
    >>> round(surface_term(0.08).upper, 5)
    0.00838
    """
    _require_positive("strand_mm", strand_mm)
    diffuse = 1e12 * _mean_free_path_product() / strand_mm
    return ResidualTerm(
        name=f"surface of a {strand_mm:g} mm strand",
        best=diffuse,
        lower=0.0,
        upper=diffuse,
        basis="6.7e-16 ohm m2 over the diameter (Nordheim); from memory",
    )


def most_by_boundaries_nohm_m(mean_intercept_um: float) -> float:
    """Most that boundaries can add, by the widest of the models used here.

    Parameters
    ----------
    mean_intercept_um : float
        Mean distance of boundaries along a line, twins excluded [um]; above zero.

    Returns
    -------
    float
        Added resistivity [nohm m].

    Raises
    ------
    ParameterError
        If the distance is not above zero.

    Notes
    -----
    The greater of 2 x 4e-16 ohm m2/l, the upper coefficient taken per area, and
    1.5 (rho lambda) R/(1 - R)/l with R = 0.5.

    Examples
    --------
    >>> round(most_by_boundaries_nohm_m(10.0), 4)
    0.1005
    """
    per_area = boundary_term(mean_intercept_um, reading="per_area").upper
    reflection = reflections()[1]
    product = 1e15 * _mean_free_path_product()
    reflected = 1.5 * product * reflection / (1.0 - reflection) / mean_intercept_um
    return max(per_area, reflected)


def reflections() -> tuple[float, float]:
    """Lowest and highest reflection at a boundary that fits of films give.

    Returns
    -------
    tuple of float
        0.2 and 0.5, from memory; first principles give 0.28 to 0.39 (abstract
        read).
    """
    table = package_table(TABLE)
    return (
        table_value(table, "reflection.lower"),
        table_value(table, "reflection.upper"),
    )


def _mean_free_path_product() -> float:
    return table_value(package_table(TABLE), "mean_free_path.product")


def _require_positive(name: str, value: float) -> None:
    if not value > 0:
        raise ParameterError(name, value, allowed="a number above zero")
