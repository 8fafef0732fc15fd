"""The check of a plan: rivals, directions, controls, rules, places."""

from typing import Any

from strandproof.planning import (
    DraftPlan,
    check_plan,
    draw_fields,
    known_tests,
)
from strandproof.records.entries import (
    ClaimKind,
    Control,
    FieldDraw,
    Hypothesis,
    PlannedField,
)

CRYSTAL = Control(
    id="C1", specimen="C1", kind="single_crystal", known_by="diffraction", mount="m1"
)
SOFT = Control(id="C3", specimen="C3", kind="polycrystal", known_by="papers")


def hypothesis(name: str, *, because: str = "", speaks: str = "") -> Hypothesis:
    return Hypothesis(
        id=name,
        statement="A statement.",
        kind=ClaimKind.CRYSTAL_STATE,
        speaks_for=(speaks,) if speaks else (),
        left_out_because=because,
    )


ALL = tuple(
    hypothesis(name, speaks="K1" if name == "X1" else "")
    for name in ("X1", "X2", "X3", "X4", "X5", "X8")
)


def draft(**changes: Any) -> DraftPlan:  # noqa: ANN401 - any field
    fields: dict[str, Any] = {
        "claims": ("K1",),
        "hypotheses": ALL,
        "tests": ("etched_section.long", "as_polished"),
        "controls": (CRYSTAL, SOFT),
        "counting_rules": ("twins not counted",),
    }
    return DraftPlan(**{**fields, **changes})


def test_a_full_plan_has_no_blank_and_says_what_nothing_separates() -> None:
    found = check_plan(draft())
    assert found.blanks == ()
    assert any(line.startswith("X3-X4: nothing on your list") for line in found.remarks)
    assert not any("usual" in line for line in found.remarks)


def test_leaving_x3_and_x5_out_is_told() -> None:
    few = (hypothesis("X1", speaks="K1"), hypothesis("X4"))
    (line,) = [x for x in check_plan(draft(hypotheses=few)).remarks if "usual" in x]
    assert line == (
        "Two more are usual: heated-mould rod drawn and annealed (X3); tough-pitch "
        "(X5). Add, or say why not."
    )


def test_a_rival_left_out_with_a_reason_is_not_missing() -> None:
    few = (*ALL[:2], hypothesis("X3", because="no rod"), *ALL[3:])
    assert not any("usual" in x for x in check_plan(draft(hypotheses=few)).remarks)


def test_transverse_only_is_told_from_the_fields_alone() -> None:
    faces = (PlannedField(section="a-T", number=1, extent="whole_face"),)
    found = check_plan(draft(tests=("resistance",), fields=faces))
    assert any(line.startswith("Transverse sections only") for line in found.remarks)


def test_sections_without_a_single_crystal_are_told() -> None:
    said = (
        "Without a known single crystal through the same steps you cannot show that "
        "preparation makes no false boundaries."
    )
    assert check_plan(draft(controls=(SOFT,))).ceiling[0] == said
    assert check_plan(draft(controls=())).ceiling[0] == said
    assert said not in check_plan(draft()).ceiling


def test_ceiling_of_the_controls_is_told_before_the_lock() -> None:
    four = tuple(CRYSTAL.model_copy(update={"id": f"C{k}"}) for k in range(4))
    soft = tuple(SOFT.model_copy(update={"id": f"S{k}"}) for k in range(2))
    told = check_plan(draft(controls=(*four, *soft))).ceiling
    assert told[0].startswith(
        "If all four are read blind and right, the ceiling is 1.8"
    )
    assert any("0.42, no support" in line for line in told)
    assert check_plan(draft(tests=("resistance",), controls=())).ceiling == ()


def test_a_claim_without_a_hypothesis_for_it_is_told() -> None:
    found = check_plan(draft(claims=("K1", "K9")))
    assert any("K9" in line for line in found.remarks)


def test_blanks() -> None:
    field = PlannedField(section="a-L", number=1, position_mm=1.0)
    found = check_plan(
        draft(hypotheses=ALL[:1], tests=(), counting_rules=(), fields=(field,))
    )
    assert found.blanks == (
        "Hypotheses: 1 of at least two",
        "Tests blank",
        "Counting rules blank",
        "Draw of the places blank",
    )


def test_places_that_the_seed_does_not_give_are_blank() -> None:
    draw = FieldDraw(
        seed=1, fields_per_section=2, section_length_mm=5, field_width_mm=0.3
    )
    drawn = draw_fields(["a-L"], [], draw=draw)
    assert check_plan(draft(fields=drawn, draw=draw)).blanks == ()
    found = check_plan(draft(fields=drawn[:1], draw=draw))
    assert found.blanks == ("Places other than those that seed 1 gives",)


def test_tests_are_known_by_key_name_or_first_part() -> None:
    keys, others = known_tests(["long section", "etched_section", "listening"])
    assert keys == ("etched_section.long", "etched_section.transverse")
    assert others == ("listening",)
    found = check_plan(draft(tests=("long section", "listening")))
    assert any("listening" in line for line in found.remarks)
