"""What a reading's marks give, with the scale of its micrograph."""

from strandproof.app.workflow.reading_by_people.state import (
    marked_lines,
)
from strandproof.grainsize.marks import (
    MarkCount,
    count_marks,
)
from strandproof.quantity import Quantity
from strandproof.records.case_state import CaseState
from strandproof.records.entries import Calibration, Micrograph, Reading
from strandproof.records.entries.numbers import quantity_of


def count_of_reading(state: CaseState, reading: Reading) -> MarkCount:
    """Count a reading's marks, with the scale of its micrograph where it has one.

    Parameters
    ----------
    state : CaseState
        State of the case.
    reading : Reading
        A reading with test lines.

    Returns
    -------
    MarkCount
        Counts and mean intercepts.
    """
    return count_marks(
        marked_lines(reading.test_lines, reading.marks),
        pixel_size=pixel_size_of(state, reading),
    )


def pixel_size_of(state: CaseState, reading: Reading) -> Quantity | None:
    """Give the pixel size of what was read.

    Parameters
    ----------
    state : CaseState
        State of the case.
    reading : Reading
        A reading.

    Returns
    -------
    Quantity or None
        None unless it was a micrograph with a calibration.
    """
    kind, _, label = reading.reads.partition("/")
    if kind != "micrograph":
        return None
    calibration = state.record(Micrograph, label).calibration
    if calibration is None:
        return None
    return quantity_of(state.record(Calibration, calibration).pixel_size)
