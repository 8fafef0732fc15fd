"""The command that measures a picture without a case."""

from pathlib import Path
from typing import Annotated

import typer

from strandproof.app import workflow
from strandproof.app.cli.console import progress, say
from strandproof.app.cli.typed_words import length_um


def add_measure_commands(program: typer.Typer) -> None:
    """Add the commands to the program.

    Parameters
    ----------
    program : typer.Typer
        The program.
    """
    program.command(rich_help_panel="Look at once")(measure)


def measure(
    picture: Annotated[Path, typer.Argument(help="PNG, JPEG or TIFF.")],
    um_per_px: Annotated[
        float | None,
        typer.Option(
            parser=length_um,
            metavar="LENGTH",
            help="Pixel size in um; other units as in 172.6nm.",
        ),
    ] = None,
    uncertainty: Annotated[
        float,
        typer.Option(
            parser=length_um,
            metavar="LENGTH",
            help="Standard uncertainty of the pixel size, in um.",
        ),
    ] = 0.0,
    pixels: Annotated[
        bool, typer.Option("--pixels", help="Count without a scale: no G, flagged.")
    ] = False,
    edits: Annotated[
        Path | None,
        typer.Option(metavar="FILE", help="A person's edits (JSON); they win."),
    ] = None,
    json_file: Annotated[
        Path | None, typer.Option("--json", metavar="FILE", help="Numbers go here.")
    ] = None,
    labels: Annotated[
        Path | None,
        typer.Option(metavar="FILE", help="Grain labels: .png (16 bit) or .tif."),
    ] = None,
    overlay: Annotated[
        Path | None,
        typer.Option(metavar="FILE", help="Boundaries drawn on the picture (.png)."),
    ] = None,
    page: Annotated[int | None, typer.Option(help="Page, for several.")] = None,
    allow_large: Annotated[
        bool, typer.Option("--allow-large", help="Unpack honest very large files.")
    ] = False,
) -> None:
    """Measure the grains on one picture, without a case.

    Give the pixel size with --um-per-px, or count in pixels with --pixels. A
    pixel size in the file is used when none is given. With --edits the numbers
    without them are kept beside.
    """
    if pixels and um_per_px is not None:
        message = "--pixels counts without a scale; leave out one of the two."
        raise typer.BadParameter(message, param_hint="--pixels / --um-per-px")
    drawn = () if edits is None else workflow.read_edits(edits)
    with progress(f"measuring {picture.name}") as report:
        result = workflow.measure_picture(
            picture,
            pixel_size=workflow.pixel_size(um_per_px, uncertainty),
            in_pixels=pixels,
            page=page,
            allow_large=allow_large,
            progress=report,
        )
        result = workflow.measured_with_edits(result, drawn)
    workflow.write_measurement(
        result,
        source=picture,
        json_file=json_file,
        labels_file=labels,
        overlay_file=overlay,
    )
    say(workflow.measurement_in_words(result))
