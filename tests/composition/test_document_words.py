from datetime import UTC, datetime

import pytest

from strandproof.composition import claim_and_papers, judge_document
from strandproof.errors import MissingMeasurementError
from strandproof.records.entries import (
    Claim,
    ClaimKind,
    Document,
    SpeakerRole,
)
from strandproof.records.entries.claims import ClaimReading

M3 = (
    "Bears on composition of an 8 mm rod, heat 77-B, 14 elements. Cannot bear on "
    "crystal state. Not linked to any exhibit's lot. Oxygen not reported."
)
ELEMENTS = (
    "Ag",
    "As",
    "Bi",
    "Cd",
    "Co",
    "Cr",
    "Fe",
    "Mn",
    "Ni",
    "P",
    "Pb",
    "Sb",
    "Sn",
    "Zn",
)


def mill(**changes: object) -> Document:
    fields = {
        "id": "mill",
        "title": "mill certificate",
        "issuer": "a mill",
        "item": "8 mm rod",
        "lot": "heat 77-B",
        "paper_kind": "mill_certificate",
        "elements": ELEMENTS,
        "offered_for": ("K2",),
        **changes,
    }
    return Document.model_validate(fields)


def claim() -> Claim:
    return Claim(
        id="K2",
        words="4N7 copper (99.997 %)",
        speaker_role=SpeakerRole.MAKER,
        speaker="Wexcombe Twine Works",
        medium="data sheet",
        said_at=datetime(2031, 3, 4, tzinfo=UTC),
        kinds=(ClaimKind.COMPOSITION,),
        readings=(ClaimReading(words="99.997 % copper", kind=ClaimKind.COMPOSITION),),
        captures=("K2",),
    )


def test_the_mill_certificate_of_the_brief() -> None:
    judged = judge_document(mill(), ("3107", "3044", ""))
    assert judged.paragraph == M3
    assert not judged.lot_linked
    assert claim_and_papers(claim(), [judged]) == (
        "K2, “4N7 copper (99.997 %)”: composition unsupported by papers."
    )


def test_a_linked_lot_supports_composition_but_never_crystal_state() -> None:
    judged = judge_document(mill(), ("heat 77-B",))
    assert "Not linked" not in judged.paragraph
    assert "Cannot bear on crystal state." in judged.sentences
    assert "a paper bears on each kind" in claim_and_papers(claim(), [judged])


def test_oxygen_is_borne_on_only_where_it_is_listed() -> None:
    judged = judge_document(mill(elements=(*ELEMENTS, "O")), ())
    assert judged.sentences[0].startswith("Bears on composition, oxygen of an 8 mm rod")
    assert "Oxygen not reported." not in judged.sentences


def test_an_empty_lot_mark_links_nothing() -> None:
    assert not judge_document(mill(lot=""), ("",)).lot_linked


def test_a_licence_bears_on_nothing_and_a_tag_only_states() -> None:
    licence = judge_document(mill(paper_kind="licence", elements=()), ())
    assert licence.sentences[0] == (
        "A licence or trade-mark paper bears on nothing claimed."
    )
    tag = judge_document(mill(paper_kind="hang_tag", elements=()), ())
    assert "a claim, not evidence." in tag.sentences[0]
    assert "Cannot bear on crystal state." not in tag.sentences


def test_a_paper_without_its_kind_is_asked_for_it() -> None:
    with pytest.raises(MissingMeasurementError, match="kind of paper of mill"):
        judge_document(mill(paper_kind=""), ())


def test_a_linked_paper_without_oxygen_leaves_an_oxygen_claim_unsupported() -> None:
    about = claim().model_copy(update={"kinds": (ClaimKind.OXYGEN,)})
    silent = judge_document(mill(), ("heat 77-B",))
    assert "oxygen unsupported by papers" in claim_and_papers(about, [silent])
    listed = judge_document(mill(elements=(*ELEMENTS, "O")), ("heat 77-B",))
    assert "a paper bears on each kind" in claim_and_papers(about, [listed])
