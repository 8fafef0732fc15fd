"""Frozen records: what travels between the parts and what a case is made of.

Imports `quantity` and `errors`. Nothing here touches disk or clock.
"""

from strandproof.records.flags import FLAGS, Flag, FlagDefinition
from strandproof.records.structure import LabelledStructure, Strand, StrandVerdict

__all__ = [
    "FLAGS",
    "Flag",
    "FlagDefinition",
    "LabelledStructure",
    "Strand",
    "StrandVerdict",
]
