"""Commands of reading by people: lines, marks, lock, hint, two readers."""

from itertools import pairwise
from pathlib import Path
from typing import Annotated, Any, get_args

import typer

from strandproof.app import workflow
from strandproof.app.cli.arguments import AsJson, CaseFolder, Label, Note, Person
from strandproof.app.cli.console import print_json, progress, say, tell_entries
from strandproof.app.cli.typed_words import number
from strandproof.app.workflow import Desk
from strandproof.records.entries.laboratory import MarkFeature

_FEATURES: tuple[MarkFeature, ...] = get_args(MarkFeature)

ReadingArgument = Annotated[
    str, typer.Argument(help="Short name of the reading.", metavar="READING")
]


def add_reading_commands(program: typer.Typer) -> None:
    """Add the commands to the program.

    Parameters
    ----------
    program : typer.Typer
        The program.
    """
    panel = "Reading by people"
    program.command("test-lines", rich_help_panel=panel)(lines_for_reader)
    for command in (read, lock_reading, hint, re_class, compare_readings):
        program.command(rich_help_panel=panel)(command)


def lines_for_reader(
    folder: CaseFolder,
    micrograph: Annotated[str, typer.Argument(help="Short name of the micrograph.")],
    out: Annotated[Path, typer.Option(help="New JSON file for the reader.")],
    sheet: Annotated[
        Path | None,
        typer.Option(help="New SVG file: the picture with the lines, for a browser."),
    ] = None,
    lines: Annotated[int, typer.Option(min=0, help="Straight lines.")] = 4,
    circles: Annotated[int, typer.Option(min=0, help="Circles.")] = 0,
    direction: Annotated[
        list[float] | None,
        typer.Option(
            parser=number,
            metavar="NUMBER",
            help="Direction in degrees, from right towards up; lines take them in "
            "turn. Repeat. Without: 0, 45, 90, 135.",
        ),
    ] = None,
    seed: Annotated[
        int | None,
        typer.Option(min=0, help="Seed of the places; without, the picture's own."),
    ] = None,
) -> None:
    """Give the test lines of a micrograph: the same to every reader.

    Their places are fixed by the picture's own hash, so that nobody can look for
    where the grains show best. Neither file says which piece it is.
    """
    given = workflow.give_test_lines(
        folder,
        micrograph,
        lines=lines,
        circles=circles,
        directions_deg=tuple(direction or (0.0, 45.0, 90.0, 135.0)),
        seed=seed,
    )
    workflow.write_test_lines(given, out)
    say(f"{len(given.lines)} test lines, seed {given.seed}: {out}")
    if sheet is not None:
        workflow.write_reading_sheet(folder, given, sheet)
        say(f"Picture with the lines: {sheet}")


def read(
    folder: CaseFolder,
    label: Label,
    blind: Annotated[
        bool,
        typer.Option(
            "--blind/--not-blind", help="Whether the reader knew which piece it was."
        ),
    ],
    by: Person,
    reads: Annotated[
        str | None,
        typer.Option(
            help="What was read: micrograph/NAME or section/NAME. Test lines say it "
            "by themselves."
        ),
    ] = None,
    reader: Annotated[
        str | None, typer.Option(help="Who read it; without, who enters it.")
    ] = None,
    lines: Annotated[
        Path | None, typer.Option(help="Test lines, from 'test-lines'.")
    ] = None,
    marks: Annotated[
        Path | None,
        typer.Option(
            help="List of marks, .csv or .json: line, feature, along_px (or column_px "
            "and row_px), direction_deg, meets."
        ),
    ] = None,
    verdict: Annotated[
        str | None,
        typer.Option(
            help="boundaries, none_resolved or not_readable; sure marks decide it."
        ),
    ] = None,
    reason: Annotated[
        str | None, typer.Option(help="Why; must, if unreadable.")
    ] = None,
    rule: Annotated[
        list[str] | None, typer.Option(help="A counting rule. Repeat.")
    ] = None,
    corrects: Annotated[
        int | None,
        typer.Option(help="Number of the open reading's entry that this corrects."),
    ] = None,
    because: Annotated[str, typer.Option(help="Why it is corrected.")] = "",
    note: Note = "",
    as_json: AsJson = False,
) -> None:
    """Enter what a person read: a verdict, or marks on test lines.

    Features are boundary, twin, scratch, slip_trace, strand_edge, uncertain. Lock
    the reading before looking at anything else.
    """
    if corrects is not None and not because:
        message = "a correction needs its reason."
        raise typer.BadParameter(message, param_hint="--because")
    fields: dict[str, Any] = {
        "id": label,
        "reads": reads,
        "reader": reader,
        "blind": blind,
        "verdict": verdict,
        "reason": reason,
        "counting_rules": tuple(rule) if rule else None,
        "note": note,
    }
    correction = None if corrects is None else workflow.Correction(corrects, because)
    entry = workflow.enter_reading(
        Desk(folder, by), fields, lines=lines, marks=marks, corrects=correction
    )
    tell_entries([entry], as_json=as_json)
    if not as_json:
        for line in workflow.reading_in_words(folder, label):
            say(line)


