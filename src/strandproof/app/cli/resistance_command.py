"""The command that judges a four-wire resistance."""

from collections.abc import Sequence
from dataclasses import dataclass
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
from strandproof.app.cli.console import print_json, say
from strandproof.app.cli.typed_words import (
    conductor,
    meter_range,
    named_column,
    number,
    reading_pair,
)
from strandproof.app.workflow.new_file import require_new_file
from strandproof.records.electrical import (
    ConductorForm,
    FourWireSeries,
    LeadChecks,
    MeterRange,
    ParallelConductor,
)


def _value(help_text: str) -> Any:  # noqa: ANN401 - what typer gives
    return typer.Option(parser=number, metavar="NUMBER", help=help_text)


def _many(parser: Any, metavar: str, help_text: str) -> Any:  # noqa: ANN401 - the same
    return typer.Option(parser=parser, metavar=metavar, help=help_text)


@dataclass(frozen=True, slots=True)
class _Raw:
    """Raw readings as asked for: pairs with their units, or a table."""

    pairs: Sequence[tuple[float, float, float]]
    units: tuple[str, str]
    table: Path | None
    columns: Sequence[tuple[str, str]]
    sheet: str | None


def add_resistance_command(program: typer.Typer) -> None:
    """Add the command to the program.

    Parameters
    ----------
    program : typer.Typer
        The program.
    """
    program.command(rich_help_panel="Look at once")(resistance)


def resistance(
    metres: Annotated[float, _value("Length between the contacts, in m.")],
    metres_u: Annotated[float, _value("Its standard uncertainty, in m.")],
    ohm: Annotated[float | None, _value("Four-wire resistance, in ohm.")] = None,
    ohm_u: Annotated[
        float | None, _value("Its standard uncertainty, in ohm; or give --meter.")
    ] = None,
    pair: Annotated[
        list[Any] | None,
        _many(
            reading_pair,
            "CURRENT,FORWARD,REVERSED",
            "Instead: raw readings at one current, the reversed one with its sign. "
            "Repeat, at several currents.",
        ),
    ] = None,
    unit: Annotated[
        str, typer.Option(help="Unit of the readings: V, mV, uV, ohm, mohm, uohm.")
    ] = "mV",
    current_unit: Annotated[str, typer.Option(help="Unit of the currents.")] = "mA",
    readings: Annotated[
        Path | None,
        typer.Option(
            metavar="FILE",
            help="Instead: a table of raw readings, CSV or XLSX, with the columns "
            "current, forward, reverse, and time where noted; units in the headers.",
        ),
    ] = None,
    column: Annotated[
        list[Any] | None,
        _many(
            named_column,
            "ROLE=HEADER",
            "Which column of the table is what; remembered beside it. Repeat.",
        ),
    ] = None,
    sheet: Annotated[str | None, typer.Option(help="Sheet of an XLSX file.")] = None,
    meter: Annotated[
        list[MeterRange] | None,
        _many(
            meter_range,
            "SPEC",
            "Specification of voltmeter or ohmmeter, as 0.01%+0.005%@1V or "
            "0.5%+3*0.001V; NAME: in front for one of several ranges. Repeat.",
        ),
    ] = None,
    ammeter: Annotated[
        list[MeterRange] | None,
        _many(meter_range, "SPEC", "The same for the ammeter or shunt. Repeat."),
    ] = None,
    two_wire: Annotated[
        float | None, _value("Check: resistance over the current leads, in ohm.")
    ] = None,
    compliance: Annotated[
        float | None, _value("Highest voltage the current source can give, in V.")
    ] = None,
    swapped: Annotated[
        float | None,
        _value("Check: resistance with the potential leads changed over, in ohm."),
    ] = None,
    zero_current: Annotated[
        float | None, _value("Check: voltage with the current off, in V.")
    ] = None,
    celsius: Annotated[
        float | None, _value("Temperature of the wire, in deg C; refused without.")
    ] = None,
    celsius_u: Annotated[
        float, _value("Standard uncertainty of the sensor, in deg C.")
    ] = 0.5,
    gradient: Annotated[
        float, _value("Half the spread of temperature along the wire, in K.")
    ] = 0.0,
    contact: Annotated[
        float, _value("By how much the sensor may differ from the wire, in K.")
    ] = 0.0,
    milligrams: Annotated[
        float | None, _value("Mass of that bare strand, in mg: the route to state.")
    ] = None,
    milligrams_u: Annotated[float, _value("Its standard uncertainty, in mg.")] = 0.1,
    millimetres: Annotated[
        float | None, _value("Diameter of a strand, in mm: the uncertain route.")
    ] = None,
    millimetres_u: Annotated[float, _value("Its standard uncertainty, in mm.")] = 0.001,
    strands: Annotated[int, typer.Option(help="Strands in parallel.")] = 1,
    form: Annotated[
        ConductorForm | None,
        typer.Option(
            help="How it lay when its length was taken; stranded and twisted need "
            "their lay."
        ),
    ] = None,
    lay_factor: Annotated[
        float | None, _value("Length of a strand over that of the core.")
    ] = None,
    lay_factor_u: Annotated[float, _value("Its standard uncertainty.")] = 0.002,
    pitch_mm: Annotated[
        float | None, _value("Instead: length of core for one turn, in mm.")
    ] = None,
    pitch_mm_u: Annotated[float, _value("Its standard uncertainty, in mm.")] = 0.2,
    helix_mm: Annotated[
        float | None, _value("Diameter of the helix along a strand's middle, in mm.")
    ] = None,
    helix_mm_u: Annotated[float, _value("Its standard uncertainty, in mm.")] = 0.02,
    conductors: Annotated[
        list[ParallelConductor] | None,
        typer.Option(
            "--conductor",
            parser=conductor,
            metavar="NAME:STRANDS:METAL[:LAYER]",
            help="Everything the current ran through. Repeat.",
        ),
    ] = None,
    plot: Annotated[
        Path | None,
        typer.Option(
            metavar="FILE.svg", help="New file for a drawing of the uncertainty budget."
        ),
    ] = None,
    case: IntoCase = None,
    label: AsMeasurement = None,
    measures: Measured = None,
    by: EnteredBy = None,
    observation: AsObservation = None,
    as_json: AsJson = False,
) -> None:
    """Judge a four-wire resistance: R20, resistivity, % IACS with the whole budget.

    At room temperature this cannot tell crystals, casting route, oxygen or nines.
    Measure disconnected strands with a low-voltage source only, never on the mains.
    """
    require_new_file(plot)
    answer = workflow.judge_resistance(
        workflow.TypedReadings(
            ohm=_resistance(
                (ohm, ohm_u),
                _Raw(pair or (), (unit, current_unit), readings, column or (), sheet),
                meter or (),
                ammeter or (),
            ),
            celsius=None if celsius is None else (celsius, celsius_u),
            gradient_k=gradient,
            contact_k=contact,
            metres=(metres, metres_u),
            milligrams=None if milligrams is None else (milligrams, milligrams_u),
            millimetres=None if millimetres is None else (millimetres, millimetres_u),
            strands=strands,
            conductors=conductors or (),
            form=form,
            lay=workflow.Lay(
                factor=None if lay_factor is None else (lay_factor, lay_factor_u),
                pitch_mm=None if pitch_mm is None else (pitch_mm, pitch_mm_u),
                helix_mm=None if helix_mm is None else (helix_mm, helix_mm_u),
            ),
            checks=LeadChecks(
                two_wire_ohm=two_wire,
                compliance_v=compliance,
                swapped_ohm=swapped,
                zero_current_v=zero_current,
            ),
        )
    )
    if plot is not None:
        workflow.write_budget_plot(answer, plot)
    if as_json:
        print_json(workflow.resistance_data(answer))
    else:
        for line in workflow.resistance_in_words(answer):
            say(line)
    enter_if_asked(
        workflow.resistance_finding(answer),
        case=case,
        label=label,
        measures=measures,
        by=by,
        observation=observation,
    )


