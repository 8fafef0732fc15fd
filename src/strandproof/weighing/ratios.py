"""The likelihood ratio of two hypotheses, with the range that both entries give."""

from dataclasses import dataclass

from strandproof.records.entries import Likelihood
from strandproof.weighing.likelihoods import LikelihoodStatus, weaker_status
from strandproof.weighing.rules import WeighingRules, weighing_rules
from strandproof.weighing.wording import ratio_digits, ratio_with_word, ratio_word

# A ratio meant to stand on an edge of the scale must not fall off it in binary.
_DIGITS = 12


@dataclass(frozen=True, slots=True, kw_only=True)
class LikelihoodRatio:
    """How much better one hypothesis predicts an observation than another.

    Says nothing of how probable either hypothesis is.

    Parameters
    ----------
    first, second : str
        Hypotheses above and below the line.
    best : float or None
        Ratio of the best estimates; None where it has none, see `words`.
    lower : float or None
        Ratio at the ends unfavourable to `first`; None when unbounded.
    upper : float or None
        Ratio at the ends favourable to `first`; None when unbounded.
    status : {"data", "literature", "judgement"}
        The weaker of the two entries.
    words : str
        Best estimate and status, in words.
    """

    first: str
    second: str
    best: float | None
    lower: float | None
    upper: float | None
    status: LikelihoodStatus
    words: str

    @property
    def no_help(self) -> bool:
        """True when the best estimate supports neither side on the scale."""
        if not self.best:
            return False
        no_support = ratio_word(1.0)
        return {ratio_word(self.best), ratio_word(1 / self.best)} == {no_support}

    @property
    def range_in_words(self) -> str:
        """The range with its words, for a sentence."""
        ends = (
            _end(each, self.first, self.second) for each in (self.lower, self.upper)
        )
        return f"Range {' to '.join(ends)}"


def likelihood_ratio(
    first: Likelihood, second: Likelihood, *, rules: WeighingRules | None = None
) -> LikelihoodRatio:
    """Ratio of two likelihoods of the same observation.

    Assumes that both entries are about the same observation. Swapping them
    inverts the ratio and its range.

    Parameters
    ----------
    first, second : Likelihood
        Entries above and below the line.
    rules : WeighingRules, optional
        None takes those of the package; only the near-zero limit is used.

    Returns
    -------
    LikelihoodRatio
        Best estimate and range.

    Notes
    -----
    best = p1 / p2; lower = p1,low / p2,high; upper = p1,high / p2,low. The ends
    assume nothing of how the two ranges go together, so the range is the widest
    one. Both best estimates below the near-zero limit: no ratio, since nobody can
    judge such numbers, and something not on the list may be true. A second best
    estimate of zero: no ratio either, since it leaves no room for a blunder.

    Examples
    --------
    >>> entry = Likelihood(
    ...     hypothesis="X4", best=0.95, lower=0.9, upper=0.99, status="data", source="s"
    ... )
    >>> false = Likelihood(
    ...     hypothesis="X1", best=0.005, lower=0, upper=0.12, status="data", source="s"
    ... )
    >>> ratio = likelihood_ratio(entry, false)
    >>> ratio.best, ratio.lower, ratio.upper
    (190.0, 7.5, None)
    """
    limit = (weighing_rules() if rules is None else rules).near_zero
    status = weaker_status(first.status, second.status)
    best, words = _best(first, second, status, limit)
    return LikelihoodRatio(
        first=first.hypothesis,
        second=second.hypothesis,
        best=best,
        lower=_lower_end(first.lower, second.upper),
        upper=_upper_end(first.upper, second.lower),
        status=status,
        words=words,
    )


def _best(
    first: Likelihood, second: Likelihood, status: LikelihoodStatus, limit: float
) -> tuple[float | None, str]:
    highest = max(first.best, second.best)
    if highest == 0 or highest < limit:
        return None, (
            "no ratio: neither hypothesis predicts what was seen (both near zero); "
            "look for an explanation that is not on the list, or for a blunder"
        )
    if second.best == 0:
        return None, (
            f"no ratio: {second.hypothesis} was given a probability of zero, which "
            "leaves no room for a blunder; enter how often it would happen by mistake"
        )
    best = _quotient(first.best, second.best)
    return best, f"{_best_in_words(best)}, {status}"


def _best_in_words(best: float) -> str:
    no_support = ratio_word(1.0)
    if best and ratio_word(best) == ratio_word(1 / best) == no_support:
        exactly = "" if ratio_digits(best) == "1.0" else f" ({ratio_digits(best)})"
        return f"about 1{exactly}: no help"
    return f"best estimate {ratio_with_word(best)}"


def _quotient(numerator: float, denominator: float) -> float:
    return float(f"{numerator / denominator:.{_DIGITS}g}")


def _lower_end(numerator: float, denominator: float) -> float | None:
    if denominator > 0:
        return _quotient(numerator, denominator)
    # 0/0 can be anything, and the cautious lower end of that is 0.
    return None if numerator > 0 else 0.0


def _upper_end(numerator: float, denominator: float) -> float | None:
    return _quotient(numerator, denominator) if denominator > 0 else None


def _end(ratio: float | None, first: str, second: str) -> str:
    if ratio is None:
        return f"unbounded for {first}"
    if ratio == 0:
        return f"0 (unbounded for {second})"
    word, other = ratio_word(ratio), ratio_word(1 / ratio)
    # Below 1 the word that matters is the one for the other hypothesis.
    shown = f"{other} for {second}" if other != ratio_word(1.0) else word
    return f"{ratio_digits(ratio)} ({shown})"
