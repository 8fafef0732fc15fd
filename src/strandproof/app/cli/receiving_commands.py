"""Commands about the pieces: purchase, intake, split, build."""

from typing import Annotated

import typer

from strandproof.app.cli.arguments import AsJson, CaseFolder, Person
from strandproof.app.cli.console import print_json, say, tell_entries
from strandproof.app.workflow import Desk, ReadersAsked, open_case
from strandproof.app.workflow.receiving import building, matching, parting
from strandproof.app.workflow.receiving.leaving_out import (
    grain_size_without_weak_pieces,
)

_PANEL = "Take in, take apart"
_Mass = Annotated[float | None, typer.Option(min=0, help="Its mass in g.")]


def add_receiving_commands(program: typer.Typer) -> None:
    """Add the commands to the program.

    Parameters
    ----------
    program : typer.Typer
        The program.
    """
    for command in (purchase_match, intake, split, portions, build):
        name = command.__name__.replace("_", "-")
        program.command(name, rich_help_panel=_PANEL)(command)


def purchase_match(
    folder: CaseFolder,
    exhibit: Annotated[str | None, typer.Option(help="One piece only.")] = None,
    claim: Annotated[str | None, typer.Option(help="One claim only.")] = None,
    counter: Annotated[
        str,
        typer.Option(help="A reader: grain size without the weak pieces, too."),
    ] = "",
    calibration: Annotated[
        str, typer.Option(help="With --counter: calibration of the fields.")
    ] = "",
    as_json: AsJson = False,
) -> None:
    """Set how each piece was obtained beside each claim, and print what differs.

    Variant, shop, date within the claim's life, region, price, how obtained; and
    whether sentences about the product may rest on the piece alone.
    """
    state = open_case(folder)
    matches = matching.all_matches(state, exhibit=exhibit, claim=claim)
    if as_json:
        print_json(matching.match_data(state, matches))
        return
    for line in matching.match_in_words(state, matches):
        say(line)
    if counter:
        readers = ReadersAsked(counter=counter, second="", calibration=calibration)
        say(grain_size_without_weak_pieces(state, readers))


def intake(
    folder: CaseFolder,
    exhibit: Annotated[str, typer.Argument(help="The piece.")],
    as_json: AsJson = False,
) -> None:
    """List what an intake lacks, and printed words that are no claim yet."""
    lines = parting.intake_in_words(open_case(folder), exhibit)
    if as_json:
        print_json(list(lines))
        return
    for line in lines:
        say(line)


def split(
    folder: CaseFolder,
    exhibit: Annotated[str, typer.Argument(help="The piece.")],
    test: Annotated[float, typer.Option(min=0, help="Test part, length in m.")],
    maker: Annotated[float, typer.Option(min=0, help="Maker's part, length in m.")],
    referee: Annotated[float, typer.Option(min=0, help="Referee's part, length in m.")],
    by: Person,
    waste: Annotated[
        float | None, typer.Option(min=0, help="Waste, length in m.")
    ] = None,
    test_g: _Mass = None,
    maker_g: _Mass = None,
    referee_g: _Mass = None,
    waste_g: _Mass = None,
    as_json: AsJson = False,
) -> None:
    """Split a piece into test part, maker's part, referee's part and waste.

    The parts are then laid beside the whole, by length and by mass.
    """
    lengths = {"test": test, "maker": maker, "referee": referee, "waste": waste}
    masses = {"test": test_g, "maker": maker_g, "referee": referee_g, "waste": waste_g}
    entries = parting.split_piece(
        Desk(folder, by),
        exhibit,
        {name: size for name, size in lengths.items() if size is not None},
        masses_g={name: size for name, size in masses.items() if size is not None},
    )
    if not as_json:
        state = open_case(folder)
        for line in parting.portions_in_words(state, parting.tolerances()):
            if line.startswith(f"{exhibit}:"):
                say(line)
    tell_entries(entries, as_json=as_json)


def portions(
    folder: CaseFolder,
    tolerance_mm: Annotated[
        float | None, typer.Option(min=0, help="Length that may stay unexplained, mm.")
    ] = None,
    tolerance_g: Annotated[
        float | None, typer.Option(min=0, help="Mass that may stay unexplained, g.")
    ] = None,
    as_json: AsJson = False,
) -> None:
    """Lay the parts of every piece beside the whole: parts, waste, unexplained.

    Also says whether maker's and referee's parts must stay whole now.
    """
    state = open_case(folder)
    tolerances = parting.tolerances(length_mm=tolerance_mm, mass_g=tolerance_g)
    if as_json:
        print_json(parting.portions_data(state, tolerances))
        return
    for line in parting.portions_in_words(state, tolerances):
        say(line)
    say(parting.keeping_in_words(state, now=Desk(folder, "").clock()))


def build(folder: CaseFolder, as_json: AsJson = False) -> None:
    """Print layers and conductor types, and what is tested on each of them.

    Every conductor type is a target of its own.
    """
    state = open_case(folder)
    if as_json:
        print_json(building.build_data(state))
        return
    for line in building.build_in_words(state):
        say(line)
