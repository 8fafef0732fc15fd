"""The plan: draw where to look, lock, change in the open, account for every field.

A locked plan is never changed. What is done otherwise later is an addition or a
deviation, dated by what the record shows of results before it.
"""

from strandproof.app.workflow.plan_locking.locking import (
    LockedPlan,
    check_draft,
    deviate,
    lock_plan,
    plan_content,
)
from strandproof.app.workflow.plan_locking.positions import (
    DrawnFields,
    SectionsToDraw,
    plan_positions,
    read_positions,
    write_positions,
)
from strandproof.app.workflow.plan_locking.words import (
    account_of,
    changes_data,
    changes_in_words,
    check_plan_file,
    contact_sheet_data,
    drawn_in_words,
)

__all__ = [
    "DrawnFields",
    "LockedPlan",
    "SectionsToDraw",
    "account_of",
    "changes_data",
    "changes_in_words",
    "check_draft",
    "check_plan_file",
    "contact_sheet_data",
    "deviate",
    "drawn_in_words",
    "lock_plan",
    "plan_content",
    "plan_positions",
    "read_positions",
    "write_positions",
]
