"""The use case that draws what two readers marked on the same test lines."""

import re
from collections.abc import Iterable
from dataclasses import dataclass
from pathlib import Path

from strandproof.app.workflow.new_folder import make_new_folder
from strandproof.app.workflow.reading_by_people import MarkedByBoth, compare_readers
from strandproof.errors import ParameterError
from strandproof.grainsize.marks import (
    LineMark,
    MarkedLine,
    doubted_directions,
    shared_directions,
)
from strandproof.report.plots import mark_directions_plot, reader_marks_plots
from strandproof.storage import write_output_file


@dataclass(frozen=True, slots=True)
class WrittenPlots:
    """Where the drawings lie.

    Parameters
    ----------
    marks : tuple of Path
        Both readers' marks, one drawing for each test line.
    directions : tuple of Path
        Directions of the marks, one drawing for each reader who noted some.
    """

    marks: tuple[Path, ...]
    directions: tuple[Path, ...]


def plot_readers(
    folder: Path, target: Path, *, first: str, second: str
) -> WrittenPlots:
    """Draw the marks of two readers side by side, and the directions of each.

    Only locked readings are drawn, as they were locked: a drawing of directions is a
    hint, and nobody sees one before.

    Parameters
    ----------
    folder : Path
        Folder of the case.
    target : Path
        New or empty folder for the drawings.
    first, second : str
        The readers.

    Returns
    -------
    WrittenPlots
        The SVG files.

    Raises
    ------
    ParameterError
        If the two marked no test line in common.
    """
    compared = compare_readers(folder, first, second)
    if not compared.marked:
        raise ParameterError(
            "readers",
            (first, second),
            allowed="two readers who marked the same test lines of a field",
            remedy="Counts and verdicts without marks have no places to draw.",
        )
    make_new_folder(target)
    marks: list[Path] = []
    directions: list[Path] = []
    for number, each in enumerate(compared.marked, start=1):
        stem = f"{number:02d}-{_file_name(each.reads)}"
        marks += _marks(each, target, stem, (first, second))
        for reader, lines in ((first, each.first_lines), (second, each.second_lines)):
            place = target / f"{stem}-directions-{_file_name(reader)}.svg"
            title = f"Directions of the marks of {reader} on {_spoken(each.reads)}"
            if _rose(lines, place, title):
                directions.append(place)
    return WrittenPlots(tuple(marks), tuple(directions))


def _marks(
    both: MarkedByBoth, target: Path, stem: str, readers: tuple[str, str]
) -> list[Path]:
    drawings = reader_marks_plots(
        both.first_lines,
        both.second_lines,
        both.comparison,
        readers=readers,
        title=f"{readers[0]} and {readers[1]} on {_spoken(both.reads)}",
    )
    places = [target / f"{stem}-line-{m.line.number}.svg" for m in both.first_lines]
    for place, drawing in zip(places, drawings, strict=True):
        write_output_file(place, str(drawing).encode("utf-8"))
    return places


def _rose(lines: Iterable[MarkedLine], place: Path, title: str) -> bool:
    """Draw directions where a reader noted any; point only at what chance does not."""
    marks: list[LineMark] = [mark for line in lines for mark in line.marks]
    angles = doubted_directions(marks)[1]
    if not angles:
        return False
    called = shared_directions(angles)
    drawing = mark_directions_plot(marks, called[0] if called else None, title=title)
    write_output_file(place, str(drawing).encode("utf-8"))
    return True


def _spoken(reads: str) -> str:
    return reads.replace("/", " ")


def _file_name(text: str) -> str:
    return re.sub(r"[^A-Za-z0-9]+", "-", text).strip("-")
