"""Before looking: the plan, its lock, blind codes, and what was changed later."""

from typing import Annotated, Literal

from pydantic import Field

from strandproof.records.entries.bodies import (
    CaseRecord,
    ClaimLabel,
    FileHash,
    HypothesisLabel,
    PlanLabel,
    Reference,
    SealedListLabel,
    Sha256,
    Text,
    UtcTime,
)


class PlanLock(CaseRecord):
    """A plan closed before results are seen."""

    claims: Annotated[tuple[ClaimLabel, ...], Field(min_length=1)]
    """Claims it covers."""
    primary_reading: Text
    """The result that decides."""
    counting_rules: tuple[Text, ...] = ()
    """Rules for counting."""
    stop_rule: Text
    """When testing ends."""
    would_change_my_mind: Text
    """What result would speak the other way."""
    hypotheses: tuple[HypothesisLabel, ...] = ()
    """Rival explanations weighed."""
    tests: tuple[Text, ...] = ()
    """Tests to be made."""
    plan_sha256: FileHash
    """The full plan as a file."""
    locked_at: UtcTime
    """When."""
    locked_by: Text
    """Who."""


class Deviation(CaseRecord):
    """A change to a locked plan."""

    plan: PlanLabel
    """The plan."""
    kind: Literal["addition", "deviation"]
    """Something added, or something done otherwise."""
    what: Text
    """What changed."""
    reason: Text
    """Why."""
    results_seen: bool
    """True when results had been seen before."""
    decided_at: UtcTime
    """When."""
    decided_by: Text
    """Who."""


class BlindListSealed(CaseRecord):
    """The list of blind codes, sealed: its hash is public, the list is not."""

    list_sha256: Sha256
    """SHA-256 of salt and list; the list lies in private/."""
    codes: Annotated[tuple[Text, ...], Field(min_length=1)]
    """The codes, without what they stand for."""
    sealed_at: UtcTime
    """When."""
    sealed_by: Text
    """Who."""


class BlindListOpened(CaseRecord):
    """The list of blind codes, opened after the readings were locked."""

    sealed_list: SealedListLabel
    """The sealed list."""
    assignments: dict[str, Reference]
    """Code to specimen or section."""
    salt_hex: Annotated[str, Field(pattern=r"^[0-9a-f]{64}$")]
    """The salt, so that anyone can check the sealed hash."""
    list_file_sha256: FileHash
    """The list as a file."""
    opened_at: UtcTime
    """When."""
    opened_by: Text
    """Who."""
