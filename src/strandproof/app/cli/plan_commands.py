"""Commands of the plan: draw places, lock, change in the open, account for fields."""

from pathlib import Path
from typing import Annotated, Any

import typer

from strandproof.app.cli.arguments import AsJson, CaseFolder, Label, Note, Person
from strandproof.app.cli.console import print_json, say, tell_entries
from strandproof.app.cli.typed_words import length_um
from strandproof.app.workflow import Desk, open_case
from strandproof.app.workflow.plan_locking import (
    SectionsToDraw,
    account_of,
    changes_data,
    changes_in_words,
    check_draft,
    check_plan_file,
    contact_sheet_data,
    deviate,
    drawn_in_words,
    lock_plan,
    plan_positions,
    read_positions,
    write_positions,
)
from strandproof.records.entries import PlanLock

_UM_PER_MM = 1000

Places = Annotated[
    Path | None,
    typer.Option("--places", help="Places to look at, from 'plan-positions'."),
]


def add_plan_commands(program: typer.Typer) -> None:
    """Add the commands to the program.

    Parameters
    ----------
    program : typer.Typer
        The program.
    """
    panel = "Plan"
    for name, command in (
        ("plan-positions", positions),
        ("lock-plan", lock),
        ("deviate", change),
        ("plan-log", log),
        ("fields", fields),
    ):
        program.command(name, rich_help_panel=panel)(command)


def positions(
    out: Annotated[Path, typer.Option(help="New JSON file of places.")],
    long_section: Annotated[
        list[str] | None,
        typer.Option("--long", help="Name of a long section. Repeat."),
    ] = None,
    face: Annotated[
        list[str] | None,
        typer.Option(help="Transverse section whose whole face is read. Repeat."),
    ] = None,
    each: Annotated[int, typer.Option(help="Fields on each long section.")] = 5,
    length: Annotated[
        float,
        typer.Option(
            parser=length_um, metavar="LENGTH", help="Length of the long sections."
        ),
    ] = 10_000.0,
    width: Annotated[
        float,
        typer.Option(parser=length_um, metavar="LENGTH", help="Width of a field."),
    ] = 310.0,
    seed: Annotated[
        int | None, typer.Option(min=0, help="Seed; without, one is drawn and kept.")
    ] = None,
) -> None:
    """Draw by chance where to look, before anyone looks.

    Five places on each long section, the whole face of each transverse one. Sections
    need not be cut yet. Give the file to 'lock-plan' or 'deviate'.
    """
    wanted = SectionsToDraw(
        long_sections=long_section or (),
        faces=face or (),
        fields_per_section=each,
        section_length_mm=length / _UM_PER_MM,
        field_width_mm=width / _UM_PER_MM,
    )
    drawn = plan_positions(wanted, seed=seed)
    write_positions(drawn, out)
    for line in (*drawn_in_words(drawn), f"Written: {out}"):
        say(line)


def lock(
    folder: CaseFolder,
    label: Label,
    by: Person,
    claim: Annotated[list[str], typer.Option(help="Claim it covers. Repeat.")],
    primary: Annotated[str, typer.Option(help="The result that decides.")],
    stop: Annotated[str, typer.Option(help="When testing ends.")],
    mind: Annotated[str, typer.Option(help="What result would change my mind.")],
    hypothesis: Annotated[
        list[str] | None, typer.Option(help="Rival explanation. Repeat.")
    ] = None,
    test: Annotated[
        list[str] | None,
        typer.Option(help="A test, by its name in the table or in words. Repeat."),
    ] = None,
    rule: Annotated[
        list[str] | None, typer.Option(help="A rule for counting. Repeat.")
    ] = None,
    places: Places = None,
    check_only: Annotated[
        bool, typer.Option("--check-only", help="Say what is missing; lock nothing.")
    ] = False,
    note: Note = "",
    as_json: AsJson = False,
) -> None:
    """Lock the plan before results are seen; publish the hash that is printed.

    Refused while interests, rivals, tests or counting rules are blank. Later changes
    go in with 'deviate'; the locked plan stays as it is.
    """
    plan: dict[str, Any] = {
        "id": label,
        "claims": tuple(claim),
        "primary_reading": primary,
        "stop_rule": stop,
        "would_change_my_mind": mind,
        "hypotheses": tuple(hypothesis or ()),
        "tests": tuple(test or ()),
        "counting_rules": tuple(rule or ()),
        "note": note,
    }
    drawn = None if places is None else read_positions(places)
    if check_only:
        found = check_draft(open_case(folder), plan, drawn)
        blanks = (f"Blank: {each}." for each in found.blanks)
        for line in (*blanks, *found.remarks, *found.ceiling):
            say(line)
        return
    locked = lock_plan(Desk(folder, by), plan, drawn=drawn)
    tell_entries([locked.entry], as_json=as_json)
    if not as_json:
        for line in locked.remarks:
            say(line)
        say(f"SHA-256 of the plan, to be published: {locked.plan_sha256}")


