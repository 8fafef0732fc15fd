"""Every exception that Strandproof raises, one tree. Imports nothing.

`StrandproofError` is the root. A child is named for the fault and also derives
from the builtin that a caller would expect (`ValueError`, `LookupError`,
`OSError`). Each builds its own message: what was given, what is allowed, what
to do. Flaws in a user's material (a blurred field, a missing date) are no
exceptions but flags in a result, see `strandproof.records.flags`.
"""

from strandproof.errors._base import (
    ParameterError,
    StrandproofError,
    UnitError,
    WriteFailedError,
)
from strandproof.errors._case import (
    CaseBusyError,
    CaseExistsError,
    DamagedCaseError,
    DuplicateLabelError,
    FutureEntryError,
    InvalidEntryError,
    NotACaseError,
    NotCalibratedError,
    PictureAlreadyUsedError,
    UnknownLabelError,
)
from strandproof.errors._quantity import ModelError
from strandproof.errors._tables import TableRowError, UnknownTableError

__all__ = [
    "CaseBusyError",
    "CaseExistsError",
    "DamagedCaseError",
    "DuplicateLabelError",
    "FutureEntryError",
    "InvalidEntryError",
    "ModelError",
    "NotACaseError",
    "NotCalibratedError",
    "ParameterError",
    "PictureAlreadyUsedError",
    "StrandproofError",
    "TableRowError",
    "UnitError",
    "UnknownLabelError",
    "UnknownTableError",
    "WriteFailedError",
]
