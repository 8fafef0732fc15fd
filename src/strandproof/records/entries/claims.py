"""What was said, by whom, and what stands behind it: claims, papers, interests."""

from enum import StrEnum
from typing import Annotated, Literal, Self

from pydantic import Field, model_validator

from strandproof.records.entries.bodies import (
    CaptureLabel,
    CaseRecord,
    ClaimLabel,
    FileHash,
    FrozenModel,
    Reference,
    Text,
    UtcTime,
)


class ClaimKind(StrEnum):
    """What a claim is about; each kind needs other evidence."""

    COMPOSITION = "composition"
    OXYGEN = "oxygen"
    CASTING_ROUTE = "casting_route"
    CRYSTAL_STATE = "crystal_state"
    BUILD = "build"
    PERFORMANCE = "performance"


class SpeakerRole(StrEnum):
    """Who says something."""

    MAKER = "maker"
    SHOP = "shop"
    IMPORTER = "importer"
    TESTER = "tester"
    LABORATORY = "laboratory"
    OTHER = "other"


InterestKind = Literal["money", "gift", "relationship", "payer", "own_statements"]
"""What the sheet of interests asks for."""

PermissionKind = Literal["pictures", "cropping", "quotation", "naming"]
"""What laboratory and persons are asked."""


class Case(CaseRecord):
    """The case itself; always the first entry."""

    title: Text
    """What the case asks, in neutral words."""
    question: str = ""
    """The question that the case is to answer."""
    owner: Text
    """Who is responsible for the case."""
    language: Annotated[str, Field(pattern=r"^[a-z]{2,3}(-[A-Za-z0-9]+)*$")] = "en"
    """Language of the case (BCP 47)."""


class Capture(CaseRecord):
    """A frozen copy of a place where something was said: page, tag, recording."""

    medium: Text
    """Product page, hang tag, data sheet, interview, advertisement ..."""
    place: Text
    """Where: address of the page, number of the document, name of the recording."""
    captured_at: UtcTime
    """When the copy was made."""
    captured_by: str = ""
    """Who made it."""
    file_sha256: FileHash
    """The copy."""
    complete: bool = True
    """True when the whole place was captured, so that absent words mean "not said"."""
    earlier_capture: CaptureLabel | None = None
    """An earlier capture of the same place, for comparing."""
    speaker_role: SpeakerRole | None = None
    """Whose place it is, where no claim shown there says so."""
    unchanged_since: UtcTime | None = None
    """Earliest moment since when the place is known to read the same."""


class CaptureSearch(CaseRecord):
    """A copy of a place searched for words: only this makes words "not said" there."""

    capture: CaptureLabel
    """The copy that was searched."""
    looked_for: Annotated[tuple[Text, ...], Field(min_length=1)]
    """Words looked for."""
    found: tuple[Text, ...] = ()
    """Those of them that stand there."""
    method: Text
    """How: read, listened to, searched by the program."""
    searched_at: UtcTime
    """When."""
    searched_by: Text
    """Who."""

    @model_validator(mode="after")
    def _found_was_looked_for(self) -> Self:
        for words in self.found:
            if words not in self.looked_for:
                msg = f"{words!r} was found but is not among the words looked for"
                raise ValueError(msg)
        return self


class ClaimReading(FrozenModel):
    """One way to read a claim, stated so that it can be tested."""

    words: Text
    """The reading as a statement that a test could contradict."""
    kind: ClaimKind
    """What this reading is about."""
    literal: bool = True
    """True when the words say it; false when they suggest it."""


