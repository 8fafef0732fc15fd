"""Faults in the order of reading: mark, lock, hint, never the other way round."""

from strandproof.errors._base import StrandproofError


class ReadingLockedError(StrandproofError, ValueError):
    """A locked reading was to be locked again, or changed.

    Parameters
    ----------
    reading : str
        Short name of the reading.
    locked_by : str
        Who locked it.
    locked_at : object
        When, shown as text.
    remedy : str
        What can be done instead, as a sentence.
    """

    def __init__(
        self, reading: str, locked_by: str, locked_at: object, *, remedy: str
    ) -> None:
        super().__init__(
            f"Reading {reading} was locked by {locked_by} at {locked_at}; a locked "
            "reading is neither changed nor locked again. Nothing was changed. "
            f"{remedy}"
        )
        self.reading = reading


class ReadingsOpenError(StrandproofError, ValueError):
    """Something was asked for that may be seen only after readings are locked.

    Parameters
    ----------
    wanted : str
        What was asked for.
    readings : tuple of str
        Short names of the readings that are not locked.
    """

    def __init__(self, wanted: str, readings: tuple[str, ...]) -> None:
        count = len(readings)
        noun = "reading is" if count == 1 else "readings are"
        super().__init__(
            f"{wanted} is shown only after locking; {count} {noun} still open: "
            f"{', '.join(readings)}. Nothing was shown. Lock with "
            "'strandproof lock-reading' first; after that marks stay as they are."
        )
        self.readings = readings


class NoHintShownError(StrandproofError, ValueError):
    """A locked reading was to be classed anew although no hint was shown.

    Parameters
    ----------
    reading : str
        Short name of the reading.
    """

    def __init__(self, reading: str) -> None:
        super().__init__(
            f"No hint was shown on reading {reading}, so there is nothing to class "
            "anew; the locked reading stands. Nothing was changed. See the hint with "
            "'strandproof hint' first, or enter another reading under its own name."
        )
        self.reading = reading
