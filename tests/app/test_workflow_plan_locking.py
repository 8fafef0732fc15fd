"""The plan as case H7 has it: lock, addition, deviation, every field accounted for."""

import hashlib
import json
from pathlib import Path

import pytest
from plan_examples import (
    ADDITION,
    DEVIATION,
    PLAN,
    drawn,
    planned,
    read_bench,
)
from workflow_examples import add, contents

from strandproof.app.workflow import Correction, enter
from strandproof.app.workflow.entering import open_case
from strandproof.app.workflow.plan_locking import (
    DrawnFields,
    SectionsToDraw,
    account_of,
    changes_data,
    changes_in_words,
    check_draft,
    check_plan_file,
    contact_sheet_data,
    deviate,
    lock_plan,
    plan_positions,
    read_positions,
    write_positions,
)
from strandproof.errors import (
    FixedEntryError,
    InvalidEntryError,
    LockRefusedError,
    ParameterError,
    SealMismatchError,
    UnknownLabelError,
)
from strandproof.planning import fields_account, later_changes
from strandproof.records.entries import PlanLock, PlannedField
from strandproof.records.entries.building import build_body
from strandproof.storage import Addition, Original, original_file


def test_money_blank_lock_refused(tmp_path: Path) -> None:
    desk = planned(tmp_path, interests=False)
    covers = ["gift", "relationship", "payer", "own_statements"]
    none = {"person": "R", "kind": "none_declared", "statement": "None of these."}
    when = {"declared_at": "2031-03-20T12:00:00Z", "covers": covers}
    add(desk, [("disclosure", {"id": "rest", **none, **when})])
    before = contents(desk.folder)
    with pytest.raises(LockRefusedError, match="^Money blank: lock refused."):
        lock_plan(desk, PLAN)
    assert contents(desk.folder) == before


def test_all_interests_blank_are_all_named(tmp_path: Path) -> None:
    with pytest.raises(LockRefusedError) as refusal:
        lock_plan(planned(tmp_path, interests=False), PLAN)
    assert refusal.value.blanks == (
        *("Money blank", "Gift blank", "Relationship blank"),
        *("Payer blank", "Own statements blank"),
    )


def test_locked_hash_is_that_of_the_published_file(tmp_path: Path) -> None:
    desk = planned(tmp_path)
    locked = lock_plan(desk, PLAN, drawn=drawn())
    state = open_case(desk.folder)
    kept = original_file(desk.folder, state, locked.plan_sha256).read_bytes()
    assert hashlib.sha256(kept).hexdigest() == locked.plan_sha256
    assert check_plan_file(desk.folder, "plan-1") == locked.plan_sha256
    published = json.loads(kept)
    assert len(published["planned_fields"]) == 54
    assert published["field_draw"]["seed"] == 2031
    assert published["disclosures"] == ["None, declared by R on 2031-03-20."]
    assert "plan_sha256" not in published


def test_a_plan_typed_with_another_file_is_found_out(tmp_path: Path) -> None:
    desk = planned(tmp_path)
    original = Original(b"something else", "plan.txt", "text/plain")
    moment = {"locked_at": desk.clock(), "locked_by": "R"}
    fields = {**PLAN, **moment, "plan_sha256": original.sha256}
    before = contents(desk.folder)
    with pytest.raises(FixedEntryError, match="made by 'strandproof lock-plan' alone"):
        enter(desk, "plan_lock", fields)
    assert contents(desk.folder) == before
    desk.add(Addition(build_body("plan_lock", fields), (original,)))
    with pytest.raises(SealMismatchError, match="The file of plan plan-1"):
        check_plan_file(desk.folder, "plan-1")


def test_addition_before_any_result_and_deviation_after(tmp_path: Path) -> None:
    desk = planned(tmp_path)
    lock_plan(desk, PLAN)
    deviate(desk, ADDITION, drawn=drawn())
    read_bench(desk)
    deviate(desk, DEVIATION)
    addition, deviation = later_changes(open_case(desk.folder))
    assert addition.heading == "Addition 1, before any result"
    assert not addition.change.results_seen
    assert deviation.words == (
        "Deviation 1, after results were seen: section dropped, 'over-etched' (A2); "
        "A1 had read it."
    )
    assert deviation.change.results_seen
    assert deviation.agrees


