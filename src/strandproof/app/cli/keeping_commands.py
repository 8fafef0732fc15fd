"""Commands of the ledger, the preparation log and the controls."""

from datetime import datetime
from pathlib import Path
from typing import Annotated, Any

import typer

from strandproof.app import workflow
from strandproof.app.cli.arguments import AsJson, CaseFolder, Label, Note, Person
from strandproof.app.cli.console import print_json, say, tell_entries
from strandproof.app.cli.typed_words import moment, number
from strandproof.app.workflow import Desk
from strandproof.app.workflow.keeping import controls as of_controls
from strandproof.app.workflow.keeping import handling, preparing
from strandproof.records.preparation import ACID_CAUTION

_PANEL = "Keep the pieces"

Moment = Annotated[
    datetime | None,
    typer.Option("--at", parser=moment, metavar="MOMENT", help="When; now without."),
]


def _value(help_text: str) -> Any:  # noqa: ANN401 - what typer gives
    return typer.Option(parser=number, metavar="NUMBER", help=help_text)


def add_keeping_commands(program: typer.Typer) -> None:
    """Add the commands to the program.

    Parameters
    ----------
    program : typer.Typer
        The program.
    """
    program.command(rich_help_panel=_PANEL)(handle)
    program.command(rich_help_panel=_PANEL)(ledger)
    program.command("answer-flag", rich_help_panel=_PANEL)(answer_flag)
    for command in (prepare, preparation, controls):
        program.command(rich_help_panel=_PANEL)(command)


def handle(
    folder: CaseFolder,
    label: Label,
    item: Annotated[
        list[str],
        typer.Option(metavar="THING", help="What, for example specimen/s1. Repeat."),
    ],
    event: Annotated[str, typer.Option(help="What was done, for example hot mount.")],
    by: Person,
    celsius: Annotated[
        float | None, _value("Highest temperature of the piece, in °C.")
    ] = None,
    minutes: Annotated[float | None, _value("Time at it, in minutes.")] = None,
    bend_radius_mm: Annotated[
        float | None, _value("Smallest radius it was bent to, in mm.")
    ] = None,
    pull_n: Annotated[float | None, _value("Greatest pull, in N.")] = None,
    strain: Annotated[str, typer.Option(help="Bending or pulling, in words.")] = "",
    at: Moment = None,
    note: Note = "",
    as_json: AsJson = False,
) -> None:
    """Enter heat or strain that a piece saw in our hands, and see what it raises."""
    fields = {
        "id": label,
        "items": item,
        "event": event,
        "highest_temperature_c": celsius,
        "duration_s": None if minutes is None else minutes * 60,
        "bend_radius_mm": bend_radius_mm,
        "pull_n": pull_n,
        "strain": strain,
        "at": at,
        "note": note,
    }
    entry, flags = handling.handle(Desk(folder, by), fields)
    tell_entries([entry], as_json=as_json)
    if not as_json:
        for flag in flags:
            say(f"{flag.name}. {flag.sentence}")


def ledger(folder: CaseFolder, as_json: AsJson = False) -> None:
    """Show heat and strain of every specimen, and the flags that stand."""
    state = workflow.open_case(folder)
    if as_json:
        print_json(handling.ledger_data(state))
        return
    for line in handling.ledger_in_words(state):
        say(line)


def answer_flag(
    folder: CaseFolder,
    flag: Annotated[str, typer.Argument(help="Name of the flag, for example F1.")],
    words: Annotated[str, typer.Option(help="What was done, and what came out.")],
    evidence: Annotated[
        list[str],
        typer.Option(metavar="THING", help="Control or reading it rests on. Repeat."),
    ],
    by: Person,
    as_json: AsJson = False,
) -> None:
    """Put an answer beside a flag of the ledger; both are shown from then on."""
    entry = handling.answer_flag(
        Desk(folder, by), flag, words, evidence=tuple(evidence)
    )
    tell_entries([entry], as_json=as_json)


