"""Who held what when: trails, gaps that stay, seals. Pure folds over the entries.

Imports the records and nothing else; no clock, no disk.
"""

from strandproof.records.custody.gaps import (
    CustodyGap,
    custody_gaps,
    gap_named,
    stray_explanations,
)
from strandproof.records.custody.holders import HolderAt, holder_at
from strandproof.records.custody.seals import SealFinding, seal_findings
from strandproof.records.custody.things import (
    CustodyRecords,
    custody_records,
    part_of,
    things_behind,
    things_in_custody,
)
from strandproof.records.custody.trail import (
    CustodyTrail,
    GapKind,
    Holding,
    UnheldTime,
    custody_trail,
)
from strandproof.records.custody.words import (
    common_year,
    custody_lines,
    gap_in_words,
    gap_lines,
    moment_in_words,
    things_in_words,
    trail_lines,
)

__all__ = [
    "CustodyGap",
    "CustodyRecords",
    "CustodyTrail",
    "GapKind",
    "HolderAt",
    "Holding",
    "SealFinding",
    "UnheldTime",
    "common_year",
    "custody_gaps",
    "custody_lines",
    "custody_records",
    "custody_trail",
    "gap_in_words",
    "gap_lines",
    "gap_named",
    "holder_at",
    "moment_in_words",
    "part_of",
    "seal_findings",
    "stray_explanations",
    "things_behind",
    "things_in_custody",
    "things_in_words",
    "trail_lines",
]
