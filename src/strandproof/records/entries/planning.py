"""Before looking: the plan, its lock, blind codes, and what was changed later."""

from typing import Annotated, Literal, Self

from pydantic import Field, model_validator

from strandproof.records.entries.bodies import (
    CaseRecord,
    ClaimLabel,
    FileHash,
    FrozenModel,
    HandOutLabel,
    HypothesisLabel,
    PlanLabel,
    ReadingLabel,
    Reference,
    SealedListLabel,
    Sha256,
    Text,
    UtcTime,
)


class PlannedField(FrozenModel):
    """A place on a section that is to be looked at, fixed before anyone looks."""

    section: Text
    """Name of the section; it need not be cut yet."""
    number: Annotated[int, Field(ge=1)]
    """Number of the field on the section."""
    extent: Literal["field", "whole_face"] = "field"
    """One field of view, or the whole round face of a transverse section."""
    position_mm: Annotated[float, Field(ge=0)] | None = None
    """Where its near edge lies along the section, from the coded end [mm]."""

    @model_validator(mode="after")
    def _field_has_a_place(self) -> Self:
        if (self.extent == "field") == (self.position_mm is not None):
            return self
        msg = "a field has its place in mm; a whole face has none"
        raise ValueError(msg)


class FieldDraw(FrozenModel):
    """How the places of planned fields were drawn, so that anyone can draw again."""

    seed: Annotated[int, Field(ge=0)]
    """Seed of the draw."""
    fields_per_section: Annotated[int, Field(ge=1)]
    """Fields on each long section."""
    section_length_mm: Annotated[float, Field(gt=0)]
    """Length within which they were drawn [mm]."""
    field_width_mm: Annotated[float, Field(gt=0)]
    """Width of a field; no two overlap [mm]."""


class FieldName(FrozenModel):
    """A planned field by its section and number."""

    section: Text
    """Name of the section."""
    number: Annotated[int, Field(ge=1)]
    """Number of the field on the section."""


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
    planned_fields: tuple[PlannedField, ...] = ()
    """Every place to be looked at."""
    field_draw: FieldDraw | None = None
    """How the places were drawn; none: no places were drawn."""
    controls: tuple[Text, ...] = ()
    """Known pieces that go through the same steps."""
    disclosures: tuple[Text, ...] = ()
    """Interests declared by then, one sentence each."""
    remarks: tuple[Text, ...] = ()
    """What the check of the plan found and left standing."""
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
    """True when results had been seen before, by the word of who decided."""
    concerns: tuple[Text, ...] = ()
    """Names of the sections it is about; none: everything planned."""
    drops: tuple[FieldName, ...] = ()
    """Planned fields that are not used."""
    planned_fields: tuple[PlannedField, ...] = ()
    """Places added to be looked at."""
    field_draw: FieldDraw | None = None
    """How the added places were drawn."""
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
    readers: tuple[Text, ...] = ()
    """Who is to read every coded piece before the list may be opened."""
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


class HandedOutPicture(FrozenModel):
    """A picture in a hand-out, by its code and what its file is."""

    name: Text
    """Code and running number, the name of its file without the ending."""
    sha256: Sha256
    """SHA-256 of the file as handed out."""


class HandOut(CaseRecord):
    """Coded pictures given to a reader, with nothing that names the pieces."""

    reader: Text
    """Who gets it."""
    seal_sha256: FileHash
    """SHA-256 of the hand-out's list of contents; returned readings carry it."""
    pictures: Annotated[tuple[HandedOutPicture, ...], Field(min_length=1)]
    """The pictures, in the order in which they are to be read."""
    sealed_list: SealedListLabel | None = None
    """The sealed list that the codes come from; none: from the sections."""
    order_seed: Annotated[int, Field(ge=0)]
    """Seed of the order."""
    straight_lines: Annotated[int, Field(ge=0)] = 0
    """Straight test lines on each picture."""
    circles: Annotated[int, Field(ge=0)] = 0
    """Test circles on each picture."""
    directions_deg: tuple[float, ...] = ()
    """Directions that straight lines take in turn [deg]."""
    counting_rules: tuple[Text, ...] = ()
    """Rules given to the reader."""
    made_at: UtcTime
    """When."""
    made_by: Text
    """Who made it up."""


class HandOutReturned(CaseRecord):
    """Readings of a hand-out that came back, checked against its seal."""

    hand_out: HandOutLabel
    """The hand-out."""
    file_sha256: FileHash
    """The readings as they came, as a file."""
    readings: Annotated[tuple[ReadingLabel, ...], Field(min_length=1)]
    """The readings entered from it, each locked."""
    returned_at: UtcTime
    """When."""
    taken_by: Text
    """Who took it back."""
