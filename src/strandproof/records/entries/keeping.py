"""Answers that stand beside a gap or a flag; neither is ever taken away by one."""

from typing import Annotated

from pydantic import Field, StringConstraints

from strandproof.records.entries.bodies import (
    CaseRecord,
    FileHash,
    Reference,
    Text,
    UtcTime,
)


class GapExplanation(CaseRecord):
    """Why nobody is recorded as holder over a time; the gap itself stays."""

    gap: Annotated[str, StringConstraints(pattern=r"^G[1-9][0-9]*$")]
    """Name of the gap as the custody list gives it, for example G1."""
    items: Annotated[tuple[Reference, ...], Field(min_length=1)]
    """Things that the gap is about."""
    gap_from: UtcTime
    """Where the gap begins."""
    gap_to: UtcTime | None = None
    """Where it ends; none while it is open."""
    explanation: Text
    """What happened, in the words of who says so."""
    explained_by: Text
    """Who says so."""
    explained_at: UtcTime
    """When."""
    evidence: tuple[Reference, ...] = ()
    """Entries that bear it out, for example a seal found intact."""
    file_sha256: FileHash | None = None
    """A paper, for example a parcel's tracking sheet."""


class FlagAnswer(CaseRecord):
    """What answers a flag of the heat and handling ledger; the flag stays listed."""

    flag: Annotated[str, StringConstraints(pattern=r"^F[1-9][0-9]*$")]
    """Name of the flag as the ledger gives it, for example F1."""
    event: Reference
    """The entry that raised it."""
    answer: Text
    """What was done, and what came out."""
    answered_by: Text
    """Who answers."""
    answered_at: UtcTime
    """When."""
    evidence: tuple[Reference, ...] = ()
    """Controls, readings or other entries that the answer rests on."""
