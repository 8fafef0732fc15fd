"""Commands that hold conductors against claims and screen a lot of cores."""

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
from strandproof.app.cli.typed_words import labelled_numbers, named_column, number
from strandproof.app.workflow.conductor_checking import (
    ClaimedConductor,
    MeasuredConductor,
    check_conductor,
    conductor_finding,
)
from strandproof.app.workflow.lot_screening import (
    BenchUncertainties,
    LotDemand,
    cores_of_table,
    lot_finding,
    screen_cores,
    typed_core,
)
from strandproof.app.workflow.lot_words import lot_data, lot_in_words
from strandproof.records.electrical import DecisionRule


def _value(help_text: str) -> Any:  # noqa: ANN401 - what typer gives
    return typer.Option(parser=number, metavar="NUMBER", help=help_text)


Risk = Annotated[
    float, _value("Highest risk of a wrong decision; sets the guard band.")
]
Simple = Annotated[
    bool,
    typer.Option("--no-guard-band", help="Let the value alone decide, at any risk."),
]


def add_conductor_commands(program: typer.Typer) -> None:
    """Add the commands to the program.

    Parameters
    ----------
    program : typer.Typer
        The program.
    """
    for command in (conductor_check, screen_lot):
        program.command(rich_help_panel="Look at once")(command)


def conductor_check(
    ohm: Annotated[float | None, _value("Four-wire resistance, in ohm.")] = None,
    ohm_u: Annotated[float, _value("Its standard uncertainty, in ohm.")] = 0.001,
    metres: Annotated[float | None, _value("Length of core, in m.")] = None,
    metres_u: Annotated[float, _value("Its standard uncertainty, in m.")] = 0.0005,
    celsius: Annotated[
        float | None, _value("Temperature of the wire, in deg C.")
    ] = None,
    celsius_u: Annotated[float, _value("Its standard uncertainty, in deg C.")] = 0.5,
    milligrams: Annotated[
        float | None, _value("Mass of all bare strands over that length, in mg.")
    ] = None,
    milligrams_u: Annotated[float, _value("Its standard uncertainty, in mg.")] = 0.1,
    millimetres: Annotated[float | None, _value("Diameter of a strand, in mm.")] = None,
    millimetres_u: Annotated[float, _value("Its standard uncertainty, in mm.")] = 0.001,
    strands: Annotated[int | None, typer.Option(help="Strands counted.")] = None,
    conductor_class: Annotated[
        int | None,
        typer.Option(
            "--class",
            help="Claimed class of IEC 60228: 1, 2, 5 or 6; with --square-mm.",
        ),
    ] = None,
    square_mm: Annotated[float | None, _value("Claimed area, in mm2.")] = None,
    coated: Annotated[
        bool, typer.Option("--coated", help="Strands with a metal layer.")
    ] = False,
    awg: Annotated[
        str | None, typer.Option(help="Claimed American wire gauge, as 26 or 4/0.")
    ] = None,
    metric_gauge: Annotated[
        float | None, _value("Claimed metric gauge: ten times the diameter in mm.")
    ] = None,
    claimed_strands: Annotated[
        int | None, typer.Option(help="Claimed number of strands.")
    ] = None,
    lower_percent: Annotated[
        float | None,
        _value("Resistance said to be lower than copper's by so much, in %."),
    ] = None,
    lower_percent_to: Annotated[
        float | None, _value("Upper end of that range, in %.")
    ] = None,
    tolerance_percent: Annotated[
        float, _value("By how much an area may fall short and still conform, in %.")
    ] = 0.0,
    maximum_risk: Risk = 0.05,
    no_guard_band: Simple = False,
    case: IntoCase = None,
    label: AsMeasurement = None,
    measures: Measured = None,
    by: EnteredBy = None,
    observation: AsObservation = None,
    as_json: AsJson = False,
) -> None:
    """Hold a conductor against its claimed class, area, gauge, strands, resistance.

    Each decision has a guard band and states the risk that it is wrong.
    """
    upper = lower_percent if lower_percent_to is None else lower_percent_to
    checks = check_conductor(
        MeasuredConductor(
            ohm=_pair(ohm, ohm_u),
            celsius=_pair(celsius, celsius_u),
            metres=_pair(metres, metres_u),
            milligrams=_pair(milligrams, milligrams_u),
            millimetres=_pair(millimetres, millimetres_u),
            strands=strands,
        ),
        ClaimedConductor(
            conductor_class=conductor_class,
            square_mm=square_mm,
            coated=coated,
            gauge=awg,
            metric_gauge=metric_gauge,
            strands=claimed_strands,
            lower_percent=(
                None
                if lower_percent is None or upper is None
                else (lower_percent, upper)
            ),
            tolerance_percent=tolerance_percent,
            rule=_rule(maximum_risk, no_guard_band),
        ),
    )
    if as_json:
        print_json(
            [
                {
                    "name": check.name,
                    "value": check.measured.value,
                    "unit": check.measured.unit,
                    "standard_uncertainty": check.measured.standard_uncertainty,
                    "verdict": check.verdict,
                    "risk": None if check.decision is None else check.decision.risk,
                    "limit": None if check.decision is None else check.decision.limit,
                    "sentence": check.sentence,
                }
                for check in checks
            ]
        )
    else:
        for check in checks:
            say(check.sentence)
    enter_if_asked(
        conductor_finding(checks),
        case=case,
        label=label,
        measures=measures,
        by=by,
        observation=observation,
    )


