"""The rate in a likelihood: one share beside the others, at the reading level only."""

import pytest
from hypothesis import given
from hypothesis import strategies as st
from known_piece_examples import drawn_piece, read_as, said

from strandproof.app.workflow.known_pieces.answers import Verdict
from strandproof.app.workflow.known_pieces.feeding import likelihood_with_reading_rate
from strandproof.app.workflow.known_pieces.scoring import ReaderScore, score_reader
from strandproof.errors import ParameterError

OTHERS = {"mix-up": 0.1, "batch fault": 0.1}


def six_right() -> ReaderScore:
    right: Verdict = "none_resolved"
    return score_reader(*read_as("single_crystal", *[right] * 6), reader="A1")


def test_expected_rate_is_the_share_of_false_reading() -> None:
    """(0 + 1)/(6 + 2) = 12.5 of 100 expected; 39.3 of 100 at the bound."""
    likelihood = likelihood_with_reading_rate(
        six_right(), "X1", other_blunders_of_100=OTHERS
    )
    assert likelihood.best == pytest.approx(0.127, rel=1e-9, abs=0)
    assert likelihood.lower == pytest.approx(0.002, rel=1e-9, abs=0)
    assert likelihood.upper == pytest.approx(0.3930 + 0.002, rel=0, abs=0.0001)
    assert likelihood.status == "judgement"
    assert "false reading 12.5, mix-up 0.1, batch fault 0.1" in likelihood.source
    assert "A1, 0 of 6 synthetic known pieces read wrongly" in likelihood.source
    assert "open training" in likelihood.source


def test_other_blunders_are_taken_as_they_are() -> None:
    """What a reader does on drawings moves no mix-up."""
    few = likelihood_with_reading_rate(six_right(), "X1", other_blunders_of_100=OTHERS)
    many = likelihood_with_reading_rate(
        six_right(), "X1", other_blunders_of_100={**OTHERS, "mix-up": 5.1}
    )
    for name in ("best", "lower", "upper"):
        rise = getattr(many, name) - getattr(few, name)
        assert rise == pytest.approx(0.05, rel=1e-9, abs=0)


@pytest.mark.parametrize("hypothesis", ["X3", "X4", "X5"])
def test_polycrystals_inform_the_missed_boundary(hypothesis: str) -> None:
    score = score_reader(*read_as("polycrystal", "boundaries"), reader="A1")
    likelihood = likelihood_with_reading_rate(
        score, hypothesis, other_blunders_of_100={}
    )
    assert likelihood.best == pytest.approx(1 / 3, rel=0, abs=1e-5)


@pytest.mark.parametrize("hypothesis", ["X2", "X6", "X7", "X8", "genuine"])
def test_hypothesis_that_no_piece_informs_is_refused(hypothesis: str) -> None:
    with pytest.raises(ParameterError, match="X1, X3, X4 or X5"):
        likelihood_with_reading_rate(
            six_right(), hypothesis, other_blunders_of_100=OTHERS
        )


def test_without_a_trial_there_is_no_rate() -> None:
    with pytest.raises(ParameterError, match="one piece or more"):
        likelihood_with_reading_rate(six_right(), "X4", other_blunders_of_100=OTHERS)


@pytest.mark.parametrize(
    "others", [{"false reading": 1.0}, {"mix-up": 90.0}, {"mix-up": -1.0}]
)
def test_blunders_that_do_not_fit_are_refused(others: dict[str, float]) -> None:
    with pytest.raises(ParameterError, match="blunders_of_100"):
        likelihood_with_reading_rate(six_right(), "X1", other_blunders_of_100=others)


@given(st.integers(1, 60), st.data())
def test_any_count_gives_a_range_that_holds_its_estimate(
    trials: int, data: st.DataObject
) -> None:
    wrong = data.draw(st.integers(0, trials))
    pieces = [drawn_piece(k) for k in range(trials)]
    answers = [
        said(piece, "boundaries" if k < wrong else "none_resolved")
        for k, piece in enumerate(pieces)
    ]
    score = score_reader(pieces, answers, reader="A1")
    found = likelihood_with_reading_rate(score, "X1", other_blunders_of_100={})
    assert 0 <= found.lower <= found.best <= found.upper <= 1
