"""Heat and strain in our own hands: rules out of a table, flags that stay, a ledger."""

from strandproof.physical.handling.flags import (
    HandlingFlag,
    flag_named,
    handling_flags,
    open_flags,
    stray_answers,
)
from strandproof.physical.handling.ledger import (
    LedgerRow,
    ancestry,
    ledger,
    ledger_row,
)
from strandproof.physical.handling.rules import (
    HandlingRules,
    RaisedDoubt,
    bend_strain_percent,
    doubts_about_heat,
    doubts_about_strain,
    handling_rules,
    pull_stress_mpa,
)
from strandproof.physical.handling.words import flag_lines, row_line

__all__ = [
    "HandlingFlag",
    "HandlingRules",
    "LedgerRow",
    "RaisedDoubt",
    "ancestry",
    "bend_strain_percent",
    "doubts_about_heat",
    "doubts_about_strain",
    "flag_lines",
    "flag_named",
    "handling_flags",
    "handling_rules",
    "ledger",
    "ledger_row",
    "open_flags",
    "pull_stress_mpa",
    "row_line",
    "stray_answers",
]
