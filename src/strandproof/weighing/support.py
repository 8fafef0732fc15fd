"""The likelihood ratio that blind controls alone support."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from types import MappingProxyType
from typing import Literal

from strandproof.errors import ParameterError
from strandproof.weighing.bounds import control_bound
from strandproof.weighing.error_rates import (
    GROUP_LEVELS,
    ControlReading,
    ErrorRate,
    ReadingError,
    group_error_rate,
    item_error_rate,
)
from strandproof.weighing.hypotheses import Structure
from strandproof.weighing.rules import WeighingRules, weighing_rules
from strandproof.weighing.wording import listed, ratio_digits, ratio_with_word

Outcome = Literal["boundaries", "none_resolved"]

_ERROR_OF_STRUCTURE: Mapping[Structure, ReadingError] = MappingProxyType(
    {"single_crystal": "false_boundary", "polycrystal": "missed_boundary"}
)

# Seeing this is wrong for this structure.
_WRONG_OUTCOME: Mapping[Structure, Outcome] = MappingProxyType(
    {"single_crystal": "boundaries", "polycrystal": "none_resolved"}
)


@dataclass(frozen=True, slots=True, kw_only=True)
class ControlsSupport:
    """What controls alone support, with and without a judged numerator.

    Every ratio at a bound is a lower one for the first hypothesis over the
    second; its reciprocal is no bound the other way.

    Parameters
    ----------
    numerator : float
        Judged probability of what was seen under the first hypothesis.
    denominator : ErrorRate
        How often it is seen by mistake under the second.
    opposite : ErrorRate or None
        How often it is missed under the first, where controls inform that.
    groups : tuple of ErrorRate
        The denominator's error at the group levels.
    """

    numerator: float
    denominator: ErrorRate
    opposite: ErrorRate | None
    groups: tuple[ErrorRate, ...]

    @property
    def ratio(self) -> float:
        """Judged numerator over the error's upper bound."""
        return self.numerator / self.denominator.upper

    @property
    def ratio_unjudged(self) -> float | None:
        """The opposite controls' lower bound over the error's upper bound."""
        if self.opposite is None or self.opposite.trials == 0:
            return None
        return self.opposite.right_lower / self.denominator.upper

    @property
    def expected_ratio(self) -> float:
        """Judged numerator over the expected error."""
        return self.numerator / self.denominator.expected

    @property
    def group_ratios(self) -> Mapping[str, float]:
        """Judged numerator over the upper bound at each group level."""
        return {rate.level: self.numerator / rate.upper for rate in self.groups}


def controls_support(
    readings: Sequence[ControlReading],
    *,
    first: Structure | None,
    second: Structure | None,
    outcome: Outcome,
    numerator: float,
    rules: WeighingRules | None = None,
) -> ControlsSupport | None:
    """Ratio of a pair of hypotheses that the controls alone support.

    Assumes that controls go through the same steps and readers as specimens.

    Parameters
    ----------
    readings : sequence of ControlReading
        Of all controls of the case; unrelated ones change nothing.
    first : {"single_crystal", "polycrystal"} or None
        Structure under the favoured hypothesis.
    second : {"single_crystal", "polycrystal"} or None
        Structure under the other one.
    outcome : {"boundaries", "none_resolved"}
        What was seen on the specimens.
    numerator : float
        Probability of it under the first, as entered; 0 to 1.
    rules : WeighingRules, optional
        None takes those of the package.

    Returns
    -------
    ControlsSupport or None
        None where no control informs the denominator: what was seen would be no
        error under the second hypothesis, or no blind control of that structure
        was read.

    Raises
    ------
    ParameterError
        If the numerator is no probability.

    Notes
    -----
    With the judged numerator p: p / u(n), u the upper bound of the error.
    Without it: l(m) / u(n), l the lower bound of being right from the m controls
    of the first structure. Each bound has confidence C; both hold together with
    at least 2 C - 1 (0.90 for 0.95). Expected: p / e(n), e the predictive error
    with the named prior, so a ratio of probabilities and no bound.
    """
    if not 0 <= numerator <= 1:
        raise ParameterError("numerator", numerator, allowed="0 to 1")
    if second is None or first == second or _WRONG_OUTCOME[second] != outcome:
        return None
    error = _ERROR_OF_STRUCTURE[second]
    denominator = item_error_rate(readings, error=error, rules=rules)
    if denominator.trials == 0:
        return None
    return ControlsSupport(
        numerator=numerator,
        denominator=denominator,
        opposite=None
        if first is None
        else item_error_rate(readings, error=_ERROR_OF_STRUCTURE[first], rules=rules),
        groups=tuple(
            group_error_rate(readings, error=error, level=level, rules=rules)
            for level in GROUP_LEVELS
        ),
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class ControlSeries:
    """Controls read at one time or place.

    Parameters
    ----------
    name : str
        Which they are.
    trials, wrong : int
        Controls that count, and those read wrongly.
    """

    name: str
    trials: int
    wrong: int = 0


@dataclass(frozen=True, slots=True, kw_only=True)
class PooledSupport:
    """Series of controls taken together, and apart.

    Parameters
    ----------
    together : float
        Ratio if all series share one error rate.
    apart : tuple of float
        Ratio of each series alone, in the order given.
    words : str
        Both, with the assumption.
    """

    together: float
    apart: tuple[float, ...]
    words: str


def pooled_support(
    series: Sequence[ControlSeries],
    *,
    numerator: float,
    rules: WeighingRules | None = None,
) -> PooledSupport:
    """Pool series of controls under a stated assumption.

    Pooling assumes one error rate for all series: same preparation, same readers.
    Whether that holds is a judgement; both results are always given.

    Parameters
    ----------
    series : sequence of ControlSeries
        Two or more.
    numerator : float
        Judged probability of what was seen under the favoured hypothesis.
    rules : WeighingRules, optional
        None takes those of the package.

    Returns
    -------
    PooledSupport
        Ratio together, ratios apart, words.

    Raises
    ------
    ParameterError
        If fewer than two series are given or a count does not fit.

    Examples
    --------
    >>> first = ControlSeries(name="first bench", trials=4)
    >>> more = ControlSeries(name="twenty more", trials=20)
    >>> pooled = pooled_support([first, more], numerator=0.95)
    >>> print(pooled.words)  # doctest: +NORMALIZE_WHITESPACE
    8.1, weak, assuming one shared error rate of first bench and twenty more; apart
    1.8 and 6.8.
    """
    if len(series) < 2:
        raise ParameterError("series", tuple(series), allowed="two series or more")
    confidence = (weighing_rules() if rules is None else rules).confidence
    total = sum(each.trials for each in series)
    wrong = sum(each.wrong for each in series)
    together = numerator / control_bound(total, wrong=wrong, confidence=confidence)
    apart = tuple(
        numerator / control_bound(each.trials, wrong=each.wrong, confidence=confidence)
        for each in series
    )
    names = listed([each.name for each in series])
    ratios = listed([ratio_digits(each) for each in apart])
    return PooledSupport(
        together=together,
        apart=apart,
        words=f"{ratio_with_word(together)}, assuming one shared error rate of "
        f"{names}; apart {ratios}.",
    )
