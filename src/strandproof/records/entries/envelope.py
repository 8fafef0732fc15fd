"""The envelope of an entry: number, kind, who, when, hashes around a body."""

from typing import Annotated, Any

from pydantic import Field, SerializeAsAny

from strandproof.records.entries.bodies import (
    CaseRecord,
    Commitment,
    FileReference,
    FrozenModel,
    Sha256,
    Text,
    UtcTime,
)

SCHEMA_VERSION = 1
"""Version of the entry schema that this program writes, and the highest it reads."""


class Entry(FrozenModel):
    """One line of a case: a numbered, hashed entry that is never changed.

    Notes
    -----
    ``sha256`` is the SHA-256 of the entry's canonical JSON (RFC 8785) without
    that one field; it covers ``previous_sha256``, so the entries form a chain.
    """

    schema_version: Annotated[int, Field(ge=1)] = SCHEMA_VERSION
    """Version of this schema."""
    number: Annotated[int, Field(ge=1)]
    """Place in the case, counted from 1."""
    kind: Text
    """Kind of entry; decides the shape of the body."""
    recorded_at: UtcTime
    """When it was entered, by the clock of the computer."""
    recorded_by: Text
    """Who entered it."""
    supersedes: Annotated[int, Field(ge=1)] | None = None
    """Number of the earlier entry that this one corrects; both stay visible."""
    reason: str = ""
    """Why the earlier entry was corrected."""
    files: tuple[FileReference, ...] = ()
    """Files that this entry brings into the case."""
    sealed: tuple[Commitment, ...] = ()
    """Things kept back, by hash only."""
    body: SerializeAsAny[CaseRecord]
    """The record itself."""
    previous_sha256: Sha256
    """Hash of the entry before; 64 zeros for the first."""
    sha256: Sha256
    """Hash of this entry."""

    def to_json_data(self) -> dict[str, Any]:
        """Give the entry as plain data, ready for canonical JSON.

        Returns
        -------
        dict
            Field names with strings, numbers, lists and dicts.
        """
        return self.model_dump(mode="json")
