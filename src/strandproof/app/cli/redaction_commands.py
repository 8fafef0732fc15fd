"""Commands of redaction: black out, reveal, check."""

from pathlib import Path
from typing import Annotated

import typer

from strandproof.app.cli.arguments import AsJson, CaseFolder, Label, Person
from strandproof.app.cli.console import say, tell_entries
from strandproof.app.workflow import Desk
from strandproof.app.workflow.redacting import (
    RedactedFile,
    check_revealed,
    redact,
    reveal,
)

RedactionName = Annotated[
    str, typer.Argument(help="Short name of the redaction.", metavar="REDACTION")
]


def add_redaction_commands(program: typer.Typer) -> None:
    """Add the commands to the program.

    Parameters
    ----------
    program : typer.Typer
        The program.
    """
    panel = "Work on a case"
    program.command("redact", rich_help_panel=panel)(black_out)
    program.command("reveal", rich_help_panel=panel)(show_whole)
    program.command("check-revealed", rich_help_panel=panel)(check)


def black_out(
    folder: CaseFolder,
    label: Label,
    whole: Annotated[Path, typer.Option(help="The file as it is; stays private.")],
    shown: Annotated[Path, typer.Option(help="The blacked-out copy.")],
    removed: Annotated[
        str, typer.Option(help="What was removed, for example address.")
    ],
    because: Annotated[str, typer.Option(help="Why.")],
    by: Person,
    as_json: AsJson = False,
) -> None:
    """Show a blacked-out copy, and seal the whole by its hash."""
    file = RedactedFile(whole=whole, shown=shown, removed=removed, reason=because)
    entry = redact(Desk(folder, by), label, file)
    tell_entries([entry], as_json=as_json)
    if not as_json:
        say(f"The whole is sealed as {entry.sealed[0].sha256}.")


def show_whole(
    folder: CaseFolder,
    redaction: RedactionName,
    out: Annotated[Path, typer.Option(help="New file.")],
) -> None:
    """Write the whole of a redacted file, for somebody who may see it."""
    salt = reveal(folder, redaction, out)
    say(f"Written: {out}")
    say(f"Salt for its check: {salt}")


def check(
    folder: CaseFolder,
    redaction: RedactionName,
    file: Annotated[Path, typer.Argument(help="The file revealed.")],
    salt: Annotated[str, typer.Option(help="Its salt, 64 hexadecimal digits.")],
) -> None:
    """Check a revealed file against the hash that was public before."""
    agreed = check_revealed(folder, redaction, file, salt)
    say(f"{file.name} is the file that was sealed: {agreed}")
