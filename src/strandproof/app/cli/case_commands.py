"""Commands that start a case and enter things into it."""

import json
from datetime import datetime
from pathlib import Path
from typing import Annotated

import typer

from strandproof.app import workflow
from strandproof.app.cli.arguments import AsJson, CaseFolder, Label, Note, Person
from strandproof.app.cli.calibrate_command import calibrate
from strandproof.app.cli.console import progress, tell_entries
from strandproof.app.cli.typed_words import field_and_file, moment
from strandproof.app.workflow import Desk
from strandproof.records.entries import ClaimKind, SpeakerRole

_KINDS = ", ".join(ClaimKind)
_ROLES = ", ".join(SpeakerRole)


def add_case_commands(program: typer.Typer) -> None:
    """Add the commands to the program.

    Parameters
    ----------
    program : typer.Typer
        The program.
    """
    for command in (
        new,
        claim,
        exhibit,
        specimen,
        section,
        calibrate,
        micrograph,
        examine,
        enter,
    ):
        program.command(rich_help_panel="Work on a case")(command)


def new(
    folder: Annotated[
        Path, typer.Argument(metavar="CASE", help="New or empty folder.")
    ],
    title: Annotated[str, typer.Option(help="What the case asks, in neutral words.")],
    owner: Annotated[str, typer.Option(help="Who is responsible for the case.")],
    label: Label = "",
    as_json: AsJson = False,
) -> None:
    """Start a case in a new or empty folder."""
    fields = {"id": label or folder.name, "title": title, "owner": owner}
    tell_entries([workflow.start_case(Desk(folder, owner), fields)], as_json=as_json)


def claim(
    folder: CaseFolder,
    label: Label,
    kind: Annotated[
        list[str], typer.Option(help=f"What it is about: {_KINDS}. Repeat for two.")
    ],
    reading: Annotated[
        list[str],
        typer.Option(help="A way to read it that a test could contradict. Repeat."),
    ],
    by: Person,
    words: Annotated[str, typer.Option(help="The exact words.")] = "",
    speaker: Annotated[str, typer.Option(help="Name of who says it.")] = "",
    role: Annotated[str, typer.Option(help=f"Who that is: {_ROLES}.")] = "",
    medium: Annotated[
        str, typer.Option(help="Product page, hang tag, data sheet ...")
    ] = "",
    at: Annotated[
        datetime | None,
        typer.Option(
            parser=moment,
            metavar="MOMENT",
            help="When it was said or seen, for example 2031-03-03T19:12Z.",
        ),
    ] = None,
    capture: Annotated[
        Path | None,
        typer.Option(help="File that shows the words: screenshot, photograph."),
    ] = None,
    place: Annotated[str, typer.Option(help="Where it can be found.")] = "",
    product: Annotated[str, typer.Option(help="Product and variant meant.")] = "",
    price: Annotated[str, typer.Option(help="Price shown beside the words.")] = "",
    region: Annotated[str, typer.Option(help="Country that the place speaks to.")] = "",
    wording: Annotated[
        list[str] | None,
        typer.Option(
            help="Part of the words that other places are searched for. Repeat."
        ),
    ] = None,
    note: Note = "",
    as_json: AsJson = False,
) -> None:
    """Freeze a claim: exact words, speaker, place, time, and the file that shows it.

    A claim without words, speaker, medium, date or file is not saved; the program
    asks for what is missing.

    The first --reading belongs to the first --kind, and so on; further readings
    belong to the last kind.
    """
    kinds = [kind[min(place_, len(kind) - 1)] for place_ in range(len(reading))]
    fields = {
        "id": label,
        "words": words,
        "speaker": speaker,
        "speaker_role": role,
        "medium": medium,
        "place": place,
        "said_at": at,
        "kinds": kind,
        "readings": [
            {"words": text, "kind": about}
            for text, about in zip(reading, kinds, strict=True)
        ],
        "product": product,
        "price": price,
        "region": region,
        "wordings": wording or (),
        "note": note,
    }
    entries = workflow.enter_claim(Desk(folder, by), fields, capture=capture)
    tell_entries(entries, as_json=as_json)


def exhibit(
    folder: CaseFolder,
    label: Label,
    description: Annotated[str, typer.Option(help="What it is.")],
    provenance: Annotated[str, typer.Option(help="Where it comes from.")],
    condition: Annotated[str, typer.Option(help="State on arrival.")],
    at: Annotated[
        datetime,
        typer.Option(parser=moment, metavar="MOMENT", help="When it was taken in."),
    ],
    by: Person,
    lot_mark: Annotated[str, typer.Option(help="Lot mark on the thing.")] = "",
    picture: Annotated[
        list[Path] | None, typer.Option(help="Picture taken on arrival. Repeat.")
    ] = None,
    note: Note = "",
    as_json: AsJson = False,
) -> None:
    """Take a thing in for examination."""
    fields = {
        "id": label,
        "description": description,
        "provenance": provenance,
        "condition": condition,
        "lot_mark": lot_mark,
        "received_at": at,
        "received_by": by,
        "note": note,
    }
    entry = workflow.enter_exhibit(Desk(folder, by), fields, pictures=picture or ())
    tell_entries([entry], as_json=as_json)


