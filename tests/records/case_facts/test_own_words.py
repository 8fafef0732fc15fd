"""Own earlier words that are due for correction (product brief, K5 and M28)."""

from report_examples import like, state_of

from strandproof.records.case_facts.own_words import own_words_due
from strandproof.records.entries import (
    CaseRecord,
    Claim,
    Correction,
    ErrorPlace,
    OwnStatement,
    Weighing,
)

OWN = like(OwnStatement, id="K5", correction_due=False)


def words(*bodies: CaseRecord) -> list[str]:
    return [due.words for due in own_words_due(state_of(like(Claim), *bodies))]


def test_words_that_nothing_contradicts_are_not_due() -> None:
    assert words(OWN) == []
    assert words(OWN, like(Weighing, result="supported")) == []


def test_contradicted_claim_makes_its_repetition_due() -> None:
    (said,) = words(OWN, like(Weighing, result="contradicted"))
    assert "correction due, it repeats K1, which is contradicted" in said


def test_last_weighing_decides() -> None:
    first = like(Weighing, id="W0", result="contradicted")
    assert words(OWN, first, like(Weighing, id="W9", result="undetermined")) == []


def test_entered_as_due_stays_due_without_a_weighing() -> None:
    (said,) = words(like(OwnStatement, id="K5", correction_due=True))
    assert said.startswith("K5, “The cores are 26 AWG.” (R's column, 2031-01-15)")


def test_places_left_are_counted_after_the_correction() -> None:
    due = like(OwnStatement, id="K5", correction_due=True)
    corrected = like(Correction, id="C1", corrects="own_statement/K5")
    where = [
        like(ErrorPlace, id=f"p{n}", correction="C1", done=n > 0) for n in range(4)
    ]
    (said,) = words(due, corrected, *where)
    assert said.endswith("corrected; places still to be corrected: 1 of 4.")
    (done,) = words(due, corrected, *where[1:])
    assert done.endswith("corrected, in every place entered.")
