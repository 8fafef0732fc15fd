"""The brief's measurement of one core strand, for tests of the electrical part.

Product brief, M18 and Appendix A: 1.7296 ohm at 23.8 degC, 22.28 mg on 500.0 mm of
bare strand; standard parts 0.05 % (R), 0.2 degC (T), 0.128 % (m), 0.06 % (L).
"""

from strandproof.quantity import Input, normal_input
from strandproof.records.electrical import ResistanceMeasurement


def resistance(value: float = 1.7296, percent: float = 0.05) -> Input:
    return normal_input("resistance", value, value * percent / 100, unit="ohm")


def temperature(value: float = 23.8, u: float = 0.2) -> Input:
    return normal_input("temperature of the wire", value, u, unit="degC")


def length(value: float = 0.5000, percent: float = 0.06) -> Input:
    return normal_input("gauge length", value, value * percent / 100, unit="m")


def mass(value: float = 22.28, u: float = 22.28 * 0.00128) -> Input:
    return normal_input("mass of the strand", value, u, unit="mg")


def diameter(value: float = 0.080, u: float = 0.0005) -> Input:
    return normal_input("strand diameter", value, u, unit="mm")


def strand(
    *,
    wire: Input | None = None,
    weighed: Input | None = None,
    warm: Input | None = None,
) -> ResistanceMeasurement:
    """The brief's strand, with one reading changed or none."""
    return ResistanceMeasurement(
        resistance=wire or resistance(),
        temperature=warm or temperature(),
        gauge_length=length(),
        mass=weighed or mass(),
    )
