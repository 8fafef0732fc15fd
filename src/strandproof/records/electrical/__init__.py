"""Records of resistance, conductivity, conductors in parallel, and their claims.

Made by `strandproof.electrical`, shown by the report, weighed later. Inputs stay
as they were given, every result names the rules it went by, and what cannot be
stated is None or a flag.
"""

from strandproof.records.electrical.claims import (
    BoundaryReading,
    BoundaryShare,
    ConductivityClaimCheck,
    ConformityDecision,
    DecisionPower,
    DecisionRule,
    GaugeComparison,
    GaugeRounding,
    LimitSide,
    NeededConductivity,
)
from strandproof.records.electrical.conductivity import (
    BandJudgement,
    CoefficientRule,
    ConductivityResult,
    EvaluationRules,
    ResistanceMeasurement,
    ResistivityRoute,
    RouteComparison,
)
from strandproof.records.electrical.conductors import (
    CoreReading,
    ExpectedCore,
    LargerSpecimen,
    LayerEffect,
    ParallelConductor,
    ReversalReading,
    ScreeningLimits,
    ScreeningResult,
    SelfHeating,
)

__all__ = [
    "BandJudgement",
    "BoundaryReading",
    "BoundaryShare",
    "CoefficientRule",
    "ConductivityClaimCheck",
    "ConductivityResult",
    "ConformityDecision",
    "CoreReading",
    "DecisionPower",
    "DecisionRule",
    "EvaluationRules",
    "ExpectedCore",
    "GaugeComparison",
    "GaugeRounding",
    "LargerSpecimen",
    "LayerEffect",
    "LimitSide",
    "NeededConductivity",
    "ParallelConductor",
    "ResistanceMeasurement",
    "ResistivityRoute",
    "ReversalReading",
    "RouteComparison",
    "ScreeningLimits",
    "ScreeningResult",
    "SelfHeating",
]
