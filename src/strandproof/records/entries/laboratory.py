"""At the bench: sections, preparation, controls, pictures, readings, measurements."""

from typing import Annotated, Literal, Self

from pydantic import Field, model_validator

from strandproof.records.entries.bodies import (
    CalibrationLabel,
    CaseRecord,
    FileHash,
    FrozenModel,
    HandOutLabel,
    MeasuredValue,
    ReadingLabel,
    Reference,
    SectionLabel,
    SpecimenLabel,
    Text,
    UtcTime,
)
from strandproof.records.entries.claims import ClaimKind

MarkFeature = Literal[
    "boundary", "twin", "scratch", "slip_trace", "strand_edge", "uncertain"
]
"""What a mark on a test line can be taken for."""

MarkMeeting = Literal["crossing", "line_end", "tangent", "triple_point"]
"""How a test line meets what is marked; the score of a mark goes by it."""


class Section(CaseRecord):
    """A plane cut through a specimen and mounted."""

    specimen: SpecimenLabel
    """Specimen it was cut from."""
    direction: Literal["transverse", "longitudinal", "oblique", "surface"]
    """Direction of the plane against the strand axis."""
    mount: str = ""
    """Mount that holds it; pieces in one mount share its faults."""
    blind_code: str = ""
    """Code that readers see."""
    made_at: UtcTime | None = None
    """When it was cut."""
    made_by: str = ""
    """Who cut it."""


class PreparationStep(CaseRecord):
    """One step in preparing sections: grinding, polishing, etching, looking."""

    sections: Annotated[tuple[SectionLabel, ...], Field(min_length=1)]
    """Sections that went through it."""
    step: Literal["cut", "mount", "grind", "polish", "look", "etch", "repolish"]
    """Kind of step."""
    order: Annotated[int, Field(ge=1)]
    """Place in the sequence."""
    description: Text
    """What was done, in the laboratory's words."""
    medium: str = ""
    """Abrasive, polish or etchant, as the laboratory names it."""
    duration_s: Annotated[float, Field(ge=0)] | None = None
    """How long [s]."""
    temperature_c: float | None = None
    """Temperature [deg C]."""
    load: str = ""
    """Load or pressure, as the laboratory states it."""
    at: UtcTime
    """When."""
    by: Text
    """Who."""
    picture_sha256: FileHash | None = None
    """Picture after the step."""


class Control(CaseRecord):
    """A known piece that goes through the same steps as the specimens."""

    specimen: SpecimenLabel
    """The piece."""
    kind: Literal[
        "single_crystal", "polycrystal", "handling", "process", "blank_mount", "other"
    ]
    """What it is known to be."""
    known_by: Text
    """How that is known: diffraction, papers, drawing record."""
    informs: tuple[
        Literal["false_boundary", "missed_boundary", "mix_up", "batch_fault"], ...
    ] = ()
    """Which errors it tells something about."""
    mount: str = ""
    """Mount that holds it."""
    batch: str = ""
    """Batch it was etched in; pieces of one batch share its faults."""
    custody_trail: str = ""
    """Trail of hands and codes it went through; one mix-up spoils a trail."""
    described_as: str = ""
    """What it is in one or two words, for example oxygen-free."""


class Calibration(CaseRecord):
    """Size of a pixel in the specimen plane, and how it is known."""

    pixel_size: MeasuredValue
    """Pixel size [um], with standard uncertainty."""
    method: Text
    """Stage scale, file metadata, certificate ... in words."""
    instrument: str = ""
    """Microscope, objective, camera, binning."""
    made_at: UtcTime
    """When."""
    made_by: Text
    """Who."""
    readings_um: tuple[float, ...] = ()
    """Single readings of the pixel size [um]."""
    picture_sha256: FileHash | None = None
    """Picture of the stage scale."""
    valid_for: str = ""
    """Settings it holds for."""
    picture_width_px: Annotated[int, Field(ge=1)] | None = None
    """Columns of the pictures it was made in [px]; none where not known."""
    picture_height_px: Annotated[int, Field(ge=1)] | None = None
    """Rows of the pictures it was made in [px]; none where not known."""
    more_pictures_sha256: tuple[FileHash, ...] = ()
    """Further pictures of the stage scale."""
    flags: tuple[str, ...] = ()
    """Quality flags raised."""

    @model_validator(mode="after")
    def _size_positive_in_um(self) -> Self:
        if self.pixel_size.unit != "um":
            msg = f"pixel size is given in {self.pixel_size.unit!r}; give it in 'um'"
            raise ValueError(msg)
        if self.pixel_size.value <= 0:
            msg = f"pixel size is {self.pixel_size.value} um; it must be above zero"
            raise ValueError(msg)
        return self


