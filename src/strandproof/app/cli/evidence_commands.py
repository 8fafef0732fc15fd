"""Commands that turn readings into evidence: grain size, bounds, weighing."""

import json
from pathlib import Path
from typing import Annotated, Any

import typer

from strandproof.app import workflow
from strandproof.app.cli.arguments import AsJson, CaseFolder, Label, Person
from strandproof.app.cli.console import say, tell_entries
from strandproof.app.cli.typed_words import number
from strandproof.app.workflow import Desk
from strandproof.app.workflow.bounding import bound_in_words
from strandproof.app.workflow.bounding_events import events_at, stray_crystals_of
from strandproof.app.workflow.combining_plot import write_combined_plot
from strandproof.app.workflow.new_file import require_new_file


def _value(help_text: str) -> Any:  # noqa: ANN401 - what typer gives
    return typer.Option(parser=number, metavar="NUMBER", help=help_text)


def add_evidence_commands(program: typer.Typer) -> None:
    """Add the commands to the program.

    Parameters
    ----------
    program : typer.Typer
        The program.
    """
    for command in (combine, no_boundary, weigh):
        program.command(rich_help_panel="From readings to evidence")(command)


def combine(
    folder: CaseFolder,
    label: Label,
    counter: Annotated[str, typer.Option(help="Reader whose counts are used.")],
    second: Annotated[str, typer.Option(help="Reader to compare verdicts with.")],
    calibration: Annotated[str, typer.Option(help="Calibration of the fields.")],
    by: Person,
    known: Annotated[
        Path | None,
        typer.Option(
            help="JSON list of known pieces of one family that the counter read in "
            "the same way: name, family, shown, found, false for each."
        ),
    ] = None,
    plot: Annotated[
        Path | None,
        typer.Option(
            metavar="FILE.svg",
            help="New file for a drawing of fields, strands, leads and intervals.",
        ),
    ] = None,
    as_json: AsJson = False,
) -> None:
    """Combine a reader's counts to a grain size with its intervals by level.

    The interval by lead joins the calibration and, with known pieces, the boundaries
    missed and falsely reported; the entry says what is in it and what is not.
    """
    require_new_file(plot)
    pieces = () if known is None else workflow.known_pieces_of(_json_rows(known))
    readers = workflow.ReadersAsked(counter, second, calibration, pieces)
    entry = workflow.combine_readings(Desk(folder, by), label, readers)
    tell_entries([entry], as_json=as_json)
    if plot is not None:
        write_combined_plot(folder, readers, plot)
        if not as_json:
            say(f"Drawing: {plot}")


def no_boundary(
    folder: CaseFolder,
    label: Label,
    specimen: Annotated[str, typer.Option(help="Specimen looked at.")],
    millimetres: Annotated[float, _value("Length of long section seen, in mm.")],
    by: Person,
    boundary_at: Annotated[
        list[float] | None,
        _value("Place of a boundary along the length, in mm. Repeat."),
    ] = None,
    stray_length: Annotated[
        float | None,
        _value("Longest stray crystal, in mm: two boundaries so near are one event."),
    ] = None,
    stray_crystals: Annotated[
        Path | None,
        typer.Option(
            metavar="FILE.csv",
            help="Instead: stray crystals, one a row, with the columns start_mm and "
            "end_mm; an empty end_mm for a boundary by itself.",
        ),
    ] = None,
    as_json: AsJson = False,
) -> None:
    """Enter what may be said when no boundary, or hardly one, was resolved.

    Boundaries are merged to events: the two of one stray crystal are one event.
    The rate of events over the length looked at has exact limits.
    """
    if stray_crystals is not None and (boundary_at or stray_length is not None):
        message = "give places of boundaries, or a file with stray crystals, not both."
        raise typer.BadParameter(message, param_hint="--stray-crystals")
    events = (
        events_at(boundary_at or (), stray_length_mm=stray_length)
        if stray_crystals is None
        else stray_crystals_of(workflow.read_original(stray_crystals).content)
    )
    entry = workflow.enter_no_boundary(
        Desk(folder, by), label, specimen, length_mm=millimetres, events=events
    )
    tell_entries([entry], as_json=as_json)
    if not as_json:
        say(bound_in_words(entry))


def weigh(
    folder: CaseFolder,
    label: Label,
    observation: Annotated[str, typer.Option(help="Observation to be weighed.")],
    likelihoods: Annotated[
        Path,
        typer.Option(
            help="JSON list: hypothesis, best, lower, upper, status, source for each."
        ),
    ],
    by: Person,
    claim: Annotated[str | None, typer.Option(help="Claim that it is about.")] = None,
    as_json: AsJson = False,
) -> None:
    """Weigh an observation over rival explanations, with what controls support.

    Each likelihood answers: of 100 such strands, how many would look like this?
    The result is a ratio, never the probability of an explanation.
    """
    rows = _json_rows(likelihoods)
    weighted = workflow.Weighted(observation, workflow.likelihoods_of(rows), claim)
    entry = workflow.weigh_observation(Desk(folder, by), label, weighted)
    tell_entries([entry], as_json=as_json)
    if not as_json:
        for line in workflow.weighing_in_words(entry):
            say(line)


def _json_rows(path: Path) -> list[dict[str, Any]]:
    """Read a JSON list of objects."""
    try:
        rows = json.loads(workflow.read_original(path).content)
    except ValueError as error:
        message = f"{path} is no JSON file ({error})."
        raise typer.BadParameter(message) from None
    if not isinstance(rows, list) or not all(isinstance(row, dict) for row in rows):
        message = f"{path} is no JSON list of objects."
        raise typer.BadParameter(message)
    return rows
