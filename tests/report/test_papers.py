"""Papers offered in a case, as the report shows them."""

from report_examples import like, state_of

from strandproof.records.case_state import CaseState
from strandproof.records.entries import Capture, Claim, ClaimKind, Document, Exhibit
from strandproof.report.papers import papers_on_claims, papers_section


def case_with(**changes: object) -> CaseState:
    fields = {
        "id": "mill",
        "item": "8 mm rod",
        "lot": "heat 77-B",
        "paper_kind": "mill_certificate",
        "elements": ("Fe", "Ag"),
        "offered_for": ("K1",),
        **changes,
    }
    claim = like(Claim, kinds=(ClaimKind.COMPOSITION,))
    exhibit = like(Exhibit, lot_mark="3107", purchase=None, pictures=())
    return state_of(like(Capture), claim, exhibit, like(Document, **fields))


def test_a_paper_is_judged_and_its_claim_stays_unsupported() -> None:
    section = papers_section(case_with())
    (paper,) = section.papers
    assert paper.paragraph == (
        "Bears on composition of an 8 mm rod, heat 77-B, 2 elements. Cannot bear on "
        "crystal state. Not linked to any exhibit's lot. Oxygen not reported."
    )
    assert len(paper.rows) == len(ClaimKind)
    (sentence,) = section.on_claims
    assert sentence.endswith("composition unsupported by papers.")


def test_a_linked_lot_lifts_the_claim() -> None:
    (sentence,) = papers_on_claims(case_with(lot="3107")).values()
    assert "a paper bears on each kind" in sentence


def test_a_paper_of_unknown_kind_is_shown_and_not_judged() -> None:
    for kind in ("", "diploma"):
        section = papers_section(case_with(paper_kind=kind))
        assert section.papers[0].paragraph.startswith("Not judged")
        assert section.on_claims == ()


def test_a_case_without_papers_has_no_section() -> None:
    assert papers_section(state_of()).papers == ()
