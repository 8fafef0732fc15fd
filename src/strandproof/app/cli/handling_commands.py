"""Commands on handling and home: slip traces before and after, what home can do."""

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
from strandproof.app.cli.console import print_json, progress, say
from strandproof.app.cli.typed_words import length_um, number
from strandproof.app.workflow.comparing_deformation import (
    compare_pictures,
    deformation_data,
    deformation_finding,
    deformation_in_words,
)
from strandproof.app.workflow.home_planning import HomeEquipment, plan_at_home
from strandproof.app.workflow.home_words import home_data, home_in_words
from strandproof.records.physical import HandlingFacts, Objection


def _value(help_text: str) -> Any:  # noqa: ANN401 - what typer gives
    return typer.Option(parser=number, metavar="NUMBER", help=help_text)


def add_handling_commands(program: typer.Typer) -> None:
    """Add the commands to the program.

    Parameters
    ----------
    program : typer.Typer
        The program.
    """
    program.command(rich_help_panel="Look at once")(deformation)
    program.command("at-home", rich_help_panel="Look at once")(at_home)


def deformation(
    before: Annotated[
        list[Path], typer.Option(metavar="FILE", help="Picture before. Repeat.")
    ],
    after: Annotated[
        list[Path], typer.Option(metavar="FILE", help="Picture after. Repeat.")
    ],
    um_per_px: Annotated[
        float,
        typer.Option(
            parser=length_um, metavar="LENGTH", help="Pixel size of all pictures."
        ),
    ],
    handling: Annotated[
        str, typer.Option(help="What was done, with radius and number.")
    ],
    polished_before: Annotated[
        bool | None,
        typer.Option(
            "--polished-before/--not-polished-before",
            help="Whether the surface was polished before handling.",
        ),
    ] = None,
    touched_after: Annotated[
        bool | None,
        typer.Option(
            "--touched-after/--untouched-after",
            help="Whether it was polished or etched again after.",
        ),
    ] = None,
    objection: Annotated[
        str,
        typer.Option(
            metavar="bending|heat|preparation", help="Objection to be answered."
        ),
    ] = "bending",
    case: IntoCase = None,
    label: AsMeasurement = None,
    measures: Measured = None,
    by: EnteredBy = None,
    observation: AsObservation = None,
    as_json: AsJson = False,
) -> None:
    """Compare slip traces before and after handling: changed, not, cannot tell.

    Five fields or more each, of the same strand, taken alike. Steps show only on a
    surface polished before handling and left alone after. A bend test does not answer
    the objection that heat made the grains.
    """
    facts = HandlingFacts(
        handling=handling,
        polished_before=polished_before,
        touched_after=touched_after,
        objection=_objection(objection),
    )
    with progress("finding lines") as report:
        found = compare_pictures(
            before, after, facts, um_per_px=um_per_px, progress=report
        )
    if as_json:
        print_json(deformation_data(found))
    else:
        for line in deformation_in_words(found):
            say(line)
    enter_if_asked(
        deformation_finding(found),
        case=case,
        label=label,
        measures=measures,
        by=by,
        observation=observation,
    )


def _objection(text: str) -> Objection:
    if text == "bending":
        return "bending"
    if text == "heat":
        return "heat"
    if text == "preparation":
        return "preparation"
    message = f"{text!r} is none of bending, heat, preparation."
    raise typer.BadParameter(message, param_hint="--objection")


def at_home(
    scale_u_mg: Annotated[float, _value("Standard uncertainty of the scale, in mg.")],
    metres: Annotated[float, _value("Length of the piece, in m.")],
    millimetres: Annotated[float, _value("Diameter of a strand, in mm.")],
    length_u_mm: Annotated[float, _value("Uncertainty of the length, in mm.")] = 1.0,
    diameter_u_um: Annotated[
        float, _value("Uncertainty of the diameter, in um.")
    ] = 2.0,
    strands: Annotated[int, typer.Option(help="Strands weighed together.")] = 1,
    all_strands: Annotated[int, typer.Option(help="Strands in the conductor.")] = 1,
    milligrams: Annotated[
        float | None, _value("Mass of the piece if weighed already, in mg.")
    ] = None,
    meter_percent: Annotated[
        float | None, _value("Four-wire meter: % of the reading; none without.")
    ] = None,
    meter_ohm: Annotated[float, _value("Four-wire meter: plus so many ohm.")] = 0.0,
    celsius_u: Annotated[
        float, _value("Uncertainty of the wire's temperature, in K.")
    ] = 0.5,
    as_json: AsJson = False,
) -> None:
    """Say what can be decided at home with your scale and meter, and what cannot.

    Nothing is measured and nothing is entered. Crystals, casting route and oxygen
    cannot be decided at home; a request to a laboratory is printed instead of a recipe.
    """
    plan = plan_at_home(
        HomeEquipment(
            scale_u_mg=scale_u_mg,
            metres=metres,
            millimetres=millimetres,
            length_u_mm=length_u_mm,
            diameter_u_um=diameter_u_um,
            strands=strands,
            all_strands=all_strands,
            milligrams=milligrams,
            meter_percent=meter_percent,
            meter_ohm=meter_ohm,
            celsius_u=celsius_u,
        )
    )
    if as_json:
        print_json(home_data(plan))
        return
    for line in home_in_words(plan):
        say(line)
