"""Commands of blinding: codes, sealed list, hand-out, take back, open."""

from pathlib import Path
from typing import Annotated

import numpy as np
import typer

from strandproof.app.cli.arguments import AsJson, CaseFolder, Label, Person
from strandproof.app.cli.console import print_json, say, tell_entries
from strandproof.app.cli.typed_words import number
from strandproof.app.workflow import Desk, open_case
from strandproof.app.workflow.blinding import (
    HandOutRequest,
    OwnReading,
    check_opened_list,
    hand_out,
    label_meant,
    make_codes,
    open_list,
    openly_coded,
    read_coder_list,
    read_from_hand_out,
    seal_list,
    take_back,
    write_code_lists,
)
from strandproof.records.entries import Section

ListName = Annotated[
    str, typer.Argument(help="Short name of the sealed list.", metavar="LIST")
]
HandOutName = Annotated[
    str, typer.Argument(help="Short name of the hand-out.", metavar="HAND-OUT")
]


def add_blinding_commands(program: typer.Typer) -> None:
    """Add the commands to the program.

    Parameters
    ----------
    program : typer.Typer
        The program.
    """
    panel = "Blinding"
    for name, command in (
        ("codes", codes),
        ("label", label_of_code),
        ("seal-list", seal),
        ("hand-out", give_out),
        ("read-hand-out", read_own),
        ("take-back", returned),
        ("open-list", open_sealed),
        ("check-list", check),
    ):
        program.command(name, rich_help_panel=panel)(command)


def codes(
    folder: CaseFolder,
    labels: Annotated[Path, typer.Option(help="New JSON file: the labels.")],
    coder_list: Annotated[
        Path, typer.Option("--list", help="New CSV file: the coder's list. Secret.")
    ],
    by: Person,
    thing: Annotated[
        list[str] | None,
        typer.Option(help="section/NAME or specimen/NAME to be coded. Repeat."),
    ] = None,
    all_sections: Annotated[
        bool, typer.Option("--all-sections", help="Code every section of the case.")
    ] = False,
    spares: Annotated[int, typer.Option(min=0, help="Labels in reserve.")] = 0,
    seed: Annotated[
        int | None,
        typer.Option(min=0, help="Seed, to make the same codes again; secret too."),
    ] = None,
) -> None:
    """Draw meaningless codes with a check character; print labels and coder's list.

    Nothing is entered. Seal the list with 'seal-list' before anyone reads.
    """
    things = list(thing or ())
    if all_sections:
        things += [f"section/{s.id}" for s in open_case(folder).records(Section)]
    chance = None if seed is None else np.random.default_rng(seed)
    sheet = make_codes(Desk(folder, by), things, spares=spares, generator=chance)
    write_code_lists(sheet, labels, coder_list)
    say(f"{len(sheet.labels)} labels: {labels}")
    say(f"{sheet.warning} Coder's list: {coder_list}")


def label_of_code(
    folder: CaseFolder,
    code: Annotated[str, typer.Argument(help="A code as read from a label.")],
) -> None:
    """Find the label that was typed; a mistyped one is refused with the nearest."""
    say(label_meant(folder, code))


def seal(
    folder: CaseFolder,
    label: Label,
    coder_list: Annotated[
        Path, typer.Option("--list", help="The coder's list, CSV from 'codes'.")
    ],
    by: Person,
    reader: Annotated[
        list[str] | None,
        typer.Option(
            help="Who has to read every piece before the list may be opened. Repeat."
        ),
    ] = None,
    as_json: AsJson = False,
) -> None:
    """Seal the list of blind codes: the hash is public now, the list is not."""
    assignments = read_coder_list(coder_list)
    desk = Desk(folder, by)
    entry = seal_list(desk, label, assignments, readers=tuple(reader or ()))
    tell_entries([entry], as_json=as_json)
    if as_json:
        return
    say(f"Sealed as {entry.sealed[0].sha256}. Publish this hash with its date.")
    stated = openly_coded(open_case(folder), assignments)
    if stated:
        say(
            f"{len(stated)} codes stand openly beside their pieces in this case, so "
            "whoever sees the case knows them; give readers hand-outs, never the case."
        )


