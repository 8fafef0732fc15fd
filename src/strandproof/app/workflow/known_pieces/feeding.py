"""A reader's own error rate as one share of a likelihood, beside the other blunders."""

from collections.abc import Mapping

from strandproof.app.workflow.known_pieces.scoring import (
    ERROR_OF_STRUCTURE,
    ReaderScore,
)
from strandproof.errors import ParameterError
from strandproof.quantity import binomial_lower_limit
from strandproof.records.entries import Likelihood
from strandproof.weighing import (
    ErrorRate,
    blunder_likelihood,
    usual_hypotheses,
)
from strandproof.weighing.error_rates import ReadingError
from strandproof.weighing.wording import listed


def likelihood_with_reading_rate(
    score: ReaderScore,
    hypothesis: str,
    *,
    other_blunders_of_100: Mapping[str, float],
) -> Likelihood:
    """Give the chance of a false result under a hypothesis, with the reader's own rate.

    The rate fills the share of false reading and nothing else; mix-up and batch fault
    are entered by whoever weighs, from other knowledge.

    Parameters
    ----------
    score : ReaderScore
        Of one reader.
    hypothesis : str
        A usual hypothesis under which the result takes a blunder, for example "X1".
    other_blunders_of_100 : Mapping from str to float
        Every other way to err, and how often in 100 pieces.

    Returns
    -------
    Likelihood
        Best estimate with the expected rate; the range runs over the exact limits of
        the reading rate, with the other shares as they are. Its status stays
        judgement, since a drawn picture is no specimen.

    Raises
    ------
    ParameterError
        If no reading error is informed under that hypothesis, there is no trial, or
        the sum exceeds 100 of 100.
    """
    rate = score.rate(_error_under(hypothesis))
    if rate.trials == 0:
        raise ParameterError(
            "pieces read", 0, allowed="one piece or more that informs this error"
        )
    shares = {"false reading": round(100 * rate.expected, 3), **other_blunders_of_100}
    if "false reading" in other_blunders_of_100 or sum(shares.values()) > 100:
        raise ParameterError(
            "other_blunders_of_100",
            dict(other_blunders_of_100),
            allowed="blunders other than 'false reading', all together at most "
            f"{100 - shares['false reading']:.3g} of 100",
        )
    others = sum(other_blunders_of_100.values())
    lower = 100 * _lower_limit(rate) + others
    upper = min(100 * rate.upper + others, 100.0)
    likelihood = blunder_likelihood(
        hypothesis, shares, lower_of_100=lower, upper_of_100=upper
    )
    source = (
        f"{likelihood.source}; false reading: {score.reader}, {rate.wrong} of "
        f"{rate.trials} synthetic known pieces read wrongly, expected value with the "
        f"{rate.prior.name} prior, open training"
    )
    return likelihood.model_copy(update={"source": source})


def _error_under(hypothesis: str) -> ReadingError:
    informed = {label: each.structure for label, each in usual_hypotheses().items()}
    structure = informed.get(hypothesis)
    if structure is None:
        fitting = [label for label, each in informed.items() if each is not None]
        raise ParameterError(
            "hypothesis",
            hypothesis,
            allowed=f"{listed(fitting, joined_by='or')}: known pieces inform a reading "
            "error under no other",
        )
    return ERROR_OF_STRUCTURE[structure]


def _lower_limit(rate: ErrorRate) -> float:
    limit = binomial_lower_limit(rate.wrong, rate.trials, confidence=rate.confidence)
    # For 1 of 1 the limit is 0.05 and the expected value 0.67: always below it, but
    # with many trials both round alike, and a range must hold its best estimate.
    return min(limit.lower or 0.0, rate.expected)