def lock_reading(
    folder: CaseFolder, reading: ReadingArgument, by: Person, as_json: AsJson = False
) -> None:
    """Lock a reading: from now on its marks stay as they are."""
    entry = workflow.lock_reading(Desk(folder, by), reading)
    tell_entries([entry], as_json=as_json)


def hint(folder: CaseFolder, reading: ReadingArgument, by: Person) -> None:
    """Show which marks of a locked reading share a direction, as scratches do.

    That the hint was shown is entered into the case.
    """
    shown = workflow.direction_hint(Desk(folder, by), reading)
    for line in shown.words:
        say(line)
    rose = shown.rose
    for (start, end), count in zip(pairwise(rose.edges_deg), rose.counts, strict=True):
        say(f"{start:5.0f} to {end:3.0f} deg  {count:>4}  {'#' * count}".rstrip())


def re_class(
    folder: CaseFolder,
    reading: ReadingArgument,
    mark: Annotated[
        list[str],
        typer.Option(help="NUMBER=FEATURE, marks counted from 1. Repeat."),
    ],
    because: Annotated[str, typer.Option(help="Why, in the reader's words.")],
    by: Person,
    verdict: Annotated[
        str | None, typer.Option(help="Verdict, where the marks do not decide it.")
    ] = None,
    as_json: AsJson = False,
) -> None:
    """Class marks anew after the hint: a new version; the locked one stays."""
    features = dict(map(_number_and_feature, mark))
    entry = workflow.re_class(
        Desk(folder, by), reading, features, reason=because, verdict=verdict
    )
    tell_entries([entry], as_json=as_json)
    if not as_json:
        for line in workflow.reading_in_words(folder, reading):
            say(line)


def compare_readings(
    folder: CaseFolder,
    first: Annotated[str, typer.Option(help="A reader.")],
    second: Annotated[str, typer.Option(help="Another reader.")],
    tolerance: Annotated[
        float,
        typer.Option(
            parser=number,
            metavar="PIXELS",
            help="How far apart two marks of one thing may lie.",
        ),
    ] = 4.0,
    program: Annotated[
        bool,
        typer.Option(
            "--program",
            help="Let the program mark the same lines as a third reader (slow).",
        ),
    ] = False,
    as_json: AsJson = False,
) -> None:
    """Set two readers' locked readings side by side, "not readable" included.

    Automatic measurements of the same things stand beside them; they decide nothing.
    """
    compared = workflow.compare_readers(folder, first, second, tolerance_px=tolerance)
    if as_json:
        print_json(workflow.comparison_data(compared))
        return
    for line in workflow.comparison_in_words(compared):
        say(line)
    if program:
        with progress("the program reads") as report:
            fields = workflow.program_beside_readers(folder, compared, progress=report)
        for seen in fields:
            for line in workflow.program_in_words(compared, seen):
                say(line)


def _number_and_feature(text: str) -> tuple[int, MarkFeature]:
    """Read ``3=scratch``."""
    place, _, feature = text.partition("=")
    wanted = feature.strip().lower().replace(" ", "_")
    for known in _FEATURES:
        if known == wanted and place.strip().isdigit():
            return int(place), known
    message = (
        f"{text!r} is not of the form NUMBER=FEATURE with a feature out of "
        f"{', '.join(_FEATURES)}."
    )
    raise typer.BadParameter(message, param_hint="--mark")
