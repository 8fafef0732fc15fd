"""The use case that draws where to look, and the file that carries it to the lock."""

import json
import secrets
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Annotated

from pydantic import Field, ValidationError

from strandproof.app.workflow.entering import read_original
from strandproof.errors import InvalidEntryError
from strandproof.planning import draw_fields, drawn_by
from strandproof.records.entries import FieldDraw, PlannedField
from strandproof.records.entries.bodies import FrozenModel
from strandproof.records.entries.building import faults_in_words
from strandproof.storage import write_output_file

_SEED_BITS = 48
_FILE = "file of planned fields"


class DrawnFields(FrozenModel):
    """Places to be looked at, with the draw that gave them."""

    draw: FieldDraw
    """How they were drawn."""
    fields: Annotated[tuple[PlannedField, ...], Field(min_length=1)]
    """The places."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SectionsToDraw:
    """Sections on which places are to be drawn; they need not be cut yet.

    Parameters
    ----------
    long_sections, faces : sequence of str
        Names of long sections, and of transverse sections whose whole face is read.
    fields_per_section : int
        Fields on each long section.
    section_length_mm : float
        Length within which they are drawn [mm].
    field_width_mm : float
        Width of a field [mm].
    """

    long_sections: Sequence[str]
    faces: Sequence[str]
    fields_per_section: int = 5
    section_length_mm: float = 10.0
    field_width_mm: float = 0.31


def plan_positions(sections: SectionsToDraw, *, seed: int | None = None) -> DrawnFields:
    """Draw the places on all sections, before anyone looks.

    Parameters
    ----------
    sections : SectionsToDraw
        Sections, fields, sizes.
    seed : int or None
        Seed of the draw; None takes one from the system. Either is kept.

    Returns
    -------
    DrawnFields
        Every place, with its draw.

    Raises
    ------
    InvalidEntryError
        If a number does not fit.
    """
    try:
        draw = FieldDraw(
            seed=secrets.randbits(_SEED_BITS) if seed is None else seed,
            fields_per_section=sections.fields_per_section,
            section_length_mm=sections.section_length_mm,
            field_width_mm=sections.field_width_mm,
        )
    except ValidationError as error:
        raise InvalidEntryError("draw", faults_in_words(error)) from None
    fields = draw_fields(sections.long_sections, sections.faces, draw=draw)
    if not fields:
        raise InvalidEntryError("draw", ("sections: name one or more.",))
    return DrawnFields(draw=draw, fields=fields)


def write_positions(drawn: DrawnFields, path: Path) -> None:
    """Write drawn places to a new file.

    Parameters
    ----------
    drawn : DrawnFields
        The places.
    path : Path
        New JSON file; an earlier one is never replaced.
    """
    text = json.dumps(drawn.model_dump(mode="json"), indent=2, ensure_ascii=False)
    write_output_file(path, (text + "\n").encode("utf-8"))


def read_positions(path: Path) -> DrawnFields:
    """Read drawn places, and draw again to see that none was moved.

    Parameters
    ----------
    path : Path
        JSON as `write_positions` writes it.

    Returns
    -------
    DrawnFields
        The places.

    Raises
    ------
    InvalidEntryError
        If the file holds something else, or places that its seed does not give.
    """
    try:
        drawn = DrawnFields.model_validate_json(read_original(path).content)
    except ValidationError as error:
        raise InvalidEntryError(_FILE, faults_in_words(error)) from None
    if not drawn_by(drawn.fields, drawn.draw):
        fault = f"fields: seed {drawn.draw.seed} gives other places."
        raise InvalidEntryError(_FILE, (fault,))
    return drawn
