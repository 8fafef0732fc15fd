"""G with its interval, from an estimate of grains per area or mean intercept."""

from dataclasses import replace
from math import log

from strandproof.errors import UnitError
from strandproof.grainsize.relations import (
    GrainSizeRelations,
    intercept_g,
    planimetric_g,
)
from strandproof.quantity import BudgetLine, Interval, Quantity
from strandproof.records.measurement import Estimate

_UM_PER_MM = 1000.0


def planimetric_g_estimate(
    grains_per_mm2: Estimate, *, relations: GrainSizeRelations | None = None
) -> Estimate:
    """G with its interval from grains per area.

    Parameters
    ----------
    grains_per_mm2 : Estimate
        Grains per area [1/mm^2]; above 0.
    relations : GrainSizeRelations, optional
        Constants; None takes the package's ``"e112"`` form.

    Returns
    -------
    Estimate
        G; its interval has the ends of the count's, turned into G, and is open
        below where the count's lower end is 0.

    Raises
    ------
    UnitError
        If the estimate is not in 1/mm^2.

    Notes
    -----
    u(G) = u(N_A) / (N_A ln 2) = 1.4427 u(N_A) / N_A, to first order.
    """
    quantity = grains_per_mm2.quantity
    if quantity.unit != "1/mm^2":
        raise UnitError(quantity.unit, expected="1/mm^2")

    def g_of(limit: float | None) -> float | None:
        return planimetric_g(limit, relations=relations) if limit else None

    interval = grains_per_mm2.interval95
    return _g_estimate(
        quantity,
        planimetric_g(quantity.value, relations=relations),
        sensitivity=1.0 / (quantity.value * log(2.0)),
        interval=interval
        and _as_g(interval, g_of(interval.lower), g_of(interval.upper)),
    )


def intercept_g_estimate(
    mean_intercept: Estimate, *, relations: GrainSizeRelations | None = None
) -> Estimate:
    """G with its interval from a mean lineal intercept.

    Parameters
    ----------
    mean_intercept : Estimate
        Mean lineal intercept [um]; above 0.
    relations : GrainSizeRelations, optional
        Constants; None takes the package's ``"e112"`` form.

    Returns
    -------
    Estimate
        G; its interval has the ends of the length's, swapped and turned into G,
        and is open above where the length's lower end is 0.

    Raises
    ------
    UnitError
        If the estimate is not in um.

    Notes
    -----
    u(G) = 2 u(l) / (l ln 2) = 2.885 u(l) / l, to first order.

    Examples
    --------
    >>> from strandproof.grainsize.levels import mean_over_level
    >>> leads = mean_over_level((8.333, 8.800, 8.200), level="lead")
    >>> g = intercept_g_estimate(leads)
    >>> [round(x, 2) for x in (g.interval95.lower, g.interval95.upper)]
    [10.23, 10.77]
    """
    quantity = mean_intercept.quantity
    if quantity.unit != "um":
        raise UnitError(quantity.unit, expected="um")

    def g_of(limit: float | None) -> float | None:
        return intercept_g(limit / _UM_PER_MM, relations=relations) if limit else None

    interval = mean_intercept.interval95
    return _g_estimate(
        quantity,
        intercept_g(quantity.value / _UM_PER_MM, relations=relations),
        sensitivity=-2.0 / (quantity.value * log(2.0)),
        interval=interval
        and _as_g(interval, g_of(interval.upper), g_of(interval.lower)),
    )


def _as_g(interval: Interval, lower: float | None, upper: float | None) -> Interval:
    return replace(interval, lower=lower, upper=upper, unit="1")


def _g_estimate(
    source: Quantity, g: float, *, sensitivity: float, interval: Interval | None
) -> Estimate:
    quantity = Quantity(
        g,
        "1",
        abs(sensitivity) * source.standard_uncertainty,
        source.degrees_of_freedom,
        tuple(_through(line, sensitivity) for line in source.budget),
    )
    return Estimate(
        quantity=quantity, interval95=interval, relative_accuracy_percent=None
    )


def _through(line: BudgetLine, sensitivity: float) -> BudgetLine:
    return replace(
        line,
        sensitivity=line.sensitivity * sensitivity,
        component=line.component * abs(sensitivity),
    )
