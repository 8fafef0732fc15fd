"""Commands about what the metal is made of: certificates, papers, oxygen."""

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
from strandproof.app.cli.console import complain, print_json, say
from strandproof.app.cli.typed_words import number
from strandproof.app.workflow import Desk, certifying, oxygen_judging, paper_judging
from strandproof.app.workflow.certifying_words import (
    certificate_data,
    certificate_in_words,
)
from strandproof.app.workflow.new_file import require_new_file


def _value(help_text: str) -> Any:  # noqa: ANN401 - what typer gives
    return typer.Option(parser=number, metavar="NUMBER", help=help_text)


def add_composition_commands(program: typer.Typer) -> None:
    """Add the commands to the program.

    Parameters
    ----------
    program : typer.Typer
        The program.
    """
    for command in (certificate, paper, oxygen):
        program.command(rich_help_panel="Look at once")(command)


def certificate(
    source: Annotated[
        Path | None,
        typer.Argument(
            metavar="FILE",
            help="Table of elements (CSV or XLSX: element, value, unit) or JSON file.",
        ),
    ] = None,
    item: Annotated[str, typer.Option(help="What was analysed: 8 mm rod.")] = "",
    lot: Annotated[str, typer.Option(help="Heat or lot.")] = "",
    issuer: Annotated[str, typer.Option(help="Who issued it.")] = "",
    accreditation: Annotated[str, typer.Option(help="Under which one.")] = "",
    method: Annotated[str, typer.Option(help="Method of analysis.")] = "",
    dated: Annotated[str, typer.Option(help="Date on it.")] = "",
    basis: Annotated[
        str,
        typer.Option(
            help="What the purity counts: metals_only, gases_in, by_difference."
        ),
    ] = "",
    nines: Annotated[str, typer.Option(help="Nines as stated: 4N7.")] = "",
    copper: Annotated[float | None, _value("Copper as stated, in % by mass.")] = None,
    counts_as_copper: Annotated[
        list[str] | None, typer.Option(help="Element counted as copper: Ag. Repeat.")
    ] = None,
    stated_grade: Annotated[str, typer.Option(help="Grade that it states.")] = "",
    element: Annotated[
        list[str] | None,
        typer.Option(help="An element: Fe=3.2, Bi=<0.5, Ag=0.0012%, O=-. Repeat."),
    ] = None,
    sheet: Annotated[str | None, typer.Option(help="Sheet of an XLSX file.")] = None,
    grade: Annotated[
        list[str] | None, typer.Option(help="Check against this grade. Repeat.")
    ] = None,
    measured_iacs: Annotated[
        float | None, _value("Measured conductivity, in % IACS.")
    ] = None,
    measured_iacs_u: Annotated[float, _value("Its standard uncertainty.")] = 0.0,
    measured_ratio: Annotated[
        float | None, _value("Measured R(273.15 K) / R(4.2 K).")
    ] = None,
    measured_ratio_u: Annotated[float, _value("Its standard uncertainty.")] = 0.0,
    plot: Annotated[
        Path | None,
        typer.Option(metavar="FILE.svg", help="New file: list against limits."),
    ] = None,
    case: IntoCase = None,
    label: AsMeasurement = None,
    measures: Measured = None,
    by: EnteredBy = None,
    observation: AsObservation = None,
    paper_kind: Annotated[
        str, typer.Option(help="Enter it as a paper of this kind: mill_certificate.")
    ] = "",
    offered_for: Annotated[
        list[str] | None, typer.Option(help="Claim that the paper is for. Repeat.")
    ] = None,
    as_json: AsJson = False,
) -> None:
    """Judge a certificate of analysis by its own numbers.

    Totals with elements below their detection limits, nines on each basis,
    contradictions, missing elements, limits of a grade, and what the list means for
    conductivity and residual ratio. With --case it is entered: as a paper with
    --paper-kind, or with --measures as an analysis of a piece of the case.
    """
    require_new_file(plot)
    desk = _paper_desk(case, label, by) if paper_kind else None
    stated = {
        "item": item,
        "lot": lot,
        "issuer": issuer,
        "method": method,
        "accreditation": accreditation,
        "dated": dated,
        "basis": basis,
        "nines": nines,
        "grade": stated_grade,
        "copper_percent": copper,
        "copper_includes": tuple(counts_as_copper or ()),
    }
    read = certifying.read_certificate(
        stated, source=source, elements=element or (), sheet=sheet
    )
    measured = certifying.MeasuredElsewhere(
        percent_iacs=_pair(measured_iacs, measured_iacs_u),
        residual_ratio=_pair(measured_ratio, measured_ratio_u),
    )
    judged = certifying.judge_read_certificate(
        read, grades=grade or (), measured=measured
    )
    if plot is not None:
        certifying.write_certificate_plot(judged, plot)
    if as_json:
        print_json(certificate_data(judged))
    else:
        for line in certificate_in_words(judged):
            say(line)
    if desk is not None:
        entry = certifying.enter_certificate_paper(
            desk,
            str(label),
            read,
            kind=paper_kind,
            source=source,
            offered_for=offered_for or (),
        )
        complain(f"Entry {entry.number}: document {entry.body.id}.")
        complain(f"Head: {entry.sha256}")
        return
    finding = certifying.certificate_finding(judged)
    enter_if_asked(
        finding,
        case=case,
        label=label,
        measures=measures,
        by=by,
        observation=observation,
    )


