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
from strandproof.errors._blinding import (
    FixedEntryError,
    ListOpenedError,
    ListStillSealedError,
    LockRefusedError,
    NameFoundError,
    ReturnedReadingError,
    SealMismatchError,
    UnknownCodeError,
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
from strandproof.errors._claiming import (
    ClaimQuestionsError,
    KeptPartError,
    NoTextError,
    WordsFoundError,
)
from strandproof.errors._electrical import (
    HotWireError,
    ImpossibleDiameterError,
    MissingMeasurementError,
    MixedConductorsError,
)
from strandproof.errors._physical import IndentationGeometryError, NotResolvedError
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
from strandproof.errors._preparation import PreparationIncompleteError
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
    "ClaimQuestionsError",
    "DamagedCaseError",
    "DrawsOutsideDomainError",
    "DuplicateLabelError",
    "ExpansionError",
    "FixedEntryError",
    "FutureEntryError",
    "HotWireError",
    "ImpossibleDiameterError",
    "IndentationGeometryError",
    "InvalidEntryError",
    "KeptPartError",
    "LikelihoodMismatchError",
    "ListOpenedError",
    "ListStillSealedError",
    "LockRefusedError",
    "LostUncertaintyError",
    "MissingFileError",
    "MissingMeasurementError",
    "MixedConductorsError",
    "ModelCallError",
    "ModelError",
    "ModelOutputError",
    "NameFoundError",
    "NoBarError",
    "NoHintShownError",
    "NoScaleError",
    "NoScaleInFileError",
    "NoTextError",
    "NonSquarePixelsError",
    "NotACaseError",
    "NotCalibratedError",
    "NotResolvedError",
    "OutputExistsError",
    "PageChoiceError",
    "ParameterError",
    "PictureAlreadyUsedError",
    "PictureError",
    "PictureTooSmallError",
    "PreparationIncompleteError",
    "ReadingLockedError",
    "ReadingsOpenError",
    "ResizedPictureError",
    "ReturnedReadingError",
    "ScaleConflictError",
    "SealMismatchError",
    "SingularModelError",
    "StrandproofError",
    "TableRowError",
    "TooFewDivisionsError",
    "TooFewHypothesesError",
    "UnevenSpacingError",
    "UnitError",
    "UnknownCodeError",
    "UnknownLabelError",
    "UnknownTableError",
    "UnreadablePictureError",
    "UnresolvedDivisionsError",
    "UnsupportedPictureError",
    "WordsFoundError",
    "WriteFailedError",
]
