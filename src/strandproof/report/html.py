"""The report as one HTML file: readable offline, on a phone, without a script."""

from functools import cache

from jinja2 import Environment, PackageLoader, StrictUndefined

from strandproof.report.case_report import CaseReport
from strandproof.report.plan import plan_lines
from strandproof.report.wording import as_sentence


def case_report_html(report: CaseReport) -> str:
    """Write a report as one HTML file.

    Parameters
    ----------
    report : CaseReport
        What it says; every word of a user goes in as data, never as markup.

    Returns
    -------
    str
        The page, with its style and its pictures inside.
    """
    return _environment().get_template("case_report.html").render(report=report)


@cache
def _environment() -> Environment:
    environment = Environment(
        loader=PackageLoader("strandproof.report"),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
    )
    environment.filters["as_sentence"] = as_sentence
    environment.filters["plan_lines"] = plan_lines
    return environment
