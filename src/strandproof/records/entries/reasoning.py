"""Weighing: rival explanations, observations, likelihoods and their ratios."""

from typing import Annotated, Literal, Self

from pydantic import Field, model_validator

from strandproof.records.entries.bodies import (
    CaseRecord,
    ClaimLabel,
    FrozenModel,
    HypothesisLabel,
    MeasuredValue,
    ObservationLabel,
    Reference,
    Text,
    UtcTime,
)
from strandproof.records.entries.claims import ClaimKind

Probability = Annotated[float, Field(ge=0, le=1)]


class Hypothesis(CaseRecord):
    """One explanation of what the metal is and how it was made."""

    statement: Text
    """The explanation as a full sentence."""
    kind: ClaimKind
    """The level it is stated at."""
    speaks_for: tuple[ClaimLabel, ...] = ()
    """Claims that hold if it is true."""
    left_out_because: str = ""
    """For a usual rival left out of the weighing: why."""
    stands_for: str = ""
    """The usual hypothesis that it is (for example X4), where it has another name."""


class Observation(CaseRecord):
    """What was found, with how many pieces stand behind it."""

    statement: Text
    """What was found, in one sentence."""
    value: MeasuredValue | None = None
    """The number, where there is one."""
    evidence: Annotated[tuple[Reference, ...], Field(min_length=1)]
    """Measurements, readings and papers it rests on."""
    cables: Annotated[int, Field(ge=0)] = 0
    """Cables behind it."""
    strands: Annotated[int, Field(ge=0)] = 0
    """Strands behind it."""
    sections: Annotated[int, Field(ge=0)] = 0
    """Sections behind it."""
    fields: Annotated[int, Field(ge=0)] = 0
    """Fields behind it."""
    method: Text
    """How it was obtained."""
    flags: tuple[str, ...] = ()
    """Quality flags."""
    dependence_group: str = ""
    """Observations of one group share a cause of error and do not multiply."""
    bears_on: tuple[ClaimKind, ...] = ()
    """Kinds of claim it bears on."""
    does_not_bear_on: tuple[ClaimKind, ...] = ()
    """Kinds of claim it does not bear on."""
    reading_outcome: Literal["boundaries", "none_resolved", "not_readable"] | None = (
        None
    )
    """For a reading of structure: what was seen; decides which controls inform it."""


class Likelihood(FrozenModel):
    """Probability of an observation if a hypothesis is true."""

    hypothesis: HypothesisLabel
    """The hypothesis."""
    best: Probability
    """Best estimate."""
    lower: Probability
    """Lower end of the range."""
    upper: Probability
    """Upper end of the range."""
    status: Literal["data", "literature", "judgement"]
    """What it rests on."""
    source: Text
    """Where it comes from."""

    @model_validator(mode="after")
    def _best_within_range(self) -> Self:
        if not self.lower <= self.best <= self.upper:
            msg = (
                f"best estimate {self.best} of {self.hypothesis} lies outside of its "
                f"range {self.lower} to {self.upper}"
            )
            raise ValueError(msg)
        return self


class WeighingPair(FrozenModel):
    """Likelihood ratio of two hypotheses for one observation."""

    first: HypothesisLabel
    """Hypothesis above the line."""
    second: HypothesisLabel
    """Hypothesis below the line."""
    best_ratio: Annotated[float, Field(ge=0)] | None
    """Best-estimate ratio; none when both sides are near zero."""
    lower_ratio: Annotated[float, Field(ge=0)] | None
    """Ratio at the unfavourable ends of the ranges."""
    upper_ratio: Annotated[float, Field(ge=0)] | None
    """Ratio at the favourable ends; none when unbounded."""
    controls_ratio: Annotated[float, Field(ge=0)] | None = None
    """Ratio that the controls alone support at the 95 % bound."""
    controls_expected_ratio: Annotated[float, Field(ge=0)] | None = None
    """Expected ratio from the controls with the stated prior."""
    controls_ratio_unjudged: Annotated[float, Field(ge=0)] | None = None
    """Controls' ratio when other controls must carry the numerator too."""
    group_ratios: dict[str, Annotated[float, Field(ge=0)]] = Field(default_factory=dict)
    """Ratio that controls support at each group level: mount, batch, custody_trail."""
    words: Text
    """What it means, with the scale used."""


class Weighing(CaseRecord):
    """An observation weighed over rival explanations."""

    observation: ObservationLabel
    """The observation."""
    likelihoods: Annotated[tuple[Likelihood, ...], Field(min_length=2)]
    """Probabilities entered, two hypotheses at least."""
    pairs: Annotated[tuple[WeighingPair, ...], Field(min_length=1)]
    """Ratios by pair."""
    claim: ClaimLabel | None = None
    """Claim it is about."""
    result: Literal["supported", "contradicted", "undetermined"]
    """Result word for the exhibits examined."""
    blunder_levels: dict[str, str] = Field(default_factory=dict)
    """What was assumed for item errors and group blunders, in words."""
    weighed_at: UtcTime
    """When."""
    weighed_by: Text
    """Who."""