def change(
    folder: CaseFolder,
    label: Label,
    by: Person,
    plan: Annotated[str, typer.Option(help="Short name of the locked plan.")],
    kind: Annotated[
        str, typer.Option(metavar="addition|deviation", help="What sort of change.")
    ],
    what: Annotated[str, typer.Option(help="What changed.")],
    because: Annotated[str, typer.Option(help="Why.")],
    concerns: Annotated[
        list[str] | None, typer.Option(help="Section it is about. Repeat.")
    ] = None,
    drop: Annotated[
        list[str] | None,
        typer.Option(
            metavar="SECTION:NUMBER", help="A planned field not used. Repeat."
        ),
    ] = None,
    places: Places = None,
    results_seen: Annotated[
        bool | None,
        typer.Option(
            "--results-seen/--no-result-seen",
            help="Your own word; the record is asked in any case.",
        ),
    ] = None,
    as_json: AsJson = False,
) -> None:
    """Enter an addition to a locked plan, or a deviation from it.

    The record says whether results had been entered before; your word stands beside.
    """
    entry = deviate(
        Desk(folder, by),
        {
            "id": label,
            "plan": plan,
            "kind": kind,
            "what": what,
            "reason": because,
            "concerns": tuple(concerns or ()),
            "drops": tuple(map(_section_and_number, drop or ())),
            "results_seen": results_seen,
        },
        drawn=None if places is None else read_positions(places),
    )
    tell_entries([entry], as_json=as_json)
    if not as_json:
        for line in changes_in_words(folder)[-3:]:
            say(line)


def log(folder: CaseFolder, as_json: AsJson = False) -> None:
    """Show the locked plans with their hashes, and every change after."""
    plans = open_case(folder).records(PlanLock)
    hashes = {plan.id: check_plan_file(folder, plan.id) for plan in plans}
    if as_json:
        print_json({"plans": hashes, "changes": changes_data(folder)})
        return
    for plan in plans:
        say(f"{plan.id}, locked {plan.locked_at:%Y-%m-%d %H:%M} UTC: {hashes[plan.id]}")
    for line in changes_in_words(folder):
        say(line)


def fields(folder: CaseFolder, as_json: AsJson = False) -> None:
    """Account for every planned field: used, or listed with the reason why not.

    With --json: the contact sheet, all fields with their pictures.
    """
    account = account_of(folder)
    if as_json:
        print_json(contact_sheet_data(account))
        return
    for line in account.lines:
        say(line)
    if account.unplanned:
        say(f"Pictures at no planned place: {', '.join(account.unplanned)}.")


def _section_and_number(text: str) -> dict[str, Any]:
    """Read ``E2-s3-T:1``."""
    section, _, place = text.rpartition(":")
    if not section or not place.isdigit():
        message = f"{text!r} is not of the form SECTION:NUMBER."
        raise typer.BadParameter(message, param_hint="--drop")
    return {"section": section, "number": int(place)}
