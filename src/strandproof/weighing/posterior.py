"""Odds of a reader who typed a prior; nothing else in this package knows a prior."""

from dataclasses import dataclass
from math import isfinite

from strandproof.errors import ParameterError
from strandproof.weighing.wording import plain_digits, ratio_digits


@dataclass(frozen=True, slots=True, kw_only=True)
class ReaderOdds:
    """What a ratio does to the odds that one reader began with.

    Parameters
    ----------
    reader : str
        Whose prior it is.
    prior_odds : float
        Odds of the first hypothesis against the second before the finding.
    ratio : float
        Likelihood ratio of the first to the second.
    posterior_odds : float
        Their product.
    label : str
        Sentence that says whose odds these are.
    """

    reader: str
    prior_odds: float
    ratio: float
    posterior_odds: float
    label: str


def posterior_odds(ratio: float, prior_odds: float, *, reader: str) -> ReaderOdds:
    """Odds after a finding, for one reader's own odds before it.

    There is no default prior: a finding has a ratio, and only a reader has a
    prior. Never part of a result, a weighing or a report's answer.

    Parameters
    ----------
    ratio : float
        Likelihood ratio of two hypotheses; above 0.
    prior_odds : float
        The reader's odds of the first against the second; above 0.
    reader : str
        Who typed them.

    Returns
    -------
    ReaderOdds
        Labelled as that reader's own.

    Raises
    ------
    ParameterError
        If a number is not finite and above 0, or the reader is not named.

    Notes
    -----
    Bayes' theorem in odds: posterior odds = likelihood ratio times prior odds,
    for these two hypotheses only.

    Examples
    --------
    >>> odds = posterior_odds(190, 0.01, reader="V")
    >>> print(odds.label)  # doctest: +NORMALIZE_WHITESPACE
    V's own: odds of 0.010 before, times 190, make 1.9 after; the prior is V's, not a
    finding
    """
    for name, given in (("ratio", ratio), ("prior_odds", prior_odds)):
        if not isfinite(given) or given <= 0:
            raise ParameterError(name, given, allowed="a finite number above 0")
    if not reader.strip():
        raise ParameterError("reader", reader, allowed="the name of whose prior it is")
    after = ratio * prior_odds
    return ReaderOdds(
        reader=reader,
        prior_odds=prior_odds,
        ratio=ratio,
        posterior_odds=after,
        label=(
            f"{reader}'s own: odds of {plain_digits(prior_odds, 2)} before, times "
            f"{ratio_digits(ratio)}, make {plain_digits(after, 2)} after; the prior is "
            f"{reader}'s, not a finding"
        ),
    )
