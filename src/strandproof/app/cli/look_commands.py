"""Commands for looking: expected looks, known pieces, and drawings of readings."""

import secrets
from pathlib import Path
from typing import Annotated, Any

import typer

from strandproof.app.cli.arguments import AsJson, CaseFolder
from strandproof.app.cli.console import print_json, progress, say
from strandproof.app.cli.typed_words import length_um, number
from strandproof.app.workflow import expected_looks, known_pieces, pixel_size
from strandproof.app.workflow.plotting import plot_readers

_DIRECTIONS = ("longitudinal", "transverse")
_SEED_BITS = 62


def add_look_commands(program: typer.Typer) -> None:
    """Add the commands to the program.

    Parameters
    ----------
    program : typer.Typer
        The program.
    """
    program.command("expected-looks", rich_help_panel="Look at once")(show_looks)
    for name, command in (
        ("known-pieces", draw_pieces),
        ("score-known-pieces", score_pieces),
    ):
        program.command(name, rich_help_panel="Try a reader")(command)
    program.command("plot-readers", rich_help_panel="Reading by people")(draw_readers)


def _length(help_text: str) -> Any:  # noqa: ANN401 - what typer gives
    return typer.Option(parser=length_um, metavar="LENGTH", help=help_text)


def _number(help_text: str) -> Any:  # noqa: ANN401 - what typer gives
    return typer.Option(parser=number, metavar="NUMBER", help=help_text)


def _direction(text: str) -> str:
    if text not in _DIRECTIONS:
        message = f"{text!r} is none of {' and '.join(_DIRECTIONS)}."
        raise typer.BadParameter(message)
    return text


def _sealed_beside(folder: Path) -> Path:
    return folder.with_name(f"{folder.name}-sealed-answers.json")


def _other_blunders(
    under: str | None, mix_up: float | None, batch_fault: float | None
) -> dict[str, float]:
    """Require the blunders that known pieces cannot reach; none is not zero."""
    if mix_up is not None and batch_fault is not None:
        return {"mix-up": mix_up, "batch fault": batch_fault}
    if under is not None:
        message = (
            "--under needs --mix-up and --batch-fault too: known pieces say nothing of "
            "them, and leaving them out would count them as impossible."
        )
        raise typer.BadParameter(message, param_hint="--under")
    return {}


def show_looks(
    picture: Annotated[Path, typer.Argument(help="PNG, JPEG or TIFF.")],
    to: Annotated[
        Path, typer.Option(metavar="FOLDER", help="New folder for sheet and pictures.")
    ] = Path("expected-looks"),
    um_per_px: Annotated[
        float | None, _length("Pixel size in um; other units as in 172.6nm.")
    ] = None,
    direction: Annotated[
        str,
        typer.Option(parser=_direction, help="Section: longitudinal or transverse."),
    ] = "longitudinal",
    strand_width: Annotated[
        float | None, _length("Width of the strand; without it X8 cannot be drawn.")
    ] = None,
    axis: Annotated[
        float, _number("Direction of the strand, degrees anticlockwise from the rows.")
    ] = 0.0,
    mean_intercept: Annotated[
        float | None, _length("Mean intercept to draw annealed grains with.")
    ] = None,
    seed: Annotated[int, typer.Option(min=0, help="Seed of the drawings.")] = 1,
) -> None:
    """Draw what each explanation would look like, beside your picture.

    Every drawing is synthetic and says so. Resembling one is no evidence.
    """
    asked = expected_looks.LooksAsked(
        pixel_size=pixel_size(um_per_px, 0.0),
        direction="transverse" if direction == "transverse" else "longitudinal",
        strand_um=strand_width,
        axis_deg=axis,
        mean_intercept_um=mean_intercept,
        seed=seed,
    )
    with progress("drawing") as bar:
        written = expected_looks.draw_expected_looks(picture, to, asked, progress=bar)
    say(f"Sheet: {written.sheet}")
    for labels, path in written.pictures:
        say(f"{labels}: {path} (synthetic)")
    for labels, why in written.not_drawn:
        say(f"{labels}: no picture. {why}")