def test_54_fields_53_used(tmp_path: Path) -> None:
    desk = planned(tmp_path)
    lock_plan(desk, PLAN)
    deviate(desk, ADDITION, drawn=drawn())
    read_bench(desk)
    before = fields_account(open_case(desk.folder))
    assert [each.standing for each in before.not_used] == ["readers differ"]
    deviate(desk, DEVIATION)
    account = account_of(desk.folder)
    assert account.sentence == "54 fields; 53 used (45 of 45, 8 of 9)"
    (line,) = account.lines[1:]
    assert line == (
        "The face of E2-s3-T, dropped: Deviation 1, after results were seen: section "
        "dropped, 'over-etched' (A2); A1 had read it."
    )
    sheet = contact_sheet_data(account)
    assert len(sheet["fields"]) == 54
    assert sheet["fields"][0]["readers"] == ["A1"]
    assert {each["code"] for each in sheet["fields"][:5]} == {"ZJP-250"}


def test_the_persons_word_does_not_decide(tmp_path: Path) -> None:
    desk = planned(tmp_path)
    lock_plan(desk, PLAN, drawn=drawn())
    read_bench(desk)
    deviate(desk, {**DEVIATION, "results_seen": False})
    (change,) = later_changes(open_case(desk.folder))
    assert change.results_seen
    assert not change.agrees
    words = changes_in_words(desk.folder)
    assert words[0].startswith("Deviation 1, after results were seen")
    assert words[1].startswith("By the record: 2 results of these and 91 results of")
    assert words[2] == ("By the word of R: none was seen. Word and record differ.")
    assert changes_data(desk.folder)[0]["agrees"] is False


def test_results_of_other_things_are_told(tmp_path: Path) -> None:
    desk = planned(tmp_path)
    lock_plan(desk, PLAN)
    read_bench(desk)
    more = plan_positions(SectionsToDraw(long_sections=["E4-s1-L"], faces=[]), seed=3)
    deviate(desk, ADDITION, drawn=more)
    (change,) = later_changes(open_case(desk.folder))
    assert change.heading == "Addition 1, before any result of these"
    assert not change.results_seen
    assert len(change.other_results) == 93


def test_additions_and_deviations_are_numbered_apart(tmp_path: Path) -> None:
    desk = planned(tmp_path)
    lock_plan(desk, PLAN)
    for number, kind in enumerate(("addition", "deviation", "addition"), 1):
        deviate(desk, {**ADDITION, "id": f"c{number}", "kind": kind})
    headings = [each.heading for each in later_changes(open_case(desk.folder))]
    assert headings == [
        "Addition 1, before any result",
        "Deviation 1, before any result",
        "Addition 2, before any result",
    ]


def test_lock_deviation_and_plan_are_never_corrected(tmp_path: Path) -> None:
    desk = planned(tmp_path)
    lock = lock_plan(desk, PLAN).entry
    change = deviate(desk, ADDITION)
    before = contents(desk.folder)
    plan = open_case(desk.folder).record(PlanLock, "plan-1").model_dump(mode="json")
    again = Correction(lock.number, "looks better")
    with pytest.raises(FixedEntryError, match="Plan lock plan-1 stands as it was"):
        enter(desk, "plan_lock", {**plan, "stop_rule": "later"}, corrects=again)
    fields = change.body.model_dump(mode="json")
    with pytest.raises(FixedEntryError, match="Deviation addition-1 stands"):
        enter(
            desk,
            "deviation",
            {**fields, "reason": "another"},
            corrects=Correction(change.number, "x"),
        )
    assert contents(desk.folder) == before