def _resistance(
    typed: tuple[float | None, float | None],
    raw: _Raw,
    meter: Sequence[MeterRange],
    ammeter: Sequence[MeterRange],
) -> tuple[float, float] | FourWireSeries | None:
    ohm, ohm_u = typed
    given = [
        name
        for name, one in (
            ("--ohm", ohm),
            ("--pair", raw.pairs or None),
            ("--readings", raw.table),
        )
        if one is not None
    ]
    if len(given) > 1:
        message = f"give one of {' and '.join(given)}."
        raise typer.BadParameter(message)
    if raw.table is not None:
        return workflow.series_of_table(
            raw.table,
            columns=dict(raw.columns),
            meter=meter,
            ammeter=ammeter,
            sheet=raw.sheet,
        )
    if raw.pairs:
        unit, current_unit = raw.units
        return workflow.typed_series(
            raw.pairs,
            unit=unit,
            current_unit=current_unit,
            meter=meter,
            ammeter=ammeter,
        )
    return None if ohm is None else _typed(ohm, ohm_u, meter)


def _typed(
    ohm: float, ohm_u: float | None, meter: Sequence[MeterRange]
) -> tuple[float, float]:
    if ohm_u is not None and not meter:
        return ohm, ohm_u
    if ohm_u is None and len(meter) == 1:
        return workflow.by_specification(ohm, meter[0])
    message = "a resistance needs --ohm-u, or one --meter that read it."
    raise typer.BadParameter(message)