def screen_lot(
    strands: Annotated[int, typer.Option(help="Strands a core must have.")],
    square_mm: Annotated[float, _value("Metal area a core must have, in mm2.")],
    tolerance_percent: Annotated[
        float,
        _value("By how much mass may be less and resistance more than that, in %."),
    ],
    table: Annotated[
        Path | None,
        typer.Argument(
            metavar="FILE",
            help="Cores, CSV or XLSX, one a row: label, strands, length, mass, "
            "resistance, and temperature and diameter where measured; units in the "
            "headers.",
        ),
    ] = None,
    core: Annotated[
        list[Any] | None,
        typer.Option(
            parser=labelled_numbers,
            metavar="NAME:STRANDS,M,G,OHM[,DEGC[,MM]]",
            help="Instead of a table: one core. Repeat.",
        ),
    ] = None,
    least_millimetres: Annotated[
        float | None, _value("Least diameter of a strand, in mm.")
    ] = None,
    celsius: Annotated[
        float | None,
        _value("Temperature of the cores where the table has none, in deg C."),
    ] = None,
    celsius_u: Annotated[float, _value("Its standard uncertainty, in deg C.")] = 0.5,
    metres_u: Annotated[
        float, _value("Standard uncertainty of lengths, in m.")
    ] = 0.001,
    grams_u: Annotated[float, _value("Standard uncertainty of masses, in g.")] = 0.001,
    ohm_u_percent: Annotated[
        float, _value("Standard uncertainty of resistances, in %.")
    ] = 0.2,
    millimetres_u: Annotated[
        float, _value("Standard uncertainty of diameters, in mm.")
    ] = 0.001,
    column: Annotated[
        list[Any] | None,
        typer.Option(
            parser=named_column,
            metavar="ROLE=HEADER",
            help="Which column of the table is what; remembered beside it. Repeat.",
        ),
    ] = None,
    sheet: Annotated[str | None, typer.Option(help="Sheet of an XLSX file.")] = None,
    maximum_risk: Risk = 0.05,
    no_guard_band: Simple = False,
    case: IntoCase = None,
    label: AsMeasurement = None,
    measures: Measured = None,
    by: EnteredBy = None,
    observation: AsObservation = None,
    as_json: AsJson = False,
) -> None:
    """Accept or hold a lot of cores by strand count, mass and resistance per metre.

    A core of clad aluminium stands out at once. This says nothing about crystals,
    casting route, purity or oxygen.
    """
    uncertainties = BenchUncertainties(
        metres=metres_u,
        grams=grams_u,
        percent_of_ohm=ohm_u_percent,
        celsius=celsius_u,
        millimetres=millimetres_u,
    )
    if (table is None) == (core is None):
        message = "give a table or --core, one of the two."
        raise typer.BadParameter(message)
    cores = (
        [
            typed_core(name, numbers, uncertainties, celsius=celsius)
            for name, numbers in core or ()
        ]
        if table is None
        else cores_of_table(
            table,
            uncertainties,
            celsius=celsius,
            columns=dict(column or ()),
            sheet=sheet,
        )
    )
    found = screen_cores(
        cores,
        LotDemand(
            strands=strands,
            square_mm=square_mm,
            tolerance_percent=tolerance_percent,
            least_diameter_mm=least_millimetres,
            rule=_rule(maximum_risk, no_guard_band),
        ),
    )
    if as_json:
        print_json(lot_data(found))
    else:
        for line in lot_in_words(found):
            say(line)
    enter_if_asked(
        lot_finding(found),
        case=case,
        label=label,
        measures=measures,
        by=by,
        observation=observation,
    )


def _pair(value: float | None, uncertainty: float) -> tuple[float, float] | None:
    return None if value is None else (value, uncertainty)


def _rule(maximum_risk: float, no_guard_band: bool) -> DecisionRule:
    if no_guard_band:
        return DecisionRule(guard="none", maximum_risk=maximum_risk)
    return DecisionRule(maximum_risk=maximum_risk)
