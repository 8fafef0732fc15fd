"""Every exception that Strandproof raises, one tree. Imports nothing.

`StrandproofError` is the root. A child is named for the fault and also derives
from the builtin that a caller would expect (`ValueError`, `LookupError`,
`OSError`). Each builds its own message: what was given, what is allowed, what
to do. Flaws in a user's material (a blurred field, a missing date) are no
exceptions but flags in a result, see `strandproof.records.flags`.
"""

from strandproof.errors._base import ParameterError, StrandproofError, UnitError

__all__ = ["ParameterError", "StrandproofError", "UnitError"]
