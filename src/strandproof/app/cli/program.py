"""The program: its commands, and how refusals become words and exit codes."""

import sys
from typing import Annotated

import typer

from strandproof import __version__
from strandproof.app.cli.case_commands import add_case_commands
from strandproof.app.cli.console import complain, say
from strandproof.app.cli.count_commands import add_count_commands
from strandproof.app.cli.evidence_commands import add_evidence_commands
from strandproof.app.cli.look_commands import add_look_commands
from strandproof.app.cli.measure_commands import add_measure_commands
from strandproof.app.cli.orientation_commands import add_orientation_commands
from strandproof.app.cli.output_commands import add_output_commands
from strandproof.app.cli.reading_commands import add_reading_commands
from strandproof.errors import StrandproofError

REFUSED = 1

_HELP = """\
From a cable maker's claim to a finding that anyone can check.

Start with 'strandproof demo', or measure one picture with 'strandproof measure'.
A case of your own goes: new, claim, exhibit, specimen, section, calibrate,
micrograph, examine, report, verify.

Exit codes: 0 good, 1 refused, 2 wrong use of a command.
"""

program = typer.Typer(
    name="strandproof",
    help=_HELP,
    no_args_is_help=True,
    add_completion=False,
    pretty_exceptions_enable=False,
)


def _show_version(wanted: bool) -> None:
    if wanted:
        say(f"strandproof {__version__}")
        raise typer.Exit


@program.callback()
def _options(
    version: Annotated[
        bool,
        typer.Option(
            "--version",
            callback=_show_version,
            is_eager=True,
            help="Show the version.",
        ),
    ] = False,
) -> None:
    pass


add_output_commands(program)
add_measure_commands(program)
add_count_commands(program)
add_orientation_commands(program)
add_evidence_commands(program)
add_case_commands(program)
add_reading_commands(program)
add_look_commands(program)


def main() -> None:
    """Run the program; turn refusals into one paragraph and exit code 1."""
    try:
        program()
    except StrandproofError as refusal:
        complain(f"Refused. {refusal}")
        sys.exit(REFUSED)
