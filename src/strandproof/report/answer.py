"""The answer in five sentences, drafted from the records of a case."""

from dataclasses import dataclass

from strandproof.records.case_state import CaseState
from strandproof.records.entries import (
    Claim,
    ClaimKind,
    Control,
    Exhibit,
    Hypothesis,
    Measurement,
    Micrograph,
    Section,
    Weighing,
    WeighingPair,
)
from strandproof.report.not_shown import untested
from strandproof.report.wording import KIND_WORDS, ratio_text, value_in_words

_MAIN_RESULTS = (
    "mean_intercept",
    "boundaries_per_mm",
    "conductivity",
    "copper_area",
    "tin_layer_thickness",
)
_NAMES = {
    "mean_intercept": "mean distance between grain boundaries",
    "boundaries_per_mm": "boundaries along the length",
    "conductivity": "conductivity of the strand",
    "copper_area": "copper area of a core",
    "tin_layer_thickness": "tin layer on the drain",
}


@dataclass(frozen=True, slots=True)
class Answer:
    """Five sentences that answer what was asked, in this order.

    Parameters
    ----------
    said, examined, found, weighed, not_shown : str
        One sentence each; a sentence may list several things.
    """

    said: str
    examined: str
    found: str
    weighed: str
    not_shown: str

    def sentences(self) -> tuple[str, ...]:
        """Give the five sentences.

        Returns
        -------
        tuple of str
            In order.
        """
        return (self.said, self.examined, self.found, self.weighed, self.not_shown)


def answer_in_five_sentences(state: CaseState) -> Answer:
    """Draft the answer from the records.

    Parameters
    ----------
    state : CaseState
        State of the case.

    Returns
    -------
    Answer
        Nothing in it goes beyond the entries.
    """
    return Answer(
        said=_said(state),
        examined=_examined(state),
        found=_found(state),
        weighed=_weighed(state),
        not_shown=_not_shown(state),
    )


def final_weighings(state: CaseState) -> tuple[Weighing, ...]:
    """Give the last weighing of each claim.

    Parameters
    ----------
    state : CaseState
        State of the case.

    Returns
    -------
    tuple of Weighing
        In the order of the claims; a claim without one is left out.
    """
    last = {w.claim: w for w in state.records(Weighing) if w.claim is not None}
    return tuple(last[c.id] for c in state.records(Claim) if c.id in last)


def deciding_pair(state: CaseState, weighing: Weighing) -> WeighingPair | None:
    """Give the pair that the result word of a weighing rests on.

    Parameters
    ----------
    state : CaseState
        State of the case.
    weighing : Weighing
        A weighing of a claim.

    Returns
    -------
    WeighingPair or None
        The claim's own hypothesis against its best rival.
    """
    own = _own_hypotheses(state, weighing)
    best = {each.hypothesis: each.best for each in weighing.likelihoods}
    pairs = [
        pair for pair in weighing.pairs if (pair.first in own) != (pair.second in own)
    ]
    rival = max(
        (name for name in best if name not in own),
        key=lambda name: best[name],
        default=None,
    )
    return next((p for p in pairs if rival in {p.first, p.second}), None)


def _own_hypotheses(state: CaseState, weighing: Weighing) -> set[str]:
    return {h.id for h in state.records(Hypothesis) if weighing.claim in h.speaks_for}


def _said(state: CaseState) -> str:
    claims = state.records(Claim)
    if not claims:
        return "Nobody's words have been entered yet."
    parts = [
        f"{claim.speaker} ({claim.speaker_role.value}, {claim.medium}) said "
        f"“{claim.words}”"
        for claim in claims
    ]
    return "; ".join(parts) + "."


def _examined(state: CaseState) -> str:
    measured = {m.measures.partition("/")[2] for m in state.records(Measurement)}
    exhibits = [e for e in state.records(Exhibit) if e.lot_mark or e.purchase]
    pieces = exhibits or list(state.records(Exhibit))
    sections, pictures = state.records(Section), state.records(Micrograph)
    where = "; ".join(f"{e.id} {e.provenance}" for e in pieces)
    return (
        f"Examined were {_count(len(pieces), 'exhibit')} ({where}), "
        f"{_count(len(sections), 'section')} with controls, "
        f"{_count(len(pictures), 'micrograph')} shown here, and "
        f"{_count(len(measured), 'piece or picture', 'pieces and pictures')} measured."
    )


def _found(state: CaseState) -> str:
    latest: dict[str, str] = {}
    for measurement in _own_measurements(state):
        for result in measurement.results:
            if result.name in _MAIN_RESULTS and result.value is not None:
                latest[result.name] = value_in_words(result.value)
    if not latest:
        return "Nothing has been measured yet."
    parts = [
        f"{_NAMES[name]} {latest[name]}" for name in _MAIN_RESULTS if name in latest
    ]
    return "Found in the pieces examined: " + "; ".join(parts) + "."


def _own_measurements(state: CaseState) -> list[Measurement]:
    """Give the measurements of the pieces in question, single pictures first.

    Controls are no part of the product, and what was combined over many fields
    replaces what single pictures gave.
    """
    controls = {control.specimen for control in state.records(Control)}
    single, combined = [], []
    for measurement in state.records(Measurement):
        kind, _, label = measurement.measures.partition("/")
        if kind != "micrograph":
            combined.append(measurement)
        elif _specimen_shown(state, label) not in controls:
            single.append(measurement)
    return [*single, *combined]


def _specimen_shown(state: CaseState, micrograph: str) -> str:
    section = state.record(Micrograph, micrograph).section
    return state.record(Section, section).specimen


def _weighed(state: CaseState) -> str:
    parts = []
    for weighing in final_weighings(state):
        pair = deciding_pair(state, weighing)
        if pair is None:
            continue
        words = f"{weighing.claim} {weighing.result}"
        ratio = ratio_text(pair.best_ratio)
        words += (
            f" (best estimate {ratio} for {pair.first} over {pair.second}, judgement"
        )
        if pair.controls_ratio is None:
            words += "; no controls)"
        else:
            words += f"; the controls alone support {ratio_text(pair.controls_ratio)})"
        parts.append(words)
    if not parts:
        return "Nothing has been weighed yet, so no claim is supported or contradicted."
    return "For the exhibits examined only: " + "; ".join(parts) + "."


def _not_shown(state: CaseState) -> str:
    missing = [f"{row.claim.id}, {KIND_WORDS[row.kind]}" for row in untested(state)]
    claimed = {kind for claim in state.records(Claim) for kind in claim.kinds}
    others = [KIND_WORDS[kind] for kind in ClaimKind if kind not in claimed]
    parts = [*missing, *others, "what anybody intended", "any difference in sound"]
    return "Not shown: " + "; ".join(parts) + "."


def _count(number: int, one: str, many: str = "") -> str:
    return f"{number} {one if number == 1 else many or one + 's'}"
