"""Scores in words: what was not read or not answered is said as such."""

from known_piece_examples import drawn_piece, read_as, said

from strandproof.app.workflow.known_pieces.scoring import score_reader
from strandproof.app.workflow.known_pieces.telling import (
    known_pieces_data,
    known_pieces_in_words,
    score_sentences,
)


def test_error_without_a_piece_is_not_given_a_rate() -> None:
    pieces, answers = read_as("single_crystal", "none_resolved")
    words = score_sentences(score_reader(pieces, answers, reader="A1"))
    told = "Missed boundaries: no piece of many crystals was read, so nothing is known."
    assert told in words


def test_unanswered_trait_is_said_and_a_partly_answered_one_counted() -> None:
    pieces = [drawn_piece(1, twins=True), drawn_piece(2)]
    answers = [
        said(pieces[0], "none_resolved", twins="yes", scratches="unsure"),
        said(pieces[1], "none_resolved", twins="unsure", scratches="unsure"),
    ]
    words = score_sentences(score_reader(pieces, answers, reader="A1"))
    assert "Scratches: not answered." in words
    assert any(each.endswith("that have none; 1 unsure.") for each in words)


def test_piece_called_not_readable_is_told_as_not_counted() -> None:
    pieces, answers = read_as("single_crystal", "not_readable", "none_resolved")
    score = score_reader(pieces, answers, reader="A1")
    assert known_pieces_in_words(score)[-1].endswith("said not readable: not counted.")
    assert "(1 more called not readable, not counted)" in " ".join(
        score_sentences(score)
    )
    assert known_pieces_data(score)["pieces"][0]["wrong"] is None
