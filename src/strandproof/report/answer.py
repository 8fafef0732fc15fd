"""The answer in five sentences, drafted from the records of a case."""

from dataclasses import dataclass

from strandproof.records.case_state import CaseState
from strandproof.records.entries import (
    Claim,
    ClaimKind,
    Hypothesis,
    Likelihood,
    MeasuredValue,
    Measurement,
    Micrograph,
    Observation,
    Section,
    Weighing,
    WeighingPair,
)
from strandproof.report.build_table import target_gaps
from strandproof.report.not_shown import kinds_not_touched, untested
from strandproof.report.pieces import (
    exhibits_in_question,
    micrograph_measured,
    own_measurements,
)
from strandproof.report.wording import (
    KIND_WORDS,
    number_in_words,
    ratio_text,
    result_name,
    value_in_words,
)

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
_WEAKEST_FIRST = ("judgement", "literature", "data")


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
    claimed = [each for each in weighing.likelihoods if each.hypothesis in own]
    rivals = [each for each in weighing.likelihoods if each.hypothesis not in own]
    if not claimed or not rivals:
        return None
    sides = {_best(claimed), _best(rivals)}
    return next((p for p in weighing.pairs if {p.first, p.second} == sides), None)


def _best(likelihoods: list[Likelihood]) -> str:
    return max(likelihoods, key=lambda each: each.best).hypothesis


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
    references = {m.measures for m in state.records(Measurement)}
    measured = [each for each in references if not each.startswith("case/")]
    pieces = exhibits_in_question(state)
    if not pieces:
        return "Nothing has been taken in for examination yet."
    sections, pictures = state.records(Section), state.records(Micrograph)
    where = "; ".join(f"{e.id} {e.provenance}" for e in pieces)
    return (
        f"Examined were {_count(len(pieces), 'exhibit')} ({where}), "
        f"{_count(len(sections), 'section')} with controls, "
        f"{_count(len(pictures), 'micrograph')} shown here, and "
        f"{_count(len(measured), 'piece or picture', 'pieces and pictures')} measured."
    )


def _found(state: CaseState) -> str:
    own = own_measurements(state)
    if not own:
        return "Nothing has been measured on the pieces in question yet."
    parts = [
        f"{_NAMES[name]} {words}"
        for name in _MAIN_RESULTS
        if (words := _all_values(own, name))
    ]
    parts += [
        _first_result(measurement) for measurement in own if _is_other(measurement)
    ]
    if not parts:
        return "What was measured on the pieces in question gave no number."
    return "Found in the pieces examined: " + "; ".join(parts) + "."


def _all_values(measurements: tuple[Measurement, ...], name: str) -> str:
    """Say every value of a result.

    Single pictures speak only where nothing combines them, and only those on which
    more than one crystal was resolved: without boundaries there is no mean distance.
    """
    single: list[MeasuredValue] = []
    combined: dict[str, MeasuredValue] = {}
    for measurement in measurements:
        for result in measurement.results:
            if result.name == name and result.value is not None:
                if not micrograph_measured(measurement):
                    combined[measurement.id] = result.value
                elif measurement.verdict == "poly":
                    single.append(result.value)
    if len(combined) > 1:
        return " and ".join(
            f"{value_in_words(value)} ({label})" for label, value in combined.items()
        )
    values = [*combined.values()] or single
    if len(values) < 2:
        return "".join(map(value_in_words, values))
    lowest, highest = (
        value_in_words(end(values, key=lambda each: each.value)) for end in (min, max)
    )
    return f"{lowest} to {highest} on {len(values)} pictures, not combined"


def _is_other(measurement: Measurement) -> bool:
    names = {result.name for result in measurement.results}
    return not micrograph_measured(measurement) and names.isdisjoint(_MAIN_RESULTS)


def _first_result(measurement: Measurement) -> str:
    first = measurement.results[0]
    return f"{result_name(first.name)} {number_in_words(first)}"


def _weighed(state: CaseState) -> str:
    final = final_weighings(state)
    parts = [_result(state, weighing) for weighing in final]
    if not parts:
        return "Nothing has been weighed yet, so no claim is supported or contradicted."
    weighed = {(w.claim, kind) for w in final for kind in weighed_kinds(state, w)}
    left = [
        f"{claim.id}, {KIND_WORDS[kind]}"
        for claim in state.records(Claim)
        for kind in claim.kinds
        if (claim.id, kind) not in weighed
    ]
    if left:
        parts.append(f"not weighed, so undetermined: {'; '.join(left)}")
    return "For the exhibits examined only: " + "; ".join(parts) + "."


def weighed_kinds(state: CaseState, weighing: Weighing) -> tuple[ClaimKind, ...]:
    """Give the kinds of a claim that a weighing speaks to.

    A claim may be about several things; a result holds only for those that the
    observation bears on.

    Parameters
    ----------
    state : CaseState
        State of the case.
    weighing : Weighing
        A weighing of a claim.

    Returns
    -------
    tuple of ClaimKind
        All kinds of the claim where the observation does not say what it bears on.
    """
    claim = state.record(Claim, weighing.claim or "")
    bears_on = state.record(Observation, weighing.observation).bears_on
    return tuple(kind for kind in claim.kinds if kind in bears_on) or claim.kinds


def _result(state: CaseState, weighing: Weighing) -> str:
    kinds = " and ".join(KIND_WORDS[kind] for kind in weighed_kinds(state, weighing))
    words = f"{weighing.claim}, {kinds}: {weighing.result}"
    pair = deciding_pair(state, weighing)
    if pair is None:
        return f"{words} (the explanations weighed all stand on one side of it)"
    ratio = ratio_text(pair.best_ratio)
    words += f" (best estimate {ratio} for {pair.first} over {pair.second}, "
    words += _status(weighing, pair)
    if pair.controls_ratio is None:
        return f"{words}; no controls)"
    return f"{words}; the controls alone support {ratio_text(pair.controls_ratio)})"


def _status(weighing: Weighing, pair: WeighingPair) -> str:
    """Say what the weaker of a pair's two probabilities rests on."""
    given = {
        each.status
        for each in weighing.likelihoods
        if each.hypothesis in {pair.first, pair.second}
    }
    return next(status for status in _WEAKEST_FIRST if status in given)


def _not_shown(state: CaseState) -> str:
    missing = [f"{row.claim.id}, {KIND_WORDS[row.kind]}" for row in untested(state)]
    others = [KIND_WORDS[kind] for kind in kinds_not_touched(state)]
    always = ("what anybody intended", "any difference in sound")
    parts = [*missing, *others, *target_gaps(state), *always]
    return "Not shown: " + "; ".join(parts) + "."


def _count(number: int, one: str, many: str = "") -> str:
    return f"{number} {one if number == 1 else many or one + 's'}"