def prepare(
    folder: CaseFolder,
    label: Label,
    section: Annotated[
        list[str], typer.Option(help="Section that went through it. Repeat.")
    ],
    step: Annotated[
        str,
        typer.Option(
            metavar="KIND", help="cut, mount, grind, polish, look, etch or repolish."
        ),
    ],
    words: Annotated[str, typer.Option(help="What was done, in your own words.")],
    by: Person,
    picture: Annotated[
        Path | None, typer.Option(help="Picture after the step.")
    ] = None,
    medium: Annotated[
        str, typer.Option(help="Abrasive, polish or etchant, as you name it.")
    ] = "",
    load: Annotated[str, typer.Option(help="Load or pressure.")] = "",
    celsius: Annotated[float | None, _value("Temperature, in °C.")] = None,
    seconds: Annotated[float | None, _value("How long, in s.")] = None,
    order: Annotated[
        int | None, typer.Option(min=1, help="Place in the sequence; next without.")
    ] = None,
    at: Moment = None,
    note: Note = "",
    as_json: AsJson = False,
) -> None:
    """Enter a step of preparing sections, by the laboratory's own procedure.

    The tool hands out no procedure. Look before etching, etch in steps, and keep a
    picture of each: without them a section may be shown, not counted.
    """
    fields = {
        "id": label,
        "sections": section,
        "step": step,
        "description": words,
        "medium": medium,
        "load": load,
        "temperature_c": celsius,
        "duration_s": seconds,
        "order": order,
        "at": at,
        "note": note,
    }
    entry = preparing.prepare(Desk(folder, by), fields, picture=picture)
    tell_entries([entry], as_json=as_json)
    if as_json:
        return
    if step == "etch":
        say(ACID_CAUTION)
    state = workflow.open_case(folder)
    for name in section:
        say(preparing.preparation_in_words(state, name)[0])


def preparation(
    folder: CaseFolder,
    section: Annotated[str | None, typer.Option(help="One section only.")] = None,
    as_json: AsJson = False,
) -> None:
    """Show which sections are prepared on record, and what is missing to count them."""
    state = workflow.open_case(folder)
    if as_json:
        print_json(preparing.preparation_data(state))
        return
    for line in preparing.preparation_in_words(state, section):
        say(line)


def controls(
    folder: Annotated[
        Path | None,
        typer.Argument(metavar="[CASE]", help="Folder of the case; none for a plan."),
    ] = None,
    planned: Annotated[
        list[str] | None,
        typer.Option(
            metavar="N:KIND[:MOUNTS]",
            help="Planned controls, such as 4:single_crystal:m1+m2. Kinds: "
            f"{', '.join(of_controls.OF_RECORD)}. Repeat.",
        ),
    ] = None,
    section_mount: Annotated[
        list[str] | None,
        typer.Option(
            help="Mount with sections of the product, without a case. Repeat."
        ),
    ] = None,
    as_json: AsJson = False,
) -> None:
    """Say what each control informs, and the ceiling that controls can bring.

    Ask before the plan is locked: the ceiling is what comes out if every control is
    read blind and right.
    """
    plans = [_planned(text) for text in planned or ()]
    if folder is None:
        found = of_controls.ceiling_of_plan(plans, section_mounts=section_mount or ())
        lines = found.words
    else:
        if section_mount:
            message = "a case knows its mounts; leave this out."
            raise typer.BadParameter(message, param_hint="--section-mount")
        state = workflow.open_case(folder)
        found = of_controls.ceiling_of_case(state, plans)
        lines = of_controls.controls_in_words(state, plans)
    if as_json:
        print_json(of_controls.ceiling_data(found))
        return
    for line in lines:
        say(line)


def _planned(text: str) -> tuple[str, int, str]:
    count, _, rest = text.partition(":")
    kind, _, mounts = rest.partition(":")
    if not count.isdecimal() or not kind:
        message = f"{text!r} is not of the form 4:single_crystal:m1+m2."
        raise typer.BadParameter(message, param_hint="--planned")
    return kind, int(count), mounts
