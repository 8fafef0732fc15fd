"""The faults of a measurement model that cannot be evaluated."""

from collections.abc import Iterable

from strandproof.errors._base import StrandproofError


class ModelError(StrandproofError, ValueError):
    """Root of what can be wrong with a measurement model."""


class ModelCallError(ModelError):
    """A model that does not take its inputs by keyword.

    Parameters
    ----------
    keywords : iterable of str
        Keywords of the inputs.
    reason : object
        What Python said, shown as text.
    """

    def __init__(self, keywords: Iterable[str], reason: object) -> None:
        super().__init__(
            f"The model does not take the inputs {', '.join(keywords)} by keyword: "
            f"{reason}. Name the model's parameters as the symbols of the inputs."
        )


class SingularModelError(ModelError):
    """A model that divides by zero, or has no finite sensitivity, somewhere."""

    def __init__(self) -> None:
        super().__init__(
            "The model divides by zero, or has no finite sensitivity, at the "
            "estimates. Check the estimates; where the value exists and only the "
            "sensitivity does not, use Monte Carlo."
        )


class ModelOutputError(ModelError):
    """A model that returns something else than it should.

    Parameters
    ----------
    given : str
        What the model returned, in words.
    expected : str
        What it should return, in words.
    """

    def __init__(self, given: str, *, expected: str) -> None:
        super().__init__(
            f"The model returned {given}; expected is {expected}. "
            "Change the model so that it returns that."
        )


class LostUncertaintyError(ModelError):
    """A model whose result is a plain number, so that its uncertainty was lost.

    Parameters
    ----------
    given : object
        The result.
    """

    def __init__(self, given: object) -> None:
        super().__init__(
            f"The model's result {given!r} carries no uncertainty. Use ordinary "
            "arithmetic and the functions of strandproof.quantity on every input; "
            "the built-in abs, and a root of a negative number, lose it."
        )


class DrawsOutsideDomainError(ModelError):
    """A model that has no finite result for some of the draws.

    Parameters
    ----------
    failed, total : int
        How many draws failed, and how many there were.
    """

    def __init__(self, failed: int, total: int) -> None:
        super().__init__(
            f"The model gave no finite result for {failed} of {total} draws. Choose "
            "input distributions that stay inside of the model's domain, for "
            "example bounded ones."
        )
