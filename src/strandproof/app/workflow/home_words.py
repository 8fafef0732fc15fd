"""A plan for home in words: decisions, safety, and what to ask a laboratory."""

from typing import Any, cast

from strandproof.app.workflow.home_planning import HomePlan
from strandproof.quantity import format_plus_minus
from strandproof.records.plain_data import as_plain_data

SAFETY = tuple(
    """\
No flame, no burning or hot-dip stripping: fumes, and it anneals the strand.
Never on the mains or inside mains equipment: disconnected leads, low voltage only.
No acid and no etching at home; no liquid nitrogen or helium.
Strand ends are sharp; wear glasses when cutting and keep cuttings off the floor.
""".splitlines()
)
"""Cautions printed with every plan."""

REQUEST_FORM = tuple(
    """\
Request to a laboratory (fill in and send; leave seller, brand and price out):
  Question: into how many crystals does the strand part along the length shown? Or:
    what is the skin, and how thick? Not: is it fake?
  Specimens: code, diameter, how many; cut cold, ends marked; what is to be left.
  Sections: across and along, several strands, in a cold mount.
  Controls in the same mount: soft oxygen-free copper, and a known single crystal.
  Pictures: as polished before etching, at each step of etching, and a stage scale of
    the same day.
  Record: highest temperature and time of each specimen; etching by your procedure.
  Report: observations, measurements with uncertainty, opinions apart; what the method
    cannot show.
  To agree before: price, disposal, names, publication, quotation.
""".splitlines()
)
"""What goes to a laboratory instead of a recipe."""

_NO_ETCHING = (
    "Etching takes strong acid and gives brown toxic fumes; it needs a laboratory. "
    "Send it this request instead."
)
_USELESS_G_PER_CM3 = 3.0  # cannot even tell aluminium; judgement
_HOW = (
    "Also at home: a magnet on a hanging strand (steel core or nickel), a deep scrape "
    "(colour of the core). Enter all readings together with which-metal."
)


def home_in_words(plan: HomePlan) -> tuple[str, ...]:
    """Say what can be decided at home, what not, and what to be careful of.

    Parameters
    ----------
    plan : HomePlan
        From `plan_at_home`.

    Returns
    -------
    tuple of str
        Lines for people.
    """
    can = [one for one in plan.decisions if one.can]
    cannot = [one for one in plan.decisions if not one.can]
    return (
        *_reached(plan),
        "Can be decided:",
        *(f"  {one.question}: {one.reason}" for one in can),
        *(() if can else ("  nothing",)),
        "Cannot be decided:",
        *(f"  {one.question}: {one.reason}" for one in cannot),
        *plan.advice,
        _HOW,
        "Be careful:",
        *(f"  {line}" for line in SAFETY),
        _NO_ETCHING,
        *REQUEST_FORM,
    )


def _reached(plan: HomePlan) -> tuple[str, ...]:
    sign = "\N{PLUS-MINUS SIGN}"
    by_water, by_diameter = plan.density_by_water, plan.density_by_diameter
    lines = (
        f"For copper this piece weighs {plan.mass_mg:.4g} mg. To expect (95 %):",
        f"  metal area by mass: {sign}{plan.mass_per_metre_percent:.2g} %",
        f"  density by water: {_density(by_water)}",
        f"  density by diameter: {_density(by_diameter)}",
    )
    if plan.conductivity_percent is None:
        return lines
    shown = format_plus_minus(100.0, plan.conductivity_percent, unit="% IACS")
    return (*lines, f"  conductivity: {shown}")


def _density(half_width: float) -> str:
    shown = f"\N{PLUS-MINUS SIGN}{half_width:.2g} g/cm3"
    return shown if half_width < _USELESS_G_PER_CM3 else f"{shown}, of no use"


def home_data(plan: HomePlan) -> dict[str, Any]:
    """Give a plan for home as plain data.

    Parameters
    ----------
    plan : HomePlan
        From `plan_at_home`.

    Returns
    -------
    dict
        JSON data, with cautions and request.
    """
    data = cast("dict[str, Any]", as_plain_data(plan))
    return {**data, "safety": list(SAFETY), "request_form": list(REQUEST_FORM)}
