"""Where a Vickers indentation may lie, and which force a wire can take."""

from math import radians, sin

from strandproof.errors import IndentationGeometryError, ParameterError
from strandproof.physical.rules import rule
from strandproof.records import Flag
from strandproof.records.physical import HardnessMeasurement, Indentation

_STANDARD_GRAVITY = 9.80665  # m/s2, by definition

VICKERS_FACTOR = 2.0 * sin(radians(68.0)) / _STANDARD_GRAVITY
"""Hardness of one newton on a diagonal of one millimetre: 0.18909."""


def vickers_hardness(force_newton: float, diagonal_um: float) -> float:
    """Vickers hardness from the test force and the mean diagonal.

    Parameters
    ----------
    force_newton : float
        Test force [N]; above zero.
    diagonal_um : float
        Mean of the two diagonals [um]; above zero.

    Returns
    -------
    float
        Hardness [HV].

    Raises
    ------
    ParameterError
        If a number is zero or negative.

    Notes
    -----
    HV = (2 sin 68 deg/g) F/d^2 = 0.189093 F/d^2 with F in N, d in mm: force in kgf
    over the area of a pyramid whose faces meet at 136 deg.

    References
    ----------
    ISO 6507-1 and ASTM E384 (the factor from memory; computed here).

    Examples
    --------
    >>> round(vickers_hardness(0.1 * 9.80665, 50.0), 2)
    74.17
    """
    _require_positive("force_newton", force_newton)
    _require_positive("diagonal_um", diagonal_um)
    return VICKERS_FACTOR * force_newton / (1e-3 * diagonal_um) ** 2


def expected_diagonal_um(hardness_hv: float, force_newton: float) -> float:
    """Diagonal that a hardness gives at a force.

    Parameters
    ----------
    hardness_hv : float
        Hardness [HV]; above zero.
    force_newton : float
        Test force [N]; above zero.

    Returns
    -------
    float
        Mean diagonal [um].

    Raises
    ------
    ParameterError
        If a number is zero or negative.

    Examples
    --------
    >>> round(expected_diagonal_um(50.0, 0.1 * 9.80665), 2)
    60.9
    """
    _require_positive("hardness_hv", hardness_hv)
    _require_positive("force_newton", force_newton)
    return 1e3 * float((VICKERS_FACTOR * force_newton / hardness_hv) ** 0.5)


def smallest_wire_um(hardness_hv: float, force_newton: float) -> float:
    """Thinnest round wire that takes an indentation at its centre, on a section.

    Parameters
    ----------
    hardness_hv : float
        Hardness to expect [HV]; above zero.
    force_newton : float
        Test force [N]; above zero.

    Returns
    -------
    float
        Diameter of the wire [um].

    Raises
    ------
    ParameterError
        If a number is zero or negative.

    Notes
    -----
    The centre has to be 2.5 diagonals from the edge (ISO 6507-1:2018, clause 7), so
    the wire has to be 5 diagonals wide.

    Examples
    --------
    >>> round(smallest_wire_um(50.0, 0.1 * 9.80665))
    304
    """
    diagonal = expected_diagonal_um(hardness_hv, force_newton)
    return 2.0 * rule("vickers.edge_distance") * diagonal


def largest_force_newton(hardness_hv: float, wire_diameter_um: float) -> float:
    """Largest force that a round wire can take at the centre of its section.

    Parameters
    ----------
    hardness_hv : float
        Hardness to expect [HV]; above zero.
    wire_diameter_um : float
        Diameter of the metal [um]; above zero.

    Returns
    -------
    float
        Test force [N].

    Raises
    ------
    ParameterError
        If a number is zero or negative.

    Examples
    --------
    >>> round(1000 * largest_force_newton(50.0, 80.0) / 9.80665, 1)  # gf
    6.9
    """
    _require_positive("hardness_hv", hardness_hv)
    _require_positive("wire_diameter_um", wire_diameter_um)
    diagonal_mm = 1e-3 * wire_diameter_um / (2.0 * rule("vickers.edge_distance"))
    return hardness_hv * diagonal_mm**2 / VICKERS_FACTOR


