"""The result word for a claim, by the best-estimate ratio against its best rival."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from strandproof.errors import LikelihoodMismatchError
from strandproof.records.entries import Hypothesis, Likelihood
from strandproof.weighing.hypotheses import one_sided, weighed_hypotheses
from strandproof.weighing.ratios import LikelihoodRatio, likelihood_ratio
from strandproof.weighing.rules import WeighingRules, weighing_rules
from strandproof.weighing.wording import listed, of_hundred, ratio_digits

ResultWord = Literal["supported", "contradicted", "undetermined"]


@dataclass(frozen=True, slots=True, kw_only=True)
class ClaimResult:
    """The word for a claim, and what it hangs on.

    Parameters
    ----------
    claim : str
        Name of the claim.
    word : {"supported", "contradicted", "undetermined"}
        Holds for the exhibits examined only.
    ratio : LikelihoodRatio or None
        Favoured hypothesis against the other; None where one side is missing.
    turning_point : float or None
        Highest probability under the hypothesis that is not favoured at which
        the word would be the decided one.
    sentence : str
        The word with its reason.
    """

    claim: str
    word: ResultWord
    ratio: LikelihoodRatio | None
    turning_point: float | None
    sentence: str


def claim_result(
    claim: str,
    *,
    hypotheses: Sequence[Hypothesis],
    likelihoods: Sequence[Likelihood],
    rules: WeighingRules | None = None,
) -> ClaimResult:
    """Give the result word for a claim.

    Compares the best of the hypotheses that speak for the claim with the best of
    the others; the second is the best rival. Speaks of the list that was weighed:
    a rival left off it can change the word.

    Parameters
    ----------
    claim : str
        Name of the claim.
    hypotheses : sequence of Hypothesis
        With the claims each speaks for.
    likelihoods : sequence of Likelihood
        One for each hypothesis weighed; of one observation, or joint ones.
    rules : WeighingRules, optional
        None takes those of the package.

    Returns
    -------
    ClaimResult
        Word, ratio, turning point, sentence.

    Raises
    ------
    TooFewHypothesesError
        If fewer than two hypotheses are weighed.
    ParameterError
        If two hypotheses have the same name.
    LikelihoodMismatchError
        If the likelihoods do not answer one to one to the hypotheses.

    Notes
    -----
    max over the claim's hypotheses / max over the rivals, on best estimates: at
    least 100 supported, at most 1/100 contradicted, else undetermined. Several
    hypotheses on one side would need priors to be averaged; the largest needs
    none. It is cautious where it contradicts, and generous where it supports
    with several versions of the claim.
    """
    applied = weighing_rules() if rules is None else rules
    weighed = weighed_hypotheses(hypotheses)
    of_each = likelihood_by_hypothesis(weighed, likelihoods)
    missing = one_sided(weighed, claim)
    if missing:
        return _undetermined(claim, missing)
    for_claim = _best(of_each, [h.id for h in weighed if claim in h.speaks_for])
    rival = _best(of_each, [h.id for h in weighed if claim not in h.speaks_for])
    first, second = sorted((for_claim, rival), key=lambda each: each.best, reverse=True)
    ratio = likelihood_ratio(first, second, rules=applied)
    decided: ResultWord = "supported" if first is for_claim else "contradicted"
    if ratio.best is None:
        return _undetermined(claim, f"{ratio.words}.", ratio)
    reached = ratio.best >= applied.minimum_ratio
    turning = first.best / applied.minimum_ratio
    word: ResultWord = decided if reached else "undetermined"
    return ClaimResult(
        claim=claim,
        word=word,
        ratio=ratio,
        turning_point=turning,
        sentence=_sentence(word, ratio, turning, _Sides(applied, of_each)),
    )


def likelihood_by_hypothesis(
    hypotheses: Sequence[Hypothesis], likelihoods: Sequence[Likelihood]
) -> dict[str, Likelihood]:
    """Likelihoods by hypothesis, one for each.

    Parameters
    ----------
    hypotheses : sequence of Hypothesis
        Those weighed.
    likelihoods : sequence of Likelihood
        As entered.

    Returns
    -------
    dict from str to Likelihood
        In the order of the hypotheses.

    Raises
    ------
    LikelihoodMismatchError
        If one is missing, double, or for a hypothesis that is not weighed.
    """
    names = tuple(each.id for each in hypotheses)
    given = [each.hypothesis for each in likelihoods]
    for name in given:
        if name not in names:
            raise LikelihoodMismatchError(name, "is not weighed", names)
    for name in names:
        if given.count(name) != 1:
            problem = f"has {given.count(name)} likelihoods"
            raise LikelihoodMismatchError(name, problem, names)
    by_name = {each.hypothesis: each for each in likelihoods}
    return {name: by_name[name] for name in names}


def _best(of_each: dict[str, Likelihood], names: Sequence[str]) -> Likelihood:
    return max((of_each[name] for name in names), key=lambda each: each.best)


def _undetermined(
    claim: str, reason: str, ratio: LikelihoodRatio | None = None
) -> ClaimResult:
    return ClaimResult(
        claim=claim,
        word="undetermined",
        ratio=ratio,
        turning_point=None,
        sentence=f"Undetermined: {reason}",
    )


@dataclass(frozen=True, slots=True)
class _Sides:
    rules: WeighingRules
    of_each: dict[str, Likelihood]

    def names(self, hypothesis: str, other: str) -> str:
        """Name a hypothesis with those that predict as well and share its ratio."""
        best = self.of_each[hypothesis].best
        equal = [name for name, each in self.of_each.items() if each.best == best]
        return listed([name for name in equal if name != other], joined_by="or")


def _sentence(
    word: ResultWord, ratio: LikelihoodRatio, turning: float, sides: _Sides
) -> str:
    first = sides.names(ratio.first, ratio.second)
    second = sides.names(ratio.second, ratio.first)
    said = (
        f"what was seen is about {ratio_digits(ratio.best or 0)} times as probable if "
        f"{first} is true as if {second} is true (best estimate, {ratio.status})"
    )
    limit = f"{sides.rules.minimum_ratio:g}"
    point = f"at most {of_hundred(turning)} such pieces would"
    if word == "undetermined":
        return (
            f"Undetermined: {said}, below {limit}. For another word {point} have to "
            f"look like this under {second}."
        )
    return (
        f"{word.capitalize()}, for the exhibits examined only: {said}, {limit} or "
        f"more. The word stands while {point} look like this under {second}."
    )
