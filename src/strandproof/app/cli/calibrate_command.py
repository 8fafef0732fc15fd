"""The command that enters the size of a pixel, in one of five ways."""

from dataclasses import dataclass
from datetime import datetime
from pathlib import Path
from typing import Annotated, Any, TypeVar

import typer

from strandproof.app import workflow
from strandproof.app.cli.arguments import AsJson, CaseFolder, Label, Note, Person
from strandproof.app.cli.console import say, tell_entries
from strandproof.app.cli.typed_words import length_um, moment, number
from strandproof.app.workflow import Desk, TypedScale
from strandproof.records.entries import Calibration, Entry

Value = TypeVar("Value")


@dataclass(frozen=True, slots=True, kw_only=True)
class _Ways:
    """What was typed for each way of calibrating; exactly one way is complete."""

    um_per_px: float | None
    uncertainty: float | None
    method: str
    picture: Path | None
    stage_scale: list[Path]
    typed: TypedScale | None
    marked_px: list[float]
    divisions: int | None
    from_metadata: Path | None
    page: int | None
    from_bar: Path | None
    bar_um: float | None


def calibrate(
    folder: CaseFolder,
    label: Label,
    at: Annotated[
        datetime,
        typer.Option(parser=moment, metavar="MOMENT", help="When it was made."),
    ],
    by: Person,
    um_per_px: Annotated[
        float | None,
        typer.Option(
            parser=length_um,
            metavar="LENGTH",
            help="Pixel size in um, typed; with --uncertainty and --method.",
        ),
    ] = None,
    uncertainty: Annotated[
        float | None,
        typer.Option(
            parser=length_um, metavar="LENGTH", help="Its standard uncertainty in um."
        ),
    ] = None,
    stage_scale: Annotated[
        list[Path] | None,
        typer.Option(
            metavar="PICTURE",
            help="Picture of a stage scale: its lines are found. Repeat for more.",
        ),
    ] = None,
    division_um: Annotated[
        float | None,
        typer.Option(
            parser=length_um, metavar="LENGTH", help="One division of the scale, in um."
        ),
    ] = None,
    scale_uncertainty: Annotated[
        float | None,
        typer.Option(
            parser=length_um,
            metavar="LENGTH",
            help="Standard uncertainty of a distance on it, by its certificate, in um.",
        ),
    ] = None,
    expected: Annotated[
        float | None,
        typer.Option(
            parser=length_um,
            metavar="LENGTH",
            help="About what the pixel size should be, in um; more than 10 % off is "
            "refused.",
        ),
    ] = None,
    marked_px: Annotated[
        list[float] | None,
        typer.Option(
            parser=number,
            metavar="PIXELS",
            help="Length marked by hand over --divisions. Repeat for each reading.",
        ),
    ] = None,
    divisions: Annotated[
        int | None, typer.Option(help="Divisions between the marks.")
    ] = None,
    from_metadata: Annotated[
        Path | None,
        typer.Option(metavar="PICTURE", help="Picture whose file states its scale."),
    ] = None,
    from_bar: Annotated[
        Path | None,
        typer.Option(
            metavar="PICTURE", help="Picture with a burned-in bar: never good alone."
        ),
    ] = None,
    bar_um: Annotated[
        float | None,
        typer.Option(
            parser=length_um, metavar="LENGTH", help="Length written beside it, in um."
        ),
    ] = None,
    page: Annotated[
        int | None, typer.Option(help="Page of --from-metadata, for several.")
    ] = None,
    method: Annotated[
        str, typer.Option(help="How it is known: stage scale, certificate ...")
    ] = "",
    picture: Annotated[
        Path | None,
        typer.Option(help="Picture of the stage scale, for typed or marked values."),
    ] = None,
    instrument: Annotated[
        str, typer.Option(help="Microscope, objective, camera, binning.")
    ] = "",
    note: Note = "",
    as_json: AsJson = False,
) -> None:
    """Enter the size of a pixel, with its uncertainty and how it is known.

    One of: --stage-scale with --division-um (best); --marked-px with --divisions and
    --division-um; --um-per-px with --uncertainty and --method; --from-metadata;
    --from-bar with --bar-um. The last two are flagged.
    """
    scale = None
    if division_um is not None:
        scale = TypedScale(
            division_um=division_um,
            certificate_um=scale_uncertainty,
            expected_um_per_px=expected,
        )
    ways = _Ways(
        um_per_px=um_per_px,
        uncertainty=uncertainty,
        method=method,
        picture=picture,
        stage_scale=stage_scale or [],
        typed=scale,
        marked_px=marked_px or [],
        divisions=divisions,
        from_metadata=from_metadata,
        page=page,
        from_bar=from_bar,
        bar_um=bar_um,
    )
    fields = {
        "id": label,
        "method": method,
        "instrument": instrument,
        "made_at": at,
        "made_by": by,
        "note": note,
    }
    entry = _entered(Desk(folder, by), fields, ways)
    tell_entries([entry], as_json=as_json)
    if not as_json and isinstance(entry.body, Calibration):
        say(workflow.calibration_in_words(entry.body))


def _entered(desk: Desk, fields: dict[str, Any], ways: _Ways) -> Entry:
    chosen = {
        "--um-per-px": ways.um_per_px is not None,
        "--stage-scale": bool(ways.stage_scale),
        "--marked-px": bool(ways.marked_px),
        "--from-metadata": ways.from_metadata is not None,
        "--from-bar": ways.from_bar is not None,
    }
    given = [name for name, is_given in chosen.items() if is_given]
    if len(given) != 1:
        found = " and ".join(given) or "none"
        message = f"give exactly one of {', '.join(chosen)}; given: {found}."
        raise typer.BadParameter(message)
    match given[0]:
        case "--um-per-px":
            return _typed(desk, fields, ways)
        case "--stage-scale":
            return workflow.calibrate_on_stage_scale(
                desk, fields, pictures=ways.stage_scale, typed=_scale(ways)
            )
        case "--marked-px":
            return workflow.calibrate_by_marks(
                desk,
                fields,
                lengths_px=ways.marked_px,
                divisions=_needed(ways.divisions, "--divisions"),
                typed=_scale(ways),
                picture=ways.picture,
            )
        case "--from-metadata":
            return workflow.calibrate_from_metadata(
                desk,
                fields,
                picture=_needed(ways.from_metadata, "--from-metadata"),
                uncertainty_um=ways.uncertainty,
                page=ways.page,
            )
        case _:
            return workflow.calibrate_on_bar(
                desk,
                fields,
                picture=_needed(ways.from_bar, "--from-bar"),
                length_um=_needed(ways.bar_um, "--bar-um"),
            )


def _typed(desk: Desk, fields: dict[str, Any], ways: _Ways) -> Entry:
    pixel_size = {
        "value": ways.um_per_px,
        "unit": "um",
        "standard_uncertainty": _needed(ways.uncertainty, "--uncertainty"),
    }
    if not ways.method:
        message = "say how the pixel size is known."
        raise typer.BadParameter(message, param_hint="--method")
    files = {} if ways.picture is None else {"picture_sha256": ways.picture}
    return workflow.enter(
        desk, "calibration", {**fields, "pixel_size": pixel_size}, files=files
    )


def _scale(ways: _Ways) -> TypedScale:
    return _needed(ways.typed, "--division-um")


def _needed(value: Value | None, option: str) -> Value:
    if value is None:
        message = "this way of calibrating needs it."
        raise typer.BadParameter(message, param_hint=option)
    return value
