"""One observation weighed over rival hypotheses, into the record of a case."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime
from itertools import combinations

from strandproof.records.entries import (
    ClaimKind,
    Hypothesis,
    Likelihood,
    Observation,
    Weighing,
    WeighingPair,
)
from strandproof.weighing.dependence import strands_sentence
from strandproof.weighing.error_rates import ControlReading
from strandproof.weighing.hypotheses import (
    UsualHypothesis,
    structure_of,
    usual_hypotheses,
    usual_rivals_missing,
    weighed_hypotheses,
)
from strandproof.weighing.ratios import LikelihoodRatio, likelihood_ratio
from strandproof.weighing.results import (
    ResultWord,
    claim_result,
    likelihood_by_hypothesis,
)
from strandproof.weighing.rules import WeighingRules, weighing_rules
from strandproof.weighing.support import ControlsSupport, controls_support
from strandproof.weighing.support_words import (
    group_sentence,
    level_sentence,
    support_sentence,
)
from strandproof.weighing.wording import scale_name

_KINDS_WITH_USUAL_RIVALS = frozenset({ClaimKind.CRYSTAL_STATE, ClaimKind.CASTING_ROUTE})


@dataclass(frozen=True, slots=True, kw_only=True)
class Evidence:
    """What goes into one weighing.

    Parameters
    ----------
    observation : Observation
        What was found; `reading_outcome` decides which controls inform it.
    hypotheses : tuple of Hypothesis
        With those left out and their reasons.
    likelihoods : tuple of Likelihood
        One for each hypothesis that is weighed.
    controls : tuple of ControlReading
        Readings of all controls of the case.
    claim : str or None
        The claim it is about.
    """

    observation: Observation
    hypotheses: tuple[Hypothesis, ...]
    likelihoods: tuple[Likelihood, ...]
    controls: tuple[ControlReading, ...] = ()
    claim: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Signature:
    """Who weighed, when, and under which name it is entered.

    Parameters
    ----------
    label : str
        Short name of the weighing.
    weighed_by : str
        Who.
    weighed_at : datetime
        When, with time zone.
    """

    label: str
    weighed_by: str
    weighed_at: datetime


@dataclass(frozen=True, slots=True)
class _Bench:
    """What every pair of one weighing has in common."""

    evidence: Evidence
    of_each: Mapping[str, Likelihood]
    structures: Mapping[str, UsualHypothesis]
    rules: WeighingRules


def weigh(
    evidence: Evidence, *, signature: Signature, rules: WeighingRules | None = None
) -> Weighing:
    """Weigh one observation over all pairs of hypotheses.

    Assumes that every likelihood is about this observation as a whole: strands
    and fields behind it are inside of the likelihood and do not multiply. States
    no probability of any hypothesis.

    Parameters
    ----------
    evidence : Evidence
        Observation, hypotheses, likelihoods, controls, claim.
    signature : Signature
        Who, when, and the name of the entry.
    rules : WeighingRules, optional
        None takes those of the package.

    Returns
    -------
    Weighing
        Every pair with best estimate, range, what controls support, and words,
        the favoured hypothesis first; the result word for the claim; the usual
        rivals that were not weighed in its note.

    Raises
    ------
    TooFewHypothesesError
        If fewer than two hypotheses are weighed.
    LikelihoodMismatchError
        If the likelihoods do not answer one to one to the hypotheses.
    ParameterError
        If two hypotheses have the same name, or a table is inconsistent.
    """
    applied = weighing_rules() if rules is None else rules
    weighed = weighed_hypotheses(evidence.hypotheses)
    of_each = likelihood_by_hypothesis(weighed, evidence.likelihoods)
    bench = _Bench(evidence, of_each, usual_hypotheses(), applied)
    found = [_pair(one, two, bench) for one, two in combinations(weighed, 2)]
    result, sentence = _result(evidence, applied)
    return Weighing(
        id=signature.label,
        note="\n".join(_note(evidence, sentence)),
        observation=evidence.observation.id,
        likelihoods=tuple(of_each.values()),
        pairs=tuple(pair for pair, _ in found),
        claim=evidence.claim,
        result=result,
        blunder_levels=_blunder_levels([support for _, support in found]),
        weighed_at=signature.weighed_at,
        weighed_by=signature.weighed_by,
    )


def weighing_lines(weighing: Weighing) -> tuple[str, ...]:
    """Write a weighing as lines for a report, every pair as prominent as the others.

    Parameters
    ----------
    weighing : Weighing
        Record of a case.

    Returns
    -------
    tuple of str
        One line for each pair.
    """
    return tuple(
        f"{pair.first} against {pair.second}: {pair.words}" for pair in weighing.pairs
    )


def _pair(
    one: Hypothesis, two: Hypothesis, bench: _Bench
) -> tuple[WeighingPair, ControlsSupport | None]:
    first, second = sorted(
        (one, two), key=lambda each: bench.of_each[each.id].best, reverse=True
    )
    upper, lower = bench.of_each[first.id], bench.of_each[second.id]
    ratio = likelihood_ratio(upper, lower, rules=bench.rules)
    support = _support(first, second, bench)
    pair = WeighingPair(
        first=first.id,
        second=second.id,
        best_ratio=ratio.best,
        lower_ratio=ratio.lower,
        upper_ratio=ratio.upper,
        controls_ratio=support.ratio if support else None,
        controls_expected_ratio=support.expected_ratio if support else None,
        controls_ratio_unjudged=support.ratio_unjudged if support else None,
        group_ratios=dict(support.group_ratios) if support else {},
        words=_pair_words(ratio, support, upper),
    )
    return pair, support


def _support(
    first: Hypothesis, second: Hypothesis, bench: _Bench
) -> ControlsSupport | None:
    outcome = bench.evidence.observation.reading_outcome
    if outcome is None or outcome == "not_readable":
        return None
    return controls_support(
        bench.evidence.controls,
        first=structure_of(first, bench.structures),
        second=structure_of(second, bench.structures),
        outcome=outcome,
        numerator=bench.of_each[first.id].best,
        rules=bench.rules,
    )


def _pair_words(
    ratio: LikelihoodRatio, support: ControlsSupport | None, numerator: Likelihood
) -> str:
    sentences = [f"{ratio.words}."]
    if not ratio.no_help:
        status = numerator.status
        sentences.append(support_sentence(support, numerator_status=status))
    if support and not ratio.no_help:
        sentences.append(group_sentence(support))
    sentences.append(f"{ratio.range_in_words}.")
    sentences.append(f"Scale: {scale_name()}.")
    return " ".join(sentences)


def _result(evidence: Evidence, rules: WeighingRules) -> tuple[ResultWord, str]:
    if evidence.claim is None:
        return "undetermined", "No claim was named, so there is no result word."
    found = claim_result(
        evidence.claim,
        hypotheses=evidence.hypotheses,
        likelihoods=evidence.likelihoods,
        rules=rules,
    )
    return found.word, found.sentence


def _note(evidence: Evidence, sentence: str) -> list[str]:
    lines = [sentence, strands_sentence(evidence.observation)]
    if any(
        hypothesis.kind in _KINDS_WITH_USUAL_RIVALS
        for hypothesis in evidence.hypotheses
    ):
        lines += usual_rivals_missing(evidence.hypotheses).report_lines
    return [line for line in lines if line]


def _blunder_levels(supports: Sequence[ControlsSupport | None]) -> dict[str, str]:
    levels: dict[str, str] = {}
    for support in supports:
        if support is None:
            continue
        for rate in (support.denominator, *support.groups):
            name = f"{rate.level}: {rate.error}"
            sentence = level_sentence(rate, numerator=support.numerator)
            levels.setdefault(name, sentence)
    if not levels:
        levels["item"] = (
            "No blind control informs this; the chance of a blunder is judged."
        )
    return levels
