"""At the bench: current reversal, heating by the current, two currents."""

from strandproof.electrical.copper_standard import (
    CopperStandard,
    package_copper_standard,
)
from strandproof.electrical.given_inputs import GivenInputs, given_inputs
from strandproof.electrical.route_models import Values
from strandproof.electrical.temperature import fixed_coefficient
from strandproof.errors import ParameterError
from strandproof.quantity import (
    Correlation,
    Input,
    ModelNumber,
    Quantity,
    propagate,
    propagate_several,
)
from strandproof.records import Flag
from strandproof.records.electrical import ReversalReading, SelfHeating


def resistance_by_reversal(
    forward_voltage: Input, reverse_voltage: Input, current: Input
) -> ReversalReading:
    """Four-wire resistance from readings with the current forward and reversed.

    Thermal voltages at the contacts cancel as long as they stay constant between
    the two readings.

    Parameters
    ----------
    forward_voltage : Input
        Voltage with the current forward [V, mV or uV].
    reverse_voltage : Input
        Voltage with the current reversed, with its sign: negative, save where a
        thermal voltage outweighs it.
    current : Input
        Current, the same both times [A or mA]; above zero.

    Returns
    -------
    ReversalReading
        Resistance [ohm] and the thermal voltage that cancelled [V].

    Raises
    ------
    UnitError
        If a unit does not fit.
    ParameterError
        If the current is not above zero, the voltages have one name, or the
        reversed voltage is not below the forward one.

    Notes
    -----
    R = (V+ - V-)/(2 I); thermal voltage (V+ + V-)/2 (from memory).

    Examples
    --------
    >>> from strandproof.quantity import normal_input
    >>> reading = resistance_by_reversal(
    ...     normal_input("voltage forward", 1.001, 0.0001, unit="mV"),
    ...     normal_input("voltage reversed", -0.999, 0.0001, unit="mV"),
    ...     normal_input("current", 1.0, 0.0001, unit="A"),
    ... )
    >>> round(1e3 * reading.resistance.value, 6)
    1.0
    """
    given = given_inputs(
        forward_voltage=("voltage", forward_voltage),
        reverse_voltage=("voltage", reverse_voltage),
        current=("current", current),
    )
    _require_reversed(given)

    def results(values: Values) -> dict[str, ModelNumber]:
        forward, reverse = values["forward_voltage"], values["reverse_voltage"]
        return {
            "resistance": 0.5 * (forward - reverse) / values["current"],
            "thermal_voltage": 0.5 * (forward + reverse),
        }

    quantities = propagate_several(
        given.model(results),
        given.inputs,
        units={"resistance": "ohm", "thermal_voltage": "V"},
    ).quantities
    return ReversalReading(**quantities)


def heating_power(current: Input, resistance: Input) -> Quantity:
    """Power that the measuring current turns into heat in the wire.

    Parameters
    ----------
    current : Input
        Current [A or mA]; above zero.
    resistance : Input
        Resistance between the contacts [ohm, mohm or uohm]; above zero.

    Returns
    -------
    Quantity
        Power [W].

    Raises
    ------
    UnitError
        If a unit does not fit.
    ParameterError
        If a number is not above zero.

    Notes
    -----
    I^2 R.

    Examples
    --------
    >>> from strandproof.quantity import normal_input
    >>> power = heating_power(
    ...     normal_input("current", 1.0, 0.001, unit="A"),
    ...     normal_input("resistance", 1.7296, 0.0009, unit="ohm"),
    ... )
    >>> round(power.value, 1)
    1.7
    """
    given = given_inputs(
        current=("current", current), resistance=("resistance", resistance)
    )

    def power(values: Values) -> ModelNumber:
        return values["current"] * values["current"] * values["resistance"]

    return propagate(given.model(power), given.inputs, unit="W")


def self_heating(
    lower: tuple[Input, Input],
    higher: tuple[Input, Input],
    *,
    temperature: Input,
    correlations: tuple[Correlation, ...] = (),
    standard: CopperStandard | None = None,
) -> SelfHeating:
    """Warming of the wire by the measuring current, from two currents.

    Assumes that the wire is in balance with its surroundings at both currents, so
    that its rise goes with the square of the current, and that the surroundings
    stayed the same. What the two resistances have in common (the calibration of
    one instrument) cancels; leave it out of their uncertainties here, or state
    it as a correlation.

    Parameters
    ----------
    lower, higher : tuple of Input and Input
        Current [A or mA] and resistance [ohm, mohm or uohm] read with it.
    temperature : Input
        Temperature of the wire as stated [degC]; its uncertainty is what the rise
        is held against.
    correlations : tuple of Correlation
        By the symbols ``"lower_current"``, ``"lower_resistance"``,
        ``"higher_current"``, ``"higher_resistance"``.
    standard : CopperStandard, optional
        Constants; None takes the package's.

    Returns
    -------
    SelfHeating
        Power, resistance at zero current, rise, and a flag where the rise exceeds
        the standard uncertainty of the temperature.

    Raises
    ------
    UnitError
        If a unit does not fit.
    ParameterError
        If a number is out of range, or the second current is not the higher one.

    Notes
    -----
    R(I) = R_0 (1 + c I^2), so R_0 = (R_1 I_2^2 - R_2 I_1^2)/(I_2^2 - I_1^2); rise
    (R_1/R_0 - 1)/alpha_T with alpha_T = alpha/(1 + alpha (T - 20)), the coefficient
    referred to the wire's temperature.
    """
    given = given_inputs(
        lower_current=("current", lower[0]),
        lower_resistance=("resistance", lower[1]),
        higher_current=("current", higher[0]),
        higher_resistance=("resistance", higher[1]),
        temperature=("temperature", temperature),
        coefficient=(
            "coefficient",
            fixed_coefficient(standard or package_copper_standard()),
        ),
    )
    _require_higher(given)
    quantities = propagate_several(
        given.model(_two_currents),
        given.inputs,
        units={
            "power_at_lower_current": "W",
            "resistance_at_zero_current": "ohm",
            "rise_at_lower_current": "K",
        },
        correlations=correlations,
    ).quantities
    rise = quantities["rise_at_lower_current"].value
    warm = rise > temperature.standard_uncertainty
    flags = (Flag("self_heating", f"{rise:.2g} K at the lower current"),)
    return SelfHeating(**quantities, flags=flags if warm else ())


def _two_currents(values: Values) -> dict[str, ModelNumber]:
    lower = values["lower_current"] * values["lower_current"]
    higher = values["higher_current"] * values["higher_current"]
    resistance = values["lower_resistance"]
    cold = (resistance * higher - values["higher_resistance"] * lower) / (
        higher - lower
    )
    warmth = 1.0 + values["coefficient"] * (values["temperature"] - 20.0)
    return {
        "power_at_lower_current": lower * resistance,
        "resistance_at_zero_current": cold,
        "rise_at_lower_current": (resistance / cold - 1.0)
        * warmth
        / values["coefficient"],
    }


def _require_higher(given: GivenInputs) -> None:
    estimates = given.estimates()
    currents = estimates["lower_current"], estimates["higher_current"]
    if not currents[0] < currents[1]:
        raise ParameterError(
            "lower, higher", currents, allowed="a second current above the first [A]"
        )


def _require_reversed(given: GivenInputs) -> None:
    estimates = given.estimates()
    voltages = estimates["forward_voltage"], estimates["reverse_voltage"]
    if not voltages[1] < voltages[0]:
        raise ParameterError(
            "forward_voltage, reverse_voltage",
            voltages,
            allowed="a reversed voltage below the forward one [V]",
            remedy="Give the reversed voltage with its sign.",
        )
