"""The base of every entry's body and the small types that they share."""

from dataclasses import dataclass
from datetime import UTC, datetime
from typing import Annotated, Self

from pydantic import (
    AfterValidator,
    AwareDatetime,
    BaseModel,
    ConfigDict,
    Field,
    PlainSerializer,
    StringConstraints,
    model_validator,
)

Label = Annotated[str, StringConstraints(pattern=r"^[A-Za-z0-9][A-Za-z0-9._-]{0,47}$")]
"""Short name of an entry: letters, digits, dot, dash, underscore."""

Text = Annotated[str, StringConstraints(strip_whitespace=True, min_length=1)]
"""Words that may not be empty."""

Sha256 = Annotated[str, StringConstraints(pattern=r"^[0-9a-f]{64}$")]
"""SHA-256 in lower-case hexadecimal."""


@dataclass(frozen=True, slots=True)
class LabelOf:
    """Marks a short name that must belong to an entry of the case.

    Parameters
    ----------
    kind : str
        Kind of the entry that has the name.
    """

    kind: str


@dataclass(frozen=True, slots=True)
class KeptFile:
    """Marks a hash whose file must be kept with the case."""


@dataclass(frozen=True, slots=True)
class AnyEntry:
    """Marks a reference of the form kind/name to an entry of the case."""


CalibrationLabel = Annotated[Label, LabelOf("calibration")]
CaptureLabel = Annotated[Label, LabelOf("capture")]
ClaimLabel = Annotated[Label, LabelOf("claim")]
ConductorTypeLabel = Annotated[Label, LabelOf("conductor_type")]
CorrectionLabel = Annotated[Label, LabelOf("correction")]
ExhibitLabel = Annotated[Label, LabelOf("exhibit")]
HandOutLabel = Annotated[Label, LabelOf("hand_out")]
HypothesisLabel = Annotated[Label, LabelOf("hypothesis")]
LetterLabel = Annotated[Label, LabelOf("letter_sent")]
ObservationLabel = Annotated[Label, LabelOf("observation")]
PlanLabel = Annotated[Label, LabelOf("plan_lock")]
PortionLabel = Annotated[Label, LabelOf("portion")]
PurchaseLabel = Annotated[Label, LabelOf("purchase")]
ReadingLabel = Annotated[Label, LabelOf("reading")]
SealLabel = Annotated[Label, LabelOf("seal")]
SealedListLabel = Annotated[Label, LabelOf("blind_list_sealed")]
SectionLabel = Annotated[Label, LabelOf("section")]
SentenceLabel = Annotated[Label, LabelOf("sentence")]
SpecimenLabel = Annotated[Label, LabelOf("specimen")]

FileHash = Annotated[Sha256, KeptFile()]
"""Hash of a file that the case keeps."""

Reference = Annotated[
    str,
    StringConstraints(pattern=r"^[a-z_]+/[A-Za-z0-9][A-Za-z0-9._-]{0,47}$"),
    AnyEntry(),
]
"""Another entry by kind and short name, for example ``claim/K1``."""


def _to_utc(moment: datetime) -> datetime:
    return moment.astimezone(UTC)


def _utc_text(moment: datetime) -> str:
    return moment.astimezone(UTC).isoformat().replace("+00:00", "Z")


UtcTime = Annotated[
    AwareDatetime,
    AfterValidator(_to_utc),
    PlainSerializer(_utc_text, return_type=str, when_used="json"),
]
"""A moment with its time zone; kept and written in UTC."""


class FrozenModel(BaseModel):
    """A frozen record that refuses unknown fields and numbers that are no numbers."""

    model_config = ConfigDict(
        frozen=True,
        extra="forbid",
        allow_inf_nan=False,
        use_attribute_docstrings=True,
    )


class CaseRecord(FrozenModel):
    """Body of an entry; every body has a short name, unique within its kind."""

    id: Label
    """Short name, for example K1, E1 or DQV-835."""
    note: str = ""
    """Anything worth remembering, in free words."""


class FileReference(FrozenModel):
    """A file kept with the case, by its hash."""

    sha256: Sha256
    """SHA-256 of the bytes; also its name under files/."""
    name: Text
    """Name that the file came with."""
    media_type: Text
    """Kind of file, for example image/tiff."""
    size_bytes: Annotated[int, Field(ge=0)]
    """Length of the file [bytes]."""


class Commitment(FrozenModel):
    """A sealed thing: its hash is public, the thing itself is kept in private/."""

    sha256: Sha256
    """SHA-256 of a random salt of 256 bits followed by the content."""
    content: Text
    """What is sealed, in words that may be public."""


class MeasuredValue(FrozenModel):
    """A value with its uncertainty and interval, as it stands in a case."""

    value: float
    """Best estimate, unrounded."""
    unit: Text
    """Unit as printed; "1" for a pure number."""
    standard_uncertainty: Annotated[float, Field(ge=0)] | None = None
    """Standard uncertainty in the same unit; none where not stated."""
    degrees_of_freedom: Annotated[float, Field(ge=1)] | None = None
    """Effective degrees of freedom; none for infinitely many or not stated."""
    lower: float | None = None
    """Lower limit of the interval; none where open."""
    upper: float | None = None
    """Upper limit of the interval; none where open."""
    confidence: Annotated[float, Field(gt=0, lt=1)] | None = None
    """Confidence of the interval, for example 0.95."""
    interval_method: str = ""
    """How the interval was made and at which level."""

    @model_validator(mode="after")
    def _interval_in_order(self) -> Self:
        if (
            self.lower is not None
            and self.upper is not None
            and self.lower > self.upper
        ):
            msg = f"lower limit {self.lower} is above upper limit {self.upper}"
            raise ValueError(msg)
        return self
