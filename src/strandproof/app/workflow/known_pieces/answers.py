"""What was drawn, sealed; and what a reader said of it: never in one file."""

import csv
import json
from collections.abc import Mapping, Sequence
from hashlib import sha256
from io import StringIO
from typing import Annotated, Any, Literal, get_args

from pydantic import Field, ValidationError

from strandproof.app.workflow.known_pieces.kinds import Structure
from strandproof.errors import ParameterError
from strandproof.records.entries.bodies import FrozenModel, Sha256, Text

Verdict = Literal["boundaries", "none_resolved", "not_readable"]
Seen = Literal["yes", "no", "unsure"]
Trait = Literal["twins", "scratches", "slip_traces"]

VERDICTS: tuple[Verdict, ...] = get_args(Verdict)
TRAITS: tuple[Trait, ...] = get_args(Trait)
_SEEN: tuple[Seen, ...] = get_args(Seen)
_COLUMNS = ("piece", "verdict", *TRAITS)
_ALLOWED = "a file of the format 'strandproof known pieces 1'"
_REMEDY = "Take the file that the command known-pieces wrote."


class DrawnPiece(FrozenModel):
    """What a known piece is, as it stands in the sealed answers."""

    piece: Text
    """Name of the piece as readers see it."""
    kind: Text
    """What it is, in words."""
    structure: Structure
    """Which reading error it can show."""
    twins: bool
    """True where twins were drawn."""
    scratches: bool
    """True where scratches were drawn."""
    slip_traces: bool
    """True where slip traces were drawn."""
    boundary_crossings: Annotated[int, Field(ge=0)]
    """Crossings of all rows and columns of pixels with grain boundaries."""
    seed: Annotated[int, Field(ge=0)]
    """Seed that it was drawn with."""
    picture_sha256: Sha256
    """The picture."""


class SealedAnswers(FrozenModel):
    """The whole list of answers, kept apart from the pictures."""

    format: Literal["strandproof known pieces 1"] = "strandproof known pieces 1"
    """Kind and version of the file."""
    made_by: Text
    """Program and version."""
    seed: Annotated[int, Field(ge=0)]
    """Seed of the set: with the same program it draws the same pictures."""
    pieces: Annotated[tuple[DrawnPiece, ...], Field(min_length=1)]
    """The pieces, in the order that readers see."""

    def as_bytes(self) -> bytes:
        """Give the file as it is sealed.

        Returns
        -------
        bytes
            JSON, indented.
        """
        text = json.dumps(self.model_dump(mode="json"), indent=2, ensure_ascii=False)
        return f"{text}\n".encode()


class PieceList(FrozenModel):
    """What a reader may know: the pieces, and the hash of the sealed answers."""

    format: Literal["strandproof known pieces 1"] = "strandproof known pieces 1"
    """Kind and version of the file."""
    statement: Text
    """What the pictures are."""
    um_per_px: Annotated[float, Field(gt=0)]
    """Pixel size [um]."""
    answers_sha256: Sha256
    """SHA-256 of the sealed answers."""
    pieces: Annotated[dict[str, Sha256], Field(min_length=1)]
    """Pieces, and the SHA-256 of the picture of each."""

    def as_bytes(self) -> bytes:
        """Give the file that lies beside the pictures.

        Returns
        -------
        bytes
            JSON, indented.
        """
        text = json.dumps(self.model_dump(mode="json"), indent=2, ensure_ascii=False)
        return f"{text}\n".encode()


class ReaderAnswer(FrozenModel):
    """What a reader said of one piece."""

    piece: Text
    """Name of the piece."""
    verdict: Verdict
    """What was seen of grain boundaries."""
    twins: Seen = "unsure"
    """Whether twins were seen."""
    scratches: Seen = "unsure"
    """Whether scratches were seen."""
    slip_traces: Seen = "unsure"
    """Whether slip traces were seen."""


def blank_answers(pieces: Sequence[str]) -> bytes:
    """Give the sheet that a reader fills in.

    Parameters
    ----------
    pieces : sequence of str
        Names of the pieces.

    Returns
    -------
    bytes
        CSV with a heading and a row for each piece.
    """
    sheet = StringIO(newline="")
    writer = csv.writer(sheet, lineterminator="\n")
    writer.writerow(_COLUMNS)
    writer.writerows((piece, *[""] * (len(_COLUMNS) - 1)) for piece in pieces)
    return sheet.getvalue().encode()


