"""The thresholds and priors that weighing goes by, out of their table."""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Self

from strandproof.tables import TableRow, package_table, table_value


@dataclass(frozen=True, slots=True, kw_only=True)
class ErrorPrior:
    """What is assumed of an error rate before any control was read.

    Parameters
    ----------
    name : str
        Name it is printed under, for example ``"uniform"``.
    wrong, right : float
        Counts added to the wrong and to the right readings; above 0. They are
        the two parameters of a beta distribution.
    """

    name: str
    wrong: float
    right: float


@dataclass(frozen=True, slots=True, kw_only=True)
class WeighingRules:
    """Rules of one weighing; all of them are shown or named in the result.

    Parameters
    ----------
    minimum_ratio : float
        Best-estimate ratio from which a claim is called supported or
        contradicted; included.
    near_zero : float
        Best estimate below which a probability is near zero; two near-zero
        sides give no ratio.
    confidence : float
        One-sided confidence of the bounds from controls, between 0 and 1.
    prior : ErrorPrior
        Prior of every error rate's expected value.
    """

    minimum_ratio: float
    near_zero: float
    confidence: float
    prior: ErrorPrior

    def for_joint_likelihoods(self) -> Self:
        """Give the same rules for products of several observations.

        Returns
        -------
        WeighingRules
            With a near-zero limit of 0.

        Notes
        -----
        Nobody can judge a probability of 1 in 5000, so two such sides give no
        ratio. A product of several judged probabilities may well be that small.
        """
        return replace(self, near_zero=0.0)


def error_prior(
    name: str = "uniform", *, table: Mapping[str, TableRow] | None = None
) -> ErrorPrior:
    """Prior of an error rate, by its name in the table.

    Parameters
    ----------
    name : str
        ``"uniform"`` or ``"jeffreys"`` in the package's table.
    table : Mapping from str to TableRow, optional
        Rules; None takes the package's table ``weighing_rules``.

    Returns
    -------
    ErrorPrior
        The prior.

    Raises
    ------
    UnknownTableError
        If the table has no prior of that name.

    Examples
    --------
    >>> error_prior("uniform")
    ErrorPrior(name='uniform', wrong=1.0, right=1.0)
    """
    rows = package_table("weighing_rules") if table is None else table
    return ErrorPrior(
        name=name,
        wrong=table_value(rows, f"prior.{name}.wrong"),
        right=table_value(rows, f"prior.{name}.right"),
    )


def weighing_rules(
    *, prior: str = "uniform", table: Mapping[str, TableRow] | None = None
) -> WeighingRules:
    """Rules of weighing with their thresholds.

    Parameters
    ----------
    prior : str
        Name of the prior of error rates.
    table : Mapping from str to TableRow, optional
        Rules; None takes the package's table ``weighing_rules``, which says
        that they are judgement.

    Returns
    -------
    WeighingRules
        The rules; alter single ones with `dataclasses.replace`.

    Raises
    ------
    UnknownTableError
        If the table lacks a rule or the prior.

    Examples
    --------
    >>> weighing_rules().minimum_ratio
    100.0
    """
    rows = package_table("weighing_rules") if table is None else table
    return WeighingRules(
        minimum_ratio=table_value(rows, "result.minimum_ratio"),
        near_zero=table_value(rows, "ratio.near_zero"),
        confidence=table_value(rows, "bound.confidence"),
        prior=error_prior(prior, table=rows),
    )
