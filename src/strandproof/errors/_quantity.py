"""The fault of a measurement model that cannot be evaluated."""

from strandproof.errors._base import StrandproofError


class ModelError(StrandproofError, ValueError):
    """A measurement model that cannot be called or gives no usable number.

    Parameters
    ----------
    fault : str
        What the model did, as a sentence without its full stop.
    remedy : str
        What to do, as a sentence.
    """

    def __init__(self, fault: str, *, remedy: str) -> None:
        super().__init__(f"{fault}. {remedy}")
