"""Weighings as a reader meets them: the result word, the ratios, the bars."""

from dataclasses import dataclass

from markupsafe import Markup

from strandproof.records.case_state import CaseState
from strandproof.records.entries import (
    Claim,
    Hypothesis,
    Observation,
    Weighing,
    WeighingPair,
)
from strandproof.report.answer import deciding_pair, final_weighings, weighed_kinds
from strandproof.report.ratio_bars import ratio_bar, ratio_bars_svg
from strandproof.report.wording import KIND_WORDS


@dataclass(frozen=True, slots=True)
class WeighedClaim:
    """A claim with the last weighing of the evidence on it.

    Parameters
    ----------
    claim : Claim
        The claim.
    about : str
        The kinds of the claim that the result holds for, in words.
    weighing : Weighing
        Its last weighing.
    observation : Observation
        What was weighed.
    hypotheses : tuple of Hypothesis
        Explanations weighed.
    left_out : tuple of Hypothesis
        Usual explanations left out, with the reason.
    bars : Markup
        All pairs on one scale.
    deciding : WeighingPair or None
        The pair that the result word rests on.
    no_help : tuple of WeighingPair
        Pairs that the observation does not tell apart.
    earlier : tuple of str
        Earlier weighings of the same claim, one sentence or two each.
    """

    claim: Claim
    about: str
    weighing: Weighing
    observation: Observation
    hypotheses: tuple[Hypothesis, ...]
    left_out: tuple[Hypothesis, ...]
    bars: Markup
    deciding: WeighingPair | None
    no_help: tuple[WeighingPair, ...]
    earlier: tuple[str, ...]


def weighed_claims(state: CaseState) -> tuple[WeighedClaim, ...]:
    """Give the last weighing of every claim, with its bars.

    Parameters
    ----------
    state : CaseState
        State of the case.

    Returns
    -------
    tuple of WeighedClaim
        In the order of the claims.
    """
    return tuple(_weighed(state, weighing) for weighing in final_weighings(state))


def _weighed(state: CaseState, weighing: Weighing) -> WeighedClaim:
    names = {likelihood.hypothesis for likelihood in weighing.likelihoods}
    known = state.records(Hypothesis)
    deciding = deciding_pair(state, weighing)
    kinds = {h.kind for h in known if h.id in names}
    return WeighedClaim(
        claim=state.record(Claim, weighing.claim or ""),
        about=" and ".join(KIND_WORDS[k] for k in weighed_kinds(state, weighing)),
        weighing=weighing,
        observation=state.record(Observation, weighing.observation),
        hypotheses=tuple(h for h in known if h.id in names),
        left_out=tuple(h for h in known if h.left_out_because and h.kind in kinds),
        bars=ratio_bars_svg([ratio_bar(pair) for pair in weighing.pairs]),
        deciding=deciding,
        no_help=tuple(pair for pair in weighing.pairs if _tells_nothing(pair)),
        earlier=tuple(
            _earlier(w, deciding)
            for w in state.records(Weighing)
            if w.claim == weighing.claim and w.id != weighing.id
        ),
    )


def _earlier(weighing: Weighing, deciding: WeighingPair | None) -> str:
    """Say what an earlier weighing gave, above all for the pair that decides now."""
    words = f"Earlier weighing {weighing.id}, {weighing.weighed_at:%Y-%m-%d}: "
    words += f"{weighing.result}."
    sides = {deciding.first, deciding.second} if deciding else set()
    for pair in weighing.pairs:
        if {pair.first, pair.second} == sides:
            words += f" {pair.first} against {pair.second}: {pair.words}"
    return words


def _tells_nothing(pair: WeighingPair) -> bool:
    return pair.best_ratio is not None and 0.5 < pair.best_ratio < 2
