"""Bounds and expected value of an error rate from a count of controls."""

from strandproof.errors import ParameterError
from strandproof.quantity import binomial_lower_limit, binomial_upper_limit
from strandproof.weighing.rules import ErrorPrior, weighing_rules


def control_bound(trials: int, *, wrong: int = 0, confidence: float = 0.95) -> float:
    """Upper bound of an error rate from controls.

    Assumes independent controls at one error rate, which is why they are
    counted at the level of what they share.

    Parameters
    ----------
    trials : int
        Controls that count; 0 or more.
    wrong : int
        Those read wrongly.
    confidence : float
        One-sided, between 0 and 1.

    Returns
    -------
    float
        1 for no trial: nothing is known.

    Raises
    ------
    ParameterError
        If a count does not fit or the confidence is outside of (0, 1).

    Notes
    -----
    Exact (Clopper-Pearson); for none wrong 1 - (1 - C)^(1/n).

    Examples
    --------
    >>> round(control_bound(4), 3), round(control_bound(24), 3)
    (0.527, 0.117)
    """
    if trials == wrong == 0:
        return 1.0
    limits = binomial_upper_limit(wrong, trials, confidence=confidence)
    return 1.0 if limits.upper is None else limits.upper


def right_bound(trials: int, *, wrong: int = 0, confidence: float = 0.95) -> float:
    """Lower bound of the chance that a control is read right.

    Parameters
    ----------
    trials : int
        Controls that count; 0 or more.
    wrong : int
        Those read wrongly.
    confidence : float
        One-sided, between 0 and 1.

    Returns
    -------
    float
        0 for no trial: nothing is known.

    Raises
    ------
    ParameterError
        If a count does not fit or the confidence is outside of (0, 1).

    Notes
    -----
    Exact (Clopper-Pearson); for none wrong (1 - C)^(1/n).

    Examples
    --------
    >>> round(right_bound(2), 3)
    0.224
    """
    if trials == wrong == 0:
        return 0.0
    # Before subtracting, so that more wrong than tried is refused as such.
    if not 0 <= wrong <= trials:
        raise ParameterError("wrong", wrong, allowed=f"0 to the {trials} trials")
    limits = binomial_lower_limit(trials - wrong, trials, confidence=confidence)
    return limits.lower or 0.0


def expected_error(
    trials: int, *, wrong: int = 0, prior: ErrorPrior | None = None
) -> float:
    """Return the expected error rate after controls, with a named prior.

    Parameters
    ----------
    trials : int
        Controls that count; 0 or more.
    wrong : int
        Those read wrongly; at most `trials`.
    prior : ErrorPrior, optional
        None takes the uniform one of the package.

    Returns
    -------
    float
        Also the predictive chance that the next reading is wrong.

    Raises
    ------
    ParameterError
        If a count does not fit.

    Notes
    -----
    (wrong + a) / (n + a + b) with the prior's a and b; (wrong + 1) / (n + 2) for
    the uniform prior (rule of succession).

    Examples
    --------
    >>> round(expected_error(24) * 26, 12)
    1.0
    """
    if not 0 <= wrong <= trials:
        raise ParameterError("wrong", wrong, allowed=f"0 to the {trials} trials")
    assumed = weighing_rules().prior if prior is None else prior
    return (wrong + assumed.wrong) / (trials + assumed.wrong + assumed.right)
