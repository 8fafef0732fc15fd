"""Commands on ratios of resistances, and on the size of effects before measuring."""

from pathlib import Path
from typing import Annotated, Any, Literal

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
from strandproof.app.workflow.effects import (
    TypedPlan,
    effects_data,
    effects_in_words,
    planned_effects,
    supposed_data,
    supposed_in_words,
    supposed_ratio,
    write_effect_bars,
)
from strandproof.app.workflow.new_file import require_new_file
from strandproof.app.workflow.ratio_words import (
    ratio_data,
    ratio_finding,
    ratio_in_words,
)
from strandproof.app.workflow.ratios import (
    TypedRatio,
    judge_ratio,
    write_residual_map,
)
from strandproof.records.electrical import MetalState


def _value(help_text: str) -> Any:  # noqa: ANN401 - what typer gives
    return typer.Option(parser=number, metavar="NUMBER", help=help_text)


_Plot = Annotated[
    Path | None, typer.Option(metavar="FILE.svg", help="New file for a drawing.")
]
_Intercept = Annotated[
    float | None,
    _value("Mean intercept, twins excluded, in um: what boundaries add."),
]
_Diameter = Annotated[
    float | None, _value("Diameter of a strand, in mm: what its surface adds.")
]


def add_ratio_commands(program: typer.Typer) -> None:
    """Add the commands to the program.

    Parameters
    ----------
    program : typer.Typer
        The program.
    """
    for command in (effect_sizes, resistance_ratio):
        program.command(rich_help_panel="Look at once")(command)


def resistance_ratio(
    where: Annotated[
        Literal["warm", "nitrogen", "helium"],
        typer.Option(help="Where the second reading was taken."),
    ],
    ratio: Annotated[
        float | None, _value("Greater over smaller resistance of one piece.")
    ] = None,
    ratio_u: Annotated[float | None, _value("Its standard uncertainty.")] = None,
    ohm: Annotated[
        float | None, _value("Instead: resistance at room temperature, in ohm.")
    ] = None,
    ohm_u: Annotated[float | None, _value("Its standard uncertainty, in ohm.")] = None,
    other_ohm: Annotated[
        float | None, _value("Resistance of the same piece in the bath, in ohm.")
    ] = None,
    other_ohm_u: Annotated[
        float | None, _value("Its standard uncertainty, in ohm.")
    ] = None,
    celsius: Annotated[
        float, _value("Temperature of the wire at room temperature, in deg C.")
    ] = 20.0,
    celsius_u: Annotated[float, _value("Its standard uncertainty, in deg C.")] = 0.2,
    warm_celsius: Annotated[
        float | None, _value("Upper temperature of a warm ratio, in deg C.")
    ] = None,
    warm_celsius_u: Annotated[
        float, _value("Its standard uncertainty, in deg C.")
    ] = 0.2,
    hectopascal: Annotated[
        float, _value("Air pressure at the bath, not reduced to sea level, in hPa.")
    ] = 1013.25,
    hectopascal_u: Annotated[float, _value("Its standard uncertainty, in hPa.")] = 10.0,
    reference_ratio: Annotated[
        float | None, _value("The same ratio of a reference wire beside it.")
    ] = None,
    reference_ratio_u: Annotated[
        float | None, _value("Its standard uncertainty.")
    ] = None,
    reference_value: Annotated[
        float | None,
        _value("What is known of it: % IACS (warm), or R(273 K)/R(4 K)."),
    ] = None,
    reference_value_u: Annotated[
        float | None, _value("Its standard uncertainty.")
    ] = None,
    micrometres: _Intercept = None,
    millimetres: _Diameter = None,
    work: Annotated[
        Literal["annealed", "bent", "hard", "unknown"],
        typer.Option(help="State of the piece; unknown spans annealed to hard."),
    ] = "unknown",
    plot: _Plot = None,
    case: IntoCase = None,
    label: AsMeasurement = None,
    measures: Measured = None,
    by: EnteredBy = None,
    observation: AsObservation = None,
    as_json: AsJson = False,
) -> None:
    """Judge a ratio of resistances: no length, mass or diameter enters.

    A warm ratio gives a conductivity, weakly. A ratio in liquid nitrogen or helium
    gives the residual resistivity and the range of purity that it allows; it never
    confirms a number of nines. Liquid nitrogen and helium: trained staff only.
    """
    require_new_file(plot)
    if plot is not None and where == "warm":
        message = "the drawing shows residual ratios; it needs nitrogen or helium."
        raise typer.BadParameter(message, param_hint="--plot")
    answer = judge_ratio(
        TypedRatio(
            kind=where,
            ratio=_pair("ratio", ratio, ratio_u),
            room_ohm=_pair("ohm", ohm, ohm_u),
            other_ohm=_pair("other-ohm", other_ohm, other_ohm_u),
            room_celsius=(celsius, celsius_u),
            warm_celsius=(
                None if warm_celsius is None else (warm_celsius, warm_celsius_u)
            ),
            hectopascal=(hectopascal, hectopascal_u),
            reference_ratio=_pair(
                "reference-ratio", reference_ratio, reference_ratio_u
            ),
            reference_value=_pair(
                "reference-value", reference_value, reference_value_u
            ),
            state=MetalState(
                mean_intercept_um=micrometres, strand_mm=millimetres, work=work
            ),
        )
    )
    if as_json:
        print_json(ratio_data(answer))
    else:
        for line in ratio_in_words(answer):
            say(line)
    if plot is not None:
        write_residual_map(plot, state=answer.typed.state, residual=answer.residual)
    enter_if_asked(
        ratio_finding(answer),
        case=case,
        label=label,
        measures=measures,
        by=by,
        observation=observation,
    )


