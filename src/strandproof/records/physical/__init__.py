"""Records of what a strand is as a body: hardness, density, metal, deformation."""

from strandproof.records.physical.deformation import (
    DeformationComparison,
    DeformationVerdict,
    HandlingFacts,
    Objection,
    SlipTraceField,
)
from strandproof.records.physical.density import (
    BuoyancyWeighing,
    DensityMethod,
    DensityResult,
)
from strandproof.records.physical.hardness import (
    CopperState,
    HardnessMeasurement,
    HardnessResult,
    Indentation,
)
from strandproof.records.physical.metals import (
    Contribution,
    MetalFit,
    MetalProperty,
    MetalRanking,
    MetalReadings,
    MetalSign,
    Mixture,
)
from strandproof.records.physical.sections import (
    EdgeKnowledge,
    LayerReadings,
    LayerThickness,
    SectionGeometry,
    SectionMethod,
    StrandFace,
    TapeSection,
)

__all__ = [
    "BuoyancyWeighing",
    "Contribution",
    "CopperState",
    "DeformationComparison",
    "DeformationVerdict",
    "DensityMethod",
    "DensityResult",
    "EdgeKnowledge",
    "HandlingFacts",
    "HardnessMeasurement",
    "HardnessResult",
    "Indentation",
    "LayerReadings",
    "LayerThickness",
    "MetalFit",
    "MetalProperty",
    "MetalRanking",
    "MetalReadings",
    "MetalSign",
    "Mixture",
    "Objection",
    "SectionGeometry",
    "SectionMethod",
    "SlipTraceField",
    "StrandFace",
    "TapeSection",
]
