"""Commands for sizes on a section: strands, flat tape, the thickness of a layer."""

from pathlib import Path
from typing import Annotated, Any

import typer

from strandproof.app import workflow
from strandproof.app.cli.arguments import AsJson
from strandproof.app.cli.bench_entry import (
    AsMeasurement,
    AsObservation,
    EnteredBy,
    IntoCase,
    Measured,
    enter_if_asked,
)
from strandproof.app.cli.console import print_json, progress, say
from strandproof.app.cli.typed_words import length_um, number
from strandproof.app.workflow.plating import (
    PlatedStrands,
    plating_data,
    plating_finding,
    plating_in_words,
)
from strandproof.app.workflow.plating import plating as state_plating
from strandproof.app.workflow.sectioning import (
    SectionPicture,
    SectionSizes,
    section_by_hand,
    section_on_picture,
    tape_on_picture,
)
from strandproof.app.workflow.sectioning_results import (
    section_data,
    section_finding,
    section_in_words,
    tape_data,
    tape_finding,
    tape_in_words,
)
from strandproof.records.physical import LayerReadings, TapeSection


def _value(help_text: str) -> Any:  # noqa: ANN401 - what typer gives
    return typer.Option(parser=number, metavar="NUMBER", help=help_text)


def _length(help_text: str) -> Any:  # noqa: ANN401 - what typer gives
    return typer.Option(parser=length_um, metavar="LENGTH", help=help_text)


def add_section_commands(program: typer.Typer) -> None:
    """Add the commands to the program.

    Parameters
    ----------
    program : typer.Typer
        The program.
    """
    panel = "Look at once"
    program.command("section-geometry", rich_help_panel=panel)(section_geometry)
    program.command(rich_help_panel=panel)(plating)


def diameters_um(text: str) -> tuple[float, ...]:
    """Read the diameters of one strand as ``80.1,79.5``.

    Parameters
    ----------
    text : str
        Lengths joined by commas; without a unit in um.

    Returns
    -------
    tuple of float
        Diameters [um].

    Raises
    ------
    typer.BadParameter
        If one is no length above zero.
    """
    return tuple(length_um(word.strip()) for word in text.split(","))


def section_geometry(
    picture: Annotated[
        Path | None, typer.Argument(help="Picture of a section across the strands.")
    ] = None,
    um_per_px: Annotated[float | None, _length("Pixel size in um.")] = None,
    uncertainty: Annotated[
        float, _length("Standard uncertainty of the pixel size, in um.")
    ] = 0.0,
    resolution: Annotated[
        float | None, _length("Width of a blurred edge, 10 % to 90 %, in um.")
    ] = None,
    flat: Annotated[
        bool, typer.Option("--flat", help="The picture shows one flat tape.")
    ] = False,
    edits: Annotated[
        Path | None, typer.Option(metavar="FILE", help="A person's edits (JSON).")
    ] = None,
    reading: Annotated[
        list[str] | None,
        typer.Option(
            metavar="D1,D2,...",
            help="Instead of a picture: diameters of one strand in several "
            "directions, in um. Repeat for each strand.",
        ),
    ] = None,
    reading_u: Annotated[
        float | None, _length("Standard uncertainty all readings share, in um.")
    ] = None,
    strands: Annotated[
        int | None, typer.Option(help="Strands in all, where not all were read.")
    ] = None,
    gauge: Annotated[
        str | None, typer.Option(help="Claimed gauge, e.g. 26 AWG.", metavar="AWG")
    ] = None,
    tolerance: Annotated[
        float, _value("Per cent by which the area may fall short of the gauge.")
    ] = 0.0,
    case: IntoCase = None,
    label: AsMeasurement = None,
    measures: Measured = None,
    by: EnteredBy = None,
    observation: AsObservation = None,
    as_json: AsJson = False,
) -> None:
    """Count strands and measure their diameters and area, on a picture or by hand.

    Refused below what pixels and resolution allow. A gauge is held against the sum
    of the strands' areas.
    """
    if (picture is None) == (reading is None):
        message = "give a picture, or readings with --reading, and not both."
        raise typer.BadParameter(message, param_hint="PICTURE / --reading")
    if reading is not None and reading_u is None:
        message = "state what all readings share: scale, edge, pressure of the jaws."
        raise typer.BadParameter(message, param_hint="--reading-u")
    found: SectionSizes | TapeSection
    if reading is not None:
        found = section_by_hand(
            [diameters_um(each) for each in reading],
            instrument_uncertainty_um=reading_u or 0.0,
            strands=strands,
            gauge=gauge,
            tolerance_percent=tolerance,
        )
    else:
        given = SectionPicture(
            path=picture or Path(),
            pixel_size=workflow.pixel_size(um_per_px, uncertainty),
            resolution_um=resolution,
            edits=() if edits is None else workflow.read_edits(edits),
        )
        with progress("measuring the section") as report:
            found = (
                tape_on_picture(given, progress=report)
                if flat
                else section_on_picture(
                    given,
                    gauge=gauge,
                    tolerance_percent=tolerance,
                    progress=report,
                )
            )
    _tell(found, as_json=as_json)
    enter_if_asked(
        tape_finding(found)
        if isinstance(found, TapeSection)
        else section_finding(found),
        case=case,
        label=label,
        measures=measures,
        by=by,
        observation=observation,
    )


