"""Before looking: codes, labels, places, the check of a plan, and what came later.

Pure functions over the records of a case. Imports `weighing` and below. Decides nothing
about copper: it keeps the order of plan, lock, reading and opening.

- `draw_codes`, `is_sound`, `nearest_codes`: meaningless codes with a check character;
- `label_sheet`: labels and the coder's list as data;
- `draw_fields`, `drawn_by`: random places that anyone can draw again;
- `check_plan`: what a plan lacks before it is locked;
- `later_changes`: additions and deviations, dated by the record;
- `fields_account`: every planned field, used or with its reason;
- `open_readings`: what keeps a sealed list sealed.
"""

from strandproof.planning.codes import (
    check_character,
    draw_codes,
    is_sound,
    nearest_codes,
    plain_code,
    typing_errors,
)
from strandproof.planning.field_readings import ReadPlace, read_place
from strandproof.planning.fields_account import (
    AccountedField,
    FieldsAccount,
    fields_account,
    planned_fields,
)
from strandproof.planning.label_sheets import (
    CoderLine,
    Label,
    LabelSheet,
    label_sheet,
)
from strandproof.planning.later_changes import (
    LaterChange,
    later_changes,
    results_before,
    sections_of,
)
from strandproof.planning.open_readings import OpenReading, open_readings, things_of
from strandproof.planning.plan_check import (
    DraftPlan,
    PlanCheck,
    check_plan,
    known_tests,
)
from strandproof.planning.positions import draw_fields, drawn_by

__all__ = [
    "AccountedField",
    "CoderLine",
    "DraftPlan",
    "FieldsAccount",
    "Label",
    "LabelSheet",
    "LaterChange",
    "OpenReading",
    "PlanCheck",
    "ReadPlace",
    "check_character",
    "check_plan",
    "draw_codes",
    "draw_fields",
    "drawn_by",
    "fields_account",
    "is_sound",
    "known_tests",
    "label_sheet",
    "later_changes",
    "nearest_codes",
    "open_readings",
    "plain_code",
    "planned_fields",
    "read_place",
    "results_before",
    "sections_of",
    "things_of",
    "typing_errors",
]
