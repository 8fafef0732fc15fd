"""Faults of a case folder and of what is entered into it."""

from strandproof.errors._base import StrandproofError


class NotACaseError(StrandproofError, LookupError):
    """The folder given holds no case.

    Parameters
    ----------
    folder : object
        The folder given.
    """

    def __init__(self, folder: object) -> None:
        super().__init__(
            f"{folder} is no case: it holds no entries.jsonl. "
            "Give the folder of a case, or start one with 'strandproof new'."
        )


class CaseExistsError(StrandproofError, FileExistsError):
    """A case was to be started where something already is.

    Parameters
    ----------
    folder : object
        The folder given.
    """

    def __init__(self, folder: object) -> None:
        super().__init__(
            f"{folder} is not empty. A case starts in a new or empty folder; "
            "nothing was changed. Choose another folder."
        )


class CaseBusyError(StrandproofError, OSError):
    """Another program is writing to the case.

    Parameters
    ----------
    folder : object
        The folder of the case.
    """

    def __init__(self, folder: object) -> None:
        super().__init__(
            f"Another program is writing to the case {folder}; one at a time may. "
            "Nothing was changed. Close it, or wait until it has finished."
        )


class DamagedCaseError(StrandproofError, ValueError):
    """An entry does not agree with its hash, its number or its shape.

    Parameters
    ----------
    line : int
        Line of entries.jsonl, counted from 1.
    fault : str
        What does not agree.
    """

    def __init__(self, line: int, fault: str) -> None:
        super().__init__(
            f"entries.jsonl, line {line}: {fault}. The case is left as it is. "
            "Run 'strandproof verify' to see every fault, and restore the file "
            "from a copy."
        )
        self.line = line
        self.fault = fault


class FutureEntryError(StrandproofError, ValueError):
    """An entry was written by a newer version of Strandproof.

    Parameters
    ----------
    line : int
        Line of entries.jsonl, counted from 1.
    schema_version : int
        Schema version found.
    known_version : int
        Highest schema version known here.
    """

    def __init__(self, line: int, schema_version: int, known_version: int) -> None:
        super().__init__(
            f"entries.jsonl, line {line} has schema version {schema_version}; this "
            f"Strandproof knows versions up to {known_version}. The case was written "
            "by a newer Strandproof and is left as it is. Install the newer one to "
            "work on it."
        )
        self.line = line


class UnknownLabelError(StrandproofError, LookupError):
    """A name that no entry of the case has.

    Parameters
    ----------
    kind : str
        Kind of entry looked for, in words.
    label : str
        The name given.
    known : tuple of str
        The names that the case has of that kind.
    """

    def __init__(self, kind: str, label: str, known: tuple[str, ...]) -> None:
        have = ", ".join(known) if known else "none yet"
        super().__init__(
            f"The case has no {kind} {label!r}; it has: {have}. "
            "Nothing was changed. Check the name, or enter it first."
        )


class DuplicateLabelError(StrandproofError, ValueError):
    """A name that an earlier entry of the same kind already has.

    Parameters
    ----------
    kind : str
        Kind of entry, in words.
    label : str
        The name given.
    """

    def __init__(self, kind: str, label: str) -> None:
        super().__init__(
            f"{label!r} is already the name of an entry ({kind}) in this case. "
            "Nothing is ever overwritten and nothing was changed. Choose another "
            "name, or enter a correction that names the entry it replaces."
        )


class PictureAlreadyUsedError(StrandproofError, ValueError):
    """The same picture was to be entered under a second code.

    Parameters
    ----------
    micrograph : str
        The micrograph that already holds this picture.
    section : str
        The section it belongs to.
    """

    def __init__(self, micrograph: str, section: str) -> None:
        super().__init__(
            f"This picture is already in the case, as micrograph {micrograph} of "
            f"section {section}: the files are the same, byte for byte. One picture "
            "cannot show two places; nothing was changed. Check which file belongs "
            "to which code."
        )


class InvalidEntryError(StrandproofError, ValueError):
    """What was entered does not fit the kind of entry.

    Parameters
    ----------
    kind : str
        Kind of entry, in words.
    faults : tuple of str
        One sentence for every field that does not fit.
    """

    def __init__(self, kind: str, faults: tuple[str, ...]) -> None:
        super().__init__(
            f"This {kind} cannot be entered: {' '.join(faults)} Nothing was changed."
        )
        self.faults = faults


class NotCalibratedError(StrandproofError, ValueError):
    """A micrograph without calibration was to be measured in a case.

    Parameters
    ----------
    micrograph : str
        Label of the micrograph.
    """

    def __init__(self, micrograph: str) -> None:
        super().__init__(
            f"Micrograph {micrograph} has no calibration, so it can be shown but not "
            "measured. Photograph a stage scale with the same settings, enter it with "
            "'strandproof calibrate', and enter the micrograph with that calibration."
        )


class ChangedOriginalError(StrandproofError, ValueError):
    """An original of the case no longer has the bytes that its name stands for.

    Parameters
    ----------
    name : str
        Name of the file.
    found : str
        SHA-256 of what is there now.
    """

    def __init__(self, name: str, found: str) -> None:
        super().__init__(
            f"The original {name} was changed on disk: its SHA-256 is now {found}. "
            "Nothing was entered. Restore the file from a copy."
        )


class MissingFileError(StrandproofError, OSError):
    """A file that was to be brought into a case cannot be read.

    Parameters
    ----------
    path : object
        The file.
    reason : str
        What the system said.
    """

    def __init__(self, path: object, reason: str) -> None:
        super().__init__(
            f"{path} cannot be read: {reason}. Nothing was changed. Check the name "
            "and the place of the file."
        )


class NoScaleError(StrandproofError, ValueError):
    """A picture was to be measured, but nobody said how large a pixel is.

    Parameters
    ----------
    name : str
        Name of the picture.
    """

    def __init__(self, name: str) -> None:
        super().__init__(
            f"No pixel size is known for {name}: none was given and the file states "
            "none. Give it with --um-per-px, for example --um-per-px 0.1726, or count "
            "in pixels with --pixels; then there is no grain size number."
        )
