import inspect

import pytest

import strandproof.weighing
from strandproof.errors import ParameterError
from strandproof.records.entries import Weighing, WeighingPair
from strandproof.weighing import posterior_odds


def test_odds_multiply_and_are_the_readers_own() -> None:
    odds = posterior_odds(190, 0.5, reader="V")
    assert odds.posterior_odds == 95.0
    assert odds.label.startswith("V's own: odds of 0.50 before")
    assert odds.label.endswith("the prior is V's, not a finding")


def test_there_is_no_prior_unless_one_is_typed() -> None:
    parameters = inspect.signature(posterior_odds).parameters
    assert parameters["prior_odds"].default is inspect.Parameter.empty
    assert parameters["reader"].default is inspect.Parameter.empty


def test_no_record_of_a_case_and_no_other_function_has_a_posterior() -> None:
    fields = {*Weighing.model_fields, *WeighingPair.model_fields}
    assert not any("posterior" in name or "prior" in name for name in fields)
    named = [name for name in strandproof.weighing.__all__ if "posterior" in name]
    assert named == ["posterior_odds"]


@pytest.mark.parametrize("prior", [0.0, -1.0, float("inf"), float("nan")])
def test_impossible_prior_odds_are_refused(prior: float) -> None:
    with pytest.raises(ParameterError, match="prior_odds was given as"):
        posterior_odds(190, prior, reader="V")


def test_an_impossible_ratio_is_refused() -> None:
    with pytest.raises(ParameterError, match="ratio was given as 0"):
        posterior_odds(0, 1, reader="V")


def test_a_prior_of_nobody_is_refused() -> None:
    with pytest.raises(ParameterError, match="whose prior"):
        posterior_odds(190, 1, reader=" ")
