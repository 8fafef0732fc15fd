import pytest

from strandproof.errors import ParameterError
from strandproof.weighing import (
    blunder_likelihood,
    hundred_question,
    likelihood_in_words,
    likelihood_of_hundred,
)
from strandproof.weighing.likelihoods import weaker_status


def test_the_question_asks_for_the_observation_and_not_for_the_hypothesis() -> None:
    question = hundred_question("It is one crystal.", "Boundaries were seen.")
    given, asked = question.index("one crystal"), question.index("Boundaries were seen")
    assert given < asked
    assert question.endswith('how many would look like this: "Boundaries were seen."?')


def test_of_100_becomes_a_probability_with_its_range() -> None:
    entry = likelihood_of_hundred(
        "X4", 95, lower_of_100=90, upper_of_100=99, status="literature", source="s"
    )
    assert (entry.lower, entry.best, entry.upper) == (0.90, 0.95, 0.99)
    assert likelihood_in_words(entry) == (
        "If X4 is true: 95 of 100, range 90 of 100 to 99 of 100 (literature: s)."
    )


@pytest.mark.parametrize(
    ("best", "lower", "upper"), [(95, 96, 99), (95, 90, 94), (101, 90, 101), (5, -1, 9)]
)
def test_a_best_estimate_outside_of_its_range_is_refused(
    best: float, lower: float, upper: float
) -> None:
    with pytest.raises(ParameterError, match="lower <= best <= upper"):
        likelihood_of_hundred(
            "X4",
            best,
            lower_of_100=lower,
            upper_of_100=upper,
            status="judgement",
            source="s",
        )


def test_blunders_add_up_and_are_listed() -> None:
    # M21: 0.3 + 0.1 + 0.1 of 100, range 0 to 12.
    entry = blunder_likelihood(
        "X1",
        {"false reading": 0.3, "mix-up": 0.1, "batch fault": 0.1},
        lower_of_100=0,
        upper_of_100=12,
    )
    assert (entry.lower, entry.best, entry.upper) == (0.0, 0.005, 0.12)
    assert entry.status == "judgement"
    assert "mix-up 0.1" in entry.source


@pytest.mark.parametrize("shares", [{}, {"mix-up": -0.1}])
def test_no_blunder_or_a_negative_one_is_refused(shares: dict[str, float]) -> None:
    with pytest.raises(ParameterError, match="one blunder or more"):
        blunder_likelihood("X1", shares, lower_of_100=0, upper_of_100=12)


def test_a_ratio_rests_on_its_weaker_side() -> None:
    assert weaker_status("data", "literature") == "literature"
    assert weaker_status("judgement", "data", "literature") == "judgement"
    assert weaker_status("data") == "data"
