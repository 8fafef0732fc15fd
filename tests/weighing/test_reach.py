import pytest

from strandproof.errors import ParameterError
from strandproof.weighing import reach_statement


def test_none_of_three() -> None:
    # M20 of the brief, word for word.
    assert reach_statement(3, 0).sentence == (
        "In these three, none matched. Drawn at random from all made, up to 63 % could "
        "still match (95 % bound). For 'fewer than 1 in 4' you need 11 with none "
        "matching."
    )


def test_one_tested_is_said_in_the_singular() -> None:
    assert reach_statement(1, 0).sentence.startswith("The one tested did not match.")
    assert reach_statement(1, 1).sentence.startswith("The one tested matched.")


def test_all_matching_bounds_from_below() -> None:
    reach = reach_statement(3, 3)
    assert reach.limits.upper is None
    assert "as few as 37 % might match (95 % bound)" in reach.sentence
    assert "'more than 3 in 4' you need 11 with all matching" in reach.sentence


def test_a_mixed_count_gets_an_interval_and_no_number_needed() -> None:
    reach = reach_statement(5, 1)
    assert reach.needed is None
    assert reach.sentence == (
        "In these five, one matched. Drawn at random from all made, between 0.51 % "
        "and 72 % could match (95 % interval)."
    )


def test_the_assumption_travels_with_it() -> None:
    assert "bought units never are" in reach_statement(3, 0).assumption


def test_the_number_needed_meets_the_statement_and_one_fewer_does_not() -> None:
    for one_in in (2, 3, 4, 10, 20):
        needed = reach_statement(3, 0, one_in=one_in).needed
        assert needed is not None
        upper = [reach_statement(n, 0).limits.upper for n in (needed, needed - 1)]
        assert upper[0] is not None
        assert upper[1] is not None
        assert upper[0] < 1 / one_in < upper[1]


def test_a_large_sample_is_not_rounded_to_nothing() -> None:
    assert "up to 0.3 % could" in reach_statement(1000, 0).sentence
    assert "as few as 99.7 % might" in reach_statement(1000, 1000).sentence


@pytest.mark.parametrize(("tested", "matching"), [(0, 0), (3, 4), (3, -1)])
def test_impossible_counts_are_refused(tested: int, matching: int) -> None:
    with pytest.raises(ParameterError, match="was given as"):
        reach_statement(tested, matching)


def test_a_share_of_one_in_one_is_refused() -> None:
    with pytest.raises(ParameterError, match="one_in was given as 1"):
        reach_statement(3, 0, one_in=1)
