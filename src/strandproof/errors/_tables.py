"""Faults of the reference tables that ship with the package."""

from strandproof.errors._base import StrandproofError


class TableRowError(StrandproofError, ValueError):
    """A row of a reference table that breaks a rule; names file and line.

    Parameters
    ----------
    file_name : str
        Name of the table's file.
    line : int
        Line in that file, the header being line 1.
    problem : str
        What is wrong and what was given, without the final full stop.
    allowed : str
        What is allowed, in words.
    """

    def __init__(
        self, file_name: str, line: int, problem: str, *, allowed: str
    ) -> None:
        super().__init__(
            f"{file_name}, line {line}: {problem}; allowed is {allowed}. "
            "Correct that line; no row of the table is used until then."
        )
        self.file_name = file_name
        self.line = line


class UnknownTableError(StrandproofError, LookupError):
    """A reference table or a row of one that the package does not have.

    Parameters
    ----------
    kind : str
        ``"table"`` or ``"row"``.
    given : str
        The name asked for.
    known : str
        The names there are, in words.
    """

    def __init__(self, kind: str, given: str, *, known: str) -> None:
        super().__init__(
            f"There is no {kind} named {given!r}; known are {known}. "
            "Check the spelling, or add it as docs/tables.md describes."
        )
        self.given = given
