"""Which planned field a reading or a micrograph belongs to."""

from dataclasses import dataclass

from strandproof.records.case_state import CaseState
from strandproof.records.entries import Micrograph, Reading


@dataclass(frozen=True, slots=True, kw_only=True)
class ReadPlace:
    """What was read: a section, and where known the planned field on it.

    Parameters
    ----------
    section : str
        Name of the section; empty for a reading of something else.
    number : int or None
        Number of the planned field; None where the whole section was read.
    """

    section: str
    number: int | None

    def covers(self, section: str, number: int, *, only_field: bool) -> bool:
        """Tell whether this reading speaks of a planned field.

        Parameters
        ----------
        section : str
            Section of the field.
        number : int
            Its number.
        only_field : bool
            Whether it is the only planned field of its section; then a reading of
            the section as a whole speaks of it.

        Returns
        -------
        bool
            True when it does.
        """
        if self.section != section:
            return False
        return only_field if self.number is None else self.number == number


def read_place(state: CaseState, reading: Reading) -> ReadPlace:
    """Give the place that a reading speaks of.

    Parameters
    ----------
    state : CaseState
        State of the case.
    reading : Reading
        The reading.

    Returns
    -------
    ReadPlace
        Section and field number, as far as they are known.
    """
    kind, _, name = reading.reads.partition("/")
    if kind == "section":
        return ReadPlace(section=name, number=reading.field_number)
    if kind == "micrograph":
        shown = state.record(Micrograph, name)
        number = reading.field_number or shown.field_number
        return ReadPlace(section=shown.section, number=number)
    return ReadPlace(section="", number=None)
