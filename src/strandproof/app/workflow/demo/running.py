"""Telling an invented case into a folder, reporting on it, and verifying it."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from pathlib import Path
from tempfile import TemporaryDirectory
from types import MappingProxyType

from strandproof.app.workflow.checking import verify
from strandproof.app.workflow.demo import story_h0, story_h7
from strandproof.app.workflow.demo.telling import Progress, Told
from strandproof.app.workflow.entering import open_case
from strandproof.app.workflow.reporting import (
    WrittenReport,
    report_answer,
    write_report,
)
from strandproof.errors import CaseExistsError, DamagedCaseError, ParameterError

CASES: Mapping[str, Callable[[Told], None]] = MappingProxyType(
    {"H7": story_h7.tell, "H0": story_h0.tell}
)
"""Invented cases by name, with what tells them."""

_INVENTED = (
    "Everything in this case is invented: companies, people, products, readings. "
    "Its micrographs are synthetic: a program drew them."
)


@dataclass(frozen=True, slots=True)
class DemoOutcome:
    """What the demonstration leaves behind.

    Parameters
    ----------
    case : Path
        Folder of the case.
    written : WrittenReport
        Files of the report.
    head : str
        Hash of the last entry.
    paragraphs : tuple of str
        What was found and what was not shown, in plain words.
    """

    case: Path
    written: WrittenReport
    head: str
    paragraphs: tuple[str, ...]


def run_demo(folder: Path, *, case: str = "H7", progress: Progress) -> DemoOutcome:
    """Tell an invented case into a new folder, report on it, and verify it.

    Parameters
    ----------
    folder : Path
        New or empty folder; gets the case and its report.
    case : str
        Name of the case.
    progress : callable
        Called with a fraction and words.

    Returns
    -------
    DemoOutcome
        Where things lie and what was found.

    Raises
    ------
    ParameterError
        If there is no such case.
    CaseExistsError
        If the folder holds anything.
    DamagedCaseError
        If the case does not verify, which would be a fault of the program.
    """
    if case not in CASES:
        raise ParameterError("case", case, allowed=" or ".join(CASES))
    if folder.exists() and (not folder.is_dir() or any(folder.iterdir())):
        raise CaseExistsError(folder)
    folder.mkdir(parents=True, exist_ok=True)
    with TemporaryDirectory() as scratch:
        told = Told(folder / case, Path(scratch), progress)
        CASES[case](told)
    progress(0.95, "the report is written")
    written = write_report(told.desk("R", "07-01"), folder / f"{case}-report.html")
    outcome = verify(told.folder)
    if not outcome.sound:
        raise DamagedCaseError(0, "the demonstration does not verify")
    progress(1.0, "verified")
    answer = report_answer(open_case(told.folder))
    return DemoOutcome(told.folder, written, outcome.head, (_INVENTED, *answer))
