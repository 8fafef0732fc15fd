"""Resistance referred to 20 degC, with the temperature coefficient in the open."""

from strandproof.electrical.copper_standard import (
    CopperStandard,
    package_copper_standard,
)
from strandproof.electrical.given_inputs import given_inputs, input_of_quantity
from strandproof.errors import MissingMeasurementError, ParameterError
from strandproof.quantity import (
    Input,
    ModelNumber,
    Quantity,
    normal_input,
    propagate,
    rectangular_input,
)


def fixed_coefficient(standard: CopperStandard | None = None) -> Input:
    """Temperature coefficient of the annealed copper standard.

    Parameters
    ----------
    standard : CopperStandard, optional
        Constants; None takes the package's.

    Returns
    -------
    Input
        0.00393 /K with a standard uncertainty of 0.00003 /K (judgement; it covers
        copper within about 1 % of 100 % IACS).

    Examples
    --------
    >>> fixed_coefficient().estimate
    0.00393
    """
    standard = standard or package_copper_standard()
    return normal_input(
        "temperature coefficient",
        standard.temperature_coefficient_per_k,
        standard.temperature_coefficient_spread_per_k,
        unit="1/K",
    )


def scaled_coefficient(percent_iacs: float) -> Input:
    """Temperature coefficient scaled with the conductivity at 20 degC.

    Parameters
    ----------
    percent_iacs : float
        Conductivity [% IACS]; above 0.

    Returns
    -------
    Input
        0.00393 /K times the conductivity over 100 % IACS; the same relative
        uncertainty as the fixed one.

    Raises
    ------
    ParameterError
        If the conductivity is not above 0.

    Notes
    -----
    The coefficient is nearly proportional to the conductivity, whatever lowers
    it (Dellinger 1911, contents page read; the factor is from memory).

    Examples
    --------
    >>> round(scaled_coefficient(101.0).estimate, 6)
    0.003969
    """
    if not percent_iacs > 0:
        raise ParameterError("percent_iacs", percent_iacs, allowed="a number above 0")
    fixed = fixed_coefficient()
    share = percent_iacs / 100.0
    return normal_input(
        "temperature coefficient",
        fixed.estimate * share,
        fixed.standard_uncertainty * share,
        unit="1/K",
    )


def factor_to_20c(
    temperature_c: float, *, coefficient_per_k: float | None = None
) -> float:
    """Factor from a resistance at some temperature to that at 20 degC.

    Parameters
    ----------
    temperature_c : float
        Temperature of the wire [degC].
    coefficient_per_k : float, optional
        Temperature coefficient [1/K]; None takes 0.00393.

    Returns
    -------
    float
        Factor, above 1 for a wire colder than 20 degC.

    Raises
    ------
    ParameterError
        If the temperature is so low that the straight line reaches zero.

    Notes
    -----
    1/(1 + alpha (T - 20)). The rounded factors of IEC 60228 use about 0.004 /K
    and differ by up to 0.4 % (at 90 degC): they are for cable limits, not for
    conductivity.

    Examples
    --------
    >>> round(factor_to_20c(25.0), 4)
    0.9807
    """
    if coefficient_per_k is None:
        coefficient_per_k = package_copper_standard().temperature_coefficient_per_k
    warmth = 1.0 + coefficient_per_k * (temperature_c - 20.0)
    if not warmth > 0:
        raise ParameterError(
            "temperature_c", temperature_c, allowed="one near room temperature"
        )
    return 1.0 / warmth


def resistance_at_20c(
    resistance: Input, temperature: Input | None, *, coefficient: Input | None = None
) -> Quantity:
    """Resistance at 20 degC from a resistance at the wire's temperature.

    Assumes that the thermometer shows the wire's temperature (it does not when
    the current warms the wire) and a straight line near 20 degC.

    Parameters
    ----------
    resistance : Input
        Resistance [ohm, mohm or uohm]; above zero.
    temperature : Input or None
        Temperature of the wire [degC], from -50 to 150.
    coefficient : Input, optional
        Temperature coefficient [1/K]; None takes `fixed_coefficient`.

    Returns
    -------
    Quantity
        Resistance at 20 degC [ohm], with its budget.

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
    R20 = R/(1 + alpha (T - 20)), alpha at constant mass (IEC 60028, read
    second-hand).

    Examples
    --------
    >>> measured = normal_input("resistance", 1.7296, 0.0009, unit="ohm")
    >>> warm = normal_input("temperature", 23.8, 0.2, unit="degC")
    >>> round(resistance_at_20c(measured, warm).value, 5)
    1.70415
    """
    given = given_inputs(
        resistance=("resistance", resistance),
        temperature=("temperature", required_temperature(temperature)),
        coefficient=("coefficient", coefficient or fixed_coefficient()),
    )

    def in_base_units(values: dict[str, ModelNumber]) -> ModelNumber:
        warmth = values["coefficient"] * (values["temperature"] - 20.0)
        return values["resistance"] / (1.0 + warmth)

    return propagate(given.model(in_base_units), given.inputs, unit="ohm")


def wire_temperature(
    sensor: Input, *, gradient_k: float = 0.0, contact_k: float = 0.0
) -> Input:
    """Temperature of the wire from a sensor beside it.

    Parameters
    ----------
    sensor : Input
        Reading with the uncertainty of the sensor and its calibration [degC].
    gradient_k : float
        Half the difference between the warmest and the coldest place of the wire
        [K]; the mean may lie anywhere between.
    contact_k : float
        By how much the sensor may differ from the wire it touches [K].

    Returns
    -------
    Input
        The temperature, all three parts in its standard uncertainty.

    Raises
    ------
    UnitError
        If the reading is no temperature.
    ParameterError
        If a part is negative, or the temperature out of range.

    Notes
    -----
    u^2 = u_sensor^2 + gradient^2/3 + contact^2/3; both limits rectangular.

    Examples
    --------
    >>> read = normal_input("temperature of the wire", 23.8, 0.1, unit="degC")
    >>> warm = wire_temperature(read, gradient_k=0.3, contact_k=0.1)
    >>> round(warm.standard_uncertainty, 3)
    0.208
    """
    given = given_inputs(
        sensor=("temperature", sensor),
        gradient=("error", rectangular_input("gradient", 0.0, gradient_k, unit="K")),
        contact=("error", rectangular_input("contact", 0.0, contact_k, unit="K")),
    )

    def temperature(values: dict[str, ModelNumber]) -> ModelNumber:
        return values["sensor"] + values["gradient"] + values["contact"]

    found = propagate(given.model(temperature), given.inputs, unit="degC")
    return input_of_quantity(found, name=sensor.name, symbol=sensor.symbol)


def required_temperature(temperature: Input | None) -> Input:
    """Return the temperature, or refuse.

    Parameters
    ----------
    temperature : Input or None
        Temperature of the wire.

    Returns
    -------
    Input
        The same.

    Raises
    ------
    MissingMeasurementError
        If there is none.
    """
    if temperature is None:
        raise MissingMeasurementError(
            "The temperature of the wire",
            reason="Copper's resistance changes 0.4 % with each degree, so no "
            "resistivity can be stated without it.",
            remedy="Measure the wire's temperature and give it with its uncertainty.",
        )
    return temperature