def draw_pieces(
    to: Annotated[
        Path, typer.Option(metavar="FOLDER", help="New folder for the reader.")
    ] = Path("known-pieces"),
    answers: Annotated[
        Path | None,
        typer.Option(
            metavar="FILE", help="Sealed answers; beside the folder when left out."
        ),
    ] = None,
    sets: Annotated[
        int, typer.Option(help="Pieces of each of the twelve kinds, 1 to 20.")
    ] = 1,
    seed: Annotated[
        int | None,
        typer.Option(help="Seed; left out, one is drawn and stands in the answers."),
    ] = None,
) -> None:
    """Draw synthetic known pieces for a reader; the answers are sealed elsewhere.

    Whoever knows the seed can draw the same set, and so knows the answers.
    """
    sealed = answers or _sealed_beside(to)
    with progress("known pieces") as bar:
        written = known_pieces.draw_known_pieces(
            to,
            answers=sealed,
            seed=secrets.randbits(_SEED_BITS) if seed is None else seed,
            sets=sets,
            progress=bar,
        )
    say(f"{written.pieces} synthetic pieces with a blank sheet: {written.folder}")
    say(f"Sealed answers, not for the reader: {written.answers}")
    say(f"SHA-256 of the answers: {written.answers_sha256}")


def score_pieces(
    folder: Annotated[Path, typer.Argument(help="Folder of the set.")],
    reader: Annotated[str, typer.Option(help="Who read.")],
    answers: Annotated[
        Path | None,
        typer.Option(
            metavar="FILE", help="Sealed answers; beside the folder when left out."
        ),
    ] = None,
    sheet: Annotated[
        Path | None,
        typer.Option(metavar="FILE", help="Filled sheet; the folder's when left out."),
    ] = None,
    under: Annotated[
        str | None,
        typer.Option(
            metavar="HYPOTHESIS",
            help="Give a likelihood for weigh under this one, for example X1.",
        ),
    ] = None,
    mix_up: Annotated[
        float | None, _number("Mix-ups in 100 pieces, known otherwise; with --under.")
    ] = None,
    batch_fault: Annotated[
        float | None,
        _number("Batch faults in 100 pieces, known otherwise; with --under."),
    ] = None,
    to: Annotated[
        Path | None, typer.Option(metavar="FILE", help="Write the score here (JSON).")
    ] = None,
    as_json: AsJson = False,
) -> None:
    """Score a filled sheet: error rates of reading, with exact limits.

    The answers are opened only when every piece has a verdict. The rates hold for
    reading, not for mix-ups or whole batches.
    """
    others = _other_blunders(under, mix_up, batch_fault)
    score = known_pieces.score_known_pieces(
        folder,
        answers=answers or _sealed_beside(folder),
        reader=reader,
        sheet=sheet,
    )
    likelihood = None
    if under is not None:
        likelihood = known_pieces.likelihood_with_reading_rate(
            score, under, other_blunders_of_100=others
        )
    if to is not None:
        known_pieces.write_known_pieces_score(score, to, likelihood)
    if as_json:
        print_json(known_pieces.known_pieces_data(score, likelihood))
        return
    for line in known_pieces.known_pieces_in_words(score):
        say(line)
    if likelihood is not None:
        say(known_pieces.likelihood_words(likelihood))


def draw_readers(
    folder: CaseFolder,
    first: Annotated[str, typer.Option(help="A reader.")],
    second: Annotated[str, typer.Option(help="Another reader.")],
    to: Annotated[
        Path, typer.Option(metavar="FOLDER", help="New folder for the drawings.")
    ] = Path("plots"),
) -> None:
    """Draw two readers' locked marks side by side, and their directions, as SVG."""
    written = plot_readers(folder, to, first=first, second=second)
    for path in (*written.marks, *written.directions):
        say(str(path))
