"""What a resistance at room temperature can say about crystals: its size first."""

from strandproof.electrical.copper_standard import package_copper_standard
from strandproof.errors import ParameterError, UnitError
from strandproof.quantity import Quantity
from strandproof.records.electrical import (
    BoundaryReading,
    BoundaryShare,
    DecisionPower,
)
from strandproof.tables import package_table, table_value

_UM_PER = {"um": 1.0, "mm": 1000.0}
_TABLE = "conductor_standards"


def boundary_share(
    mean_intercept: Quantity,
    *,
    reading: BoundaryReading = "per_boundary",
    coefficients_ohm_m2: tuple[float, float] | None = None,
) -> BoundaryShare:
    """Resistivity that boundaries at a mean distance add to copper at 20 degC.

    An order of magnitude, not a measurement: the coefficient is known within a
    factor of two (from memory) and varies with the kind of boundary. Twin
    boundaries add next to nothing and are not to be counted in the distance.

    Parameters
    ----------
    mean_intercept : Quantity
        Mean distance of boundaries along a line, twins excluded [um or mm];
        above zero. Its uncertainty is not carried: the coefficient's range is
        wider.
    reading : {"per_boundary", "per_area"}
        What the coefficient means; the same number read the other way moves the
        result by a factor of 2 to 3.
    coefficients_ohm_m2 : tuple of two floats, optional
        Lower and upper coefficient [ohm m2]; None takes 2e-16 and 4e-16.

    Returns
    -------
    BoundaryShare
        Range of the share in percent, and of the cap of the resistance ratio.

    Raises
    ------
    UnitError
        If the distance is not in um or mm.
    ParameterError
        If the distance or a coefficient is not above zero.

    Notes
    -----
    Per boundary crossed: f gamma/l, f from 2/3 (planes inclined at random:
    S_V = 2/l times the mean square cosine 1/3) to 1 (planes across the current).
    Per boundary area: gamma S_V = 2 gamma/l. In percent of 1/58 ohm mm2/m. The cap
    is the thermal resistivity at 0 degC, 15.43 nohm m, over the added one.

    References
    ----------
    Phys. Rev. B 1 (1970) 1382 (abstract: negligible in bulk).
    doi 10.1021/acsnano.1c06367 (abstract: it varies with the type of boundary).

    Examples
    --------
    >>> share = boundary_share(Quantity(8.444, "um", 0.18))
    >>> round(share.lower_percent, 2), round(share.upper_percent, 2)
    (0.09, 0.27)
    """
    distance_um = _distance_um(mean_intercept)
    lower, upper = (
        factor / (distance_um * 1e-6)
        for factor in _coefficients(reading, coefficients_ohm_m2)
    )
    copper = package_copper_standard().volume_resistivity_ohm_m
    thermal = 1e-9 * table_value(package_table(_TABLE), "pure_copper.resistivity_0c")
    return BoundaryShare(
        reading=reading,
        mean_intercept_um=distance_um,
        lower_percent=100.0 * lower / copper,
        upper_percent=100.0 * upper / copper,
        lower_resistance_ratio_cap=thermal / upper,
        upper_resistance_ratio_cap=thermal / lower,
    )


def what_this_can_decide(
    share: BoundaryShare, *, expanded_uncertainty_percent: float
) -> DecisionPower:
    """Say before the number is known whether it could tell crystals.

    Parameters
    ----------
    share : BoundaryShare
        Expected size of the effect.
    expanded_uncertainty_percent : float
        Expanded uncertainty that the conductivity will have [%], for example from
        `planned_measurement`; above zero.

    Returns
    -------
    DecisionPower
        The statement. A small uncertainty alone never decides: cold work (1 to
        3 %) and dissolved impurities change the resistivity by more.

    Raises
    ------
    ParameterError
        If the uncertainty is not above zero.

    Examples
    --------
    >>> share = boundary_share(Quantity(8.444, "um", 0.18))
    >>> what_this_can_decide(share, expanded_uncertainty_percent=0.40).sentence
    'cannot tell crystals: expected 0.1-0.3 %, your uncertainty 0.4 %'
    """
    u = expanded_uncertainty_percent
    if not u > 0:
        raise ParameterError(
            "expanded_uncertainty_percent", u, allowed="a number above zero"
        )
    resolves = u < share.lower_percent
    expected = f"expected {_range_text(share)} %, your uncertainty {_text(u)} %"
    sentence = f"cannot tell crystals: {expected}"
    if resolves:
        sentence += (
            "; the uncertainty is smaller than the effect, but cold work (1-3 %) and "
            "dissolved impurities do more"
        )
    return DecisionPower(
        share=share,
        expanded_uncertainty_percent=u,
        resolves_effect=resolves,
        sentence=sentence,
    )


def _distance_um(mean_intercept: Quantity) -> float:
    if mean_intercept.unit not in _UM_PER:
        raise UnitError(mean_intercept.unit, expected="um or mm")
    distance = mean_intercept.value * _UM_PER[mean_intercept.unit]
    if not distance > 0:
        raise ParameterError("mean_intercept", distance, allowed="a length above zero")
    return distance


def _coefficients(
    reading: BoundaryReading, given_ohm_m2: tuple[float, float] | None
) -> tuple[float, float]:
    # Resistivity times mean distance, lower and upper end [ohm m2].
    table = package_table(_TABLE)
    lower, upper = given_ohm_m2 or (
        table_value(table, "boundary.coefficient.lower"),
        table_value(table, "boundary.coefficient.upper"),
    )
    if not 0 < lower <= upper:
        raise ParameterError(
            "coefficients_ohm_m2",
            (lower, upper),
            allowed="a lower and an upper value, both above zero",
        )
    if reading == "per_area":
        return 2.0 * lower, 2.0 * upper
    return (
        lower * table_value(table, "boundary.share.random"),
        upper * table_value(table, "boundary.share.across"),
    )


def _range_text(share: BoundaryShare) -> str:
    place = max(0, -_place(share.upper_percent))
    lower, upper = (
        f"{one:.{place}f}" for one in (share.lower_percent, share.upper_percent)
    )
    return f"{lower}-{upper}" if float(lower) > 0 else f"at most {upper}"


def _text(percent: float) -> str:
    # Two digits when it begins with 1 or 2, as half-widths are shown everywhere.
    place = _place(percent)
    place -= percent < 3.0 * 10.0**place
    return f"{round(percent, -place):.{max(0, -place)}f}"


def _place(percent: float) -> int:
    # Power of ten of the first significant digit.
    return int(f"{percent:.0e}".partition("e")[2])
