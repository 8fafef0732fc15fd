"""Which section a reading speaks of, whatever it was made on."""

from strandproof.records.case_state import CaseState
from strandproof.records.entries import Micrograph, Reading, Section


def section_read(state: CaseState, reading: Reading) -> Section | None:
    """Give the section that a reading was made on.

    Parameters
    ----------
    state : CaseState
        State of the case.
    reading : Reading
        A reading of a section, or of a micrograph of one.

    Returns
    -------
    Section or None
        None where something else was read.
    """
    kind, _, label = reading.reads.partition("/")
    if kind == "micrograph":
        kind, label = "section", state.record(Micrograph, label).section
    return state.record(Section, label) if kind == "section" else None
