"""Frozen records: what travels between the parts and what a case is made of.

Imports `quantity` and `errors`. Nothing here touches disk or clock.
"""

from strandproof.records.flags import FLAGS, Flag, FlagDefinition
from strandproof.records.measurement import (
    AxialCrossings,
    CountingRules,
    DirectionalIntercept,
    Estimate,
    FrameRule,
    GrainCount,
    GrainMeasurement,
    InterceptCount,
    LineEndRule,
    StrandMeasurement,
    StructureMeasurement,
    Traverse,
)
from strandproof.records.structure import LabelledStructure, Strand, StrandVerdict

__all__ = [
    "FLAGS",
    "AxialCrossings",
    "CountingRules",
    "DirectionalIntercept",
    "Estimate",
    "Flag",
    "FlagDefinition",
    "FrameRule",
    "GrainCount",
    "GrainMeasurement",
    "InterceptCount",
    "LabelledStructure",
    "LineEndRule",
    "Strand",
    "StrandMeasurement",
    "StrandVerdict",
    "StructureMeasurement",
    "Traverse",
]
