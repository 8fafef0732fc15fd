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
