"""Commands for a laboratory's table of crystal orientations."""

import re
from pathlib import Path
from typing import Annotated

import typer

from strandproof.app import workflow
from strandproof.app.cli.arguments import AsJson
from strandproof.app.cli.console import print_json, say
from strandproof.app.cli.typed_words import length_um, number
from strandproof.app.workflow import OrientationQuestion
from strandproof.records.orientation import (
    AngleMeaning,
    Axis,
    FrameKnowledge,
    OrientationRules,
    PointOnMap,
)
from strandproof.records.orientation_results import FibreTexture


def add_orientation_commands(program: typer.Typer) -> None:
    """Add the commands to the program.

    Parameters
    ----------
    program : typer.Typer
        The program.
    """
    panel = "Look at once"
    program.command(rich_help_panel=panel)(orientations)
    program.command("orientation-example", rich_help_panel=panel)(example)


def point_on_map(text: str) -> PointOnMap:
    """Read a place of a map as ``x,y``.

    Parameters
    ----------
    text : str
        For example ``100,40``; in micrometres.

    Returns
    -------
    PointOnMap
        The place.

    Raises
    ------
    typer.BadParameter
        If it has another form.
    """
    parts = re.split(r"\s*,\s*", text.strip())
    if len(parts) != 2:
        message = f"{text!r} is not of the form x,y in um, for example 100,40."
        raise typer.BadParameter(message)
    return PointOnMap(x_um=number(parts[0]), y_um=number(parts[1]))


def orientations(
    table: Annotated[
        Path,
        typer.Argument(help="CSV of points, grains or places.", metavar="TABLE"),
    ],
    angles: Annotated[
        AngleMeaning,
        typer.Option(
            help="How the laboratory's Bunge angles are meant: passive turns the "
            "specimen's axes onto the crystal's, active the other way. Ask."
        ),
    ],
    boundary: Annotated[
        float,
        typer.Option(parser=number, metavar="DEG", help="Smallest grain boundary."),
    ] = 15.0,
    small: Annotated[
        float,
        typer.Option(parser=number, metavar="DEG", help="Smallest angle counted."),
    ] = 2.0,
    smallest_grain: Annotated[
        int, typer.Option(help="Islands of fewer points count as misindexed.")
    ] = 4,
    bridge: Annotated[
        int, typer.Option(help="Steps over which a gap takes its neighbour.")
    ] = 2,
    axis: Annotated[Axis, typer.Option(help="The strand's axis in the table.")] = "x",
    place: Annotated[
        list[PointOnMap] | None,
        typer.Option(
            parser=point_on_map,
            metavar="X,Y",
            help="Place of a map, in um, to compare with the first one. Repeat.",
        ),
    ] = None,
    place_radius: Annotated[
        float | None,
        typer.Option(parser=length_um, metavar="LENGTH", help="Its radius."),
    ] = None,
    tolerance: Annotated[
        float,
        typer.Option(parser=number, metavar="DEG", help="Largest angle of a match."),
    ] = 5.0,
    frame: Annotated[
        FrameKnowledge,
        typer.Option(
            help="shared: places measured in one frame. axis: the strand was mounted "
            "anew, so only what lies along it is compared."
        ),
    ] = "shared",
    fibre_111: Annotated[
        float | None,
        typer.Option(
            "--fibre-111",
            parser=number,
            metavar="SHARE",
            help="Share of <111> grains, 0 to 1.",
        ),
    ] = None,
    fibre_100: Annotated[
        float | None,
        typer.Option(
            "--fibre-100",
            parser=number,
            metavar="SHARE",
            help="Share of <100> grains, 0 to 1.",
        ),
    ] = None,
    fibre_tilt: Annotated[
        float,
        typer.Option(
            parser=number,
            metavar="DEG",
            help="Standard deviation of their tilt about each direction across.",
        ),
    ] = 0.0,
    step: Annotated[
        float | None,
        typer.Option(
            parser=length_um,
            metavar="LENGTH",
            help="Step of the map behind a list of grains or places.",
        ),
    ] = None,
    indexed: Annotated[
        float | None,
        typer.Option(
            parser=number, metavar="SHARE", help="Share indexed of that map, 0 to 1."
        ),
    ] = None,
    as_json: AsJson = False,
) -> None:
    """Examine a table of crystal orientations: boundaries, grains, matching places.

    Every sentence names step, share indexed and threshold. Says nothing about the
    casting route, purity or oxygen.
    """
    if fibre_tilt and fibre_111 is None and fibre_100 is None:
        message = "--fibre-tilt belongs to --fibre-111 or --fibre-100; give a share."
        raise typer.BadParameter(message, param_hint="--fibre-tilt")
    texture = None
    if fibre_111 is not None or fibre_100 is not None:
        texture = FibreTexture(
            share_111=fibre_111 or 0.0, share_100=fibre_100 or 0.0, tilt_deg=fibre_tilt
        )
    question = OrientationQuestion(
        meaning=angles,
        rules=OrientationRules(
            boundary_deg=boundary,
            small_deg=small,
            smallest_grain_points=smallest_grain,
            bridge_points=bridge,
            axis=axis,
        ),
        places=tuple(place or ()),
        place_radius_um=place_radius,
        tolerance_deg=tolerance,
        frame=frame,
        texture=texture,
        stated_step_um=step,
        stated_share_indexed=indexed,
    )
    answer = workflow.examine_orientations(table, question)
    if as_json:
        print_json(workflow.orientations_data(answer))
        return
    for line in workflow.orientations_in_words(answer):
        say(line)


def example(
    table: Annotated[
        Path, typer.Argument(help="File to write; must be new.", metavar="TABLE")
    ],
) -> None:
    """Write a synthetic map of orientations, to try the command on."""
    workflow.write_example_orientations(table)
    say(
        f"{table} holds a synthetic map: drawn by a program, no measurement. "
        "Its angles are passive."
    )
