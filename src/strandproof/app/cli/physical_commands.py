"""Commands for a strand as a body: hardness, density, which metal."""

from pathlib import Path
from typing import Annotated, Any

import typer

from strandproof.app.cli.arguments import AsJson
from strandproof.app.cli.bench_entry import (
    AsMeasurement,
    AsObservation,
    EnteredBy,
    IntoCase,
    Measured,
    enter_if_asked,
)
from strandproof.app.cli.console import print_json, say
from strandproof.app.cli.typed_words import number
from strandproof.app.workflow.indenting import (
    TypedIndentations,
    force_advice,
    hardness_data,
    hardness_finding,
    hardness_in_words,
    indentations_of_table,
    judge_hardness,
)
from strandproof.app.workflow.telling_metals import (
    judge_metal,
    metals_data,
    metals_finding,
    metals_in_words,
)
from strandproof.app.workflow.weighing_in_water import (
    TypedGeometry,
    TypedWeighing,
    density_data,
    density_finding,
    density_in_words,
    judge_density,
)
from strandproof.records.physical import Indentation


def _value(help_text: str) -> Any:  # noqa: ANN401 - what typer gives
    return typer.Option(parser=number, metavar="NUMBER", help=help_text)


def add_physical_commands(program: typer.Typer) -> None:
    """Add the commands to the program.

    Parameters
    ----------
    program : typer.Typer
        The program.
    """
    program.command(rich_help_panel="Look at once")(hardness)
    program.command(rich_help_panel="Look at once")(density)
    program.command("which-metal", rich_help_panel="Look at once")(which_metal)


def indentation(text: str) -> Indentation:
    """Read an indentation as ``d1:d2[:edge[:next]]``, in um.

    Parameters
    ----------
    text : str
        For example ``29.8:30.2:75:100``.

    Returns
    -------
    Indentation
        The indentation.

    Raises
    ------
    typer.BadParameter
        If it has another form.
    """
    parts = text.split(":")
    if not 2 <= len(parts) <= 4:
        message = f"{text!r} is not of the form d1:d2[:edge[:next]], in um."
        raise typer.BadParameter(message)
    numbers = [number(part) for part in parts]
    return Indentation(
        first_diagonal_um=numbers[0],
        second_diagonal_um=numbers[1],
        edge_um=numbers[2] if len(numbers) > 2 else None,
        next_um=numbers[3] if len(numbers) > 3 else None,
    )


def pair(text: str) -> tuple[str, str]:
    """Read ``name=words``.

    Parameters
    ----------
    text : str
        For example ``surface=silver``.

    Returns
    -------
    tuple of str
        Name and words.

    Raises
    ------
    typer.BadParameter
        If the equals sign or a side of it is missing.
    """
    name, _, words = text.partition("=")
    if not name or not words:
        message = f"{text!r} is not of the form name=words."
        raise typer.BadParameter(message)
    return name, words


def reading_with_uncertainty(text: str) -> tuple[str, tuple[float, float]]:
    """Read ``property=value:uncertainty``.

    Parameters
    ----------
    text : str
        For example ``density=8.92:0.03``.

    Returns
    -------
    tuple
        Property; value and standard uncertainty.

    Raises
    ------
    typer.BadParameter
        If it has another form.
    """
    name, words = pair(text)
    value, colon, u = words.partition(":")
    if not colon:
        message = f"{text!r} lacks its standard uncertainty: {name}={value}:0.03."
        raise typer.BadParameter(message)
    return name, (number(value), number(u))


def hardness(
    gram_force: Annotated[float, _value("Test force, in gf (25 for HV0.025).")],
    readings: Annotated[
        list[Indentation] | None,
        typer.Option(
            "--indentation",
            parser=indentation,
            metavar="D1:D2[:EDGE[:NEXT]]",
            help="Two diagonals and the distances from the centre to the edge and to "
            "the next indentation, in um. Repeat.",
        ),
    ] = None,
    table: Annotated[
        Path | None,
        typer.Option(
            metavar="FILE", help="CSV or XLSX with headers such as d1 (um), d2 (um)."
        ),
    ] = None,
    column: Annotated[
        list[str] | None,
        typer.Option(
            metavar="ROLE=HEADER",
            help="Column for first, second, edge or next. Repeat; it is remembered.",
        ),
    ] = None,
    force_percent: Annotated[float, _value("Half-width of the force, in %.")] = 1.0,
    diagonal_um: Annotated[
        float | None, _value("Shared reading error of diagonals, half-width, in um.")
    ] = None,
    block_percent: Annotated[
        float | None, _value("Standard uncertainty from a reference block, in %.")
    ] = None,
    wire_um: Annotated[
        float | None, _value("Diameter of the wire in section, in um.")
    ] = None,
    thickness_um: Annotated[
        float | None, _value("Metal under the indentation, in um.")
    ] = None,
    case: IntoCase = None,
    label: AsMeasurement = None,
    measures: Measured = None,
    by: EnteredBy = None,
    observation: AsObservation = None,
    as_json: AsJson = False,
) -> None:
    """Turn Vickers indentations into a hardness: soft, worked, or between.

    An indentation too near to an edge or a neighbour is refused. Hardness says nothing
    about purity, casting route or the number of crystals. Without an indentation the
    largest force for --wire-um is printed.
    """
    if table is None and not readings:
        if wire_um is None:
            message = "give --indentation or --table, or --wire-um to plan a force"
            raise typer.BadParameter(message)
        say(force_advice(wire_um))
        return
    columns = dict(pair(text) for text in column or ())
    from_table = () if table is None else indentations_of_table(table, columns=columns)
    result = judge_hardness(
        TypedIndentations(
            indentations=(*(readings or ()), *from_table),
            gram_force=gram_force,
            force_percent=force_percent,
            diagonal_um=diagonal_um,
            block_percent=block_percent,
            wire_um=wire_um,
            thickness_um=thickness_um,
        )
    )
    _tell(hardness_in_words(result), hardness_data(result), as_json=as_json)
    enter_if_asked(
        hardness_finding(result),
        case=case,
        label=label,
        measures=measures,
        by=by,
        observation=observation,
    )