def plating(
    reading: Annotated[
        list[float], _length("Thickness at one place round the section, in um. Repeat.")
    ],
    resolution: Annotated[
        float, _length("Width of a blurred edge in the picture, 10 % to 90 %, in um.")
    ],
    layer: Annotated[
        str, typer.Option(help="Metal of the layer, as identified on the section.")
    ] = "",
    scale_percent: Annotated[
        float, _value("Standard uncertainty of the pixel size, in per cent.")
    ] = 0.0,
    smallest: Annotated[
        float | None, _length("Smallest outer diameter on the section, in um.")
    ] = None,
    largest: Annotated[
        float | None, _length("Largest outer diameter on the section, in um.")
    ] = None,
    tilt: Annotated[
        float, _value("Largest tilt of the section, in deg, without diameters.")
    ] = 0.0,
    millimetres: Annotated[
        float | None, _value("Outer diameter of a strand, in mm, for the shares.")
    ] = None,
    millimetres_u: Annotated[float, _value("Its standard uncertainty, in mm.")] = 0.0,
    strands: Annotated[int, typer.Option(help="Strands with the layer.")] = 1,
    core: Annotated[str, typer.Option(help="Metal under the layer.")] = "copper",
    case: IntoCase = None,
    label: AsMeasurement = None,
    measures: Measured = None,
    by: EnteredBy = None,
    observation: AsObservation = None,
    as_json: AsJson = False,
) -> None:
    """State the thickness of a layer from readings round a section.

    With an outer diameter the layer's share by volume, mass and resistance follows,
    for the metals of the tables. Below two widths of a blurred edge nothing but a
    bound is stated.
    """
    if (smallest is None) != (largest is None):
        message = "give the smallest and the largest diameter, or neither."
        raise typer.BadParameter(message, param_hint="--smallest / --largest")
    if millimetres is not None and not layer:
        message = "the shares need the layer's metal: --layer tin, for example."
        raise typer.BadParameter(message, param_hint="--layer")
    found = state_plating(
        LayerReadings(
            readings_um=tuple(reading),
            resolution_um=resolution,
            scale_uncertainty_percent=scale_percent,
            diameters_um=(
                None if smallest is None or largest is None else (smallest, largest)
            ),
            largest_tilt_deg=tilt,
        ),
        name=layer,
        strands=(
            None
            if millimetres is None
            else PlatedStrands(
                millimetres=(millimetres, millimetres_u),
                strands=strands,
                layer=layer,
                core=core,
            )
        ),
    )
    if as_json:
        print_json(plating_data(found))
    else:
        for line in plating_in_words(found):
            say(line)
    enter_if_asked(
        plating_finding(found),
        case=case,
        label=label,
        measures=measures,
        by=by,
        observation=observation,
    )


def _tell(found: SectionSizes | TapeSection, *, as_json: bool) -> None:
    if isinstance(found, TapeSection):
        data, lines = tape_data(found), tape_in_words(found)
    else:
        data, lines = section_data(found), section_in_words(found)
    if as_json:
        print_json(data)
        return
    for line in lines:
        say(line)
