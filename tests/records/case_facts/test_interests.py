"""Money, interests, permissions: sums and blanks.

61.40, 214.90, 31 hours and 380 are those of the product brief, S1 and S15.
"""

from typing import get_args

import pytest
from case_examples import moment
from hypothesis import given
from hypothesis import strategies as st
from report_examples import like, state_of

from strandproof.records.case_facts.interests import (
    cost_sums,
    disclosure_blockers,
    disclosure_paragraph,
    lock_blockers,
    people_at_work,
    publication_blockers,
)
from strandproof.records.entries import (
    CaseRecord,
    Claim,
    Cost,
    Disclosure,
    Measurement,
    OwnStatement,
    Permission,
    Reading,
    Section,
)
from strandproof.records.entries.claims import InterestKind, PermissionKind

NONE = {"kind": "none_declared", "statement": "none", "amount": None, "currency": ""}


def none_declared(person: str = "R", *covers: str, name: str = "none") -> Disclosure:
    return like(Disclosure, id=name, person=person, covers=covers, **NONE)


def cost(name: str, **changes: object) -> Cost:
    return like(Cost, **{"id": name, "amount": None, "hours": None, **changes})


def permission(*answers: str, **changes: object) -> Permission:
    return like(
        Permission,
        **{"person": "A1", "subject": "all", "granted": "yes", "concerns": ()}
        | {"answers": answers}
        | changes,
    )


def blank(*bodies: CaseRecord) -> list[str]:
    """Kinds that are blank, by the words of their question."""
    return [
        each.partition("blank: ")[2] for each in disclosure_blockers(state_of(*bodies))
    ]


def test_money_left_blank_refuses_the_lock() -> None:
    all_but = none_declared("R", "gift", "relationship", "payer", "own_statements")
    (only,) = disclosure_blockers(state_of(all_but))
    assert only.startswith("Interests of R, blank: fees, links, commissions")
    assert only in lock_blockers(state_of(all_but))


def test_commission_fills_money_and_stands_in_the_first_paragraph() -> None:
    words = (
        "61.40 commission from the column's link to Lantern Row, whose K3 the column "
        "repeated, January to March, paid to a charity 03-20, receipt attached"
    )
    declared = like(Disclosure, statement=words, amount=61.40)
    rest = none_declared("R", "gift", "relationship", "payer", "own_statements")
    state = state_of(declared, rest)
    assert disclosure_blockers(state) == ()
    assert disclosure_paragraph(state).startswith(f"Interests declared: {words}.")
    assert "declared by R on 2031-03-20" in disclosure_paragraph(state)


def test_bare_none_fills_every_question() -> None:
    state = state_of(none_declared())
    assert disclosure_blockers(state) == ()
    assert disclosure_paragraph(state) == (
        "Interests declared: None, declared by R on 2031-03-20."
    )


def test_nothing_entered_is_said_in_the_paragraph_too() -> None:
    paragraph = disclosure_paragraph(state_of())
    assert paragraph == "R has not said anything of own interests yet."
    assert len(blank()) == len(get_args(InterestKind))


def test_somebody_elses_declaration_fills_nothing_of_the_owners() -> None:
    assert len(blank(none_declared("A1"))) == len(get_args(InterestKind))
    others = disclosure_paragraph(state_of(none_declared("A1")))
    assert others.startswith("Interests declared: None, declared by A1")
    assert others.endswith("R has not said anything of own interests yet.")


@given(st.sets(st.sampled_from(get_args(InterestKind))))
def test_each_question_is_blank_until_it_is_answered(answered: set[str]) -> None:
    bodies = [none_declared("R", kind, name=f"no-{kind}") for kind in answered]
    wanted = len(get_args(InterestKind)) - len(answered)
    assert len(blank(*bodies)) == wanted


def test_cost_says_who_pays_and_an_own_statement_is_one() -> None:
    before = len(blank())
    assert len(blank(like(Cost))) == before - 1
    assert len(blank(like(OwnStatement, repeats_claim=None))) == before - 1


def test_lock_wants_a_claim_as_well() -> None:
    assert lock_blockers(state_of(none_declared())) == ("No claim is frozen yet.",)
    assert lock_blockers(state_of(none_declared(), like(Claim))) == ()


def test_sums_of_the_brief_by_currency_and_hours() -> None:
    state = state_of(
        cost("leads", amount=214.90, currency="EUR"),
        cost("laboratory", amount=380, currency="EUR"),
        cost("hours", hours=31),
        cost("postage", amount=4.5, currency="NOK", paid_by="C"),
    )
    sums = cost_sums(state)
    assert [currency for currency, _ in sums.money] == ["EUR", "NOK"]
    amounts = [amount for _, amount in sums.money]
    assert amounts == pytest.approx([594.90, 4.5], rel=0, abs=1e-9)
    assert sums.hours == 31
    assert sums.payers == ("R", "C")
    assert sums.without_sum == ()


@given(st.lists(st.integers(0, 10**6).map(lambda cents: cents / 100), max_size=30))
def test_sum_is_that_of_the_cents(amounts: list[float]) -> None:
    bodies = [cost(f"c{n}", amount=a, currency="EUR") for n, a in enumerate(amounts)]
    money = dict(cost_sums(state_of(*bodies)).money)
    cents = sum(round(100 * amount) for amount in amounts)
    assert round(100 * money.get("EUR", 0.0)) == cents


def publication(*bodies: CaseRecord) -> tuple[str, ...]:
    return publication_blockers(state_of(none_declared(), like(Claim), *bodies))


def test_cost_without_sum_and_hours_blocks_publication_only() -> None:
    state = state_of(none_declared(), like(Claim), cost("x", purpose="saw"))
    assert lock_blockers(state) == ()
    assert publication_blockers(state) == (
        "Cost “saw”: neither a sum nor hours are entered.",
    )


def test_everybody_at_work_declares_and_permits_before_publication() -> None:
    section = like(Section, made_by="A1")
    assert people_at_work(state_of(section, like(Reading, reader="R"))) == ("A1",)
    blanks = publication(section)
    assert len(blanks) == 3 + len(get_args(PermissionKind))
    assert "A1, blank: may pictures be shown cropped?" in blanks
    all_four = permission(*get_args(PermissionKind))
    assert publication(section, none_declared("A1", name="a1"), all_four) == ()


def test_program_declares_nothing_but_whoever_started_it_does() -> None:
    by = "Strandproof, started by A2"
    assert people_at_work(state_of(like(Measurement, measured_by=by))) == ("A2",)


def test_no_is_an_answer_and_not_answered_is_none() -> None:
    section = like(Section, made_by="A1")
    ties = none_declared("A1", name="a1")
    refused = permission(*get_args(PermissionKind), granted="no")
    assert publication(section, ties, refused) == ()
    silent = permission(*get_args(PermissionKind), granted="not_answered")
    assert len(publication(section, ties, silent)) == 4


def test_older_permission_answers_what_its_subject_names() -> None:
    older = permission(subject="naming of students; quotation")
    assert publication(older) == (
        "A1, blank: may pictures be shown?",
        "A1, blank: may pictures be shown cropped?",
    )


def test_declared_on_another_day_says_that_day() -> None:
    late = none_declared().model_copy(update={"declared_at": moment(5, 2)})
    assert "on 2031-05-02" in disclosure_paragraph(state_of(late))