def paper(
    case: Annotated[
        Path | None, typer.Argument(metavar="CASE", help="Folder of a case.")
    ] = None,
    document: Annotated[str | None, typer.Option(help="One paper of the case.")] = None,
    claim: Annotated[str | None, typer.Option(help="One claim of the case.")] = None,
    kind: Annotated[
        str | None, typer.Option(help="Without a case: a kind of paper.")
    ] = None,
    claim_kind: Annotated[
        list[str] | None,
        typer.Option(help="Without a case: a kind of claim. Repeat; all without."),
    ] = None,
    lot_linked: Annotated[
        bool,
        typer.Option(help="Without a case: its lot is linked to the exhibit's."),
    ] = False,
    as_json: AsJson = False,
) -> None:
    """Judge what a paper can bear on, and what it cannot.

    With a case, its papers are judged and the claims named that stay unsupported by
    papers. Without one, a kind of paper is judged, or the whole grid is printed.
    """
    if case is not None:
        papers = paper_judging.papers_of_case(case, document=document)
        if as_json:
            print_json(paper_judging.papers_data(papers))
            return
        lines = paper_judging.case_papers_in_words(case, papers, claim=claim)
    elif as_json:
        print_json(paper_judging.grid_data())
        return
    elif kind is None:
        lines = paper_judging.grid_in_words()
    else:
        lines = paper_judging.kind_of_paper_in_words(
            kind, claim_kind or (), lot_linked=lot_linked
        )
    for line in lines:
        say(line)


def oxygen(
    points: Annotated[
        list[str] | None,
        typer.Option(help="A field: grid points on oxide of all, 3/400. Repeat."),
    ] = None,
    areas: Annotated[
        list[str] | None,
        typer.Option(
            help="A field: area of oxide and of the field in um^2, 12.5/40000. Repeat."
        ),
    ] = None,
    largest_particle: Annotated[
        float | None,
        _value("With areas: the largest particle seen (or expected), in um^2."),
    ] = None,
    hydrogen: Annotated[
        str | None, typer.Option(help="Outcome of a hydrogen test: pass or fail.")
    ] = None,
    hydrogen_method: Annotated[
        str, typer.Option(help="Its standard and method, as reported.")
    ] = "",
    gas: Annotated[
        float | None, _value("Oxygen by gas analysis, in ppm by mass.")
    ] = None,
    gas_u: Annotated[float, _value("Its standard uncertainty, in ppm.")] = 0.0,
    case: IntoCase = None,
    label: AsMeasurement = None,
    measures: Measured = None,
    by: EnteredBy = None,
    observation: AsObservation = None,
    as_json: AsJson = False,
) -> None:
    """Judge oxygen: oxide on a polished section, hydrogen test, gas analysis.

    Fields of one section give oxygen with an interval by field. The kinds of evidence
    are compared with each other and with the oxygen-free classes.
    """
    readings = oxygen_judging.OxygenReadings(
        points=points or (),
        areas=areas or (),
        largest_particle=largest_particle,
        hydrogen=hydrogen,
        hydrogen_method=hydrogen_method,
        gas=_pair(gas, gas_u),
    )
    judged = oxygen_judging.judge_oxygen_readings(readings)
    if as_json:
        print_json(oxygen_judging.oxygen_data(judged))
    else:
        for line in oxygen_judging.oxygen_in_words(judged):
            say(line)
    enter_if_asked(
        oxygen_judging.oxygen_finding(judged),
        case=case,
        label=label,
        measures=measures,
        by=by,
        observation=observation,
    )


def _pair(value: float | None, u: float) -> tuple[float, float] | None:
    return None if value is None else (value, u)


def _paper_desk(case: Path | None, label: str | None, by: str | None) -> Desk:
    if case is None or label is None or by is None:
        message = "a paper goes into a case with --case, --id and --by"
        raise typer.BadParameter(message)
    return Desk(case, by)
