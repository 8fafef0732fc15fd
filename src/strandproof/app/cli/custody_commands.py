"""Commands of custody: hand over, note an arrival, explain a gap, who held what."""

from datetime import datetime
from pathlib import Path
from typing import Annotated, Literal

import typer

from strandproof.app import workflow
from strandproof.app.cli.arguments import AsJson, CaseFolder, Label, Note, Person
from strandproof.app.cli.console import print_json, say, tell_entries
from strandproof.app.cli.typed_words import moment
from strandproof.app.workflow import Desk
from strandproof.app.workflow.keeping import custody as keeping
from strandproof.records.case_state import CaseState
from strandproof.records.custody import gap_lines

_PANEL = "Keep the pieces"

SealFound = Annotated[
    str | None,
    typer.Option(
        "--seal-found",
        metavar="intact|broken",
        help="What the receiver found of the seal.",
    ),
]


def add_custody_commands(program: typer.Typer) -> None:
    """Add the commands to the program.

    Parameters
    ----------
    program : typer.Typer
        The program.
    """
    program.command("hand-over", rich_help_panel=_PANEL)(hand_over)
    program.command(rich_help_panel=_PANEL)(arrived)
    program.command(rich_help_panel=_PANEL)(custody)
    program.command("explain-gap", rich_help_panel=_PANEL)(explain_gap)


def hand_over(
    folder: CaseFolder,
    label: Label,
    item: Annotated[
        list[str],
        typer.Option(metavar="THING", help="What, for example specimen/s1. Repeat."),
    ],
    giver: Annotated[str, typer.Option(help="From whom.")],
    receiver: Annotated[str, typer.Option(help="To whom.")],
    given: Annotated[
        datetime,
        typer.Option(
            parser=moment, metavar="MOMENT", help="When it left the giver's hands."
        ),
    ],
    condition: Annotated[str, typer.Option(help="State on arrival, or on leaving.")],
    by: Person,
    received: Annotated[
        datetime | None,
        typer.Option(
            parser=moment,
            metavar="MOMENT",
            help="When the receiver had it; without, it is under way.",
        ),
    ] = None,
    carrier: Annotated[str, typer.Option(help="How it travelled.")] = "",
    seal: Annotated[
        str | None, typer.Option(help="Entry of the seal that closed it.")
    ] = None,
    seal_found: SealFound = None,
    note: Note = "",
    as_json: AsJson = False,
) -> None:
    """Enter that things passed from one person to another.

    The time between giving and receiving is nobody's: it is printed as a gap, whoever
    carried it. A carrier who signs is entered as two hand-overs.
    """
    fields = {
        "id": label,
        "items": item,
        "giver": giver,
        "receiver": receiver,
        "given_at": given,
        "received_at": received,
        "carrier": carrier,
        "condition": condition,
        "seal": seal,
        "note": note,
    }
    before = workflow.open_case(folder)
    entries = keeping.hand_over(Desk(folder, by), fields, seal_found=_found(seal_found))
    tell_entries(entries, as_json=as_json)
    if not as_json:
        _tell_new_gaps(before, folder)


def arrived(
    folder: CaseFolder,
    label: Annotated[str, typer.Argument(metavar="HAND_OVER", help="Its short name.")],
    at: Annotated[
        datetime,
        typer.Option(parser=moment, metavar="MOMENT", help="When it was received."),
    ],
    condition: Annotated[str, typer.Option(help="State on arrival.")],
    by: Person,
    seal_found: SealFound = None,
    as_json: AsJson = False,
) -> None:
    """Note that something under way reached its receiver."""
    entries = keeping.note_arrival(
        Desk(folder, by),
        label,
        received_at=at,
        condition=condition,
        seal_found=_found(seal_found),
    )
    tell_entries(entries, as_json=as_json)


def custody(
    folder: CaseFolder,
    thing: Annotated[
        str | None,
        typer.Option(metavar="THING", help="One thing, for example specimen/s1."),
    ] = None,
    at: Annotated[
        datetime | None,
        typer.Option(parser=moment, metavar="MOMENT", help="Who held it then."),
    ] = None,
    as_json: AsJson = False,
) -> None:
    """Say who held what, with every gap; a gap is explained, never removed.

    Without options: gaps and seals of the case. With --thing its whole trail. With
    --at the holder of each thing at that moment.
    """
    state = workflow.open_case(folder)
    if as_json:
        print_json(keeping.custody_data(state))
        return
    for line in keeping.custody_in_words(state, thing=thing, at=at):
        say(line)


def explain_gap(
    folder: CaseFolder,
    gap: Annotated[str, typer.Argument(help="Name of the gap, for example G1.")],
    words: Annotated[str, typer.Option(help="What happened.")],
    by: Person,
    evidence: Annotated[
        list[str] | None,
        typer.Option(metavar="THING", help="Entry that bears it out. Repeat."),
    ] = None,
    paper: Annotated[
        Path | None,
        typer.Option(help="Paper to keep with it, such as a tracking list."),
    ] = None,
    as_json: AsJson = False,
) -> None:
    """Put an explanation beside a gap in custody; the gap stays."""
    entry = keeping.explain_gap(
        Desk(folder, by), gap, words, evidence=tuple(evidence or ()), paper=paper
    )
    tell_entries([entry], as_json=as_json)


def _found(text: str | None) -> Literal["intact", "broken"] | None:
    if text is None:
        return None
    if text == "intact":
        return "intact"
    if text == "broken":
        return "broken"
    message = f"{text!r} is neither intact nor broken."
    raise typer.BadParameter(message, param_hint="--seal-found")


def _tell_new_gaps(before: CaseState, folder: Path) -> None:
    after = workflow.open_case(folder)
    for gap in keeping.new_gaps(before, after):
        for line in gap_lines(after, gap, year=None):
            say(line)
