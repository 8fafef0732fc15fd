"""Readings of a wire of known resistance, for tests of the four-wire series."""

from collections.abc import Sequence

import numpy as np

from strandproof.records.electrical import FourWireSeries, MeterRange, ReversalPair

VOLTMETER = MeterRange(
    name="voltmeter",
    unit="V",
    percent_of_reading=0.01,
    percent_of_range=0.001,
    full_scale=1.0,
    digit=1e-6,
)
AMMETER = MeterRange(
    name="ammeter",
    unit="A",
    percent_of_reading=0.03,
    percent_of_range=0.005,
    full_scale=0.1,
)
COLD_OHM = 1.7296
# Coefficient of copper at 23.8 degC, referred to that temperature.
SLOPE_PER_K = 0.00393 / (1 + 0.00393 * 3.8)


def wire_series(
    currents: Sequence[float] = (0.02, 0.05, 0.1),
    *,
    pairs: int = 3,
    rise_k: float = 0.5,
    thermal_v: float = 3e-6,
    noise_v: float = 0.0,
    meter: MeterRange = VOLTMETER,
) -> FourWireSeries:
    """Volts of a wire that is 1.7296 ohm at zero current and rises with I^2."""
    source = np.random.default_rng(5)
    made: list[ReversalPair] = []
    for ampere in currents:
        rise = rise_k * (ampere / max(currents)) ** 2
        volt = ampere * COLD_OHM * (1 + SLOPE_PER_K * rise)
        for number in range(pairs):
            noise = source.normal(0, noise_v, 2)
            made.append(
                ReversalPair(
                    current=ampere,
                    forward=volt + thermal_v + noise[0],
                    reverse=-volt + thermal_v + noise[1],
                    seconds=60.0 * (len(made) + number),
                )
            )
    return FourWireSeries(
        pairs=tuple(made),
        reads="voltage",
        unit="V",
        current_unit="A",
        meter=(meter,),
        ammeter=(AMMETER,),
    )
