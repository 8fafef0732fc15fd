"""Faults of a measurement on a section that leave nothing to compute."""

from strandproof.errors._base import StrandproofError


class IndentationGeometryError(StrandproofError, ValueError):
    """An indentation too near to an edge or a neighbour, or too deep for its wire.

    Parameters
    ----------
    which : str
        The indentation or the wire, in words.
    given : str
        What was found, with numbers.
    allowed : str
        What the rule asks for, with numbers.
    remedy : str
        What to do, one sentence.
    """

    def __init__(self, which: str, given: str, *, allowed: str, remedy: str) -> None:
        super().__init__(
            f"{which}: {given}; allowed is {allowed}. A hardness from it reads too "
            f"low or too high by an unknown amount, so none is stated. {remedy}"
        )
        self.which = which


class NotResolvedError(StrandproofError, ValueError):
    """A size that a picture is too coarse for.

    Parameters
    ----------
    what : str
        What was to be measured, with its size.
    least : str
        The least that this picture allows, with numbers.
    remedy : str
        What to do, one sentence.
    """

    def __init__(self, what: str, least: str, *, remedy: str) -> None:
        super().__init__(
            f"{what} is too small to be measured; allowed is at least {least}. "
            f"No value is stated. {remedy}"
        )
        self.what = what
