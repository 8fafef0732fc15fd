"""Faults of a resistance measurement that leave nothing to compute."""

from strandproof.errors._base import StrandproofError


class MissingMeasurementError(StrandproofError, ValueError):
    """A reading without which a result cannot be stated at all.

    Parameters
    ----------
    missing : str
        What is missing, in words of the trade.
    reason : str
        Why nothing can be stated without it, one sentence.
    remedy : str
        What to do, one sentence.
    """

    def __init__(self, missing: str, *, reason: str, remedy: str) -> None:
        super().__init__(f"{missing} is missing. {reason} {remedy}")
        self.missing = missing


class MixedConductorsError(StrandproofError, ValueError):
    """Unlike conductors in parallel, whose resistance is nobody's resistivity.

    Parameters
    ----------
    sentence : str
        Which conductors lie in parallel and what follows, for the report.
    """

    def __init__(self, sentence: str) -> None:
        super().__init__(f"{sentence} Part the conductors and measure each type alone.")
        self.sentence = sentence


class HotWireError(StrandproofError, ValueError):
    """The measuring current warmed the wire beyond what can be corrected.

    Parameters
    ----------
    rise_k : float
        Rise at the highest current [K].
    highest_k : float
        Highest rise that is still corrected [K].
    """

    def __init__(self, rise_k: float, highest_k: float) -> None:
        super().__init__(
            f"The highest current warmed the wire by {rise_k:.2g} K; up to "
            f"{highest_k:g} K the resistance can be extrapolated to zero current, "
            "beyond that the straight line no longer holds. Nothing was stated. "
            "Leave the high currents out, or measure again with lower ones."
        )
        self.rise_k = rise_k


class ImpossibleDiameterError(StrandproofError, ValueError):
    """A diameter so small that the metal would conduct better than copper can.

    Parameters
    ----------
    diameter : str
        The diameter with its unit.
    percent_iacs : float
        Conductivity that follows from it [% IACS].
    ceiling : float
        Where copper ends [% IACS].
    """

    def __init__(self, diameter: str, percent_iacs: float, ceiling: float) -> None:
        super().__init__(
            f"A diameter of {diameter} would give {percent_iacs:.1f} % IACS, and "
            f"copper ends at {ceiling:g} %: the diameter, the strand count or the "
            "length is wrong (a micrometer squeezes a soft strand). Nothing was "
            "stated by diameter. Measure the diameter on a section, or leave it out "
            "and weigh the strand."
        )
        self.percent_iacs = percent_iacs
