"""The program: its commands, and how refusals become words and exit codes."""

import sys
from typing import Annotated

import typer

from strandproof import __version__
from strandproof.app.cli.blinding_commands import add_blinding_commands
from strandproof.app.cli.case_commands import add_case_commands
from strandproof.app.cli.claiming_commands import add_claiming_commands
from strandproof.app.cli.composition_commands import add_composition_commands
from strandproof.app.cli.conductor_commands import add_conductor_commands
from strandproof.app.cli.console import complain, say
from strandproof.app.cli.count_commands import add_count_commands
from strandproof.app.cli.custody_commands import add_custody_commands
from strandproof.app.cli.evidence_commands import add_evidence_commands
from strandproof.app.cli.frequency_command import add_frequency_command
from strandproof.app.cli.handling_commands import add_handling_commands
from strandproof.app.cli.keeping_commands import add_keeping_commands
from strandproof.app.cli.look_commands import add_look_commands
from strandproof.app.cli.measure_commands import add_measure_commands
from strandproof.app.cli.orientation_commands import add_orientation_commands
from strandproof.app.cli.output_commands import add_output_commands
from strandproof.app.cli.physical_commands import add_physical_commands
from strandproof.app.cli.plan_commands import add_plan_commands
from strandproof.app.cli.ratio_commands import add_ratio_commands
from strandproof.app.cli.reading_commands import add_reading_commands
from strandproof.app.cli.receiving_commands import add_receiving_commands
from strandproof.app.cli.redaction_commands import add_redaction_commands
from strandproof.app.cli.resistance_command import add_resistance_command
from strandproof.app.cli.section_commands import add_section_commands
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
add_frequency_command(program)
add_section_commands(program)
add_resistance_command(program)
add_conductor_commands(program)
add_ratio_commands(program)
add_evidence_commands(program)
add_composition_commands(program)
add_case_commands(program)
add_claiming_commands(program)
add_receiving_commands(program)
add_plan_commands(program)
add_redaction_commands(program)
add_blinding_commands(program)
add_reading_commands(program)
add_look_commands(program)
add_physical_commands(program)
add_handling_commands(program)
add_custody_commands(program)
add_keeping_commands(program)


def main() -> None:
    """Run the program; turn refusals into one paragraph and exit code 1."""
    try:
        program()
    except StrandproofError as refusal:
        complain(f"Refused. {refusal}")
        sys.exit(REFUSED)