class Claim(CaseRecord):
    """A statement about a product: exact words, speaker, place and time."""

    words: Text
    """The exact words."""
    language: str = "en"
    """Language of the words."""
    translation: str = ""
    """Translation, with the translator's name, where the words are foreign."""
    speaker_role: SpeakerRole
    """Who says it."""
    speaker: Text
    """Name of the speaker."""
    medium: Text
    """Product page, hang tag, data sheet, interview ..."""
    place: str = ""
    """Where it can be found."""
    said_at: UtcTime
    """When it was said or seen."""
    kinds: Annotated[tuple[ClaimKind, ...], Field(min_length=1)]
    """What it is about; one claim may be of two kinds."""
    readings: Annotated[tuple[ClaimReading, ...], Field(min_length=1)]
    """Ways to read it; the first is the one put to the test."""
    captures: Annotated[tuple[CaptureLabel, ...], Field(min_length=1)]
    """Captures that show the words."""
    product: str = ""
    """Product and variant that the words are about."""
    price: str = ""
    """Price shown beside the words."""
    region: str = ""
    """Country or region that the place speaks to."""
    wordings: tuple[Text, ...] = ()
    """Parts of the exact words that other places are searched for; none: all of it."""

    @model_validator(mode="after")
    def _wordings_stand_in_the_words(self) -> Self:
        for wording in self.wordings:
            if wording.casefold() not in self.words.casefold():
                msg = f"the wording {wording!r} does not stand in the exact words"
                raise ValueError(msg)
        return self


class Document(CaseRecord):
    """A paper that is offered as evidence: certificate, test report, data sheet."""

    title: Text
    """What the paper calls itself."""
    issuer: Text
    """Who issued it."""
    dated: str = ""
    """Date on the paper, as printed."""
    file_sha256: FileHash | None = None
    """The copy that may be shown."""
    original: bool = False
    """True when the original was seen, not a copy."""
    item: str = ""
    """The item it speaks of: rod, cathode, finished strand."""
    lot: str = ""
    """Lot or heat on the paper."""
    method: str = ""
    """Method stated."""
    accreditation: str = ""
    """Accreditation stated."""
    exclusions: str = ""
    """What the paper leaves out, for example gases."""
    paper_kind: str = ""
    """Kind of paper by the grid of papers, for example mill_certificate."""
    elements: tuple[Text, ...] = ()
    """Symbols of the elements that it gives a number or a limit for."""
    offered_for: tuple[ClaimLabel, ...] = ()
    """Claims that it is offered for."""
    bears_on: tuple[ClaimKind, ...] = ()
    """Kinds of claim that it can bear on."""
    does_not_bear_on: tuple[ClaimKind, ...] = ()
    """Kinds of claim that it cannot bear on."""


class OwnStatement(CaseRecord):
    """Earlier words of the tester on the same matter."""

    words: Text
    """The exact words."""
    place: Text
    """Where they were published."""
    said_at: UtcTime
    """When."""
    repeats_claim: ClaimLabel | None = None
    """The claim that they repeat."""
    correction_due: bool = False
    """True when the words turned out wrong and are to be corrected."""


class Disclosure(CaseRecord):
    """An interest of somebody in the case: money, gifts, friendships, or none."""

    person: Text
    """Whose interest."""
    kind: Literal["money", "gift", "relationship", "other", "none_declared"]
    """What kind of interest."""
    statement: Text
    """What is declared, in words for readers."""
    amount: Annotated[float, Field(ge=0)] | None = None
    """Sum of money."""
    currency: str = ""
    """Currency of the sum (ISO 4217)."""
    declared_at: UtcTime
    """When it was declared."""
    covers: tuple[InterestKind, ...] = ()
    """For none_declared: what is declared to be none; empty for all of it."""


class Cost(CaseRecord):
    """Money or time that the case took."""

    purpose: Text
    """What for."""
    amount: Annotated[float, Field(ge=0)] | None = None
    """Sum of money."""
    currency: str = ""
    """Currency of the sum (ISO 4217)."""
    hours: Annotated[float, Field(ge=0)] | None = None
    """Working time [h]."""
    paid_by: Text
    """Who paid or worked."""
    spent_at: UtcTime
    """When."""


class Permission(CaseRecord):
    """What somebody allows to be shown, named or quoted."""

    person: Text
    """Who gives it."""
    subject: Text
    """What it is about: pictures, name, quotation, report."""
    granted: Literal["yes", "no", "with_conditions", "not_answered"]
    """The answer."""
    conditions: str = ""
    """Conditions, in the person's words."""
    given_at: UtcTime | None = None
    """When."""
    concerns: tuple[Reference, ...] = ()
    """Entries that it covers."""
    answers: tuple[PermissionKind, ...] = ()
    """Which of the usual questions it answers; empty: the subject says it."""
