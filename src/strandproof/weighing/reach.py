"""How far a few examined units speak for all that were made."""

from dataclasses import dataclass

from strandproof.errors import ParameterError
from strandproof.quantity import (
    Interval,
    binomial_interval,
    binomial_lower_limit,
    binomial_upper_limit,
    trials_needed_with_none_failing,
)
from strandproof.weighing.wording import count_word, short_digits

_ONE_IN = 4


@dataclass(frozen=True, slots=True, kw_only=True)
class Reach:
    """What may be said of all units made, if the tested ones were drawn at random.

    Parameters
    ----------
    tested, matching : int
        Units tested, and those that matched.
    limits : Interval
        Share of matching units among all made: upper limit when none matched,
        lower when all did, else both.
    needed : int or None
        Units to test, none (or all) matching, for the statement "fewer (or more)
        than ..."; None when the count was mixed.
    sentence : str
        The reach statement.
    assumption : str
        What it assumes, and why bought units do not meet it.
    """

    tested: int
    matching: int
    limits: Interval
    needed: int | None
    sentence: str
    assumption: str


def reach_statement(
    tested: int,
    matching: int,
    *,
    one_in: int = _ONE_IN,
    confidence: float = 0.95,
) -> Reach:
    """Say how far so many tested units reach.

    Assumes units drawn at random and independently from all that were made;
    bought leads never are, so the limits are the best case.

    Parameters
    ----------
    tested : int
        Units tested; 1 or more. Units (leads, lots), not strands or fields.
    matching : int
        Units that matched the claim; from 0 to `tested`.
    one_in : int
        The share to speak of: fewer than 1 in so many; 2 or more.
    confidence : float
        Between 0 and 1; one-sided when none or all matched.

    Returns
    -------
    Reach
        Limits, the number needed, and the sentence.

    Raises
    ------
    ParameterError
        If a count does not fit, or `one_in` is below 2.

    Notes
    -----
    None of n: upper limit 1 - (1 - C)^(1/n); exact binomial limits
    (Clopper-Pearson) otherwise. Needed: ln(1 - C) / ln(1 - 1/k), rounded up.

    Examples
    --------
    >>> print(reach_statement(3, 0).sentence)  # doctest: +NORMALIZE_WHITESPACE
    In these three, none matched. Drawn at random from all made, up to 63 % could
    still match (95 % bound). For 'fewer than 1 in 4' you need 11 with none matching.
    """
    if one_in < 2:
        raise ParameterError("one_in", one_in, allowed="2 or more")
    limits = _limits(tested, matching, confidence)
    needed = trials_needed_with_none_failing(1 / one_in, confidence=confidence)
    mixed = 0 < matching < tested
    words = _mixed_words if mixed else _extreme_words
    return Reach(
        tested=tested,
        matching=matching,
        limits=limits,
        needed=None if mixed else needed,
        sentence=f"{_counted(tested, matching)} {words(limits, one_in, needed)}",
        assumption=(
            "Assumes units drawn at random from all that were made; bought units never "
            "are, so this is the best case. It speaks of units, not of strands."
        ),
    )


def _limits(tested: int, matching: int, confidence: float) -> Interval:
    if matching == 0:
        return binomial_upper_limit(matching, tested, confidence=confidence)
    if matching == tested:
        return binomial_lower_limit(matching, tested, confidence=confidence)
    return binomial_interval(matching, tested, confidence=confidence)


def _counted(tested: int, matching: int) -> str:
    found = "none" if matching == 0 else count_word(matching)
    if matching == tested > 1:
        found = "all"
    if tested == 1:
        return (
            "The one tested matched." if matching else "The one tested did not match."
        )
    return f"In these {count_word(tested)}, {found} matched."


def _extreme_words(limits: Interval, one_in: int, needed: int) -> str:
    bound = f"({_percent(limits.confidence)} bound)"
    if limits.upper is not None:
        return (
            f"Drawn at random from all made, up to {_percent(limits.upper)} could "
            f"still match {bound}. For 'fewer than 1 in {one_in}' you need {needed} "
            "with none matching."
        )
    lowest = _percent(limits.lower or 0.0)
    return (
        f"Drawn at random from all made, as few as {lowest} might match {bound}. For "
        f"'more than {one_in - 1} in {one_in}' you need {needed} with all matching."
    )


def _mixed_words(limits: Interval, _one_in: int, _needed: int) -> str:
    ends = f"{_percent(limits.lower or 0.0)} and {_percent(limits.upper or 1.0)}"
    return (
        f"Drawn at random from all made, between {ends} could match "
        f"({_percent(limits.confidence)} interval)."
    )


def _percent(share: float) -> str:
    percent = 100 * share
    # Whole percents, but never a share rounded to 0 % or up to 100 %.
    if 1 <= percent <= 99:
        return f"{percent:.0f} %"
    return f"{short_digits(percent, 4 if percent > 99 else 2)} %"
