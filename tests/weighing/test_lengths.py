import numpy as np
import pytest

from strandproof.errors import ParameterError
from strandproof.weighing import event_chances, no_boundary_bound


def test_none_over_36_mm() -> None:
    # S6 of the brief; "none" there is "none resolved over this length" here.
    bound = no_boundary_bound(36, claimed_m=100, claimed_by="the tag")
    assert bound.sentence == (
        "No boundary resolved over 36 mm: at most 0.083 per mm; mean crystal at least "
        "12.0 mm (95 %). To speak of 1 m you need about 3 m seen; of the tag's 100 m, "
        "about 300 m."
    )


def test_without_a_claimed_length_only_one_is_spoken_of() -> None:
    bound = no_boundary_bound(36, speak_of_m=5)
    assert bound.sentence.endswith("To speak of 5 m you need about 15 m seen.")
    assert len(bound.needed_m) == 1


def test_the_length_needed_supports_the_length_spoken_of() -> None:
    bound = no_boundary_bound(36, claimed_m=100)
    for spoken_m, needed_m in bound.needed_m:
        again = no_boundary_bound(needed_m * 1000)
        assert again.spacing.lower is not None
        np.testing.assert_allclose(
            again.spacing.lower, spoken_m * 1000, rtol=1e-12, atol=0
        )


def test_it_never_says_that_there_is_none() -> None:
    sentence = no_boundary_bound(36).sentence
    assert "No boundary resolved over 36 mm" in sentence
    assert "no boundaries" not in sentence.lower()


def test_the_sentence_says_when_each_chance_applies() -> None:
    chances = event_chances(90, mean_spacing_m=100)
    assert chances.sentence == (
        "If events lie 100 m apart in the mean, the chance of at least one in 90 mm is "
        "9.0e-04; two boundaries close together are one event. The chance of two is "
        "4.05e-07, and applies only to events shown to be independent."
    )


@pytest.mark.parametrize("length", [0.0, -1.0, float("inf"), float("nan")])
def test_impossible_lengths_are_refused(length: float) -> None:
    with pytest.raises(ParameterError, match="above"):
        no_boundary_bound(length)
    with pytest.raises(ParameterError, match="above 0"):
        no_boundary_bound(36, claimed_m=length)
    with pytest.raises(ParameterError, match="above 0"):
        event_chances(length, mean_spacing_m=100)
    with pytest.raises(ParameterError, match="above 0"):
        event_chances(90, mean_spacing_m=length)
