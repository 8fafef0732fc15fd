"""Whether the preparation of a section is logged so that its counts can stand.

Pure: records in, an answer out. The laboratory writes its own procedure; nothing here
says how to prepare anything.
"""

import re
from collections.abc import Sequence
from dataclasses import dataclass

from strandproof.records.case_state import CaseState
from strandproof.records.entries import Micrograph, PreparationStep, Section

FEWEST_ETCH_STEPS = 2
"""Etch steps with a picture each that a counted section needs (product brief)."""

ACID_CAUTION = (
    "Acids and etchants: fume hood and trained staff only; nitric acid on copper gives "
    "brown, toxic nitrogen dioxide, and lung injury can follow hours later. Never at "
    "home, never by post. Local rules and the laboratory's own procedure come first."
)
"""Shown wherever an etch step is entered or listed (common practice)."""

_ORDINALS = ("first", "second", "third", "fourth", "fifth", "sixth")
_WORKED = frozenset({"grind", "polish", "repolish"})


@dataclass(frozen=True, slots=True, kw_only=True)
class PreparationState:
    """How far the preparation of a section is on record.

    Parameters
    ----------
    section : str
        Short name.
    steps : tuple of PreparationStep
        Its steps, in order.
    missing : tuple of str
        Pictures that are missing for a count to stand.
    not_recorded : tuple of str
        Steps that nobody noted; they print a limitation and stop nothing.
    """

    section: str
    steps: tuple[PreparationStep, ...]
    missing: tuple[str, ...]
    not_recorded: tuple[str, ...]

    @property
    def logged(self) -> bool:
        """True when a log was begun.

        Returns
        -------
        bool
            False for a section of a case without such a log.
        """
        return bool(self.steps)

    @property
    def complete(self) -> bool:
        """True when nothing is missing that a count needs.

        Returns
        -------
        bool
            False for an empty log too.
        """
        return not self.missing

    @property
    def words(self) -> str:
        """State in one sentence.

        Returns
        -------
        str
            For example ``"missing: as-polished picture, first etch step"``.
        """
        if self.complete:
            return "complete"
        told = f"missing: {', '.join(self.missing)}"
        return told if self.logged else f"no log; {told}"


def preparation_state(state: CaseState, section: str) -> PreparationState:
    """Say what the record holds on the preparation of a section.

    Parameters
    ----------
    state : CaseState
        State of the case.
    section : str
        Short name.

    Returns
    -------
    PreparationState
        Missing pictures and steps.

    Notes
    -----
    A picture counts where it stands on the step, or on a micrograph of the section
    whose ``etch_step`` names it ("as polished", "etch step 1"). A micrograph called
    etched without a number counts for the last step. A look counts as as-polished
    only while no etch came since the last polish. At least two etch steps are asked
    for; every further one that is logged needs its picture too.
    """
    body = state.record(Section, section)
    steps = _steps(state, section)
    shown = [
        each.etch_step.casefold()
        for each in state.records(Micrograph)
        if each.section == section
    ]
    polished = _as_polished(steps, shown)
    missing = [] if polished else ["as-polished picture"]
    return PreparationState(
        section=section,
        steps=steps,
        missing=(*missing, *_etch_missing(steps, shown, stepwise=polished)),
        not_recorded=_not_recorded(body, steps),
    )


def section_may_be_counted(state: CaseState, section: str) -> tuple[str, ...]:
    """Give the reasons why counts of a section cannot stand.

    Parameters
    ----------
    state : CaseState
        State of the case.
    section : str
        Short name.

    Returns
    -------
    tuple of str
        Empty where they can, or where no log was begun: a case from before the log
        is flagged, not refused.
    """
    found = preparation_state(state, section)
    return found.missing if found.logged else ()


def section_line(found: PreparationState) -> str:
    """Say the state of one section.

    Parameters
    ----------
    found : PreparationState
        Its state.

    Returns
    -------
    str
        A line.
    """
    if found.complete:
        told = "complete"
    elif found.logged:
        told = f"incomplete: may be shown, not counted; {found.words}"
    else:
        told = f"{found.words}; counts are flagged"
    if found.not_recorded:
        told += f"; not recorded: {', '.join(found.not_recorded)}"
    return f"{found.section}: {told}."


def preparation_flags(state: CaseState, sections: Sequence[str]) -> tuple[str, ...]:
    """Give the flags that counts of some sections carry.

    Parameters
    ----------
    state : CaseState
        State of the case.
    sections : sequence of str
        Short names.

    Returns
    -------
    tuple of str
        Names in the registry of flags; empty where all logs are complete.
    """
    found = [preparation_state(state, each) for each in dict.fromkeys(sections)]
    flags = {
        "preparation_not_logged": any(not each.logged for each in found),
        "preparation_incomplete": any(
            each.logged and not each.complete for each in found
        ),
    }
    return tuple(name for name, raised in flags.items() if raised)


def _steps(state: CaseState, section: str) -> tuple[PreparationStep, ...]:
    own = [each for each in state.records(PreparationStep) if section in each.sections]
    return tuple(sorted(own, key=lambda each: (each.order, each.at, each.id)))


def _as_polished(steps: Sequence[PreparationStep], shown: Sequence[str]) -> bool:
    if any("polish" in words and "etch" not in words for words in shown):
        return True
    etched = False
    for each in steps:
        if each.step == "etch":
            etched = True
        elif each.step in _WORKED:
            etched = False
        pictured = each.picture_sha256 is not None
        if pictured and not etched and each.step in {"look", "polish", "repolish"}:
            return True
    return False


def _etch_missing(
    steps: Sequence[PreparationStep], shown: Sequence[str], *, stepwise: bool
) -> tuple[str, ...]:
    etches = [each for each in steps if each.step == "etch"]
    numbered, unnumbered = _etched_pictures(shown)
    needed = max(FEWEST_ETCH_STEPS, len(etches), *numbered, 0)
    skipped = 0 if stepwise else needed - len(etches)
    pictured = {
        place
        for place, each in enumerate(etches, start=1 + skipped)
        if each.picture_sha256 is not None
    }
    if unnumbered:
        pictured.add(max(1, len(etches)) if stepwise else needed)
    return tuple(
        f"{_ordinal(place)} etch step"
        for place in range(1, needed + 1)
        if place not in pictured | numbered
    )


def _etched_pictures(shown: Sequence[str]) -> tuple[set[int], bool]:
    numbered: set[int] = set()
    unnumbered = False
    for words in shown:
        if "etch" not in words or "unetched" in words:
            continue
        digits = re.search(r"\d+", words)
        if digits is None or not 1 <= int(digits.group()) <= len(_ORDINALS):
            unnumbered = True
        else:
            numbered.add(int(digits.group()))
    return numbered, unnumbered


def _ordinal(place: int) -> str:
    return _ORDINALS[place - 1] if place <= len(_ORDINALS) else f"{place}th"


def _not_recorded(
    section: Section, steps: Sequence[PreparationStep]
) -> tuple[str, ...]:
    done = {each.step for each in steps}
    has = {
        "cut": "cut" in done or bool(section.made_by) or section.made_at is not None,
        "mount": "mount" in done or bool(section.mount),
        "grinding and polishing": bool(_WORKED & done),
    }
    return tuple(name for name, noted in has.items() if not noted)
