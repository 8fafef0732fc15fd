"""Means and intervals over independent units: leads, strands, fields."""

from collections.abc import Sequence

from strandproof.grainsize.scaling import relative_accuracy_of
from strandproof.quantity import mean_with_interval
from strandproof.records.measurement import Estimate


def mean_over_level(
    mean_intercepts_um: Sequence[float], *, level: str, confidence: float = 0.95
) -> Estimate:
    """Mean intercept over the units of one level, with the t interval over them.

    The interval speaks for what the units were drawn from, so they must be the
    right ones: cable before strand before field. Fields of one cable taken as
    independent give an interval that is far too narrow for the product.

    Parameters
    ----------
    mean_intercepts_um : sequence of float
        One mean intercept per unit [um]; two units or more.
    level : str
        What the units are, in the singular, for example ``"lead"``.
    confidence : float
        Two-sided confidence, between 0 and 1.

    Returns
    -------
    Estimate
        Mean [um], interval, relative accuracy.

    Notes
    -----
    Mean plus and minus t s / sqrt(n), ASTM E112 section 15 and E562, read
    (secondary); see `strandproof.quantity.mean_with_interval`.

    Examples
    --------
    >>> leads = mean_over_level((8.333, 8.800, 8.200), level="lead")
    >>> round(leads.quantity.value, 3), round(leads.relative_accuracy_percent, 2)
    (8.444, 9.27)
    """
    mean, interval = mean_with_interval(
        mean_intercepts_um,
        unit="um",
        method=f"mean intercepts by {level}",
        confidence=confidence,
    )
    return Estimate(
        quantity=mean,
        interval95=interval,
        relative_accuracy_percent=relative_accuracy_of(mean, interval),
    )
