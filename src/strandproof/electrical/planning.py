"""Before the measurement: the uncertainty to expect, and a better specimen."""

from strandproof.electrical.copper_standard import package_copper_standard
from strandproof.electrical.given_inputs import given_inputs
from strandproof.errors import ParameterError
from strandproof.quantity import Input, normal_input
from strandproof.records.electrical import LargerSpecimen, ResistanceMeasurement


def planned_measurement(
    *,
    mass: Input,
    gauge_length: Input,
    temperature: Input,
    resistance_uncertainty_percent: float,
) -> ResistanceMeasurement:
    """Measurement that copper of 100 % IACS would give, to see its budget first.

    Parameters
    ----------
    mass : Input
        Mass of bare metal, with the balance's uncertainty.
    gauge_length : Input
        Length between the contacts, which is also the weighed length.
    temperature : Input
        Expected temperature of the wire, with its uncertainty.
    resistance_uncertainty_percent : float
        Standard uncertainty of the resistance reading [%]; zero or above.

    Returns
    -------
    ResistanceMeasurement
        With the resistance to expect [ohm]; evaluating it gives the budget and
        the expanded uncertainty that the real one will have.

    Raises
    ------
    UnitError
        If a unit does not fit.
    ParameterError
        If a number is zero, negative or out of range.

    Notes
    -----
    R = 0.15328 (1 + alpha (T - 20)) L^2/m.
    """
    estimates = given_inputs(
        mass=("mass", mass),
        gauge_length=("length", gauge_length),
        temperature=("temperature", temperature),
    ).estimates()
    standard = package_copper_standard()
    warmth = 1.0 + standard.temperature_coefficient_per_k * (
        estimates["temperature"] - 20.0
    )
    resistance = (
        standard.mass_resistivity_ohm_g_per_m2
        * warmth
        * estimates["gauge_length"] ** 2
        / estimates["mass"]
    )
    return ResistanceMeasurement(
        resistance=normal_input(
            "resistance",
            resistance,
            resistance * resistance_uncertainty_percent / 100.0,
            unit="ohm",
        ),
        temperature=temperature,
        gauge_length=gauge_length,
        mass=mass,
    )


def larger_specimen(
    mass: Input, length: Input, *, strands: int, length_m: float
) -> LargerSpecimen:
    """Return what weighing more strands over a greater length would bring.

    Assumes strands alike and the same balance with the same uncertainty.

    Parameters
    ----------
    mass : Input
        Mass of one strand as weighed.
    length : Input
        Length of that strand.
    strands : int
        Strands to weigh together; 1 or more.
    length_m : float
        Length to weigh [m]; above zero.

    Returns
    -------
    LargerSpecimen
        Mass to expect and relative uncertainty of weighing it.

    Raises
    ------
    UnitError
        If a unit does not fit.
    ParameterError
        If a number is zero or negative.

    Examples
    --------
    >>> larger_specimen(
    ...     normal_input("mass", 22.28, 1.0, unit="mg"),
    ...     normal_input("length", 0.5, 0.0003, unit="m"),
    ...     strands=19,
    ...     length_m=1.0,
    ... ).sentence
    'weigh all 19 strands over 1 m (847 mg)'
    """
    if strands < 1 or not length_m > 0:
        raise ParameterError(
            "strands, length_m", (strands, length_m), allowed="numbers above zero"
        )
    given = given_inputs(mass=("mass", mass), length=("length", length))
    estimates = given.estimates()
    mass_mg = 1e3 * estimates["mass"] * strands * length_m / estimates["length"]
    u_mg = 1e3 * mass.standard_uncertainty * given.factors["mass"]
    which = "the strand" if strands == 1 else f"all {strands} strands"
    return LargerSpecimen(
        strands=strands,
        length_m=length_m,
        mass_mg=mass_mg,
        relative_uncertainty_percent=100.0 * u_mg / mass_mg,
        sentence=f"weigh {which} over {length_m:g} m ({mass_mg:.0f} mg)",
    )
