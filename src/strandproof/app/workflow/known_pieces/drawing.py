"""The use case that draws known pieces for a reader and seals the answers."""

from collections.abc import Callable
from dataclasses import dataclass
from hashlib import sha256
from pathlib import Path
from textwrap import fill

import numpy as np

from strandproof import __version__
from strandproof.app.workflow.known_pieces.answers import (
    DrawnPiece,
    PieceList,
    SealedAnswers,
    blank_answers,
)
from strandproof.app.workflow.known_pieces.kinds import (
    PIECE_KINDS,
    UM_PER_PX,
    PieceKind,
)
from strandproof.app.workflow.known_pieces.telling import KINDER, READING_ONLY
from strandproof.app.workflow.new_folder import (
    make_new_folder,
    require_new_folder,
)
from strandproof.errors import OutputExistsError, ParameterError
from strandproof.micrograph.render import (
    SyntheticSection,
    mark_synthetic,
    render_section,
)
from strandproof.storage import SYNTHETIC_KEY, encode_png, write_output_file

Progress = Callable[[float, str], None]

LIST_NAME, SHEET_NAME, ADVICE_NAME = (
    "pieces.json",
    "reading-sheet.csv",
    "READ-ME-FIRST.txt",
)
MOST_SETS = 20

_SEEDS = 2**62
_SEEN_PX = 400  # pixels of a trait from which a reader can be expected to see it
_STATEMENT = (
    "Synthetic pictures: drawn by a program, they show no real metal. They train and "
    "try readers; they are evidence of nothing else."
)
_ADVICE = f"""\
Known pieces, for trying a reader

{fill(_STATEMENT, 78)}

1. Look at each picture. The sealed answers lie elsewhere: do not open them.
2. Fill in {SHEET_NAME}, one row a piece.
   verdict:      boundaries     grain boundaries were seen
                 none_resolved  the metal was readable, no grain boundary was seen
                 not_readable   the picture does not let one say
   twins, scratches, slip_traces: yes, no or unsure
   Twins, scratches and slip traces are no grain boundaries.
3. Score the whole set: strandproof score-known-pieces FOLDER --reader NAME

{fill(KINDER, 78)}

{fill(READING_ONLY, 78)}
"""


@dataclass(frozen=True, slots=True)
class WrittenPieces:
    """Where a set lies.

    Parameters
    ----------
    folder : Path
        Pictures, list, blank sheet and advice: what the reader gets.
    answers : Path
        The sealed answers.
    answers_sha256 : str
        Their SHA-256, which may be made public before anything is read.
    pieces : int
        How many pieces.
    """

    folder: Path
    answers: Path
    answers_sha256: str
    pieces: int


def draw_known_pieces(
    folder: Path,
    *,
    answers: Path,
    seed: int,
    sets: int = 1,
    progress: Progress | None = None,
) -> WrittenPieces:
    """Draw known pieces into a new folder, and seal the answers elsewhere.

    Parameters
    ----------
    folder : Path
        New or empty folder for the reader.
    answers : Path
        File for the sealed answers, outside of the folder.
    seed : int
        Seed, 0 or above. Whoever knows it can draw the same set and so knows the
        answers.
    sets : int
        How many pieces of each of the twelve kinds, 1 to 20.
    progress : callable or None
        Called with a fraction and words.

    Returns
    -------
    WrittenPieces
        Where everything lies.
    """
    _check(folder, answers, seed, sets)
    report = progress or (lambda _fraction, _words: None)
    generator = np.random.default_rng(seed)
    kinds = [kind for kind in PIECE_KINDS.values() for _ in range(sets)]
    generator.shuffle(kinds)
    make_new_folder(folder)
    drawn = []
    for number, kind in enumerate(kinds, start=1):
        report((number - 1) / len(kinds), f"piece {number} of {len(kinds)}")
        name = f"piece-{number:0{len(str(len(kinds)))}d}"
        drawn.append(_write_piece(folder, name, kind, generator))
    sealed = SealedAnswers(
        made_by=f"Strandproof {__version__}", seed=seed, pieces=tuple(drawn)
    )
    _write_lists(folder, answers, sealed)
    report(1.0, "done")
    return WrittenPieces(
        folder, answers, sha256(sealed.as_bytes()).hexdigest(), len(drawn)
    )


def _check(folder: Path, answers: Path, seed: int, sets: int) -> None:
    if not 0 <= seed < _SEEDS:
        raise ParameterError("seed", seed, allowed="a whole number from 0 to 2^62 - 1")
    if not 1 <= sets <= MOST_SETS:
        raise ParameterError("sets", sets, allowed=f"1 to {MOST_SETS}")
    if answers.resolve().is_relative_to(folder.resolve()):
        raise ParameterError(
            "answers",
            str(answers),
            allowed=f"a place outside of {folder}",
            remedy="What the reader gets must not hold the answers.",
        )
    if answers.exists():
        raise OutputExistsError(
            str(answers),
            what="a file of that name is there already",
            remedy="Choose another name.",
        )
    require_new_folder(folder)


def _write_piece(
    folder: Path, name: str, kind: PieceKind, generator: np.random.Generator
) -> DrawnPiece:
    section = _drawn(kind, generator)
    # No parameters and no seed in the file: they are the answer.
    words = {SYNTHETIC_KEY: "yes", "Statement": _STATEMENT}
    picture = encode_png(
        mark_synthetic(section.picture).picture, text=words, pixel_size_um=UM_PER_PX
    )
    write_output_file(folder / f"{name}.png", picture)
    return DrawnPiece(
        piece=name,
        kind=kind.name,
        structure=kind.structure,
        twins=_shows(section.twin_boundary),
        scratches=_shows(section.scratch),
        slip_traces=_shows(section.slip_trace),
        boundary_crossings=section.measured.crossings,
        seed=section.seed,
        picture_sha256=sha256(picture).hexdigest(),
    )


def _drawn(kind: PieceKind, generator: np.random.Generator) -> SyntheticSection:
    """Draw until a piece of many crystals has a boundary in the picture."""
    while True:
        section = render_section(kind.parameters(), seed=generator)
        if kind.structure != "polycrystal" or section.measured.crossings > 0:
            return section


def _shows(mask: np.typing.NDArray[np.bool_]) -> bool:
    return int(np.count_nonzero(mask)) >= _SEEN_PX


def _write_lists(folder: Path, answers: Path, sealed: SealedAnswers) -> None:
    data = sealed.as_bytes()
    pieces = PieceList(
        statement=_STATEMENT,
        um_per_px=UM_PER_PX,
        answers_sha256=sha256(data).hexdigest(),
        pieces={each.piece: each.picture_sha256 for each in sealed.pieces},
    )
    write_output_file(folder / LIST_NAME, pieces.as_bytes())
    write_output_file(folder / SHEET_NAME, blank_answers(tuple(pieces.pieces)))
    write_output_file(folder / ADVICE_NAME, _ADVICE.encode())
    write_output_file(answers, data)
