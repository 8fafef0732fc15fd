"""Saying it: sentences, letters, replies, versions, challenges, corrections."""

from typing import Annotated, Literal

from pydantic import Field

from strandproof.records.entries.bodies import (
    CaseRecord,
    CorrectionLabel,
    FileHash,
    LetterLabel,
    Reference,
    SentenceLabel,
    Sha256,
    Text,
    UtcTime,
)


class Sentence(CaseRecord):
    """A sentence for publication, tied to what it stands on."""

    words: Text
    """The sentence."""
    kind: Literal["observed", "measured", "opinion", "statement"]
    """What kind of sentence it is; a statement is somebody's words."""
    role: str = ""
    """For an opinion or a statement: whose."""
    evidence: tuple[Reference, ...] = ()
    """Entries it stands on."""
    target: str = ""
    """Conductor type or exhibit that it speaks of."""
    number: Annotated[int, Field(ge=1)] | None = None
    """Number under which it is put to the maker."""


class LetterSent(CaseRecord):
    """A letter to maker, shop or supplier, with proof of sending."""

    to: Text
    """Whom it went to."""
    role: Text
    """Maker, shop, supplier ..."""
    sentences: tuple[SentenceLabel, ...] = ()
    """Sentences put to them."""
    channels: Annotated[tuple[Text, ...], Field(min_length=1)]
    """How it was sent."""
    sent_at: UtcTime
    """When."""
    deadline: UtcTime
    """Until when an answer is asked for."""
    file_sha256: FileHash | None = None
    """The letter."""
    proof_sha256: FileHash | None = None
    """Proof of sending."""


class Reply(CaseRecord):
    """An answer to a letter, kept whole."""

    letter: LetterLabel
    """The letter it answers."""
    author: Text
    """Who answers."""
    words: Text
    """The whole answer, unshortened."""
    received_at: UtcTime
    """When."""
    on_sentences: tuple[SentenceLabel, ...] = ()
    """Sentences it speaks to."""
    file_sha256: FileHash | None = None
    """The answer as it came."""


class Challenge(CaseRecord):
    """A doubt raised by a reader about a sentence or number."""

    on: Reference
    """What is doubted."""
    words: Text
    """The doubt."""
    raised_by: Text
    """By whom."""
    raised_at: UtcTime
    """When."""
    status: Literal["open", "answered", "changed", "rejected"] = "open"
    """Where it stands."""
    answer: str = ""
    """The answer, with the reason."""


class PublishedVersion(CaseRecord):
    """A version of the report that went out."""

    version: Annotated[str, Field(pattern=r"^\d+\.\d+$")]
    """Version, for example 1.0."""
    published_at: UtcTime
    """When."""
    places: tuple[Text, ...] = ()
    """Where."""
    report_sha256: FileHash
    """The report."""
    head_sha256: Sha256
    """Hash of the last entry that it rests on."""
    changes: str = ""
    """What changed against the version before."""


class Correction(CaseRecord):
    """A published mistake put right."""

    corrects: Reference
    """The sentence, version or statement that was wrong."""
    was: Text
    """What was said."""
    is_right: Text
    """What is right."""
    wrong_since: UtcTime
    """Since when it was wrong."""
    found_by: Text
    """Who found it."""
    corrected_at: UtcTime
    """When it was put right."""


class ErrorPlace(CaseRecord):
    """A place that repeats a mistake and must be corrected."""

    correction: CorrectionLabel
    """The correction."""
    place: Text
    """Where the mistake stands."""
    done: bool
    """True when it was put right there."""
    done_at: UtcTime | None = None
    """When."""


class Redaction(CaseRecord):
    """Something blacked out, with a commitment to the whole."""

    file_sha256: FileHash
    """The redacted copy."""
    commitment_sha256: Sha256
    """SHA-256 of salt and unredacted original."""
    removed: Text
    """What kind of thing was removed."""
    reason: Text
    """Why."""
