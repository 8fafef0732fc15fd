"""Label sheet and coder's list as data, ready to be printed."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from strandproof.records.case_state import CaseState
from strandproof.records.entries import Section

DO_NOT_SEND = "For the coder alone. Do not send."
"""Stands on every coder's list."""

_ARROWS = {
    "longitudinal": "cut along the strand",
    "transverse": "cut across the strand",
    "oblique": "cut at an angle",
    "surface": "surface, not cut",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Label:
    """One label: what stands on the piece; no product, maker or exhibit.

    Parameters
    ----------
    code : str
        Code with its check character.
    cut : str
        How the piece is cut, in words; empty where not known.
    case : str
        Number of the case.
    day : str
        Day in ISO form.
    initials : str
        Of who labels.
    seal_number : str
        Left blank, to be filled by hand.
    spare : bool
        True for a label in reserve.
    """

    code: str
    cut: str
    case: str
    day: str
    initials: str
    seal_number: str = ""
    spare: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class CoderLine:
    """One line of the coder's list.

    Parameters
    ----------
    code : str
        The code.
    stands_for : str
        What it stands for, for example ``section/E1-s1-L``; empty for a spare.
    """

    code: str
    stands_for: str


@dataclass(frozen=True, slots=True, kw_only=True)
class LabelSheet:
    """Labels for the pieces, and the list that stays with the coder.

    Parameters
    ----------
    labels : tuple of Label
        Sorted by code, so that their order says nothing.
    coder_list : tuple of CoderLine
        Sorted by what the codes stand for.
    warning : str
        Stands on the coder's list.
    """

    labels: tuple[Label, ...]
    coder_list: tuple[CoderLine, ...]
    warning: str = DO_NOT_SEND

    @property
    def assignments(self) -> Mapping[str, str]:
        """Code to what it stands for, without the spares."""
        return {
            line.code: line.stands_for for line in self.coder_list if line.stands_for
        }


def label_sheet(
    state: CaseState,
    assignments: Mapping[str, str],
    *,
    spares: Sequence[str] = (),
    day: str,
    initials: str,
) -> LabelSheet:
    """Make the labels for coded pieces.

    Parameters
    ----------
    state : CaseState
        State of the case; gives its number and how sections are cut.
    assignments : mapping of str to str
        Code to what it stands for.
    spares : sequence of str
        Codes in reserve.
    day : str
        Day in ISO form.
    initials : str
        Of who labels.

    Returns
    -------
    LabelSheet
        Labels and list.
    """
    common = {"case": state.case.id, "day": day, "initials": initials}
    sections = {each.id: each.direction for each in state.records(Section)}

    def cut(code: str) -> str:
        kind, _, name = assignments.get(code, "").partition("/")
        return _ARROWS.get(sections.get(name, ""), "") if kind == "section" else ""

    return LabelSheet(
        labels=tuple(
            Label(code=code, cut=cut(code), spare=code in spares, **common)
            for code in sorted([*assignments, *spares])
        ),
        coder_list=_coder_list(assignments, spares),
    )


def _coder_list(
    assignments: Mapping[str, str], spares: Iterable[str]
) -> tuple[CoderLine, ...]:
    used = sorted(assignments.items(), key=lambda item: item[1])
    return (
        *(CoderLine(code=code, stands_for=what) for code, what in used),
        *(CoderLine(code=code, stands_for="") for code in sorted(spares)),
    )