def open_sealed(
    folder: CaseFolder, sealed_list: ListName, by: Person, as_json: AsJson = False
) -> None:
    """Open a sealed list, once every reading of every coded piece is locked."""
    entry = open_list(Desk(folder, by), sealed_list)
    tell_entries([entry], as_json=as_json)


def check(folder: CaseFolder, sealed_list: ListName) -> None:
    """Check an opened list against the hash that was sealed before reading."""
    checked = check_opened_list(folder, sealed_list)
    say(
        f"List {sealed_list} agrees with its seal {checked.sealed.sealed[0].sha256}: "
        f"sealed as entry {checked.sealed.number}, opened as entry "
        f"{checked.opened.number}."
    )
    if checked.readings_before_seal:
        say(f"Read before it was sealed: {', '.join(checked.readings_before_seal)}.")


def give_out(
    folder: CaseFolder,
    label: Label,
    reader: Annotated[str, typer.Option(help="Who is to read.")],
    out: Annotated[Path, typer.Option(help="New folder, or new file ending in .zip.")],
    by: Person,
    sealed_list: Annotated[
        str | None,
        typer.Option(help="Sealed list with the codes; without, those of sections."),
    ] = None,
    micrograph: Annotated[
        list[str] | None,
        typer.Option(help="Micrograph; without, all that have a code. Repeat."),
    ] = None,
    lines: Annotated[int, typer.Option(min=0, help="Straight test lines.")] = 0,
    circles: Annotated[int, typer.Option(min=0, help="Test circles.")] = 0,
    direction: Annotated[
        list[float] | None,
        typer.Option(
            parser=number,
            metavar="NUMBER",
            help="Direction of lines in degrees. Repeat. Without: 0, 45, 90, 135.",
        ),
    ] = None,
    rule: Annotated[
        list[str] | None, typer.Option(help="A rule for counting. Repeat.")
    ] = None,
    seed: Annotated[int | None, typer.Option(min=0, help="Seed of the order.")] = None,
    as_json: AsJson = False,
) -> None:
    """Give a reader coded pictures, and nothing that names the pieces.

    Pixels are written anew without loss, so that no metadata comes along. Every file
    is searched for the case's names first; if one is found nothing is written.
    """
    request = HandOutRequest(
        reader=reader,
        micrographs=tuple(micrograph or ()),
        sealed_list=sealed_list,
        straight_lines=lines,
        circles=circles,
        directions_deg=tuple(direction or (0.0, 45.0, 90.0, 135.0)),
        counting_rules=tuple(rule or ()),
        order_seed=seed,
    )
    entry = hand_out(Desk(folder, by), label, request, out)
    tell_entries([entry], as_json=as_json)
    if not as_json:
        say(f"Hand-out: {out}. Which picture is which stays in private/.")


def read_own(
    source: Annotated[
        Path, typer.Argument(metavar="HAND-OUT", help="The hand-out, folder or zip.")
    ],
    picture: Annotated[str, typer.Option(help="Code of the picture.")],
    out: Annotated[Path, typer.Option(help="JSON file of readings that goes back.")],
    verdict: Annotated[
        str | None,
        typer.Option(
            help="boundaries, none_resolved or not_readable; sure marks decide it."
        ),
    ] = None,
    reason: Annotated[str, typer.Option(help="Why; must, if not readable.")] = "",
    marks: Annotated[
        Path | None,
        typer.Option(help="List of marks, .csv or .json, as for 'read'."),
    ] = None,
    as_json: AsJson = False,
) -> None:
    """Read one picture of a hand-out; what is read stays. No case is needed."""
    own = OwnReading(picture=picture, verdict=verdict, reason=reason, marks=marks)
    so_far = read_from_hand_out(source, out, own)
    if as_json:
        print_json({"left": list(so_far.left), "words": list(so_far.words)})
        return
    for line in so_far.words:
        say(line)
    left = ", ".join(so_far.left)
    say(f"Left to read: {left}." if left else f"All read. Send back {out}.")


def returned(
    folder: CaseFolder,
    hand_out_name: HandOutName,
    file: Annotated[Path, typer.Argument(help="Readings as they came, .json or .csv.")],
    by: Person,
    as_json: AsJson = False,
) -> None:
    """Take a reader's readings back: seal, codes and marks are checked, then locked."""
    entries = take_back(Desk(folder, by), hand_out_name, file)
    tell_entries(entries, as_json=as_json)