def density(
    air_mg: Annotated[float, _value("Reading in air, or mass, in mg.")],
    mg_u: Annotated[float, _value("Standard uncertainty of a reading, in mg.")],
    water_mg: Annotated[
        float | None,
        _value("Reading in water, hanger's own taken off, in mg: by buoyancy."),
    ] = None,
    celsius: Annotated[
        float | None, _value("Temperature of the water, in deg C.")
    ] = None,
    celsius_u: Annotated[float, _value("Its standard uncertainty, in K.")] = 0.5,
    wire_um: Annotated[
        float | None, _value("Wire through the water's surface, in um; 0 for none.")
    ] = None,
    hectopascal: Annotated[float, _value("Pressure of the room, in hPa.")] = 1013.25,
    humidity: Annotated[float, _value("Relative humidity, in %.")] = 50.0,
    no_bubbles: Annotated[
        bool, typer.Option("--no-bubbles", help="Bubbles were removed.")
    ] = False,
    pure_water: Annotated[
        bool, typer.Option("--pure-water", help="Distilled or demineralised.")
    ] = False,
    metres: Annotated[
        float | None, _value("Length of each strand, in m: by geometry.")
    ] = None,
    metres_u: Annotated[float, _value("Its standard uncertainty, in m.")] = 0.001,
    millimetres: Annotated[
        float | None, _value("Diameter of a strand, in mm: by geometry.")
    ] = None,
    millimetres_u: Annotated[float, _value("Its standard uncertainty, in mm.")] = 0.001,
    strands: Annotated[int, typer.Option(help="Strands weighed together.")] = 1,
    case: IntoCase = None,
    label: AsMeasurement = None,
    measures: Measured = None,
    by: EnteredBy = None,
    observation: AsObservation = None,
    as_json: AsJson = False,
) -> None:
    """Find a density by weighing in water, or by mass, length and diameter.

    Give --water-mg and --celsius, or --metres and --millimetres. Weigh bare metal:
    enamel, grease and thread make it too light.
    """
    typed: TypedWeighing | TypedGeometry
    if water_mg is not None and celsius is not None:
        typed = TypedWeighing(
            air_mg=(air_mg, mg_u),
            water_mg=(water_mg, mg_u),
            celsius=(celsius, celsius_u),
            pressure_hpa=hectopascal,
            humidity_percent=humidity,
            wire_um=wire_um,
            bubbles_removed=no_bubbles or None,
            pure_water=pure_water or None,
        )
    elif metres is not None and millimetres is not None and water_mg is None:
        typed = TypedGeometry(
            milligrams=(air_mg, mg_u),
            metres=(metres, metres_u),
            millimetres=(millimetres, millimetres_u),
            strands=strands,
        )
    else:
        message = (
            "give --water-mg with --celsius, or --metres with --millimetres; without "
            "the water's temperature its density is not known"
        )
        raise typer.BadParameter(message)
    result = judge_density(typed)
    _tell(density_in_words(result), density_data(result), as_json=as_json)
    enter_if_asked(
        density_finding(result),
        case=case,
        label=label,
        measures=measures,
        by=by,
        observation=observation,
    )


def which_metal(
    measured: Annotated[
        list[str] | None,
        typer.Option(
            metavar="PROPERTY=VALUE:U",
            help="density (g/cm3), resistivity (nohm m), temperature_coefficient "
            "(1/K), hardness (HV) or mass_resistivity (ohm g/m2), with standard "
            "uncertainty. Repeat.",
        ),
    ] = None,
    seen: Annotated[
        list[str] | None,
        typer.Option(
            metavar="READING=ANSWER",
            help="magnet, scrape, etch, surface, core or skin, e.g. surface=silver. "
            "Repeat.",
        ),
    ] = None,
    case: IntoCase = None,
    label: AsMeasurement = None,
    measures: Measured = None,
    by: EnteredBy = None,
    observation: AsObservation = None,
    as_json: AsJson = False,
) -> None:
    """Rank copper, silver, plated, clad and brass strands by readings.

    Each reading's part is shown. A surface analysis reads the skin only; how a strand
    etches does not identify a metal. "None of these fits" is an answer too.
    """
    numbers = dict(reading_with_uncertainty(text) for text in measured or ())
    ranking = judge_metal(numbers, dict(pair(text) for text in seen or ()))
    _tell(metals_in_words(ranking), metals_data(ranking), as_json=as_json)
    enter_if_asked(
        metals_finding(ranking),
        case=case,
        label=label,
        measures=measures,
        by=by,
        observation=observation,
    )


def _tell(words: tuple[str, ...], data: dict[str, Any], *, as_json: bool) -> None:
    if as_json:
        print_json(data)
        return
    for line in words:
        say(line)
