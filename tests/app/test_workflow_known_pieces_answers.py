"""Sheets and seals: whole or refused, with the line that is wrong."""

import json
from hashlib import sha256

import pytest
from hypothesis import given
from hypothesis import strategies as st
from known_piece_examples import drawn_piece

from strandproof.app.workflow.known_pieces.answers import (
    TRAITS,
    VERDICTS,
    PieceList,
    SealedAnswers,
    answers_from_csv,
    blank_answers,
    opened_answers,
    piece_list_from_bytes,
)
from strandproof.errors import ParameterError

PIECES = ("piece-01", "piece-02")
HEAD = "piece,verdict,twins,scratches,slip_traces\n"
SEALED = SealedAnswers(made_by="test", seed=3, pieces=(drawn_piece(1), drawn_piece(2)))
LISTED = PieceList(
    statement="synthetic",
    um_per_px=0.2,
    answers_sha256=sha256(SEALED.as_bytes()).hexdigest(),
    pieces={piece.piece: piece.picture_sha256 for piece in SEALED.pieces},
)


@given(
    st.lists(
        st.tuples(
            st.sampled_from(VERDICTS), *[st.sampled_from(("yes", "no", "unsure"))] * 3
        ),
        min_size=2,
        max_size=2,
    ),
    st.sampled_from((1, -1)),
)
def test_filled_sheet_is_read_in_the_order_of_the_set(
    rows: list[tuple[str, str, str, str]], step: int
) -> None:
    lines = [",".join((p, *row)) for p, row in zip(PIECES, rows, strict=True)]
    text = HEAD + "\n".join(lines[::step])
    told = answers_from_csv(text, pieces=PIECES)
    assert [each.piece for each in told] == list(PIECES)
    assert [(a.verdict, *(getattr(a, t) for t in TRAITS)) for a in told] == rows


def test_blank_sheet_has_a_row_for_every_piece_and_is_refused() -> None:
    text = blank_answers(PIECES).decode()
    assert text.splitlines() == [HEAD.strip(), "piece-01,,,,", "piece-02,,,,"]
    with pytest.raises(ParameterError, match="stay closed until then"):
        answers_from_csv(text, pieces=PIECES)


def test_empty_traits_are_unsure_and_a_byte_order_mark_is_no_column() -> None:
    text = f"\ufeff{HEAD}piece-01,boundaries,,,\npiece-02, not_readable ,yes,,no\n"
    first, second = answers_from_csv(text, pieces=PIECES)
    assert (first.twins, first.scratches, first.slip_traces) == ("unsure",) * 3
    assert (second.verdict, second.twins) == ("not_readable", "yes")


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("piece;verdict\npiece-01;boundaries\n", "columns of the answers"),
        ("", "columns of the answers"),
        (HEAD + "piece-01,grains,,,\n", "verdict in line 2"),
        (HEAD + "piece-01,boundaries,maybe,,\n", "twins in line 2"),
        (HEAD + "piece-01,boundaries,,,\npiece-01,boundaries,,,\n", "line 3"),
        (HEAD + "piece-09,boundaries,,,\n", "each piece of the set once"),
        (HEAD + "piece-01,boundaries,,,\n", "pieces without a verdict"),
        (HEAD + "piece-01\n", "pieces without a verdict"),
    ],
)
def test_sheet_that_does_not_fit_says_where(text: str, words: str) -> None:
    with pytest.raises(ParameterError, match=words):
        answers_from_csv(text, pieces=PIECES)


def test_seal_opens_only_for_the_bytes_that_were_sealed() -> None:
    data = SEALED.as_bytes()
    assert opened_answers(data, expected=LISTED) == SEALED
    changed = data.replace(b"single_crystal", b"polycrystal", 1)
    with pytest.raises(ParameterError, match="SHA-256 of the sealed answers"):
        opened_answers(changed, expected=LISTED)


def test_list_comes_back_as_written() -> None:
    assert piece_list_from_bytes(LISTED.as_bytes()) == LISTED


@pytest.mark.parametrize("data", [b"", b"\xff\xfe", b'{"format": "other"}'])
def test_other_files_are_refused(data: bytes) -> None:
    with pytest.raises(ParameterError, match="list of pieces"):
        piece_list_from_bytes(data)
    sealed = LISTED.model_copy(update={"answers_sha256": sha256(data).hexdigest()})
    with pytest.raises(ParameterError, match="sealed answers"):
        opened_answers(data, expected=sealed)


def test_list_for_the_reader_tells_no_answer() -> None:
    told = json.loads(LISTED.as_bytes())
    assert set(told) == {
        *("format", "statement", "um_per_px", "answers_sha256", "pieces")
    }