def specimen(
    folder: CaseFolder,
    label: Label,
    exhibit: Annotated[str, typer.Option(help="Exhibit it is taken from.")],
    taken_from: Annotated[
        str, typer.Option(help="Where along and across, and how the place was chosen.")
    ],
    at: Annotated[
        datetime,
        typer.Option(parser=moment, metavar="MOMENT", help="When it was taken."),
    ],
    by: Person,
    blind_code: Annotated[str, typer.Option(help="Code that readers see.")] = "",
    note: Note = "",
    as_json: AsJson = False,
) -> None:
    """Take a piece from an exhibit for one test."""
    fields = {
        "id": label,
        "exhibit": exhibit,
        "taken_from": taken_from,
        "taken_at": at,
        "taken_by": by,
        "blind_code": blind_code,
        "note": note,
    }
    tell_entries(
        [workflow.enter(Desk(folder, by), "specimen", fields)], as_json=as_json
    )


def section(
    folder: CaseFolder,
    label: Label,
    specimen: Annotated[str, typer.Option(help="Specimen it is cut from.")],
    direction: Annotated[
        str, typer.Option(help="transverse, longitudinal, oblique or surface.")
    ],
    by: Person,
    mount: Annotated[str, typer.Option(help="Mount that holds it.")] = "",
    note: Note = "",
    as_json: AsJson = False,
) -> None:
    """Note a plane cut through a specimen and mounted."""
    fields = {
        "id": label,
        "specimen": specimen,
        "direction": direction,
        "mount": mount,
        "note": note,
    }
    tell_entries([workflow.enter(Desk(folder, by), "section", fields)], as_json=as_json)


def micrograph(
    folder: CaseFolder,
    picture: Annotated[Path, typer.Argument(help="The picture, as it was taken.")],
    label: Label,
    section: Annotated[str, typer.Option(help="Section that it shows.")],
    by: Person,
    calibration: Annotated[
        str | None,
        typer.Option(help="Calibration that holds; without one it is shown only."),
    ] = None,
    field: Annotated[str, typer.Option(help="Field: number and position.")] = "",
    field_number: Annotated[
        int | None,
        typer.Option(min=1, help="Number of the planned field that it shows."),
    ] = None,
    chosen: Annotated[str, typer.Option(help="How the place was chosen.")] = "",
    etch_step: Annotated[str, typer.Option(help="As polished, or etch step.")] = "",
    light: Annotated[str, typer.Option(help="Bright field, polarised ...")] = "",
    page: Annotated[int | None, typer.Option(help="Page, for several.")] = None,
    cropped: Annotated[
        bool,
        typer.Option(
            "--cropped",
            help="It was cut out of a whole frame; its pixels were not changed.",
        ),
    ] = False,
    note: Note = "",
    as_json: AsJson = False,
) -> None:
    """Enter a micrograph of a section; the original is kept untouched.

    A picture whose number of pixels does not fit its calibration is refused, and so
    is a resized copy of a micrograph of the case.
    """
    fields = {
        "id": label,
        "section": section,
        "calibration": calibration,
        "field": field,
        "field_number": field_number,
        "chosen": chosen,
        "etch_step": etch_step,
        "light": light,
        "note": note,
    }
    entry = workflow.enter_micrograph(
        Desk(folder, by), fields, picture=picture, page=page, cropped=cropped
    )
    tell_entries([entry], as_json=as_json)


def examine(
    folder: CaseFolder,
    micrograph: Annotated[str, typer.Argument(help="Short name of the micrograph.")],
    by: Person,
    label: Label = "",
    as_json: AsJson = False,
) -> None:
    """Measure grains on a micrograph of the case and enter the result."""
    with progress(f"examining {micrograph}") as report:
        entry = workflow.examine_micrograph(
            Desk(folder, by), micrograph, name=label, progress=report
        )
    tell_entries([entry], as_json=as_json)


def enter(
    folder: CaseFolder,
    kind: Annotated[str, typer.Argument(help="Kind of entry, for example reading.")],
    fields: Annotated[
        Path, typer.Option(help="JSON file with the fields of that kind.")
    ],
    by: Person,
    file: Annotated[
        list[str] | None,
        typer.Option(help="FIELD=PATH: keep a file, its hash goes into FIELD. Repeat."),
    ] = None,
    corrects: Annotated[
        int | None,
        typer.Option(help="Number of the entry that this one corrects; both stay."),
    ] = None,
    reason: Annotated[str, typer.Option(help="Why it is corrected.")] = "",
    as_json: AsJson = False,
) -> None:
    """Enter anything else that a case can hold, or a correction, from a JSON file.

    The kinds and their fields are described in docs/schemas. A correction holds all
    fields of the entry, with the same id, and names that entry with --corrects.
    """
    files = dict(field_and_file(text) for text in file or ())
    try:
        data = json.loads(workflow.read_original(fields).content)
    except ValueError as error:
        message = f"{fields} is no JSON file ({error})."
        raise typer.BadParameter(message) from None
    if corrects is not None and not reason:
        message = "a correction needs its reason."
        raise typer.BadParameter(message, param_hint="--reason")
    correction = None if corrects is None else workflow.Correction(corrects, reason)
    entry = workflow.enter(
        Desk(folder, by), kind, data, files=files, corrects=correction
    )
    tell_entries([entry], as_json=as_json)
