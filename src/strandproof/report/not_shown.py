"""What a case does not show, drawn from what was claimed and what was tested."""

from dataclasses import dataclass

from strandproof.records.case_state import CaseState
from strandproof.records.entries import (
    Claim,
    ClaimKind,
    ConductorType,
    Measurement,
    Micrograph,
    Observation,
    Reading,
    Specimen,
    Weighing,
)
from strandproof.report.build_table import METAL_UNDER, target_gaps
from strandproof.report.pieces import (
    exhibits_in_question,
    own_measurements,
    specimen_behind,
)
from strandproof.report.wording import KIND_WORDS, as_sentence

_NOT_WEIGHED = (
    "No rival explanations were weighed in this case yet: it says what was measured, "
    "not how strongly that speaks for or against a claim."
)


@dataclass(frozen=True, slots=True)
class CoverageRow:
    """What was done about one kind that a claim speaks of.

    Parameters
    ----------
    claim : Claim
        The claim.
    kind : ClaimKind
        One of its kinds.
    readings : tuple of str
        Its readings of that kind.
    tested_by : tuple of str
        Measurements that bear on that kind.
    """

    claim: Claim
    kind: ClaimKind
    readings: tuple[str, ...]
    tested_by: tuple[str, ...]


def coverage(state: CaseState) -> tuple[CoverageRow, ...]:
    """Lay every kind of every claim beside the measurements that bear on it.

    Parameters
    ----------
    state : CaseState
        State of the case.

    Returns
    -------
    tuple of CoverageRow
        In the order of the claims.
    """
    return tuple(
        CoverageRow(
            claim,
            kind,
            tuple(reading.words for reading in claim.readings if reading.kind is kind),
            _tests(state, claim, kind),
        )
        for claim in state.records(Claim)
        for kind in claim.kinds
    )


def _tests(state: CaseState, claim: Claim, kind: ClaimKind) -> tuple[str, ...]:
    """Name the measurements weighed for a claim; without a weighing, all that bear."""
    weighed = {w.observation for w in state.records(Weighing) if w.claim == claim.id}
    observations = [
        each
        for each in state.records(Observation)
        if each.id in weighed and kind in _kinds(state, each)
    ]
    if weighed:
        evidence = [name for each in observations for name in each.evidence]
        return tuple(name.partition("/")[2] for name in dict.fromkeys(evidence))
    return tuple(m.id for m in own_measurements(state) if kind in m.bears_on)


def _kinds(state: CaseState, observation: Observation) -> set[ClaimKind]:
    """Give what an observation bears on; where it does not say, what its parts do."""
    if observation.bears_on:
        return set(observation.bears_on)
    parts = [
        state.record(Measurement, label)
        for kind, _, label in (name.partition("/") for name in observation.evidence)
        if kind == "measurement"
    ]
    return {kind for measurement in parts for kind in measurement.bears_on}


def kinds_not_touched(state: CaseState) -> tuple[ClaimKind, ...]:
    """Give the kinds of claim that nobody claimed and no measurement bears on.

    Parameters
    ----------
    state : CaseState
        State of the case.

    Returns
    -------
    tuple of ClaimKind
        In the usual order.
    """
    claimed = {kind for claim in state.records(Claim) for kind in claim.kinds}
    tested = {kind for m in own_measurements(state) for kind in m.bears_on}
    return tuple(kind for kind in ClaimKind if kind not in claimed | tested)


def untested(state: CaseState) -> tuple[CoverageRow, ...]:
    """Give the kinds of claims that no measurement bears on.

    Parameters
    ----------
    state : CaseState
        State of the case.

    Returns
    -------
    tuple of CoverageRow
        In the order of the claims.
    """
    return tuple(row for row in coverage(state) if not row.tested_by)


def not_shown(state: CaseState) -> tuple[str, ...]:
    """Say what the case does not show.

    Parameters
    ----------
    state : CaseState
        State of the case.

    Returns
    -------
    tuple of str
        One sentence each.
    """
    sentences = [
        f"{row.claim.id}, {KIND_WORDS[row.kind]}: tested by nothing in this case."
        for row in untested(state)
    ]
    sentences += [
        f"{as_sentence(KIND_WORDS[kind])}: not claimed here, and not tested."
        for kind in kinds_not_touched(state)
    ]
    sentences += [*_untested_targets(state), *_metals_below(state), _reach(state)]
    if not state.records(Weighing):
        sentences.append(_NOT_WEIGHED)
    sentences.append(
        "What anybody intended, and whether a difference could be heard, is not "
        "examined here."
    )
    return tuple(sentences)


def _untested_targets(state: CaseState) -> list[str]:
    """Name conductor types whose crystals nobody looked at."""
    seen = [f"micrograph/{each.id}" for each in state.records(Micrograph)]
    seen += [reading.reads for reading in state.records(Reading)]
    looked_at = {
        state.record(Specimen, specimen).conductor_type
        for specimen in {specimen_behind(state, reference) for reference in seen}
        if specimen
    }
    untested_of: dict[str, list[str]] = {}
    tested = set()
    for target in state.records(ConductorType):
        if target.id in looked_at:
            tested.add(target.description)
        else:
            untested_of.setdefault(target.description, []).append(target.exhibit)
    return [
        f"Crystals of the {words}"
        + (f" of exhibit {', '.join(exhibits)}" if words in tested else "")
        + ": not tested."
        for words, exhibits in untested_of.items()
    ]


def _metals_below(state: CaseState) -> list[str]:
    """Name the metals under a layer that nothing tested."""
    return [
        f"{as_sentence(phrase)}: not tested."
        for phrase in target_gaps(state)
        if phrase.startswith(METAL_UNDER)
    ]


def _reach(state: CaseState) -> str:
    exhibits = len(exhibits_in_question(state))
    if not exhibits:
        return "Nothing has been taken in, so nothing is said of any product."
    piece = "One exhibit" if exhibits == 1 else f"{exhibits} exhibits"
    return (
        f"{piece} cannot speak for a product; every number holds for the pieces and "
        "places examined only."
    )


@dataclass(frozen=True, slots=True)
class ReadingRow:
    """One way to read a claim, beside what tests it.

    Parameters
    ----------
    claim : Claim
        The claim.
    words : str
        The reading.
    how : str
        Literal or implied; whether it is the one put to the test first.
    kind_words : str
        What it is about.
    tested_by : tuple of str
        Measurements that bear on its kind.
    """

    claim: Claim
    words: str
    how: str
    kind_words: str
    tested_by: tuple[str, ...]


def readings_side_by_side(state: CaseState) -> tuple[ReadingRow, ...]:
    """Set all readings of every claim side by side, each with its tests.

    Parameters
    ----------
    state : CaseState
        State of the case.

    Returns
    -------
    tuple of ReadingRow
        In the order of the claims; a claim's first reading is the one put to the
        test first.
    """
    return tuple(
        ReadingRow(
            claim,
            reading.words,
            ("literal" if reading.literal else "implied")
            + (", put to the test first" if number == 0 else ""),
            KIND_WORDS[reading.kind],
            _tests(state, claim, reading.kind),
        )
        for claim in state.records(Claim)
        for number, reading in enumerate(claim.readings)
    )
