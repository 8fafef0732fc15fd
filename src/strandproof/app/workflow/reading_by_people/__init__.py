"""Reading by people: test lines, marks, lock, hint, and readers side by side.

The order is the point: a reader marks test lines that nobody picked, locks the reading,
and only then sees a hint, another reader's marks, or what the program sees. Every
version stays in the case.
"""

from strandproof.app.workflow.reading_by_people.comparison import (
    MarkedByBoth,
    ReadersCompared,
    ThirdReading,
    VerdictDifference,
    compare_readers,
)
from strandproof.app.workflow.reading_by_people.comparison_data import (
    comparison_data,
)
from strandproof.app.workflow.reading_by_people.comparison_words import (
    comparison_in_words,
    program_in_words,
)
from strandproof.app.workflow.reading_by_people.files import (
    GivenTestLines,
    read_marks,
    read_test_lines,
)
from strandproof.app.workflow.reading_by_people.hint import (
    DirectionHint,
    direction_hint,
    re_class,
)
from strandproof.app.workflow.reading_by_people.lines import (
    give_test_lines,
    write_test_lines,
)
from strandproof.app.workflow.reading_by_people.measured import count_of_reading
from strandproof.app.workflow.reading_by_people.program import (
    ProgramOnField,
    program_beside_readers,
)
from strandproof.app.workflow.reading_by_people.recording import (
    enter_reading,
    lock_reading,
)
from strandproof.app.workflow.reading_by_people.sheet import (
    reading_sheet,
    write_reading_sheet,
)
from strandproof.app.workflow.reading_by_people.state import (
    ReadingVersion,
    locked_version,
    marked_lines,
    reading_versions,
)
from strandproof.app.workflow.reading_by_people.words import reading_in_words

__all__ = [
    "DirectionHint",
    "GivenTestLines",
    "MarkedByBoth",
    "ProgramOnField",
    "ReadersCompared",
    "ReadingVersion",
    "ThirdReading",
    "VerdictDifference",
    "compare_readers",
    "comparison_data",
    "comparison_in_words",
    "count_of_reading",
    "direction_hint",
    "enter_reading",
    "give_test_lines",
    "lock_reading",
    "locked_version",
    "marked_lines",
    "program_beside_readers",
    "program_in_words",
    "re_class",
    "read_marks",
    "read_test_lines",
    "reading_in_words",
    "reading_sheet",
    "reading_versions",
    "write_reading_sheet",
    "write_test_lines",
]
