"""Rival explanations, likelihoods and their ratios, with range and ceiling.

Pure functions over the records of a case. Imports `records`, `tables`, `quantity`
and `errors`. States how much better one explanation predicts what was seen than
another, never how probable an explanation is.

- `usual_hypotheses`, `usual_rivals_missing`: explanations as data;
- `separation_table`: which tests can tell which explanations apart;
- `hundred_question`, `likelihood_of_hundred`: entering likelihoods;
- `item_error_rate`, `group_error_rate`, `controls_support`, `pooled_support`: what
  blind controls support, at the level where they count;
- `likelihood_ratio`, `joint_likelihoods`, `claim_result`, `weigh`: weighing;
- `reach_statement`, `no_boundary_bound`, `event_chances`: how far it reaches;
- `posterior_odds`: for a reader who types a prior of their own.
"""

from strandproof.weighing.bounds import control_bound, expected_error, right_bound
from strandproof.weighing.dependence import (
    DependenceGroup,
    JointLikelihoods,
    ObservedLikelihoods,
    joint_likelihoods,
    strands_sentence,
)
from strandproof.weighing.error_rates import (
    GROUP_LEVELS,
    ControlReading,
    ErrorRate,
    group_error_rate,
    informed_error,
    item_error_rate,
)
from strandproof.weighing.hypotheses import (
    RivalCheck,
    UsualHypothesis,
    one_sided,
    stands_for,
    structure_of,
    usual_hypotheses,
    usual_rivals_missing,
    weighed_hypotheses,
)
from strandproof.weighing.lengths import (
    EventChances,
    NoBoundaryBound,
    event_chances,
    no_boundary_bound,
)
from strandproof.weighing.likelihoods import (
    blunder_likelihood,
    hundred_question,
    likelihood_in_words,
    likelihood_of_hundred,
)
from strandproof.weighing.planned_controls import (
    ControlsCeiling,
    ceiling_of_controls,
    control_line,
    mounts_in_question,
    planned_controls,
    planned_controls_ceiling,
    what_control_informs,
)
from strandproof.weighing.posterior import ReaderOdds, posterior_odds
from strandproof.weighing.predictions import (
    BenchTest,
    Expectation,
    Prediction,
    Rank,
    bench_tests,
    predictions,
)
from strandproof.weighing.ratios import LikelihoodRatio, likelihood_ratio
from strandproof.weighing.reach import Reach, reach_statement
from strandproof.weighing.results import ClaimResult, claim_result
from strandproof.weighing.rules import (
    ErrorPrior,
    WeighingRules,
    error_prior,
    weighing_rules,
)
from strandproof.weighing.separation import (
    PairSeparation,
    SeparationTable,
    Separator,
    separation_table,
)
from strandproof.weighing.support import (
    ControlSeries,
    ControlsSupport,
    PooledSupport,
    controls_support,
    pooled_support,
)
from strandproof.weighing.support_words import (
    group_sentence,
    level_sentence,
    support_sentence,
)
from strandproof.weighing.weigh import Evidence, Signature, weigh, weighing_lines

__all__ = [
    "GROUP_LEVELS",
    "BenchTest",
    "ClaimResult",
    "ControlReading",
    "ControlSeries",
    "ControlsCeiling",
    "ControlsSupport",
    "DependenceGroup",
    "ErrorPrior",
    "ErrorRate",
    "EventChances",
    "Evidence",
    "Expectation",
    "JointLikelihoods",
    "LikelihoodRatio",
    "NoBoundaryBound",
    "ObservedLikelihoods",
    "PairSeparation",
    "PooledSupport",
    "Prediction",
    "Rank",
    "Reach",
    "ReaderOdds",
    "RivalCheck",
    "SeparationTable",
    "Separator",
    "Signature",
    "UsualHypothesis",
    "WeighingRules",
    "bench_tests",
    "blunder_likelihood",
    "ceiling_of_controls",
    "claim_result",
    "control_bound",
    "control_line",
    "controls_support",
    "error_prior",
    "event_chances",
    "expected_error",
    "group_error_rate",
    "group_sentence",
    "hundred_question",
    "informed_error",
    "item_error_rate",
    "joint_likelihoods",
    "level_sentence",
    "likelihood_in_words",
    "likelihood_of_hundred",
    "likelihood_ratio",
    "mounts_in_question",
    "no_boundary_bound",
    "one_sided",
    "planned_controls",
    "planned_controls_ceiling",
    "pooled_support",
    "posterior_odds",
    "predictions",
    "reach_statement",
    "right_bound",
    "separation_table",
    "stands_for",
    "strands_sentence",
    "structure_of",
    "support_sentence",
    "usual_hypotheses",
    "usual_rivals_missing",
    "weigh",
    "weighed_hypotheses",
    "weighing_lines",
    "weighing_rules",
    "what_control_informs",
]