def require_allowed(measurement: HardnessMeasurement) -> None:
    """Refuse indentations that lie where the rules of distance forbid.

    Parameters
    ----------
    measurement : HardnessMeasurement
        Indentations with their distances; a distance that is None is not checked.

    Raises
    ------
    ParameterError
        If there is no indentation or a length is zero or negative.
    IndentationGeometryError
        If one is too near to an edge or a neighbour, or too large for its wire.
    """
    if not measurement.indentations:
        raise ParameterError("indentations", (), allowed="one or more")
    for number, one in enumerate(measurement.indentations, start=1):
        _require_lengths(one)
        _require_distance(number, one, "edge", one.edge_um)
        _require_distance(number, one, "next", one.next_um)
        _require_wire(number, one, measurement)


def flags_of_indentations(measurement: HardnessMeasurement) -> tuple[Flag, ...]:
    """Return flags of how indentations lie and look.

    Parameters
    ----------
    measurement : HardnessMeasurement
        The indentations.

    Returns
    -------
    tuple of Flag
        Distances not given, unequal and short diagonals.
    """
    all_of_them = measurement.indentations
    flags = []
    unknown = _count_without_distance(measurement)
    if unknown:
        flags.append(
            Flag("indentation_distances_not_given", f"{unknown} of {len(all_of_them)}")
        )
    unequal = max(_inequality_percent(one) for one in all_of_them)
    if unequal > rule("vickers.unequal_diagonals"):
        flags.append(Flag("unequal_diagonals", f"up to {unequal:.1f} %"))
    shortest = min(one.mean_diagonal_um for one in all_of_them)
    if shortest < rule("vickers.shortest_diagonal"):
        flags.append(Flag("short_diagonal", f"{shortest:.1f} um"))
    return tuple(flags)


def _count_without_distance(measurement: HardnessMeasurement) -> int:
    # One indentation alone has no neighbour; a wire's diameter stands for the edge.
    alone = len(measurement.indentations) == 1
    wire = measurement.wire_diameter_um is not None
    return sum(
        (one.edge_um is None and not wire) or (one.next_um is None and not alone)
        for one in measurement.indentations
    )


def _inequality_percent(one: Indentation) -> float:
    difference = abs(one.first_diagonal_um - one.second_diagonal_um)
    return 100.0 * difference / one.mean_diagonal_um


def _require_lengths(one: Indentation) -> None:
    _require_positive("first diagonal", one.first_diagonal_um)
    _require_positive("second diagonal", one.second_diagonal_um)


def _require_distance(
    number: int, one: Indentation, which: str, distance: float | None
) -> None:
    if distance is None:
        return
    factor = rule(f"vickers.{which}_distance")
    least = factor * one.mean_diagonal_um
    if distance >= least:
        return
    name = f"Indentation {number}"
    what = "the edge of the metal" if which == "edge" else "the next indentation"
    raise IndentationGeometryError(
        name,
        f"its centre is {distance:.1f} um from {what}",
        allowed=f"{least:.1f} um or more ({factor:g} diagonals of "
        f"{one.mean_diagonal_um:.1f} um)",
        remedy="Leave it out with the reason, or indent again with a smaller force.",
    )


def _require_wire(
    number: int, one: Indentation, measurement: HardnessMeasurement
) -> None:
    rules = (
        ("wire", measurement.wire_diameter_um, 2.0 * rule("vickers.edge_distance")),
        ("metal", measurement.thickness_um, rule("vickers.thickness")),
    )
    name = f"Indentation {number}"
    for what, size, factor in rules:
        least = factor * one.mean_diagonal_um
        if size is not None and size < least:
            raise IndentationGeometryError(
                name,
                f"the {what} is {size:.1f} um thick",
                allowed=f"{least:.1f} um or more ({factor:g} diagonals of "
                f"{one.mean_diagonal_um:.1f} um)",
                remedy=_smaller_force(one, measurement, size / factor),
            )


def _smaller_force(
    one: Indentation, measurement: HardnessMeasurement, diagonal_um: float
) -> str:
    share = (diagonal_um / one.mean_diagonal_um) ** 2
    force = measurement.force
    return (
        f"Use {share * force.estimate:.2g} {force.unit} or less; thin strands need a "
        "laboratory with a micro-indenter."
    )


def _require_positive(name: str, value: float) -> None:
    if not value > 0:
        raise ParameterError(name, value, allowed="a number above zero")
