"""Commands that show, check and publish: demo, show, report, verify."""

from pathlib import Path
from typing import Annotated

import typer

from strandproof.app import workflow
from strandproof.app.cli.arguments import AsJson, CaseFolder
from strandproof.app.cli.console import print_json, progress, say
from strandproof.app.workflow import Desk
from strandproof.app.workflow.checking import resize_warnings
from strandproof.app.workflow.claiming.interests import disclosure_paragraph

_REFUSED = 1


def add_output_commands(program: typer.Typer) -> None:
    """Add the commands to the program.

    Parameters
    ----------
    program : typer.Typer
        The program.
    """
    program.command(rich_help_panel="Look at once")(demo)
    for command in (show, report, verify):
        program.command(rich_help_panel="Show, publish, check")(command)


def demo(
    to: Annotated[
        Path, typer.Option(metavar="FOLDER", help="New folder for case and report.")
    ] = Path("strandproof-demo"),
    case: Annotated[str, typer.Option(help="H7 (mixed result) or H0 (a pass).")] = "H7",
) -> None:
    """Build an invented case from a claim to a finished report, and verify it.

    All names in it are invented, and its pictures are synthetic.
    """
    with progress("demo") as bar:
        outcome = workflow.run_demo(to, case=case, progress=bar)
    for paragraph in outcome.paragraphs:
        say(paragraph)
        say()
    say(f"Case:   {outcome.case}")
    say(f"Report: {outcome.written.page}")
    say(f"Paper:  {outcome.written.paper}")
    say(f"Head:   {outcome.head}")


def show(folder: CaseFolder, as_json: AsJson = False) -> None:
    """List what stands in a case, and what it still lacks for a report."""
    state = workflow.open_case(folder)
    if as_json:
        print_json([entry.to_json_data() for entry in state.entries])
        return
    say(f"Case {state.case.id}: {state.case.title} (responsible: {state.case.owner})")
    say(disclosure_paragraph(state))
    for entry in state.entries:
        say(workflow.entry_headline(entry))
    missing = workflow.missing_parts(state)
    if missing:
        say(f"Still lacking for a report: {', '.join(missing)}.")
    say(f"Head: {state.head}")


def report(
    folder: CaseFolder,
    to: Annotated[
        Path | None,
        typer.Option(metavar="FILE", help="Where; beside the case if left out."),
    ] = None,
    as_json: AsJson = False,
) -> None:
    """Write the report on a case: one HTML file that needs no network, and a PDF."""
    written = workflow.write_report(Desk(folder, "report"), to)
    head = workflow.open_case(folder).head
    if as_json:
        files = {"report": written.page, "paper": written.paper}
        print_json({name: str(path) for name, path in files.items()} | {"head": head})
        return
    say(f"Report: {written.page}")
    say(f"Paper:  {written.paper}")
    say(f"Head:   {head}")


def verify(
    folder: CaseFolder,
    head: Annotated[
        str | None,
        typer.Option(help="Head printed on a report, or kept elsewhere."),
    ] = None,
    as_json: AsJson = False,
) -> None:
    """Recompute every hash and link of a case; name whatever differs.

    Without --head only changes within the record are found. A record that was
    cut at the end, continued or rewritten needs the head from a report.
    A micrograph measured with the pixel size of a copy of another size gives a
    warning.
    """
    with progress("verifying") as bar:
        outcome = workflow.verify(folder, head=head, progress=bar)
    warnings = resize_warnings(folder, outcome)
    if as_json:
        print_json(workflow.verification_data(outcome, warnings=warnings))
    else:
        for line in workflow.verification_in_words(
            outcome, head_given=head is not None, warnings=warnings
        ):
            say(line)
    if not outcome.sound:
        raise typer.Exit(_REFUSED)
