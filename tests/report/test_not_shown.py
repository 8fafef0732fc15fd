"""What was not shown comes from what was claimed and what was tested."""

from report_examples import example_state, like, state_of

from strandproof.records.entries import (
    CaseRecord,
    Claim,
    ClaimKind,
    ConductorType,
    Control,
    Exhibit,
    Measurement,
    Micrograph,
    Observation,
    Reading,
    Section,
    Specimen,
    Weighing,
)
from strandproof.report.not_shown import (
    coverage,
    kinds_not_touched,
    not_shown,
    untested,
)

CRYSTALS, ROUTE = ClaimKind.CRYSTAL_STATE, ClaimKind.CASTING_ROUTE


def strand(name: str = "s1") -> list[CaseRecord]:
    return [like(Specimen, id=name), like(Section, id=f"{name}-L", specimen=name)]


def rows_for(*bodies: CaseRecord) -> dict[ClaimKind, tuple[str, ...]]:
    """Give what tested each kind of claim K1."""
    rows = coverage(state_of(like(Claim), *strand(), *bodies))
    return {row.kind: row.tested_by for row in rows if row.claim.id == "K1"}


def test_every_kind_of_every_claim_has_a_row_with_its_readings() -> None:
    rows = {row.kind: row for row in coverage(example_state())}
    assert set(rows) == {CRYSTALS, ROUTE}
    assert rows[CRYSTALS].readings == (
        "Each finished core strand is one crystal over 100 m.",
    )
    assert rows[ROUTE].readings == ()


def test_without_a_weighing_everything_that_bears_counts() -> None:
    other = like(Measurement, id="ohm", measures="specimen/s1", bears_on=())
    rows = rows_for(like(Measurement, measures="specimen/s1"), other)
    assert rows == {CRYSTALS: ("f1-size",), ROUTE: ()}


def test_without_a_weighing_a_control_tests_no_claim() -> None:
    control = [*strand("c1"), like(Control, specimen="c1")]
    rows = rows_for(*control, like(Measurement, measures="specimen/c1"))
    assert rows[CRYSTALS] == ()


def test_with_a_weighing_only_its_evidence_counts() -> None:
    rows = rows_for(
        like(Measurement, measures="specimen/s1"),
        like(Measurement, id="unused", measures="specimen/s1"),
        like(Observation, evidence=("measurement/f1-size",) * 2),
        like(Weighing),
    )
    assert rows == {CRYSTALS: ("f1-size",), ROUTE: ()}


def test_observation_that_was_not_weighed_tests_nothing() -> None:
    rows = rows_for(
        like(Measurement, measures="specimen/s1"),
        like(Measurement, id="other", measures="specimen/s1"),
        like(Observation),
        like(Observation, id="O2", evidence=("measurement/other",)),
        like(Weighing),
    )
    assert rows[CRYSTALS] == ("f1-size",)


def test_weighed_observation_of_another_kind_tests_nothing() -> None:
    observation = like(Observation, bears_on=(ClaimKind.BUILD,))
    rows = rows_for(
        like(Measurement, measures="specimen/s1"), observation, like(Weighing)
    )
    assert rows[CRYSTALS] == ()


def test_observation_that_does_not_say_bears_on_what_its_evidence_does() -> None:
    observation = like(Observation, bears_on=())
    rows = rows_for(
        like(Measurement, measures="specimen/s1"), observation, like(Weighing)
    )
    assert rows == {CRYSTALS: ("f1-size",), ROUTE: ()}


def test_weighing_of_another_claim_does_not_count() -> None:
    rows = rows_for(
        like(Claim, id="K2"),
        like(Measurement, measures="specimen/s1", bears_on=(ROUTE,)),
        like(Observation),
        like(Weighing, claim="K2"),
    )
    assert rows[ROUTE] == ("f1-size",)


def test_casting_route_of_the_tag_is_named_as_untested() -> None:
    state = example_state()
    assert [(row.claim.id, row.kind) for row in untested(state)] == [("K1", ROUTE)]
    assert "K1, casting route: tested by nothing in this case." in not_shown(state)


def test_kinds_that_nobody_claimed_are_named() -> None:
    sentences = not_shown(example_state())
    assert "Oxygen: not claimed here, and not tested." in sentences
    assert "Crystal state of the finished strand: not claimed here" not in " ".join(
        sentences
    )


def test_kind_tested_on_a_control_only_counts_as_not_tested() -> None:
    control = [*strand("c1"), like(Control, specimen="c1")]
    oxygen = like(Measurement, measures="specimen/c1", bears_on=(ClaimKind.OXYGEN,))
    assert ClaimKind.OXYGEN in kinds_not_touched(state_of(*control, oxygen))


def targets(*looked_at: CaseRecord) -> list[str]:
    """Two exhibits with a core each, and one with a drain."""
    bodies: list[CaseRecord] = []
    for exhibit in ("E1", "E2"):
        core = f"{exhibit}-core"
        bodies += [
            like(Exhibit, id=exhibit),
            like(ConductorType, id=core, exhibit=exhibit, description="core"),
            like(Specimen, id=f"{exhibit}-s1", exhibit=exhibit, conductor_type=core),
            like(Section, id=f"{exhibit}-L", specimen=f"{exhibit}-s1"),
        ]
    drain = like(ConductorType, id="E1-drain", description="drain")
    sentences = not_shown(state_of(*bodies, drain, *looked_at))
    return [each for each in sentences if each.startswith("Crystals of")]


def test_conductors_that_nobody_looked_at_are_named_once() -> None:
    assert targets() == [
        "Crystals of the core: not tested.",
        "Crystals of the drain: not tested.",
    ]


def test_core_of_one_exhibit_does_not_speak_for_the_other() -> None:
    assert targets(like(Micrograph, section="E1-L")) == [
        "Crystals of the core of exhibit E2: not tested.",
        "Crystals of the drain: not tested.",
    ]


def test_reading_of_a_section_without_picture_counts_as_looking() -> None:
    readings = [
        like(Reading, id=f"r{exhibit}", reads=f"section/{exhibit}-L")
        for exhibit in ("E1", "E2")
    ]
    assert targets(*readings) == ["Crystals of the drain: not tested."]


def test_reach_counts_exhibits_in_question() -> None:
    known = [
        like(Exhibit, id="known"),
        like(Specimen, id="c1", exhibit="known"),
        like(Control, specimen="c1"),
    ]
    one = not_shown(state_of(like(Exhibit), *known))
    assert any(each.startswith("One exhibit cannot speak") for each in one)
    two = not_shown(state_of(like(Exhibit), like(Exhibit, id="E2"), *known))
    assert any(each.startswith("2 exhibits cannot speak") for each in two)


def test_empty_case_speaks_of_nothing() -> None:
    sentences = not_shown(state_of())
    assert any("nothing is said of any product" in each for each in sentences)
    assert any("No rival explanations were weighed" in each for each in sentences)
    assert sentences[-1].startswith("What anybody intended")


def test_weighed_case_does_not_say_that_nothing_was_weighed() -> None:
    assert not any("No rival" in each for each in not_shown(example_state()))
