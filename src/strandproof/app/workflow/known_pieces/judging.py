"""The use case that scores a filled sheet; the seal stays closed until it is whole."""

import json
from pathlib import Path

from strandproof.app.workflow.entering import read_original
from strandproof.app.workflow.known_pieces.answers import (
    answers_from_csv,
    opened_answers,
    piece_list_from_bytes,
)
from strandproof.app.workflow.known_pieces.drawing import LIST_NAME, SHEET_NAME
from strandproof.app.workflow.known_pieces.scoring import ReaderScore, score_reader
from strandproof.app.workflow.known_pieces.telling import known_pieces_data
from strandproof.errors import ParameterError
from strandproof.records.entries import Likelihood
from strandproof.storage import write_output_file


def score_known_pieces(
    folder: Path, *, answers: Path, reader: str, sheet: Path | None = None
) -> ReaderScore:
    """Score a filled sheet; the answers are opened only when every piece has a verdict.

    Parameters
    ----------
    folder : Path
        Folder of the set.
    answers : Path
        The sealed answers.
    reader : str
        Who read.
    sheet : Path or None
        The filled sheet; None takes the one in the folder.

    Returns
    -------
    ReaderScore
        Error rates of reading, and counts for training.

    Raises
    ------
    ParameterError
        If the sheet is no text in UTF-8.
    """
    pieces = piece_list_from_bytes(read_original(folder / LIST_NAME).content)
    path = sheet or folder / SHEET_NAME
    try:
        text = read_original(path).content.decode("utf-8")
    except UnicodeDecodeError as error:
        raise ParameterError(
            "sheet", path.name, allowed="text in UTF-8", remedy="Save it as CSV, UTF-8."
        ) from error
    told = answers_from_csv(text, pieces=tuple(pieces.pieces))
    opened = opened_answers(read_original(answers).content, expected=pieces)
    return score_reader(opened.pieces, told, reader=reader)


def write_known_pieces_score(
    score: ReaderScore, target: Path, likelihood: Likelihood | None = None
) -> None:
    """Write a score as JSON.

    Parameters
    ----------
    score : ReaderScore
        Of one reader.
    target : Path
        The file; an earlier one is never replaced.
    likelihood : Likelihood or None
        As for `known_pieces_data`.
    """
    data = known_pieces_data(score, likelihood)
    text = json.dumps(data, indent=2, ensure_ascii=False, allow_nan=False)
    write_output_file(target, f"{text}\n".encode())
