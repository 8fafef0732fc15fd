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
from strandproof.errors._calibration import (
    CalibrationError,
    NoBarError,
    NoScaleInFileError,
    ResizedPictureError,
    TooFewDivisionsError,
    UnevenSpacingError,
    UnresolvedDivisionsError,
)
from strandproof.errors._case import (
    CaseBusyError,
    CaseExistsError,
    ChangedOriginalError,
    DamagedCaseError,
    DuplicateLabelError,
    FutureEntryError,
    InvalidEntryError,
    MissingFileError,
    NoScaleError,
    NotACaseError,
    NotCalibratedError,
    PictureAlreadyUsedError,
    UnknownLabelError,
)
from strandproof.errors._electrical import (
    MissingMeasurementError,
    MixedConductorsError,
)
from strandproof.errors._pictures import (
    ExpansionError,
    NonSquarePixelsError,
    OutputExistsError,
    PageChoiceError,
    PictureError,
    PictureTooSmallError,
    ScaleConflictError,
    UnreadablePictureError,
    UnsupportedPictureError,
)
from strandproof.errors._quantity import (
    DrawsOutsideDomainError,
    LostUncertaintyError,
    ModelCallError,
    ModelError,
    ModelOutputError,
    SingularModelError,
)
from strandproof.errors._reading import (
    NoHintShownError,
    ReadingLockedError,
    ReadingsOpenError,
)
from strandproof.errors._tables import TableRowError, UnknownTableError
from strandproof.errors._weighing import (
    LikelihoodMismatchError,
    TooFewHypothesesError,
)

__all__ = [
    "CalibrationError",
    "CaseBusyError",
    "CaseExistsError",
    "ChangedOriginalError",
    "DamagedCaseError",
    "DrawsOutsideDomainError",
    "DuplicateLabelError",
    "ExpansionError",
    "FutureEntryError",
    "InvalidEntryError",
    "LikelihoodMismatchError",
    "LostUncertaintyError",
    "MissingFileError",
    "MissingMeasurementError",
    "MixedConductorsError",
    "ModelCallError",
    "ModelError",
    "ModelOutputError",
    "NoBarError",
    "NoHintShownError",
    "NoScaleError",
    "NoScaleInFileError",
    "NonSquarePixelsError",
    "NotACaseError",
    "NotCalibratedError",
    "OutputExistsError",
    "PageChoiceError",
    "ParameterError",
    "PictureAlreadyUsedError",
    "PictureError",
    "PictureTooSmallError",
    "ReadingLockedError",
    "ReadingsOpenError",
    "ResizedPictureError",
    "ScaleConflictError",
    "SingularModelError",
    "StrandproofError",
    "TableRowError",
    "TooFewDivisionsError",
    "TooFewHypothesesError",
    "UnevenSpacingError",
    "UnitError",
    "UnknownLabelError",
    "UnknownTableError",
    "UnreadablePictureError",
    "UnresolvedDivisionsError",
    "UnsupportedPictureError",
    "WriteFailedError",
]
