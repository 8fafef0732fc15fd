"""Commands about what was said, and about the interests of those who ask."""

from datetime import datetime
from pathlib import Path
from typing import Annotated

import typer

from strandproof.app.cli.arguments import AsJson, CaseFolder, Label, Note, Person
from strandproof.app.cli.console import print_json, say, tell_entries
from strandproof.app.cli.typed_words import moment
from strandproof.app.workflow import Desk, open_case
from strandproof.app.workflow.claiming import copies, grid_words, interests
from strandproof.records.entries import SpeakerRole

_PANEL = "What was said"
_ROLES = ", ".join(SpeakerRole)
_PART_ONLY = Annotated[
    bool,
    typer.Option("--part-only", help="Only a part of the place was captured."),
]


def add_claiming_commands(program: typer.Typer) -> None:
    """Add the commands to the program.

    Parameters
    ----------
    program : typer.Typer
        The program.
    """
    for command in (
        capture,
        recheck,
        search_capture,
        claim_grid,
        still_online,
        costs,
        blanks,
    ):
        name = command.__name__.replace("_", "-")
        program.command(name, rich_help_panel=_PANEL)(command)


def capture(
    folder: CaseFolder,
    file: Annotated[Path, typer.Argument(help="The copy: saved page, screenshot ...")],
    label: Label,
    medium: Annotated[str, typer.Option(help="Product page, hang tag, data sheet ...")],
    place: Annotated[str, typer.Option(help="Address, number, name: where it is.")],
    at: Annotated[
        datetime,
        typer.Option(parser=moment, metavar="MOMENT", help="When it was captured."),
    ],
    by: Person,
    role: Annotated[
        str | None, typer.Option(help=f"Whose place it is: {_ROLES}.")
    ] = None,
    unchanged_since: Annotated[
        datetime | None,
        typer.Option(
            parser=moment,
            metavar="MOMENT",
            help="Since when it is known to read the same.",
        ),
    ] = None,
    part_only: _PART_ONLY = False,
    note: Note = "",
    as_json: AsJson = False,
) -> None:
    """Freeze a place, whether or not it holds a claim; a text is searched at once.

    Without a copy that was searched, nothing counts as "not said" there.
    """
    fields = {
        "id": label,
        "medium": medium,
        "place": place,
        "captured_at": at,
        "complete": not part_only,
        "speaker_role": role,
        "unchanged_since": unchanged_since,
        "note": note,
    }
    entries = copies.freeze_place(Desk(folder, by), fields, file=file)
    tell_entries(entries, as_json=as_json)


def recheck(
    folder: CaseFolder,
    earlier: Annotated[str, typer.Argument(help="A capture of that place.")],
    file: Annotated[Path, typer.Argument(help="The new copy.")],
    label: Label,
    by: Person,
    at: Annotated[
        datetime | None,
        typer.Option(
            parser=moment, metavar="MOMENT", help="When it was captured; else now."
        ),
    ] = None,
    part_only: _PART_ONLY = False,
    as_json: AsJson = False,
) -> None:
    """Look at a place again: keep the new copy and compare it with the last one.

    Texts and saved pages are compared line by line. Nothing is said about why
    anything changed.
    """
    found = copies.recheck_place(
        Desk(folder, by),
        earlier,
        file,
        name=label,
        complete=not part_only,
        captured_at=at,
    )
    if as_json:
        print_json(grid_words.recheck_data(found))
        return
    for line in grid_words.recheck_in_words(found):
        say(line)
    tell_entries(found.entries, as_json=False)


def search_capture(
    folder: CaseFolder,
    by: Person,
    capture: Annotated[
        str | None,
        typer.Argument(help="The copy; left out: every copy that is a text."),
    ] = None,
    look_for: Annotated[
        list[str] | None,
        typer.Option("--for", help="Words to look for. Repeat. Else all claims'."),
    ] = None,
    looked_through: Annotated[
        str,
        typer.Option(
            metavar="HOW", help="A person looked: read, listened to. With --found."
        ),
    ] = "",
    found: Annotated[
        list[str] | None,
        typer.Option(help="With --looked-through: words that stand there. Repeat."),
    ] = None,
    as_json: AsJson = False,
) -> None:
    """Search a copy for the words of the claims; only that makes words "not said".

    A text is searched by the program. A picture or a recording is looked through by
    a person: --looked-through says how, --found what stands there.
    """
    desk = Desk(folder, by)
    if found and not looked_through:
        message = "--found belongs to --looked-through."
        raise typer.BadParameter(message, param_hint="--found")
    if capture is None:
        entries = copies.search_all_copies(desk)
    elif looked_through:
        entries = (
            copies.enter_search(
                desk,
                capture,
                looked_for=look_for or (),
                found=found or (),
                method=looked_through,
            ),
        )
    else:
        entries = (copies.search_copy(desk, capture, look_for or ()),)
    if entries:
        tell_entries(entries, as_json=as_json)
    elif as_json:
        print_json([])
    else:
        say("Every copy that is a text was searched for these words already.")


def claim_grid(
    folder: CaseFolder,
    questions: Annotated[
        bool,
        typer.Option("--questions", help="Also what every copy answers."),
    ] = False,
    as_json: AsJson = False,
) -> None:
    """Print who said what, where, when; and where it is not said.

    "Not said" needs a whole copy that was searched; else "not looked at". Below the
    grid: changes, the ways to read each claim, own words with a correction due.
    """
    state = open_case(folder)
    if as_json:
        print_json(grid_words.grid_data(state))
        return
    asked = grid_words.questions_in_words(state) if questions else ()
    for line in (*grid_words.grid_in_words(state), *asked):
        say(line)


def still_online(
    folder: CaseFolder,
    days: Annotated[
        int | None,
        typer.Option(min=1, help="Days after which a place is due; usually 30."),
    ] = None,
    at: Annotated[
        datetime | None,
        typer.Option(parser=moment, metavar="MOMENT", help="As of when; else now."),
    ] = None,
    as_json: AsJson = False,
) -> None:
    """List the places to be looked at again, to see whether the words still stand.

    A place is also due when a letter went out after its last copy.
    """
    now = at or Desk(folder, "").clock()
    due = grid_words.still_online(open_case(folder), now=now, days=days)
    if as_json:
        print_json(grid_words.due_data(due))
        return
    for line in grid_words.due_in_words(due):
        say(line)


def costs(folder: CaseFolder, as_json: AsJson = False) -> None:
    """Print money, hours, who paid, and what is declared."""
    state = open_case(folder)
    if as_json:
        print_json(interests.costs_data(state))
        return
    for line in interests.costs_in_words(state):
        say(line)


def blanks(folder: CaseFolder, as_json: AsJson = False) -> None:
    """List what is blank before the plan may be locked, and before publication.

    "None, declared by ... on ..." is an answer; a blank is not.
    """
    state = open_case(folder)
    if as_json:
        print_json(
            {
                "lock": list(interests.lock_blockers(state)),
                "publication": list(interests.publication_blockers(state)),
            }
        )
        return
    for line in interests.blanks_in_words(state):
        say(line)