def answers_from_csv(text: str, *, pieces: Sequence[str]) -> tuple[ReaderAnswer, ...]:
    """Read a filled sheet; a set is scored whole or not at all.

    Parameters
    ----------
    text : str
        CSV with the columns piece, verdict, twins, scratches, slip_traces. An empty
        trait counts as "unsure".
    pieces : sequence of str
        Pieces of the set.

    Returns
    -------
    tuple of ReaderAnswer
        In the order of `pieces`.

    Raises
    ------
    ParameterError
        If a column is missing, a word is not allowed, a piece is unknown or named
        twice, or a piece has no verdict.
    """
    rows = csv.DictReader(text.removeprefix("\ufeff").splitlines())
    missing = [name for name in _COLUMNS if name not in (rows.fieldnames or ())]
    if missing:
        raise ParameterError(
            "columns of the answers",
            tuple(rows.fieldnames or ()),
            allowed=", ".join(_COLUMNS),
            remedy="Fill in the sheet that lies beside the pictures.",
        )
    told: dict[str, ReaderAnswer] = {}
    for row in rows:
        answer = _answer(row, rows.line_num)
        if answer is None:
            continue
        if answer.piece not in pieces or answer.piece in told:
            name = f"piece in line {rows.line_num}"
            raise ParameterError(
                name,
                answer.piece,
                allowed=f"each piece of the set once: {', '.join(pieces)}",
            )
        told[answer.piece] = answer
    return _complete(told, pieces)


def _answer(row: Mapping[str, Any], line: int) -> ReaderAnswer | None:
    words = {name: (row[name] or "").strip() for name in _COLUMNS}
    if not words["verdict"]:
        return None
    _require_word(f"verdict in line {line}", words["verdict"], VERDICTS)
    for trait in TRAITS:
        words[trait] = words[trait] or "unsure"
        _require_word(f"{trait} in line {line}", words[trait], _SEEN)
    return ReaderAnswer.model_validate(words)


def _require_word(name: str, given: str, allowed: Sequence[str]) -> None:
    if given not in allowed:
        raise ParameterError(name, given, allowed="one of " + ", ".join(allowed))


def _complete(
    told: Mapping[str, ReaderAnswer], pieces: Sequence[str]
) -> tuple[ReaderAnswer, ...]:
    waiting = [piece for piece in pieces if piece not in told]
    if waiting:
        raise ParameterError(
            "pieces without a verdict",
            tuple(waiting),
            allowed=f"a verdict on each of the {len(pieces)} pieces",
            remedy="The sealed answers stay closed until then. A piece that cannot "
            "be read gets the verdict not_readable.",
        )
    return tuple(told[piece] for piece in pieces)


def piece_list_from_bytes(data: bytes) -> PieceList:
    """Read the list beside the pictures.

    Parameters
    ----------
    data : bytes
        The file.

    Returns
    -------
    PieceList
        Pieces and hash of the answers.

    Raises
    ------
    ParameterError
        If it is no such file.
    """
    try:
        return PieceList.model_validate_json(data)
    except ValidationError as error:
        raise ParameterError(
            "list of pieces", _beginning(data), allowed=_ALLOWED, remedy=_REMEDY
        ) from error


def opened_answers(data: bytes, *, expected: PieceList) -> SealedAnswers:
    """Open the sealed answers, if they are the ones that were sealed.

    Parameters
    ----------
    data : bytes
        The sealed file.
    expected : PieceList
        The list beside the pictures, which holds the hash.

    Returns
    -------
    SealedAnswers
        What was drawn.

    Raises
    ------
    ParameterError
        If the file was changed, belongs to another set, or is no such file.
    """
    found = sha256(data).hexdigest()
    if found != expected.answers_sha256:
        raise ParameterError(
            "SHA-256 of the sealed answers",
            found,
            allowed=f"{expected.answers_sha256}, as it stands beside the pictures",
            remedy="Take the file that was written with this set, unchanged.",
        )
    try:
        return SealedAnswers.model_validate_json(data)
    except ValidationError as error:  # the hash of something else was written
        raise ParameterError(
            "sealed answers", _beginning(data), allowed=_ALLOWED, remedy=_REMEDY
        ) from error


def _beginning(data: bytes) -> str:
    return data[:40].decode("utf-8", errors="replace")
