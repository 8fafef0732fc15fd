"""Entering how probable an observation is under a hypothesis."""

from collections.abc import Mapping
from typing import Literal

from strandproof.errors import ParameterError
from strandproof.records.entries import Likelihood
from strandproof.weighing.wording import of_hundred

LikelihoodStatus = Literal["data", "literature", "judgement"]

# The weakest comes last: a ratio is as well founded as its weaker side.
_STATUSES: tuple[LikelihoodStatus, ...] = ("data", "literature", "judgement")


def hundred_question(hypothesis: str, observation: str) -> str:
    """Question whose answer is a likelihood, and not a verdict.

    Asked this way round it cannot be answered with the probability of the
    hypothesis, the commonest slip (transposed conditional).

    Parameters
    ----------
    hypothesis : str
        The hypothesis as a full sentence.
    observation : str
        What was found, as a full sentence.

    Returns
    -------
    str
        To put to the person who enters the number.

    Examples
    --------
    >>> print(
    ...     hundred_question("It is one crystal.", "Grains were seen.")
    ... )  # doctest: +NORMALIZE_WHITESPACE
    Think of 100 pieces for which this is true: "It is one crystal." All 100 went
    through the same steps and readers as yours. Of these 100, how many would look
    like this: "Grains were seen."?
    """
    return (
        f'Think of 100 pieces for which this is true: "{hypothesis}" All 100 went '
        "through the same steps and readers as yours. Of these 100, how many would "
        f'look like this: "{observation}"?'
    )


def likelihood_of_hundred(
    hypothesis: str,
    of_100: float,
    *,
    lower_of_100: float,
    upper_of_100: float,
    status: LikelihoodStatus,
    source: str,
) -> Likelihood:
    """Likelihood from the answer to "of 100 such strands, how many?".

    Parameters
    ----------
    hypothesis : str
        Name of the hypothesis.
    of_100 : float
        Best estimate, 0 to 100; fractions are welcome (0.5 of 100).
    lower_of_100, upper_of_100 : float
        Ends of the range, 0 to 100.
    status : {"data", "literature", "judgement"}
        What it rests on.
    source : str
        Where it comes from.

    Returns
    -------
    Likelihood
        As probabilities between 0 and 1.

    Raises
    ------
    ParameterError
        If the numbers are not 0 <= lower <= best <= upper <= 100.

    Examples
    --------
    >>> likelihood_of_hundred(
    ...     "X4", 95, lower_of_100=90, upper_of_100=99, status="judgement", source="R"
    ... ).best
    0.95
    """
    if not 0 <= lower_of_100 <= of_100 <= upper_of_100 <= 100:
        raise ParameterError(
            "of_100",
            (lower_of_100, of_100, upper_of_100),
            allowed="0 <= lower <= best <= upper <= 100",
        )
    return Likelihood(
        hypothesis=hypothesis,
        best=of_100 / 100,
        lower=lower_of_100 / 100,
        upper=upper_of_100 / 100,
        status=status,
        source=source,
    )


def blunder_likelihood(
    hypothesis: str,
    blunders_of_100: Mapping[str, float],
    *,
    lower_of_100: float,
    upper_of_100: float,
    status: LikelihoodStatus = "judgement",
) -> Likelihood:
    """Likelihood of something seen only when somebody erred.

    Parameters
    ----------
    hypothesis : str
        Name of the hypothesis under which it takes a blunder.
    blunders_of_100 : Mapping from str to float
        Each way to err and how often it happens in 100 pieces.
    lower_of_100, upper_of_100 : float
        Ends of the range, 0 to 100.
    status : {"data", "literature", "judgement"}
        What the shares rest on.

    Returns
    -------
    Likelihood
        Its source lists the shares.

    Raises
    ------
    ParameterError
        If no blunder is named, one is negative, or the sum lies outside of the
        range.

    Notes
    -----
    The sum of the shares; for small shares the chance of at least one of them,
    which it never falls short of.

    Examples
    --------
    >>> shares = {"false reading": 0.3, "mix-up": 0.1, "batch fault": 0.1}
    >>> entry = blunder_likelihood("X1", shares, lower_of_100=0, upper_of_100=12)
    >>> round(entry.best, 6), entry.source
    (0.005, 'by blunder, of 100: false reading 0.3, mix-up 0.1, batch fault 0.1')
    """
    if not blunders_of_100 or min(blunders_of_100.values()) < 0:
        raise ParameterError(
            "blunders_of_100",
            dict(blunders_of_100),
            allowed="one blunder or more, each zero or above",
        )
    shares = ", ".join(f"{name} {share:g}" for name, share in blunders_of_100.items())
    return likelihood_of_hundred(
        hypothesis,
        # Sums of decimal fractions: 0.3 + 0.1 + 0.1 is not 0.5 in binary.
        round(sum(blunders_of_100.values()), 12),
        lower_of_100=lower_of_100,
        upper_of_100=upper_of_100,
        status=status,
        source=f"by blunder, of 100: {shares}",
    )


def weaker_status(*statuses: LikelihoodStatus) -> LikelihoodStatus:
    """Say what a number computed from several likelihoods rests on.

    Parameters
    ----------
    *statuses : {"data", "literature", "judgement"}
        One or more.

    Returns
    -------
    {"data", "literature", "judgement"}
        The weakest of them.

    Examples
    --------
    >>> weaker_status("data", "judgement")
    'judgement'
    """
    return max(statuses, key=_STATUSES.index)


def likelihood_in_words(likelihood: Likelihood) -> str:
    """Write a likelihood with range, status and source as a sentence.

    Parameters
    ----------
    likelihood : Likelihood
        The entry.

    Returns
    -------
    str
        For a report.

    Examples
    --------
    >>> entry = Likelihood(
    ...     hypothesis="X4", best=0.95, lower=0.9, upper=1, status="data", source="test"
    ... )
    >>> likelihood_in_words(entry)
    'If X4 is true: 95 of 100, range 90 of 100 to 100 of 100 (data: test).'
    """
    return (
        f"If {likelihood.hypothesis} is true: {of_hundred(likelihood.best)}, range "
        f"{of_hundred(likelihood.lower)} to {of_hundred(likelihood.upper)} "
        f"({likelihood.status}: {likelihood.source})."
    )
