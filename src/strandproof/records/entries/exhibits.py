"""Things and their fate: purchase, exhibit, portion, seal, build, custody, heat."""

from typing import Annotated, Literal

from pydantic import Field

from strandproof.records.entries.bodies import (
    CaseRecord,
    ConductorTypeLabel,
    ExhibitLabel,
    FileHash,
    FrozenModel,
    MeasuredValue,
    PortionLabel,
    PurchaseLabel,
    Reference,
    SealLabel,
    Text,
    UtcTime,
)


class Purchase(CaseRecord):
    """How a piece was obtained."""

    obtained: Literal["bought_anonymously", "bought_openly", "given", "lent", "found"]
    """How it was obtained."""
    seller: Text
    """Shop or person it came from."""
    product: Text
    """Product and variant as sold."""
    ordered_at: UtcTime | None = None
    """When it was ordered."""
    received_at: UtcTime | None = None
    """When it arrived."""
    region: str = ""
    """Country or region of the sale."""
    price: Annotated[float, Field(ge=0)] | None = None
    """Price paid."""
    currency: str = ""
    """Currency (ISO 4217)."""
    receipt_sha256: FileHash | None = None
    """Receipt, redacted copy."""
    sold_as: Literal["new", "used", "not_said"] = "not_said"
    """As what it was sold."""


IntakeView = Literal[
    "parcel_closed",
    "wrapping_unbroken",
    "bag",
    "tag_and_leaflets",
    "lot_mark",
    "whole_length",
    "both_ends",
    "on_balance",
]
"""What a picture made on arrival shows."""


class ExhibitPicture(FrozenModel):
    """A picture made on arrival, and what it shows."""

    file_sha256: FileHash
    """The picture."""
    shows: Annotated[tuple[IntakeView, ...], Field(min_length=1)]
    """What it shows."""
    ruler: bool = False
    """True when a ruler lies in it."""
    colour_card: bool = False
    """True when a colour card lies in it."""


class Exhibit(CaseRecord):
    """A thing taken in for examination, as it came."""

    description: Text
    """What it is, in words."""
    purchase: PurchaseLabel | None = None
    """How it was obtained."""
    provenance: Text
    """Where it comes from, in one sentence for readers."""
    lot_mark: str = ""
    """Lot mark on the thing; empty when it has none."""
    received_at: UtcTime
    """When it was taken in."""
    received_by: Text
    """Who took it in."""
    condition: Text
    """State on arrival."""
    length_m: Annotated[float, Field(gt=0)] | None = None
    """Length [m]."""
    mass_g: Annotated[float, Field(gt=0)] | None = None
    """Mass [g]."""
    pictures: tuple[FileHash, ...] = ()
    """Pictures taken on arrival."""
    views: tuple[ExhibitPicture, ...] = ()
    """What the pictures taken on arrival show."""
    not_present: tuple[IntakeView, ...] = ()
    """What it came without, so that no picture can show it."""
    printed_words: tuple[Text, ...] = ()
    """Words printed on it, its bag, its tag, its leaflets."""


class Portion(CaseRecord):
    """A part cut from an exhibit for a purpose."""

    exhibit: ExhibitLabel
    """Exhibit it was cut from."""
    purpose: Literal["test", "maker", "referee", "waste"]
    """Whom or what it is for."""
    length_m: Annotated[float, Field(gt=0)] | None = None
    """Length [m]."""
    mass_g: Annotated[float, Field(gt=0)] | None = None
    """Mass [g]."""
    cut_at: UtcTime
    """When it was cut."""
    cut_by: Text
    """Who cut it."""


class Disposal(CaseRecord):
    """What became of a piece in the end: used up, destroyed, given back, lost."""

    items: Annotated[tuple[Reference, ...], Field(min_length=1)]
    """What is gone."""
    fate: Literal["consumed", "destroyed", "returned", "lost"]
    """What became of it."""
    reason: Text
    """Why, and by which test."""
    at: UtcTime
    """When."""
    by: Text
    """Who."""


class Seal(CaseRecord):
    """A numbered seal put on, checked or opened."""

    seal_number: Text
    """Number on the seal."""
    on: Reference
    """What it closes, for example portion/E1-maker."""
    event: Literal["applied", "found_intact", "found_broken", "opened"]
    """What happened."""
    at: UtcTime
    """When."""
    by: Text
    """Who."""
    picture_sha256: FileHash | None = None
    """Picture of the seal."""


class Layer(CaseRecord):
    """One layer of the build of an exhibit, from outside to inside."""

    exhibit: ExhibitLabel
    """Exhibit it belongs to."""
    position: Annotated[int, Field(ge=1)]
    """1 for the outermost layer."""
    material: Text
    """Material as seen or identified, and how."""
    dimension: MeasuredValue | None = None
    """Thickness or diameter."""


class ConductorType(CaseRecord):
    """A type of conductor in an exhibit; each is a target of its own."""

    exhibit: ExhibitLabel
    """Exhibit it belongs to."""
    description: Text
    """For example core, drain."""
    conductors: Annotated[int, Field(ge=1)]
    """How many such conductors the exhibit has."""
    strands: Annotated[int, Field(ge=1)]
    """Strands in each."""
    strand_diameter: MeasuredValue | None = None
    """Diameter of a strand."""
    lay: str = ""
    """Twist and direction of lay."""
    plating: str = ""
    """Metal of the layer on the strands; empty where none is known."""


class Specimen(CaseRecord):
    """A piece taken from an exhibit for one test."""

    exhibit: ExhibitLabel
    """Exhibit it was taken from."""
    portion: PortionLabel | None = None
    """Portion it was taken from."""
    conductor_type: ConductorTypeLabel | None = None
    """Type of conductor it stands for."""
    taken_from: Text
    """Where along and across the exhibit, and how the place was chosen."""
    taken_at: UtcTime
    """When."""
    taken_by: Text
    """Who."""
    blind_code: str = ""
    """Code that readers see instead of the name."""


class HandOver(CaseRecord):
    """Custody passing from one person to another."""

    items: Annotated[tuple[Reference, ...], Field(min_length=1)]
    """What was handed over."""
    giver: Text
    """From whom."""
    receiver: Text
    """To whom."""
    given_at: UtcTime
    """When it left the giver's hands."""
    received_at: UtcTime | None = None
    """When it reached the receiver; none while under way."""
    carrier: str = ""
    """How it travelled."""
    condition: Text
    """State on arrival, or on leaving while under way."""
    seal: SealLabel | None = None
    """Seal that closed it."""


class HandlingEvent(CaseRecord):
    """Heat or strain that a piece saw in our own hands."""

    items: Annotated[tuple[Reference, ...], Field(min_length=1)]
    """What was handled."""
    event: Text
    """For example cold mounting, bending by hand, stripping."""
    highest_temperature_c: float | None = None
    """Highest temperature of the piece [deg C]."""
    duration_s: Annotated[float, Field(ge=0)] | None = None
    """Time at that temperature [s]."""
    strain: str = ""
    """Bending or stretching, in words and numbers."""
    bend_radius_mm: Annotated[float, Field(gt=0)] | None = None
    """Smallest radius it was bent to, measured at its inner side [mm]."""
    pull_n: Annotated[float, Field(gt=0)] | None = None
    """Greatest pull along its length [N]."""
    at: UtcTime
    """When."""
    by: Text
    """Who."""
    answered_by: tuple[Reference, ...] = ()
    """Controls or checks that answer the doubt it raises."""
