"""What the controls support, in sentences."""

from strandproof.weighing.error_rates import ErrorRate
from strandproof.weighing.likelihoods import LikelihoodStatus
from strandproof.weighing.support import ControlsSupport
from strandproof.weighing.wording import (
    count_word,
    of_hundred,
    plain_digits,
    ratio_digits,
    ratio_with_word,
    short_digits,
)

_LEVEL_NAMES = {"mount": "mount", "batch": "batch", "custody_trail": "custody trail"}

_ERROR_NAMES = {
    "false_boundary": "boundaries seen where there are none",
    "missed_boundary": "boundaries not seen where there are some",
}

_HOW_NUMERATOR_IS_KNOWN = {
    "data": "from data",
    "literature": "from literature",
    "judgement": "judged",
}


def support_sentence(
    support: ControlsSupport | None, *, numerator_status: LikelihoodStatus
) -> str:
    """Say what controls alone support for one pair.

    Parameters
    ----------
    support : ControlsSupport or None
        None where no control informs the pair.
    numerator_status : {"data", "literature", "judgement"}
        What the numerator rests on.

    Returns
    -------
    str
        Both ratios at the bound with their words, and the expected one.
    """
    if support is None:
        return "Controls alone: no control informs this ratio."
    known = _HOW_NUMERATOR_IS_KNOWN[numerator_status]
    numerator = short_digits(support.numerator)
    prior = support.denominator.prior.name
    return (
        f"Controls alone: {ratio_with_word(support.ratio)}, with the {numerator} "
        f"{known}; {_unjudged(support)}; expected value "
        f"{ratio_digits(support.expected_ratio)} ({prior} prior), "
        f"{_word_only(support.expected_ratio)}."
    )


def group_sentence(support: ControlsSupport) -> str:
    """Say what controls support at the group levels.

    Parameters
    ----------
    support : ControlsSupport
        Of one pair.

    Returns
    -------
    str
        Levels recorded one by one, those not recorded together.
    """
    recorded = [rate for rate in support.groups if not _nowhere_recorded(rate)]
    others = [_LEVEL_NAMES[r.level] for r in support.groups if _nowhere_recorded(r)]
    parts = [
        f"{_LEVEL_NAMES[rate.level]} n = {rate.trials}, "
        f"{ratio_with_word(support.group_ratios[rate.level])}"
        for rate in recorded
    ]
    if others:
        level = next(r.level for r in support.groups if _nowhere_recorded(r))
        ratio = ratio_with_word(support.group_ratios[level])
        parts.append(f"{' and '.join(others)} not recorded, n = 1, {ratio}")
    return f"Against group blunders: {'; '.join(parts)}."


def level_sentence(rate: ErrorRate, *, numerator: float) -> str:
    """Say what one level assumes and allows.

    Parameters
    ----------
    rate : ErrorRate
        At the level of the item or of a group.
    numerator : float
        Judged numerator.

    Returns
    -------
    str
        For the record of what was assumed.
    """
    ratio = f"{ratio_digits(numerator / rate.upper)} (numerator {numerator:.3g})"
    if rate.level == "item":
        return _item_words(rate, ratio)
    name = _LEVEL_NAMES[rate.level]
    if _nowhere_recorded(rate):
        return (
            f"No {name} is recorded for any of the controls ({rate.controls}), so they "
            f"count as one: n = 1, {_wrong(rate.wrong, 'spoilt')}, ceiling {ratio}."
        )
    plural = name if rate.trials == 1 else f"{name}s"
    rest = "; those without one count as one" if rate.unrecorded else ""
    spoilt = f", {_wrong(rate.wrong, 'spoilt')}" if rate.wrong else ""
    return (
        "Same-laboratory controls raise the ceiling for reading errors. Mix-ups and "
        f"whole-batch faults are another level: controls in one {name} count once for "
        f"that. Your {rate.controls} stand in {count_word(rate.trials)} {plural}"
        f"{rest}: there n = {rate.trials}{spoilt}, ceiling {ratio}."
    )


def _item_words(rate: ErrorRate, ratio: str) -> str:
    unread = ""
    if rate.not_readable:
        unread = f"; {count_word(rate.not_readable)} more not readable, not counted"
    bound = f"{short_digits(100 * rate.confidence, 3)} % bound"
    some = f"{count_word(rate.trials).capitalize()} blind {rate.described_as}"
    return (
        f"{some} control{'' if rate.trials == 1 else 's'}, "
        f"{_wrong(rate.wrong, 'wrong')}{unread} ({_ERROR_NAMES[rate.error]}): at most "
        f"{of_hundred(rate.upper)} ({bound}), expected {of_hundred(rate.expected)} "
        f"({rate.prior.name} prior), ceiling {ratio}. Assumes one error rate for "
        "controls and specimens."
    )


def _wrong(number: int, word: str) -> str:
    return f"{'none' if number == 0 else count_word(number)} {word}"


def _nowhere_recorded(rate: ErrorRate) -> bool:
    return rate.unrecorded and rate.trials == 1


def _unjudged(support: ControlsSupport) -> str:
    ratio = support.ratio_unjudged
    if ratio is None or support.opposite is None:
        return "no control carries the numerator"
    many = support.opposite.trials != 1
    which = f"{count_word(support.opposite.trials)} {support.opposite.described_as}"
    bound = plain_digits(support.opposite.right_lower, 2)
    return (
        f"{ratio_with_word(ratio)}, if the {which} control{'s' if many else ''} must "
        f"carry the numerator too ({bound})"
    )


def _word_only(ratio: float) -> str:
    return ratio_with_word(ratio).partition(", ")[2]
