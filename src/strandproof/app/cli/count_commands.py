"""Commands that count one picture by named procedures, without a case."""

from pathlib import Path
from typing import Annotated

import typer

from strandproof.app.cli.arguments import AsJson
from strandproof.app.cli.console import print_json, progress, say
from strandproof.app.cli.typed_words import length_um
from strandproof.app.workflow import pixel_size
from strandproof.app.workflow.counting import (
    PROCEDURE_NAMES,
    CountingChoices,
    count_picture,
    counting_document,
    counting_in_words,
    planes_document,
    planes_together,
)
from strandproof.app.workflow.counting_plot import PlotOf, write_count_plots
from strandproof.app.workflow.counting_words import BoundAsked
from strandproof.app.workflow.new_file import require_new_file
from strandproof.records.measurement import FrameRule, LineEndRule
from strandproof.records.procedures import (
    CountingStandard,
    TangentRule,
    TriplePointRule,
)


def procedure_name(text: str) -> str:
    """Read the name of a procedure; hyphens stand for underscores too.

    Parameters
    ----------
    text : str
        As typed.

    Returns
    -------
    str
        The name.

    Raises
    ------
    typer.BadParameter
        If there is no such procedure.
    """
    name = text.replace("-", "_")
    if name not in PROCEDURE_NAMES:
        message = f"{text!r} is none of {', '.join(PROCEDURE_NAMES)}."
        raise typer.BadParameter(message)
    return name


def add_count_commands(program: typer.Typer) -> None:
    """Add the commands to the program.

    Parameters
    ----------
    program : typer.Typer
        The program.
    """
    program.command(rich_help_panel="Look at once")(count)
    program.command(rich_help_panel="Look at once")(planes)


def count(
    picture: Annotated[Path, typer.Argument(help="PNG, JPEG or TIFF.")],
    procedure: Annotated[
        list[str] | None,
        typer.Option(
            parser=procedure_name,
            metavar="NAME",
            help="May be given several times; default all: "
            f"{', '.join(PROCEDURE_NAMES)}.",
        ),
    ] = None,
    um_per_px: Annotated[
        float | None,
        typer.Option(
            "--um-per-px",
            "--pixel-size",
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
    labels: Annotated[
        Path | None,
        typer.Option(
            metavar="FILE", help="Grain labels (.png) counted instead of found ones."
        ),
    ] = None,
    twin_labels: Annotated[
        Path | None,
        typer.Option(metavar="FILE", help="Labels (.png) with twins as regions."),
    ] = None,
    standard: Annotated[
        CountingStandard, typer.Option(help="Whose scores are taken.")
    ] = "textbook",
    tangent: Annotated[
        TangentRule | None, typer.Option(help="Score of a tangent, if another.")
    ] = None,
    triple_point: Annotated[
        TriplePointRule | None,
        typer.Option(help="Score of a triple point, if another."),
    ] = None,
    line_ends: Annotated[
        LineEndRule, typer.Option(help="Score of intercepts at the ends of lines.")
    ] = "half",
    frame_rule: Annotated[
        FrameRule, typer.Option(help="Score of grains that the frame cuts.")
    ] = "half_and_quarter_corners",
    magnification: Annotated[
        float | None,
        typer.Option(help="Figures as large as on a print of this magnification."),
    ] = None,
    placements: Annotated[
        int, typer.Option(min=1, help="Most circles side by side on one piece.")
    ] = 1,
    claimed: Annotated[
        float | None,
        typer.Option(help="Crystal length claimed, in m, for 'no boundary seen'."),
    ] = None,
    claimed_by: Annotated[
        str, typer.Option(help="Where it is claimed, for example 'the tag'.")
    ] = "the claim",
    plot: Annotated[
        Path | None,
        typer.Option(
            metavar="FILE.svg",
            help="New file for a histogram with the mean and its interval.",
        ),
    ] = None,
    plot_of: Annotated[
        PlotOf, typer.Option(help="Single values in the histogram.")
    ] = "intercepts",
    as_json: AsJson = False,
) -> None:
    """Count the grains on one picture by named procedures, without a case.

    Circle, rectangle, lines in four directions, circles, triple points: each with
    its rules, with the result under every other choice of rule beside it. Says when
    a mean grain size is not legitimate, and counts boundaries along the length.
    """
    if pixels and um_per_px is not None:
        message = "--pixels counts without a scale; leave out one of the two."
        raise typer.BadParameter(message, param_hint="--pixels / --um-per-px")
    require_new_file(plot)
    choices = CountingChoices(
        procedures=tuple(procedure or PROCEDURE_NAMES),
        standard=standard,
        tangent=tangent,
        triple_point=triple_point,
        line_ends=line_ends,
        frame_rule=frame_rule,
        magnification=magnification,
        placements=placements,
    )
    with progress(f"counting {picture.name}") as report:
        result = count_picture(
            picture,
            choices,
            pixel_size=pixel_size(um_per_px, uncertainty),
            in_pixels=pixels,
            labels_files=(labels, twin_labels),
            progress=report,
        )
    plots = None if plot is None else write_count_plots(result, plot, of=plot_of)
    if as_json:
        print_json(counting_document(result))
        return
    bound = BoundAsked(claimed_m=claimed, claimed_by=claimed_by)
    say(counting_in_words(result, bound=bound))
    if plots is not None:
        for line in (*(f"Drawing: {each}" for each in plots.files), *plots.not_drawn):
            say(line)


def planes(
    longitudinal: Annotated[
        float, typer.Option(help="Boundaries per mm on the longitudinal plane.")
    ],
    transverse: Annotated[
        float, typer.Option(help="Boundaries per mm on the transverse plane.")
    ],
    planar: Annotated[
        float, typer.Option(help="Boundaries per mm on the third plane.")
    ],
    along_over_across: Annotated[
        float | None,
        typer.Option(help="Mean intercept along over across, longitudinal plane."),
    ] = None,
    as_json: AsJson = False,
) -> None:
    """Take boundaries per mm of three principal planes together."""
    found = planes_together(
        longitudinal, transverse, planar, along_over_across=along_over_across
    )
    if as_json:
        print_json(planes_document(found))
        return
    say(found.sentence)