def test_bad_changes_are_refused_and_leave_nothing(tmp_path: Path) -> None:
    desk = planned(tmp_path)
    lock_plan(desk, PLAN, drawn=drawn())
    deviate(desk, DEVIATION)
    before = contents(desk.folder)
    with pytest.raises(UnknownLabelError, match="plan-9"):
        deviate(desk, {**ADDITION, "plan": "plan-9"})
    drops = ({"section": "E9-T", "number": 1},)
    with pytest.raises(ParameterError, match="dropped field was given as 'E9-T, 1'"):
        deviate(desk, {**DEVIATION, "id": "d2", "drops": drops})
    with pytest.raises(ParameterError, match="not dropped before"):
        deviate(desk, {**DEVIATION, "id": "d2"})
    with pytest.raises(ParameterError, match="no plan of the case has yet"):
        deviate(desk, ADDITION, drawn=drawn(7))
    with pytest.raises(InvalidEntryError, match="reason"):
        deviate(desk, {**ADDITION, "reason": ""})
    assert contents(desk.folder) == before


def test_a_plan_with_moved_places_is_refused(tmp_path: Path) -> None:
    given = drawn()
    moved = PlannedField(section="E1-s1-L", number=1, position_mm=0.001)
    wrong = DrawnFields(draw=given.draw, fields=(moved, *given.fields[1:]))
    with pytest.raises(LockRefusedError, match="Places other than those that seed"):
        lock_plan(planned(tmp_path / "a"), PLAN, drawn=wrong)
    path = tmp_path / "places.json"
    write_positions(wrong, path)
    with pytest.raises(InvalidEntryError, match="seed 2031 gives other places"):
        read_positions(path)


def test_positions_come_back_from_their_file(tmp_path: Path) -> None:
    path = tmp_path / "places.json"
    write_positions(drawn(), path)
    assert read_positions(path) == drawn()
    path.with_name("x.json").write_text("[]", encoding="utf-8")
    with pytest.raises(InvalidEntryError, match="file of planned fields"):
        read_positions(path.with_name("x.json"))


def test_a_seed_is_drawn_when_none_is_given() -> None:
    wanted = SectionsToDraw(long_sections=["a"], faces=[])
    one, other = plan_positions(wanted), plan_positions(wanted)
    assert one.draw.seed != other.draw.seed
    with pytest.raises(InvalidEntryError, match="fields_per_section"):
        plan_positions(
            SectionsToDraw(long_sections=["a"], faces=[], fields_per_section=0)
        )
    with pytest.raises(InvalidEntryError, match="name one or more"):
        plan_positions(SectionsToDraw(long_sections=[], faces=[]))


def test_check_names_what_is_missing_without_entering(tmp_path: Path) -> None:
    desk = planned(tmp_path)
    before = contents(desk.folder)
    state = open_case(desk.folder)
    found = check_draft(state, {**PLAN, "hypotheses": ("G1",)}, drawn())
    assert found.blanks == ("Hypotheses: 1 of at least two",)
    assert any("known single crystal" in line for line in found.ceiling)
    assert contents(desk.folder) == before


def test_unread_and_unreadable_fields_are_listed(tmp_path: Path) -> None:
    desk = planned(tmp_path)
    lock_plan(desk, PLAN, drawn=drawn())
    account = fields_account(open_case(desk.folder))
    assert account.sentence == "54 fields; 0 used (0 of 45, 0 of 9)"
    assert {each.standing for each in account.not_used} == {"not read"}
    read_bench(desk)
    common = {"reader": "A3", "blind": True, "read_at": desk.clock()}
    bad = {"verdict": "not_readable", "reason": "scratched", "reads": "section/E1-s1-L"}
    add(desk, [("reading", {"id": "r", **common, **bad, "field_number": 2})])
    standings = [
        (each.name, each.standing)
        for each in fields_account(open_case(desk.folder)).not_used
    ]
    assert standings == [
        ("field 2 of E1-s1-L", "readers differ"),
        ("the face of E2-s3-T", "readers differ"),
    ]


def test_no_plan_no_fields(tmp_path: Path) -> None:
    assert account_of(planned(tmp_path).folder).lines == ("No field was planned.",)
