"""The command that says how large a conductor's frequency effect is."""

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
from strandproof.app.cli.typed_words import length_um, number
from strandproof.app.workflow.alternating import (
    TypedConductor,
    TypedLayer,
    frequency_data,
    frequency_effect,
    frequency_finding,
    frequency_in_words,
    write_frequency_plot,
)
from strandproof.app.workflow.new_file import require_new_file

_MAGNETIC = frozenset({"nickel", "steel", "iron", "cobalt"})


def _value(help_text: str) -> Any:  # noqa: ANN401 - what typer gives
    return typer.Option(parser=number, metavar="NUMBER", help=help_text)


def add_frequency_command(program: typer.Typer) -> None:
    """Add the command to the program.

    Parameters
    ----------
    program : typer.Typer
        The program.
    """
    program.command(rich_help_panel="Look at once")(frequency)


def layer_of_wire(text: str) -> TypedLayer:
    """Read a layer as ``metal:thickness[:resistivity[:permeability]]``.

    Parameters
    ----------
    text : str
        For example ``tin:1.9um``, or ``nickel:2um:70:100`` with the resistivity in
        nohm m and the relative permeability.

    Returns
    -------
    TypedLayer
        The layer.

    Raises
    ------
    typer.BadParameter
        If it has another form, or a magnetic metal comes without permeability.
    """
    name, *rest = text.split(":")
    if not name or not 1 <= len(rest) <= 3:
        message = (
            f"{text!r} is not of the form metal:thickness[:nohm m[:permeability]], "
            "for example tin:1.9um or nickel:2um:70:100."
        )
        raise typer.BadParameter(message)
    if name.lower() in _MAGNETIC and len(rest) < 3:
        message = (
            f"{name} is magnetic; give its resistivity in nohm m and its relative "
            "permeability too, for example nickel:2um:70:100. The permeability of a "
            "plated layer is not in any table: try the ends of what is possible."
        )
        raise typer.BadParameter(message)
    numbers = [number(word) for word in rest[1:]]
    return TypedLayer(
        metal=name,
        thickness_um=length_um(rest[0]),
        resistivity_nohm_m=numbers[0] if numbers else None,
        relative_permeability=numbers[1] if len(numbers) > 1 else 1.0,
    )


def frequency(
    millimetres: Annotated[float, _value("Diameter of a strand, layer in, in mm.")],
    millimetres_u: Annotated[float, _value("Its standard uncertainty, in mm.")] = 0.0,
    metal: Annotated[str, typer.Option(help="Metal of the core.")] = "copper",
    percent_iacs: Annotated[
        float | None, _value("Conductivity of the core, instead of the metal's own.")
    ] = None,
    percent_iacs_u: Annotated[float, _value("Its standard uncertainty.")] = 0.0,
    layer: Annotated[
        TypedLayer | None,
        typer.Option(
            parser=layer_of_wire,
            metavar="METAL:THICKNESS",
            help="Layer on each strand, e.g. tin:1.9um, or nickel:2um:70:100 with "
            "resistivity in nohm m and relative permeability.",
        ),
    ] = None,
    strands: Annotated[int, typer.Option(help="Strands in parallel.")] = 1,
    touching: Annotated[
        bool, typer.Option("--touching", help="Strands are bare and in contact.")
    ] = False,
    bundle_millimetres: Annotated[
        float | None, _value("Diameter of the bundle over metal, in mm.")
    ] = None,
    lay_millimetres: Annotated[
        float | None, _value("Length of cable for one turn, in mm.")
    ] = None,
    metres: Annotated[float, _value("Length of cable, in m.")] = 1.0,
    plot: Annotated[
        Path | None,
        typer.Option(metavar="FILE.svg", help="New file for a drawing."),
    ] = None,
    case: IntoCase = None,
    label: AsMeasurement = None,
    measures: Measured = None,
    by: EnteredBy = None,
    observation: AsObservation = None,
    as_json: AsJson = False,
) -> None:
    """Compute resistance and internal inductance from 20 Hz to 1 MHz.

    It says how large the effect is at 20 kHz for this conductor, as a number. Whether
    it would be audible is another question, which nothing here answers.
    """
    require_new_file(plot)
    effect = frequency_effect(
        TypedConductor(
            millimetres=(millimetres, millimetres_u),
            metal=metal,
            percent_iacs=(
                None if percent_iacs is None else (percent_iacs, percent_iacs_u)
            ),
            layer=layer,
            strands=strands,
            contact="touching" if touching else "insulated",
            bundle_millimetres=bundle_millimetres,
            lay_millimetres=lay_millimetres,
            metres=metres,
        )
    )
    if as_json:
        print_json(frequency_data(effect))
    else:
        for line in frequency_in_words(effect):
            say(line)
    if plot is not None:
        write_frequency_plot(effect, plot)
    enter_if_asked(
        frequency_finding(effect),
        case=case,
        label=label,
        measures=measures,
        by=by,
        observation=observation,
    )
