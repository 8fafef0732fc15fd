"""Scores: which piece informs which error, exact limits, nothing at group levels."""

import pytest
from hypothesis import given
from hypothesis import strategies as st
from known_piece_examples import drawn_piece, read_as, said

from strandproof.app.workflow.known_pieces.answers import (
    VERDICTS,
    DrawnPiece,
    ReaderAnswer,
    Verdict,
)
from strandproof.app.workflow.known_pieces.scoring import (
    ReaderScore,
    is_wrong,
    score_reader,
)
from strandproof.errors import ParameterError

VERDICT = st.sampled_from(VERDICTS)
RIGHT: Verdict = "none_resolved"


def scored(pair: tuple[list[DrawnPiece], list[ReaderAnswer]]) -> ReaderScore:
    return score_reader(*pair, reader="A1")


def test_six_single_crystals_read_right_leave_the_bound_of_the_brief() -> None:
    """Product brief, Appendix A: none of 6 leaves 39.3 % (95 % bound)."""
    rate = scored(read_as("single_crystal", *[RIGHT] * 6)).false_boundary
    assert (rate.trials, rate.wrong, rate.level) == (6, 0, "item")
    assert rate.upper == pytest.approx(0.393, rel=0, abs=0.0005)
    assert rate.expected == pytest.approx(1 / 8, rel=1e-12, abs=0)


def test_one_wrong_of_six_has_the_limit_that_solves_its_equation() -> None:
    read = read_as("single_crystal", "boundaries", *[RIGHT] * 5)
    upper = scored(read).false_boundary.upper
    # Exact limit: at most one of six, with a chance of 5 in 100.
    chance = (1 - upper) ** 6 + 6 * upper * (1 - upper) ** 5
    assert chance == pytest.approx(0.05, rel=1e-9, abs=0)


def test_polycrystals_inform_missed_boundaries_only() -> None:
    score = scored(read_as("polycrystal", "none_resolved", "boundaries"))
    assert (score.missed_boundary.trials, score.missed_boundary.wrong) == (2, 1)
    assert (score.false_boundary.trials, score.false_boundary.upper) == (0, 1.0)


def test_readable_piece_called_not_readable_is_no_trial_but_told() -> None:
    score = scored(read_as("single_crystal", "not_readable", "none_resolved"))
    assert (score.false_boundary.trials, score.false_boundary.not_readable) == (1, 1)


def test_unreadable_pieces_inform_neither_error() -> None:
    score = scored(read_as("not_readable", "boundaries", "not_readable"))
    assert (score.unreadable, score.unreadable_read) == (2, 1)
    assert score.false_boundary.trials == score.missed_boundary.trials == 0


@given(st.lists(VERDICT, max_size=8), st.lists(VERDICT, max_size=8))
def test_counts_are_those_of_the_verdicts(
    single: list[Verdict], poly: list[Verdict]
) -> None:
    pieces = [
        *(drawn_piece(k) for k in range(len(single))),
        *(drawn_piece(50 + k, "polycrystal") for k in range(len(poly))),
    ]
    answers = [said(p, v) for p, v in zip(pieces, single + poly, strict=True)]
    score = score_reader(pieces, answers, reader="A1")
    assert score.false_boundary.wrong == single.count("boundaries")
    assert score.missed_boundary.wrong == poly.count("none_resolved")
    read = score.false_boundary.trials + score.missed_boundary.trials
    assert read == len(pieces) - (single + poly).count("not_readable")
    outcomes = [is_wrong(*pair) for pair in score.pieces]
    assert outcomes.count(None) == (single + poly).count("not_readable")
    assert outcomes.count(True) == single.count("boundaries") + poly.count(
        "none_resolved"
    )


def test_traits_are_counted_apart_and_unsure_counts_nothing() -> None:
    pieces = [
        drawn_piece(1, "polycrystal", twins=True),
        drawn_piece(2, "polycrystal", twins=True),
        drawn_piece(3, twins=False),
        drawn_piece(4, twins=False),
    ]
    told = ("yes", "no", "yes", "unsure")
    answers = [
        said(p, "boundaries", twins=t)  # type: ignore[arg-type]
        for p, t in zip(pieces, told, strict=True)
    ]
    twins = score_reader(pieces, answers, reader="A1").traits[0]
    assert twins.trait == "twins"
    assert (twins.present, twins.seen, twins.absent, twins.named) == (2, 1, 1, 1)
    assert twins.unsure == 1


def test_answers_on_other_pieces_are_refused() -> None:
    pieces, answers = read_as("polycrystal", "boundaries", "boundaries")
    with pytest.raises(ParameterError, match="in this order"):
        score_reader(pieces, answers[::-1], reader="A1")
