"""The program as a third reader: what it sees on the test lines that people marked."""

from dataclasses import dataclass
from pathlib import Path

from strandproof.app.workflow.entering import open_case
from strandproof.app.workflow.measuring import Progress
from strandproof.app.workflow.reading_by_people.comparison import (
    MarkedByBoth,
    ReadersCompared,
)
from strandproof.grainsize.marks import (
    MarkComparison,
    MarkedLine,
    StraightTestLine,
    compare_marks,
    program_marks,
)
from strandproof.micrograph import segment
from strandproof.records.entries import Micrograph
from strandproof.storage import original_file, read_picture

_MICROGRAPH = "micrograph"


@dataclass(frozen=True, slots=True, kw_only=True)
class ProgramOnField:
    """What the program sees on the straight test lines that two readers marked.

    Parameters
    ----------
    reads : str
        What was read, as kind and name.
    lines : tuple of MarkedLine
        The straight lines with the boundaries and strand edges resolved.
    against_first, against_second : MarkComparison
        Its marks against those of each reader, who is the first of the two.
    """

    reads: str
    lines: tuple[MarkedLine, ...]
    against_first: MarkComparison
    against_second: MarkComparison


def program_beside_readers(
    folder: Path, compared: ReadersCompared, *, progress: Progress | None = None
) -> tuple[ProgramOnField, ...]:
    """Let the program mark the lines of every micrograph that both readers marked.

    `compare_readers` gives nothing before both readings are locked, so nobody sees
    this earlier either.

    Parameters
    ----------
    folder : Path
        Folder of the case.
    compared : ReadersCompared
        The two readers.
    progress : callable or None
        Called with a fraction and words.

    Returns
    -------
    tuple of ProgramOnField
        One for each micrograph with straight lines that both marked.
    """
    return tuple(
        _on_field(folder, field, progress)
        for field in compared.marked
        if field.reads.startswith(f"{_MICROGRAPH}/") and _straight(field.first_lines)
    )


def _on_field(
    folder: Path, field: MarkedByBoth, progress: Progress | None
) -> ProgramOnField:
    state = open_case(folder)
    shown = state.record(Micrograph, field.reads.partition("/")[2])
    picture = read_picture(
        original_file(folder, state, shown.file_sha256), page=shown.page
    )
    structure = segment(picture.pixels, valid=picture.valid, progress=progress)
    first, second = _straight(field.first_lines), _straight(field.second_lines)
    seen = program_marks(
        structure,
        [m.line for m in first if isinstance(m.line, StraightTestLine)],
    )
    tolerance = field.comparison.tolerance_px
    return ProgramOnField(
        reads=field.reads,
        lines=seen,
        against_first=compare_marks(first, seen, tolerance_px=tolerance),
        against_second=compare_marks(second, seen, tolerance_px=tolerance),
    )


def _straight(lines: tuple[MarkedLine, ...]) -> tuple[MarkedLine, ...]:
    return tuple(m for m in lines if isinstance(m.line, StraightTestLine))