def effect_sizes(
    micrometres: _Intercept = None,
    millimetres: _Diameter = None,
    interior_ratio: Annotated[
        float | None,
        _value("Residual ratio inside of the crystals; 430 where not given."),
    ] = None,
    milligrams: Annotated[
        float | None, _value("Mass of the piece to be measured, in mg.")
    ] = None,
    milligrams_u: Annotated[float, _value("Its standard uncertainty, in mg.")] = 0.1,
    metres: Annotated[float | None, _value("Its length, in m.")] = None,
    metres_u: Annotated[float, _value("Its standard uncertainty, in m.")] = 0.0005,
    celsius_u: Annotated[
        float, _value("Standard uncertainty of the wire's temperature, in deg C.")
    ] = 0.2,
    ohm_percent: Annotated[
        float, _value("Standard uncertainty of the resistance, in per cent.")
    ] = 0.05,
    ratio_percent: Annotated[
        float | None, _value("Standard uncertainty of a ratio, in per cent.")
    ] = None,
    impurity: Annotated[
        list[str] | None,
        typer.Option(
            metavar="SYMBOL=PPM",
            help="Suppose an impurity, in ppm by mass, and predict the ratios. Repeat.",
        ),
    ] = None,
    precipitated: Annotated[
        bool,
        typer.Option("--precipitated", help="Suppose them precipitated."),
    ] = False,
    work: Annotated[
        Literal["annealed", "bent", "hard", "unknown"],
        typer.Option(help="State supposed with the impurities."),
    ] = "annealed",
    plot: _Plot = None,
    as_json: AsJson = False,
) -> None:
    """Show how large each effect is, before anything is measured.

    Boundaries (by two models), surface, purity and cold work at 293, 77 and 4.2 K,
    beside the uncertainty that your meter, balance and ruler can reach.
    """
    require_new_file(plot)
    plan = TypedPlan(
        micrometres=micrometres,
        millimetres=millimetres,
        interior_ratio=interior_ratio,
        milligrams=None if milligrams is None else (milligrams, milligrams_u),
        metres=None if metres is None else (metres, metres_u),
        celsius_u=celsius_u,
        ohm_percent=ohm_percent,
        ratio_percent=ratio_percent,
        impurities=dict(_impurity(one) for one in impurity or ()),
        precipitated=precipitated,
        work=work,
    )
    found, supposed = planned_effects(plan), supposed_ratio(plan)
    if as_json:
        print_json(effects_data(found) | supposed_data(supposed))
    else:
        for line in effects_in_words(found):
            say(line)
        for line in () if supposed is None else supposed_in_words(supposed):
            say(line)
    if plot is not None:
        write_effect_bars(found, plot)


def _impurity(text: str) -> tuple[str, float]:
    symbol, equals, content = text.partition("=")
    if not (symbol and equals and content):
        message = f"{text!r} is not of the form SYMBOL=PPM, for example Fe=2."
        raise typer.BadParameter(message, param_hint="--impurity")
    return symbol, number(content)


def _pair(
    name: str, value: float | None, uncertainty: float | None
) -> tuple[float, float] | None:
    if value is None:
        return None
    if uncertainty is None:
        message = (
            f"a value without an uncertainty bounds nothing; give --{name}-u too, "
            "as one standard uncertainty."
        )
        raise typer.BadParameter(message, param_hint=f"--{name}")
    return value, uncertainty
