"""Faults of weighing: too few explanations, or likelihoods that do not fit them."""

from strandproof.errors._base import StrandproofError


class TooFewHypothesesError(StrandproofError, ValueError):
    """A weighing with fewer than two hypotheses.

    Parameters
    ----------
    given : tuple of str
        Short names of the hypotheses that are left to weigh.
    """

    def __init__(self, given: tuple[str, ...]) -> None:
        listed = ", ".join(given) or "none"
        super().__init__(
            f"Hypotheses to weigh: {listed}; needed are two or more, from both "
            "sides. Evidence never speaks for one explanation alone, only for one "
            "over another: add a rival that would also explain what was seen."
        )
        self.given = given


class LikelihoodMismatchError(StrandproofError, LookupError):
    """Likelihoods that do not answer one to one to the hypotheses weighed.

    Parameters
    ----------
    hypothesis : str
        The hypothesis in question.
    problem : str
        What is wrong with it, for example ``"has no likelihood"``.
    weighed : tuple of str
        The hypotheses that are weighed.
    """

    def __init__(self, hypothesis: str, problem: str, weighed: tuple[str, ...]) -> None:
        super().__init__(
            f"Hypothesis {hypothesis!r} {problem}; weighed are "
            f"{', '.join(weighed) or 'none'}. Enter exactly one likelihood for each "
            "hypothesis weighed: of 100 such pieces, how many would look like this?"
        )
        self.hypothesis = hypothesis
