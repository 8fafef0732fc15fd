"""What a plan lacks before it is locked: rivals, directions, controls, rules."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from strandproof.planning.positions import drawn_by
from strandproof.records.entries import (
    ClaimKind,
    Control,
    FieldDraw,
    Hypothesis,
    PlannedField,
)
from strandproof.weighing import (
    bench_tests,
    one_sided,
    planned_controls_ceiling,
    separation_table,
    stands_for,
    usual_rivals_missing,
)

_ABOUT_CRYSTALS = {ClaimKind.CRYSTAL_STATE, ClaimKind.CASTING_ROUTE}
_SECTION_TESTS = {"field": "etched_section.long"} | {
    "whole_face": "etched_section.transverse"
}


@dataclass(frozen=True, slots=True, kw_only=True)
class DraftPlan:
    """A plan as far as its check needs it.

    Parameters
    ----------
    claims : tuple of str
        Names of the claims it covers.
    hypotheses : tuple of Hypothesis
        Those of the plan, and those left out with a reason.
    tests : tuple of str
        Tests, by their key or name in the table or in free words.
    fields : tuple of PlannedField
        Places to be looked at.
    draw : FieldDraw or None
        How the places are said to have been drawn.
    controls : tuple of Control
        Known pieces of the case.
    counting_rules : tuple of str
        Rules for counting.
    """

    claims: tuple[str, ...]
    hypotheses: tuple[Hypothesis, ...]
    tests: tuple[str, ...]
    fields: tuple[PlannedField, ...] = ()
    draw: FieldDraw | None = None
    controls: tuple[Control, ...] = ()
    counting_rules: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class PlanCheck:
    """What the check found.

    Parameters
    ----------
    blanks : tuple of str
        What keeps the plan from being locked, one phrase each.
    remarks : tuple of str
        What may stand, but is printed with the plan.
    ceiling : tuple of str
        What the controls can support if all are read right, or that they cannot
        support anything; empty for a plan without sections.
    """

    blanks: tuple[str, ...]
    remarks: tuple[str, ...]
    ceiling: tuple[str, ...]


def check_plan(draft: DraftPlan) -> PlanCheck:
    """Look for what usually goes wrong in a plan.

    Knows only what the tables list; a plan without remarks may still be poor.

    Parameters
    ----------
    draft : DraftPlan
        The plan.

    Returns
    -------
    PlanCheck
        Blanks that keep it from being locked, and remarks that are printed with it.
    """
    return PlanCheck(
        blanks=tuple(_blanks(draft)),
        remarks=tuple(_remarks(draft)),
        ceiling=_ceiling(draft),
    )


def known_tests(tests: Iterable[str]) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """Part tests into those of the table, by key, and those in free words.

    Parameters
    ----------
    tests : iterable of str
        Keys, first parts of keys, names, or free words.

    Returns
    -------
    keys, others : tuple of str
        In the order given.

    Examples
    --------
    >>> known_tests(["long section", "etched_section", "listening"])[1]
    ('listening',)
    """
    table = bench_tests()
    keys: list[str] = []
    others: list[str] = []
    for test in tests:
        found = [
            key
            for key, known in table.items()
            if test in {key, known.name} or key.startswith(f"{test}.")
        ]
        keys += found
        if not found:
            others.append(test)
    return tuple(dict.fromkeys(keys)), tuple(others)


def _blanks(draft: DraftPlan) -> list[str]:
    weighed = [each for each in draft.hypotheses if not each.left_out_because.strip()]
    found = []
    if len(weighed) < 2:
        found.append(f"Hypotheses: {len(weighed)} of at least two")
    if not draft.tests:
        found.append("Tests blank")
    if draft.fields and not draft.counting_rules:
        found.append("Counting rules blank")
    if draft.fields and draft.draw is None and _has_places(draft.fields):
        found.append("Draw of the places blank")
    if draft.draw is not None and not drawn_by(draft.fields, draft.draw):
        found.append(f"Places other than those that seed {draft.draw.seed} gives")
    return found


def _has_places(fields: Iterable[PlannedField]) -> bool:
    return any(each.extent == "field" for each in fields)


def _remarks(draft: DraftPlan) -> list[str]:
    weighed = [each for each in draft.hypotheses if not each.left_out_because.strip()]
    about_crystals = [each for each in draft.hypotheses if each.kind in _ABOUT_CRYSTALS]
    remarks = [one_sided(weighed, claim) for claim in draft.claims]
    if about_crystals:
        remarks.append(usual_rivals_missing(about_crystals).sentence)
    tests, others = _tests(draft)
    remarks += _of_tests(tests, weighed)
    if others:
        remarks.append(
            "Not in the table of tests, so nothing is said of what they separate: "
            f"{', '.join(others)}."
        )
    return [each for each in remarks if each]


def _of_tests(tests: Sequence[str], weighed: Sequence[Hypothesis]) -> list[str]:
    """Say what the tests leave apart, and where nothing separates two hypotheses."""
    labels = [stands_for(each) for each in weighed if each.kind in _ABOUT_CRYSTALS]
    if not tests or len(set(labels)) < 2:
        return []
    table = separation_table(tests, hypotheses=tuple(dict.fromkeys(labels)))
    unseparated = [f"{pair.words}." for pair in table.pairs if not pair.by]
    return [*table.warnings, *unseparated]


def _tests(draft: DraftPlan) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """Part the tests, those that the planned fields imply among them."""
    implied = (_SECTION_TESTS[each.extent] for each in draft.fields)
    return known_tests([*draft.tests, *implied])


def _ceiling(draft: DraftPlan) -> tuple[str, ...]:
    """Say what the controls can support; only sections need controls."""
    tests, _ = _tests(draft)
    if not any(test.startswith("etched_section") for test in tests):
        return ()
    return planned_controls_ceiling(draft.controls, specimen_mounts=()).words
