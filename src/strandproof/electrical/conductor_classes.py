"""Limits for conductors: classes of resistance, nominal areas, metric gauge."""

from collections.abc import Mapping
from math import pi

from strandproof.electrical.conformity import decide_conformity
from strandproof.electrical.given_inputs import given_inputs
from strandproof.electrical.route_models import Values
from strandproof.electrical.temperature import fixed_coefficient, required_temperature
from strandproof.errors import ParameterError, UnitError
from strandproof.quantity import Input, ModelNumber, Quantity, propagate
from strandproof.records.electrical import ConformityDecision, DecisionRule
from strandproof.tables import TableRow, package_table, table_value

_TABLE = "iec_60228"
_CLASSES = (1, 2, 5, 6)


def class_limit_ohm_per_km(
    conductor_class: int, *, nominal_mm2: float, coated: bool = False
) -> float:
    """Highest resistance that a conductor of a class may have.

    A limit for cables, with allowances for making them; a conductor at the limit
    holds less metal than its nominal area says.

    Parameters
    ----------
    conductor_class : int
        1 solid, 2 stranded, 5 flexible, 6 more flexible.
    nominal_mm2 : float
        Nominal area [mm2]; one of the table.
    coated : bool
        Strands with a metal layer (tinned).

    Returns
    -------
    float
        Resistance at 20 degC of a length of core [ohm/km].

    Raises
    ------
    ParameterError
        If the table has no such class or size.

    References
    ----------
    IEC 60228, as two makers reprint it (read, secondary); class 6 from memory.

    Examples
    --------
    >>> class_limit_ohm_per_km(5, nominal_mm2=0.75)
    26.0
    """
    table = package_table(_TABLE)
    if conductor_class not in _CLASSES:
        raise ParameterError("conductor_class", conductor_class, allowed="1, 2, 5 or 6")
    layer = "coated" if coated else "plain"
    size = f"{nominal_mm2:g}".replace(".", "_")
    key = f"class_{conductor_class}.mm2_{size}.{layer}"
    if key not in table:
        raise ParameterError(
            "nominal_mm2",
            nominal_mm2,
            allowed="one of " + ", ".join(_sizes(table, conductor_class, layer)),
            remedy="Check the area that is claimed, and whether strands are coated.",
        )
    return table_value(table, key)


def resistance_per_length(
    resistance: Input, temperature: Input | None, length: Input
) -> Quantity:
    """Resistance at 20 degC of a length of core.

    Parameters
    ----------
    resistance : Input
        Resistance between the contacts [ohm, mohm or uohm].
    temperature : Input or None
        Temperature of the wire [degC].
    length : Input
        Length of core between the contacts [m or mm]; of the core, not along a
        strand, since cables are sold by it.

    Returns
    -------
    Quantity
        Resistance per length [ohm/km].

    Raises
    ------
    MissingMeasurementError
        If there is no temperature.
    UnitError
        If a unit does not fit.
    ParameterError
        If a number is out of range.

    Notes
    -----
    1000 R/((1 + alpha (T - 20)) L) with alpha = 0.00393 /K. The rounded factors of
    IEC 60228 differ from it by up to 0.4 % at 90 degC and by less than 0.1 %
    between 15 and 25 degC.
    """
    given = given_inputs(
        resistance=("resistance", resistance),
        temperature=("temperature", required_temperature(temperature)),
        coefficient=("coefficient", fixed_coefficient()),
        length=("length", length),
    )

    def per_km(values: Values) -> ModelNumber:
        warmth = 1.0 + values["coefficient"] * (values["temperature"] - 20.0)
        return 1e3 * values["resistance"] / (warmth * values["length"])

    return propagate(given.model(per_km), given.inputs, unit="ohm/km")


