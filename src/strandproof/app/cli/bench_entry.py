"""The options by which a bench command also enters its result into a case."""

from pathlib import Path
from typing import Annotated

import typer

from strandproof.app.cli.console import complain
from strandproof.app.workflow import Desk
from strandproof.app.workflow.bench_findings import BenchFinding, enter_finding
from strandproof.records.entries import kind_in_words

IntoCase = Annotated[
    Path | None,
    typer.Option("--case", help="Case to enter the result into.", metavar="FOLDER"),
]
AsMeasurement = Annotated[
    str | None,
    typer.Option("--id", help="Short name of the measurement.", metavar="NAME"),
]
Measured = Annotated[
    str | None,
    typer.Option(
        "--measures", help="What was measured, e.g. specimen/s1.", metavar="THING"
    ),
]
EnteredBy = Annotated[
    str | None,
    typer.Option(
        "--by", help="Who enters it.", envvar="STRANDPROOF_PERSON", metavar="NAME"
    ),
]
AsObservation = Annotated[
    str | None,
    typer.Option(
        "--observation",
        help="Enter it as an observation to weigh too, by this name.",
        metavar="NAME",
    ),
]


def enter_if_asked(
    finding: BenchFinding,
    *,
    case: Path | None,
    label: str | None,
    measures: str | None,
    by: str | None,
    observation: str | None = None,
) -> None:
    """Enter a finding where a case was named, and say so on the error stream.

    Parameters
    ----------
    finding : BenchFinding
        What was found.
    case : Path or None
        Folder of the case; none: nothing is entered.
    label, measures, by : str or None
        Name of the measurement, thing measured, person; needed with a case.
    observation : str or None
        Name of the observation; none: a measurement only.

    Raises
    ------
    BadParameter
        If a case is named and one of the three is missing, or the other way round.
    """
    if case is None:
        if observation is not None or measures is not None or label is not None:
            message = "name the case too: --case FOLDER"
            raise typer.BadParameter(message)
        return
    if label is None or measures is None or by is None:
        message = "a result goes into a case with --id, --measures and --by"
        raise typer.BadParameter(message)
    desk = Desk(case, by)
    entries = enter_finding(desk, label, measures, finding, observation=observation)
    for entry in entries:
        complain(f"Entry {entry.number}: {kind_in_words(entry.kind)} {entry.body.id}.")
    complain(f"Head: {entries[-1].sha256}")
