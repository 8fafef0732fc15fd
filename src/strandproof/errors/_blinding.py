"""Faults in the order of blinding and planning: seal, hand out, lock, open."""

from strandproof.errors._base import StrandproofError


class UnknownCodeError(StrandproofError, LookupError):
    """A code that no label carries.

    Parameters
    ----------
    code : str
        What was typed.
    nearest : tuple of str
        Codes that differ from it by one typing error; empty when there are none.
    """

    def __init__(self, code: str, nearest: tuple[str, ...]) -> None:
        meant = f"; did you mean {' or '.join(nearest)}?" if nearest else "."
        remedy = "" if nearest else " Read the label again."
        super().__init__(f"No such label{meant}{remedy}")
        self.code = code
        self.nearest = nearest


class SealMismatchError(StrandproofError, ValueError):
    """Something sealed does not agree with its seal.

    Parameters
    ----------
    what : str
        What was sealed, in words.
    expected : str
        The seal on record.
    found : str
        What the thing itself gives.
    remedy : str
        What to do, as a sentence.
    """

    def __init__(self, what: str, *, expected: str, found: str, remedy: str) -> None:
        super().__init__(
            f"{what} does not agree with its seal: on record is {expected}, found is "
            f"{found}. Nothing was entered. {remedy}"
        )
        self.expected = expected
        self.found = found


class ListStillSealedError(StrandproofError, ValueError):
    """A sealed list was to be opened while readings are open.

    Parameters
    ----------
    sealed_list : str
        Short name of the list.
    open_readings : tuple of str
        Readings that are not made or not locked, each in a few words.
    """

    def __init__(self, sealed_list: str, open_readings: tuple[str, ...]) -> None:
        count = len(open_readings)
        noun = "reading" if count == 1 else "readings"
        super().__init__(
            f"Opening list {sealed_list} is refused, {count} {noun} open: "
            f"{'; '.join(open_readings)}. Nothing was shown and nothing was entered. "
            "Lock every reading of every coded section first."
        )
        self.open_readings = open_readings


class ListOpenedError(StrandproofError, ValueError):
    """Something was asked for that needs a list which is still sealed.

    Parameters
    ----------
    sealed_list : str
        Short name of the list.
    wanted : str
        What was to be done, in words.
    """

    def __init__(self, sealed_list: str, wanted: str) -> None:
        super().__init__(
            f"List {sealed_list} was opened already; {wanted} is refused, since a "
            "reader may know the pieces now. Nothing was changed. Seal a new list "
            "with new codes."
        )


class NameFoundError(StrandproofError, ValueError):
    """A hand-out would have shown a name that its reader must not know.

    Parameters
    ----------
    places : tuple of str
        Where which name was found, one entry each.
    """

    def __init__(self, places: tuple[str, ...]) -> None:
        super().__init__(
            f"The hand-out is refused: it would show {'; '.join(places)}. Nothing was "
            "written. Take the name out of the rules or instructions, or give the "
            "reader other words."
        )
        self.places = places


class LockRefusedError(StrandproofError, ValueError):
    """A plan cannot be locked yet.

    Parameters
    ----------
    blanks : tuple of str
        What is missing, one phrase each, for example ``"Money blank"``.
    details : tuple of str
        What is asked for, one sentence each.
    """

    def __init__(
        self, blanks: tuple[str, ...], *, details: tuple[str, ...] = ()
    ) -> None:
        text = (
            f"{'; '.join(blanks)}: lock refused. Nothing was entered. Fill in what is "
            "blank, or say that there is none, and lock again."
        )
        super().__init__(" ".join((text, *details)))
        self.blanks = blanks


class FixedEntryError(StrandproofError, ValueError):
    """An entry that stands for good was to be corrected or made by hand.

    Parameters
    ----------
    what : str
        Kind and name of the entry, in words.
    remedy : str
        What can be done instead, as a sentence.
    """

    def __init__(self, what: str, *, remedy: str) -> None:
        super().__init__(
            f"{what} stands as it was entered; it is neither changed nor replaced. "
            f"Nothing was changed. {remedy}"
        )


class ReturnedReadingError(StrandproofError, ValueError):
    """Readings that came back from a hand-out do not fit it.

    Parameters
    ----------
    faults : tuple of str
        One sentence each.
    """

    def __init__(self, faults: tuple[str, ...]) -> None:
        super().__init__(
            f"These readings cannot be taken back: {' '.join(faults)} Nothing was "
            "entered. Send the file back to its reader with this message."
        )
        self.faults = faults