def check_class(
    per_km: Quantity,
    *,
    conductor_class: int,
    nominal_mm2: float,
    coated: bool = False,
    rule: DecisionRule | None = None,
) -> ConformityDecision:
    """Hold a resistance per length against the limit of a class.

    Parameters
    ----------
    per_km : Quantity
        Resistance at 20 degC of a length of core [ohm/km].
    conductor_class : int
        1, 2, 5 or 6.
    nominal_mm2 : float
        Claimed nominal area [mm2].
    coated : bool
        Strands with a metal layer.
    rule : DecisionRule, optional
        Rule of the decision; None takes a guard band with a risk of at most 5 %.

    Returns
    -------
    ConformityDecision
        Decision with rule and risk.

    Raises
    ------
    UnitError
        If the resistance is not in ohm/km.
    ParameterError
        If the table has no such class or size.

    Examples
    --------
    >>> check_class(
    ...     Quantity(25.2, "ohm/km", 0.1), conductor_class=5, nominal_mm2=0.75
    ... ).decision
    'conforms'
    """
    if per_km.unit != "ohm/km":
        raise UnitError(per_km.unit, expected="ohm/km")
    limit = class_limit_ohm_per_km(
        conductor_class, nominal_mm2=nominal_mm2, coated=coated
    )
    return decide_conformity(per_km, limit=limit, side="at_most", rule=rule)


def check_area(
    area: Quantity,
    *,
    claimed_mm2: float,
    tolerance_percent: float,
    rule: DecisionRule | None = None,
) -> ConformityDecision:
    """Hold a measured metal area against a claimed one.

    Parameters
    ----------
    area : Quantity
        Measured metal area of all strands [mm^2].
    claimed_mm2 : float
        Claimed area [mm2]; above zero.
    tolerance_percent : float
        By how much it may fall short and still conform [%]; 0 to below 100.
    rule : DecisionRule, optional
        Rule of the decision; None takes a guard band with a risk of at most 5 %.

    Returns
    -------
    ConformityDecision
        Decision with rule and risk.

    Raises
    ------
    UnitError
        If the area is not in mm^2.
    ParameterError
        If claimed area or tolerance is out of range.

    Notes
    -----
    A nominal area of IEC 60228 is a name: the standard limits the resistance, not
    the area. What a seller prints as an area is held against the area all the same.

    Examples
    --------
    >>> check_area(
    ...     Quantity(0.0955, "mm^2", 0.0012), claimed_mm2=0.13, tolerance_percent=0.0
    ... ).decision
    'does not conform'
    """
    if area.unit != "mm^2":
        raise UnitError(area.unit, expected="mm^2")
    if not claimed_mm2 > 0:
        raise ParameterError("claimed_mm2", claimed_mm2, allowed="above zero")
    if not 0 <= tolerance_percent < 100:
        raise ParameterError(
            "tolerance_percent", tolerance_percent, allowed="from 0 to below 100"
        )
    limit = claimed_mm2 * (1.0 - tolerance_percent / 100.0)
    return decide_conformity(area, limit=limit, side="at_least", rule=rule)


def metric_gauge_area_mm2(gauge: float) -> float:
    """Area of a solid wire of a metric gauge number.

    Parameters
    ----------
    gauge : float
        Number; above zero.

    Returns
    -------
    float
        Area [mm2].

    Raises
    ------
    ParameterError
        If the number is not above zero.

    Notes
    -----
    The number is ten times the diameter in millimetres (common practice, no
    source), so gauge 4 is 0.4 mm.

    Examples
    --------
    >>> round(metric_gauge_area_mm2(4), 5)
    0.12566
    """
    if not gauge > 0:
        raise ParameterError("gauge", gauge, allowed="above zero")
    return 0.25 * pi * (gauge / 10.0) ** 2


def _sizes(
    table: Mapping[str, TableRow], conductor_class: int, layer: str
) -> tuple[str, ...]:
    start, end = f"class_{conductor_class}.mm2_", f".{layer}"
    return tuple(
        key.removeprefix(start).removesuffix(end).replace("_", ".")
        for key in table
        if key.startswith(start) and key.endswith(end)
    )