class Micrograph(CaseRecord):
    """A picture of a section through the microscope, as it left the camera."""

    section: SectionLabel
    """Section it shows."""
    file_sha256: FileHash
    """The untouched original."""
    page: Annotated[int, Field(ge=1)] = 1
    """Page of the file, for files with several."""
    width_px: Annotated[int, Field(ge=1)]
    """Columns [px]."""
    height_px: Annotated[int, Field(ge=1)]
    """Rows [px]."""
    field: str = ""
    """Field: number and position on the section."""
    field_number: Annotated[int, Field(ge=1)] | None = None
    """Number of the planned field that it shows; none: not a planned one."""
    chosen: str = ""
    """How the place was chosen, for example by random number."""
    light: str = ""
    """Bright field, dark field, polarised ..."""
    etch_step: str = ""
    """As polished, or which etch step."""
    calibration: CalibrationLabel | None = None
    """Calibration that holds for it; none: may be shown, not measured."""
    taken_at: UtcTime | None = None
    """When."""
    taken_by: str = ""
    """Who."""
    synthetic: bool = False
    """True when a program drew it; then it shows no real metal."""
    edits: tuple[Text, ...] = ()
    """Whole-picture edits made before it came here."""


class ReadingLine(FrozenModel):
    """A straight test line, or a test circle, that a reader marked."""

    number: Annotated[int, Field(ge=1)]
    """Number of the line in the reading."""
    start_px: tuple[float, float] | None = None
    """Column and row of the start of a straight line [px]."""
    end_px: tuple[float, float] | None = None
    """Column and row of its end [px]."""
    centre_px: tuple[float, float] | None = None
    """Column and row of the centre of a circle [px]."""
    radius_px: Annotated[float, Field(gt=0)] | None = None
    """Radius of the circle [px]."""
    starts_in: Literal["metal", "resin"] | None = None
    """What the line begins in; needed only where no mark shows it."""

    @model_validator(mode="after")
    def _line_or_circle(self) -> Self:
        straight = (self.start_px is not None, self.end_px is not None)
        circle = (self.centre_px is not None, self.radius_px is not None)
        if (all(straight) and not any(circle)) or (all(circle) and not any(straight)):
            return self
        msg = "a line has a start and an end; a circle has a centre and a radius"
        raise ValueError(msg)


class ReadingMark(FrozenModel):
    """One mark of a reader on a test line."""

    line: Annotated[int, Field(ge=1)]
    """Test line."""
    position_px: tuple[float, float]
    """Column and row [px]."""
    feature: MarkFeature
    """What the reader takes it for."""
    direction_deg: Annotated[float, Field(ge=0, lt=180)] | None = None
    """Direction of what was marked [deg], from right towards up; none: not noted."""
    meets: MarkMeeting = "crossing"
    """How the line meets it."""


class Reading(CaseRecord):
    """What a person saw on a micrograph or a section, marked or in words."""

    reads: Reference
    """Micrograph or section read."""
    reader: Text
    """Who read it."""
    blind: bool
    """True when the reader did not know which piece it was."""
    verdict: Literal["boundaries", "none_resolved", "not_readable"]
    """What was seen."""
    reason: str = ""
    """Why, above all for not readable."""
    counting_rules: tuple[Text, ...] = ()
    """Rules for line ends, tangents, twins."""
    line_length_px: Annotated[float, Field(gt=0)] | None = None
    """Total length of test line in metal [px]."""
    test_lines: tuple[ReadingLine, ...] = ()
    """The test lines, where they are known one by one."""
    lines_seed: Annotated[int, Field(ge=0)] | None = None
    """Seed that fixed their places; none: placed by a person."""
    marks: tuple[ReadingMark, ...] = ()
    """Marks on the test lines."""
    marks_sha256: FileHash | None = None
    """The list of marks as it came, as a file."""
    counts: dict[str, Annotated[int, Field(ge=0)]] = Field(default_factory=dict)
    """Counts by feature, where only counts are known."""
    after_hint: bool = False
    """True for a version made after a hint was shown to the reader."""
    field_number: Annotated[int, Field(ge=1)] | None = None
    """Number of the planned field read, where a section is read field by field."""
    hand_out: HandOutLabel | None = None
    """The hand-out that it came back from; none: entered in another way."""
    read_at: UtcTime
    """When."""


class ReadingLock(CaseRecord):
    """A reading closed against changes before any hint is shown."""

    reading: ReadingLabel
    """The reading."""
    locked_at: UtcTime
    """When."""
    locked_by: Text
    """Who."""
    hint: tuple[Text, ...] = ()
    """Hint shown to the reader after locking, in words."""
    hint_shown_at: UtcTime | None = None
    """When the hint was shown; none: no hint was shown."""


class MeasurementResult(FrozenModel):
    """One named number of a measurement."""

    name: Text
    """What it is, for example mean_intercept."""
    value: MeasuredValue | None
    """The number; none where it could not be stated."""
    words: str = ""
    """The number in words for a report, or why there is none."""


class Measurement(CaseRecord):
    """Numbers obtained from a thing by a method, and what they can bear on."""

    measures: Reference
    """Micrograph, section, specimen or exhibit measured."""
    method: Text
    """Method, in words of the trade."""
    method_version: Text
    """Version of the program or procedure."""
    results: Annotated[tuple[MeasurementResult, ...], Field(min_length=1)]
    """The numbers."""
    verdict: str = ""
    """For structures: single, poly or undecided."""
    flags: tuple[str, ...] = ()
    """Quality flags raised."""
    bears_on: tuple[ClaimKind, ...] = ()
    """Kinds of claim it bears on."""
    does_not_bear_on: tuple[ClaimKind, ...] = ()
    """Kinds of claim it does not bear on."""
    data_sha256: FileHash | None = None
    """Full result as a file."""
    measured_at: UtcTime
    """When."""
    measured_by: Text
    """Who or what."""
