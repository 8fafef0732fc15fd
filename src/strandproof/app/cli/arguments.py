"""Arguments and options that several commands share."""

from pathlib import Path
from typing import Annotated

import typer

CaseFolder = Annotated[Path, typer.Argument(help="Folder of the case.", metavar="CASE")]
Label = Annotated[
    str, typer.Option("--id", help="Short name, for example K1 or E1.", metavar="NAME")
]
Person = Annotated[
    str,
    typer.Option(
        "--by", help="Who enters it.", envvar="STRANDPROOF_PERSON", metavar="NAME"
    ),
]
Note = Annotated[str, typer.Option("--note", help="Anything worth remembering.")]
AsJson = Annotated[bool, typer.Option("--json", help="Print JSON for programs.")]
