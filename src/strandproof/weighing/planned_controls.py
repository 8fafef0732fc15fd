"""What controls will be able to support, before any of them is read.

The same counting as after reading (`error_rates`, `support`), with every planned
control taken as read blind and right: the highest that can come out.
"""

from collections.abc import Sequence
from dataclasses import dataclass

from strandproof.errors import ParameterError
from strandproof.records.case_state import CaseState
from strandproof.records.entries import Control, Section
from strandproof.weighing.error_rates import (
    ControlReading,
    Verdict,
    informed_error,
)
from strandproof.weighing.rules import WeighingRules
from strandproof.weighing.support import ControlsSupport, controls_support
from strandproof.weighing.support_words import level_sentence, support_sentence
from strandproof.weighing.wording import count_word, listed, ratio_digits

NO_SINGLE_CRYSTAL = (
    "Without a known single crystal through the same steps you cannot show that "
    "preparation makes no false boundaries."
)
"""What is said of a plan without such a control (feature M10 of the product brief)."""

NUMERATOR = 0.95
"""Probability of the expected finding that is judged, not measured (product brief)."""

_WHAT_IT_INFORMS = {
    "false_boundary": "reading error: boundaries seen where there are none",
    "missed_boundary": "reading error: boundaries missed",
    "mix_up": "mix-up",
    "batch_fault": "fault of a whole batch",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class ControlsCeiling:
    """The highest ratio that planned controls can come to support.

    Parameters
    ----------
    controls : int
        Controls planned, whatever they inform.
    support : ControlsSupport or None
        Ratios if all are read blind and right; None without a known single crystal.
    without_process : tuple of str
        Mounts with specimens but without a known single crystal of their own; the
        empty word stands for specimens without a mount.
    words : tuple of str
        All of it in sentences, for the plan and the report.
    """

    controls: int
    support: ControlsSupport | None
    without_process: tuple[str, ...]
    words: tuple[str, ...]

    @property
    def ratio(self) -> float | None:
        """Ceiling at the level of reading.

        Returns
        -------
        float or None
            None without a known single crystal.
        """
        return None if self.support is None else self.support.ratio


def planned_controls(
    kind: str,
    count: int,
    *,
    mounts: Sequence[str] = ("",),
    known_by: str = "to be shown",
    described_as: str = "",
) -> tuple[Control, ...]:
    """Make controls that do not exist yet, spread over mounts.

    Parameters
    ----------
    kind : str
        Kind of the record `Control`, for example ``"single_crystal"``.
    count : int
        How many; 0 or more.
    mounts : sequence of str
        Mounts they go into, in turn; one or more.
    known_by : str
        How each will be known.
    described_as : str
        In one or two words, for example "oxygen-free".

    Returns
    -------
    tuple of Control
        For `planned_controls_ceiling`; nothing is entered.

    Raises
    ------
    ParameterError
        If the count is below 0 or no mount is given.

    Examples
    --------
    >>> len(planned_controls("single_crystal", 4, mounts=["m1"]))
    4
    """
    if count < 0:
        raise ParameterError("count", count, allowed="0 or more")
    if not mounts:
        raise ParameterError("mounts", tuple(mounts), allowed="one mount or more")
    return tuple(
        Control.model_validate(
            {
                "id": f"planned-{kind}-{mounts[place % len(mounts)] or 'x'}-{place}",
                "specimen": "planned",
                "kind": kind,
                "known_by": known_by,
                "mount": mounts[place % len(mounts)],
                "described_as": described_as,
            }
        )
        for place in range(count)
    )


def planned_controls_ceiling(
    controls: Sequence[Control],
    *,
    specimen_mounts: Sequence[str] = (),
    numerator: float = NUMERATOR,
    rules: WeighingRules | None = None,
) -> ControlsCeiling:
    """Say what controls can support at most, before the plan is locked.

    For the finding "boundaries", weighed for many crystals against one: the case in
    which only true single crystals inform the denominator. Assumes that every control
    will be read blind and right.

    Parameters
    ----------
    controls : sequence of Control
        Planned or entered; see `planned_controls`.
    specimen_mounts : sequence of str
        Mount of each section of the product; empty where not yet known.
    numerator : float
        Judged probability of the finding if there are many crystals; 0 to 1.
    rules : WeighingRules, optional
        None takes those of the package.

    Returns
    -------
    ControlsCeiling
        Ceiling by level, what is lacking, and the sentences.

    Raises
    ------
    ParameterError
        If two controls share a name or the numerator is no probability.

    Examples
    --------
    >>> four = planned_controls("single_crystal", 4, mounts=["m1"])
    >>> found = planned_controls_ceiling(four)
    >>> round(found.support.ratio, 1), round(found.support.expected_ratio, 1)
    (1.8, 5.7)
    """
    names = [each.id for each in controls]
    if len(set(names)) < len(names):
        raise ParameterError("controls", names, allowed="each name once")
    readings = [_read_right(each) for each in controls]
    support = controls_support(
        [each for each in readings if each is not None],
        first="polycrystal",
        second="single_crystal",
        outcome="boundaries",
        numerator=numerator,
        rules=rules,
    )
    lacking = _without_process(controls, specimen_mounts)
    return ControlsCeiling(
        controls=len(controls),
        support=support,
        without_process=lacking,
        words=(
            *_lacking_words(support, lacking),
            *_ceiling_words(support, numerator),
            *_silent_words(controls),
        ),
    )


def what_control_informs(control: Control) -> str:
    """Say which error a control tells something about.

    Parameters
    ----------
    control : Control
        The known piece.

    Returns
    -------
    str
        Levels in words; for an unrelated one, that it informs none.

    Examples
    --------
    >>> what_control_informs(planned_controls("blank_mount", 1)[0])
    'no reading error; shows only what resin and etch look like without metal'
    """
    error = informed_error(control)
    others = [each for each in control.informs if each in {"mix_up", "batch_fault"}]
    if error is not None:
        told = [_WHAT_IT_INFORMS[each] for each in (error, *others)]
        place = f"mount {control.mount}" if control.mount else "a mount not recorded"
        return f"{'; '.join(told)}; for faults of a batch it counts with {place}"
    if others:
        return "; ".join(_WHAT_IT_INFORMS[each] for each in others)
    if control.kind == "blank_mount":
        return (
            "no reading error; shows only what resin and etch look like without metal"
        )
    if control.kind == "handling":
        return "no reading error; what handling changes, compared before and after"
    return "no error: its record does not say which one it can show"


def control_line(control: Control) -> str:
    """Say what a control is, how that is known, and what it informs.

    Parameters
    ----------
    control : Control
        The control.

    Returns
    -------
    str
        A line.
    """
    what = control.described_as or control.kind.replace("_", " ")
    return (
        f"{control.id}: {what}, known by {control.known_by}; informs "
        f"{what_control_informs(control)}."
    )


def mounts_in_question(state: CaseState) -> tuple[str, ...]:
    """Give the mounts that hold sections of the product.

    Parameters
    ----------
    state : CaseState
        State of the case.

    Returns
    -------
    tuple of str
        Each once; the empty word where a section names none.
    """
    known = {each.specimen for each in state.records(Control)}
    mounts = [s.mount for s in state.records(Section) if s.specimen not in known]
    return tuple(dict.fromkeys(mounts))


def ceiling_of_controls(
    state: CaseState, further: Sequence[Control] = ()
) -> ControlsCeiling:
    """Give the ceiling that the controls of a case can bring.

    Parameters
    ----------
    state : CaseState
        State of the case.
    further : sequence of Control
        Planned ones beside those entered.

    Returns
    -------
    ControlsCeiling
        If all of them are read blind and right; what was read is weighed elsewhere.
    """
    controls = (*state.records(Control), *further)
    return planned_controls_ceiling(controls, specimen_mounts=mounts_in_question(state))


def _read_right(control: Control) -> ControlReading | None:
    error = informed_error(control)
    if error is None:
        return None
    right: Verdict = "none_resolved" if error == "false_boundary" else "boundaries"
    return ControlReading(control=control, verdict=right, blind=True)


def _without_process(
    controls: Sequence[Control], specimen_mounts: Sequence[str]
) -> tuple[str, ...]:
    held = {each.mount for each in controls if informed_error(each) == "false_boundary"}
    return tuple(
        mount
        for mount in dict.fromkeys(specimen_mounts)
        if not mount or mount not in held
    )


def _lacking_words(
    support: ControlsSupport | None, lacking: Sequence[str]
) -> tuple[str, ...]:
    if support is None:
        return (NO_SINGLE_CRYSTAL,)
    if not lacking:
        return ()
    named = [mount for mount in lacking if mount]
    told = []
    if named:
        mounts = f"mount{'s' if len(named) > 1 else ''} {listed(named)}"
        told.append(f"No process control in {mounts}. {NO_SINGLE_CRYSTAL}")
    if "" in lacking:
        told.append(
            "Some sections name no mount, so it is not on record that a known single "
            "crystal went through the same steps."
        )
    return tuple(told)


def _ceiling_words(
    support: ControlsSupport | None, numerator: float
) -> tuple[str, ...]:
    if support is None:
        return ("Controls alone: no control informs this ratio.",)
    rate = support.denominator
    expected = ratio_digits(support.expected_ratio)
    ceiling = (
        f"If all {count_word(rate.trials)} are read blind and right, the ceiling is "
        f"{ratio_digits(support.ratio)} (expected {expected}, {rate.prior.name} prior)."
    )
    return (
        ceiling,
        support_sentence(support, numerator_status="judgement"),
        *(level_sentence(each, numerator=numerator) for each in support.groups),
    )


def _silent_words(controls: Sequence[Control]) -> tuple[str, ...]:
    silent = [each for each in controls if informed_error(each) is None]
    if not silent:
        return ()
    number = count_word(len(silent)).capitalize()
    verb = "informs" if len(silent) == 1 else "inform"
    return (f"{number} of the controls {verb} no reading error and lift no ceiling.",)
