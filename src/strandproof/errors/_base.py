"""The root of the tree and the two faults that every part can meet."""


class StrandproofError(Exception):
    """Root of all exceptions of this project; its text is one clear paragraph."""


class ParameterError(StrandproofError, ValueError):
    """A value outside of what a function or field allows.

    Parameters
    ----------
    parameter : str
        Name of the parameter or field, as the caller knows it.
    given : object
        What was received; shown with `repr`.
    allowed : str
        What is allowed, in words.
    remedy : str
        What to do, as a sentence; may be empty.
    """

    def __init__(
        self, parameter: str, given: object, *, allowed: str, remedy: str = ""
    ) -> None:
        text = f"{parameter} was given as {given!r}; allowed is {allowed}."
        super().__init__(f"{text} {remedy}".rstrip())
        self.parameter = parameter
        self.given = given


class UnitError(StrandproofError, ValueError):
    """A unit that is unknown or does not fit where it was given.

    Parameters
    ----------
    given : str
        The unit received.
    expected : str
        The unit or units that fit, in words.
    """

    def __init__(self, given: str, *, expected: str) -> None:
        super().__init__(
            f"The unit {given!r} does not fit here; expected is {expected}. "
            "Give the value again in that unit."
        )
        self.given = given


class WriteFailedError(StrandproofError, OSError):
    """A file could not be written (disk full, no permission, folder gone).

    Parameters
    ----------
    path : object
        The file that was to be written.
    reason : str
        What the system said.
    consequence : str
        What state things are in now.
    """

    def __init__(
        self,
        path: object,
        reason: str,
        *,
        consequence: str = "Nothing was changed.",
    ) -> None:
        super().__init__(
            f"{path} could not be written: {reason}. {consequence} "
            "Make room or choose another place, then try again."
        )
        self.path = path
