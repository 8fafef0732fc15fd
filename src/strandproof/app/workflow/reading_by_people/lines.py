"""Use cases that give test lines: the same to every reader, at places nobody picks."""

from collections.abc import Sequence
from pathlib import Path
from random import Random

from strandproof.app.workflow.entering import open_case
from strandproof.app.workflow.reading_by_people.files import (
    GivenTestLines,
    lines_for_reader,
)
from strandproof.app.workflow.reading_by_people.state import line_record, placed_line
from strandproof.grainsize.marks import lay_test_lines
from strandproof.records.entries import Micrograph, Section
from strandproof.storage import write_output_file

# 48 bits of the picture's hash: a whole number that JSON holds exactly.
_SEED_DIGITS = 12


def seed_of_picture(sha256: str) -> int:
    """Give the seed that a picture's own hash makes, which leaves nobody a choice.

    Parameters
    ----------
    sha256 : str
        SHA-256 of the original, in hexadecimal.

    Returns
    -------
    int
        Its first 12 digits as a number.

    Examples
    --------
    >>> seed_of_picture("00000000001f" + 52 * "a")
    31
    """
    return int(sha256[:_SEED_DIGITS], 16)


def give_test_lines(
    folder: Path,
    micrograph: str,
    *,
    lines: int,
    circles: int = 0,
    directions_deg: Sequence[float] = (0.0, 45.0, 90.0, 135.0),
    seed: int | None = None,
) -> GivenTestLines:
    """Give the test lines of a field: the same to every reader.

    Parameters
    ----------
    folder : Path
        Folder of the case.
    micrograph : str
        Short name of the micrograph.
    lines, circles : int
        How many straight lines and circles.
    directions_deg : sequence of float
        Directions of straight lines, by turns [deg], from right towards up.
    seed : int or None
        Seed of the places; None takes that of the picture itself.

    Returns
    -------
    GivenTestLines
        The lines, with all that is needed to lay them again.
    """
    state = open_case(folder)
    picture = state.record(Micrograph, micrograph)
    chosen = seed_of_picture(picture.file_sha256) if seed is None else seed
    laid = lay_test_lines(
        picture.width_px,
        picture.height_px,
        lines=lines,
        circles=circles,
        directions_deg=directions_deg,
        chance=Random(chosen),  # noqa: S311 - places that anyone can lay again
    )
    return GivenTestLines(
        code=state.record(Section, picture.section).blind_code,
        picture_sha256=picture.file_sha256,
        page=picture.page,
        width_px=picture.width_px,
        height_px=picture.height_px,
        seed=chosen,
        directions_deg=tuple(directions_deg),
        lines=tuple(map(line_record, laid)),
    )


def write_test_lines(given: GivenTestLines, path: Path) -> None:
    """Write test lines to a file for a reader; an earlier file is never replaced.

    Parameters
    ----------
    given : GivenTestLines
        The lines.
    path : Path
        New file.
    """
    write_output_file(path, lines_for_reader(given).encode("utf-8"))


def laid_by_seed(given: GivenTestLines) -> bool:
    """Tell whether test lines are those that their seed gives.

    Parameters
    ----------
    given : GivenTestLines
        Lines with a seed.

    Returns
    -------
    bool
        False for lines that were moved, taken out or put in.
    """
    circles = sum(line.radius_px is not None for line in given.lines)
    laid = lay_test_lines(
        given.width_px,
        given.height_px,
        lines=len(given.lines) - circles,
        circles=circles,
        directions_deg=given.directions_deg,
        chance=Random(given.seed),  # noqa: S311 - the places to compare with
    )
    return laid == tuple(map(placed_line, given.lines))
