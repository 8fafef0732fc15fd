"""Error rates from blind controls, at the level where each control counts.

Item level: this reading is wrong. Group level: a mount, an etch batch or a trail
of custody spoils everything in it, so however many controls it holds, it is tried
once.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from types import MappingProxyType
from typing import Literal, get_args

from strandproof.records.entries import Control
from strandproof.weighing.bounds import control_bound, expected_error, right_bound
from strandproof.weighing.rules import ErrorPrior, WeighingRules, weighing_rules

ReadingError = Literal["false_boundary", "missed_boundary"]
Verdict = Literal["boundaries", "none_resolved", "not_readable"]
GroupLevel = Literal["mount", "batch", "custody_trail"]
Level = Literal["item", "mount", "batch", "custody_trail"]

GROUP_LEVELS: tuple[GroupLevel, ...] = get_args(GroupLevel)
"""Levels at which many controls count once."""

WRONG_VERDICT: Mapping[ReadingError, Verdict] = MappingProxyType(
    {"false_boundary": "boundaries", "missed_boundary": "none_resolved"}
)
"""The verdict that is the error, by error."""

# What a piece is decides which error it can show; a bent or co-processed piece
# may be either, so its record has to say which. Anything else is unrelated.
_INFORMED_BY_KIND: Mapping[str, tuple[ReadingError, ...]] = MappingProxyType(
    {
        "single_crystal": ("false_boundary",),
        "polycrystal": ("missed_boundary",),
        "handling": ("false_boundary", "missed_boundary"),
        "process": ("false_boundary", "missed_boundary"),
    }
)


@dataclass(frozen=True, slots=True, kw_only=True)
class ControlReading:
    """What a reader said of a control.

    Parameters
    ----------
    control : Control
        The known piece.
    verdict : {"boundaries", "none_resolved", "not_readable"}
        What was seen.
    blind : bool
        True when the reader did not know which piece it was.
    reader : str
        Who read it.
    """

    control: Control
    verdict: Verdict
    blind: bool
    reader: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class ErrorRate:
    """What controls say of one error at one level.

    Parameters
    ----------
    error : {"false_boundary", "missed_boundary"}
        The error.
    level : {"item", "mount", "batch", "custody_trail"}
        Where it counts.
    trials, wrong : int
        Controls (or groups of them) that count, and those read wrongly.
    upper : float
        Upper bound of the error rate; 1 without any trial.
    right_lower : float
        Lower bound of the chance to be right; 0 without any trial.
    expected : float
        Expected error rate with `prior`.
    confidence : float
        One-sided confidence of either bound.
    prior : ErrorPrior
        Prior of the expected rate.
    controls : int
        Controls behind the trials.
    described_as : str
        What the controls are, for example "oxygen-free".
    unrecorded : bool
        At a group level: True when some control names no group; those then
        count as one.
    not_readable : int
        Controls that nobody could read: no trial, but not dropped either.
    """

    error: ReadingError
    level: Level
    trials: int
    wrong: int
    upper: float
    right_lower: float
    expected: float
    confidence: float
    prior: ErrorPrior
    controls: int
    described_as: str
    unrecorded: bool = False
    not_readable: int = 0


@dataclass(frozen=True, slots=True)
class _Trial:
    control: Control
    wrong: bool


@dataclass(frozen=True, slots=True)
class _Counted:
    error: ReadingError
    level: Level
    trials: Sequence[_Trial]
    outcomes: Sequence[bool]
    not_readable: int
    unrecorded: bool = False


def informed_error(control: Control) -> ReadingError | None:
    """Which reading error a control can show.

    Parameters
    ----------
    control : Control
        The known piece.

    Returns
    -------
    {"false_boundary", "missed_boundary"} or None
        None for an unrelated control, or one whose record contradicts itself.

    Notes
    -----
    A single crystal shows false boundaries, a polycrystal missed ones. A handling
    or process control shows what its record says, if it says exactly one of the
    two. `Control.informs` can narrow that, never widen it.

    Examples
    --------
    >>> informed_error(
    ...     Control(id="a", specimen="S", kind="single_crystal", known_by="diffraction")
    ... )
    'false_boundary'
    """
    possible = _INFORMED_BY_KIND.get(control.kind, ())
    if control.informs:
        possible = tuple(each for each in possible if each in control.informs)
    return possible[0] if len(possible) == 1 else None


def item_error_rate(
    readings: Sequence[ControlReading],
    *,
    error: ReadingError,
    rules: WeighingRules | None = None,
) -> ErrorRate:
    """How often a reading is wrong, from the blind controls that inform it.

    Assumes that controls are read like specimens. Counts each control once, as
    wrong if any blind reader had it wrong; an open reading counts nothing.

    Parameters
    ----------
    readings : sequence of ControlReading
        Of all controls; those that inform another error, or none, are ignored.
    error : {"false_boundary", "missed_boundary"}
        The error asked for.
    rules : WeighingRules, optional
        None takes those of the package.

    Returns
    -------
    ErrorRate
        At the level of the item.

    Examples
    --------
    >>> piece = Control(
    ...     id="a", specimen="S", kind="single_crystal", known_by="diffraction"
    ... )
    >>> seen = ControlReading(control=piece, verdict="none_resolved", blind=True)
    >>> item_error_rate([seen], error="false_boundary").trials
    1
    """
    trials, unread = _trials(readings, error)
    outcomes = [trial.wrong for trial in trials]
    return _rate(_Counted(error, "item", trials, outcomes, unread), rules)


def group_error_rate(
    readings: Sequence[ControlReading],
    *,
    error: ReadingError,
    level: GroupLevel,
    rules: WeighingRules | None = None,
) -> ErrorRate:
    """How often a whole group is spoilt, from the controls that inform it.

    Parameters
    ----------
    readings : sequence of ControlReading
        Of all controls.
    error : {"false_boundary", "missed_boundary"}
        The error that a spoilt group would show.
    level : {"mount", "batch", "custody_trail"}
        What the group is.
    rules : WeighingRules, optional
        None takes those of the package.

    Returns
    -------
    ErrorRate
        One trial for each group, spoilt when every control in it was wrong.

    Notes
    -----
    A group blunder spoils all of its items, so one control read right shows that
    it did not happen there; the wrong one beside it counts at the level of the
    item. Controls without a recorded group count as one group together.
    """
    trials, unread = _trials(readings, error)
    groups: dict[str, list[bool]] = {}
    for trial in trials:
        groups.setdefault(getattr(trial.control, level), []).append(trial.wrong)
    spoilt = [all(outcomes) for outcomes in groups.values()]
    counted = _Counted(error, level, trials, spoilt, unread, "" in groups)
    return _rate(counted, rules)


def _trials(
    readings: Sequence[ControlReading], error: ReadingError
) -> tuple[list[_Trial], int]:
    verdicts: dict[str, list[Verdict]] = {}
    controls: dict[str, Control] = {}
    for each in readings:
        if each.blind and informed_error(each.control) == error:
            controls[each.control.id] = each.control
            verdicts.setdefault(each.control.id, []).append(each.verdict)
    readable = {
        name: seen for name, seen in verdicts.items() if set(seen) != {"not_readable"}
    }
    trials = [
        _Trial(controls[name], WRONG_VERDICT[error] in seen)
        for name, seen in readable.items()
    ]
    return trials, len(verdicts) - len(readable)


def _rate(counted: _Counted, rules: WeighingRules | None) -> ErrorRate:
    applied = weighing_rules() if rules is None else rules
    number, wrong = len(counted.outcomes), sum(counted.outcomes)
    confidence = applied.confidence
    return ErrorRate(
        error=counted.error,
        level=counted.level,
        trials=number,
        wrong=wrong,
        upper=control_bound(number, wrong=wrong, confidence=confidence),
        right_lower=right_bound(number, wrong=wrong, confidence=confidence),
        expected=expected_error(number, wrong=wrong, prior=applied.prior),
        confidence=confidence,
        prior=applied.prior,
        controls=len(counted.trials),
        described_as=_description(counted.trials, counted.error),
        unrecorded=counted.unrecorded,
        not_readable=counted.not_readable,
    )


def _description(trials: Sequence[_Trial], error: ReadingError) -> str:
    if error == "false_boundary":
        return "single-crystal"
    told = {trial.control.described_as.strip() for trial in trials}
    return told.pop() if len(told) == 1 and "" not in told else "polycrystal"
