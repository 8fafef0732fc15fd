"""Cases in memory for tests of the report, and readers of what it writes."""

import re
import zlib
from collections.abc import Callable, Mapping
from html.parser import HTMLParser
from typing import Any, TypeVar

import numpy as np
from case_examples import BODIES, CASE, moment
from pydantic import ValidationError

from strandproof.records.case_state import NO_HEAD, CaseState, fold
from strandproof.records.entries import (
    Calibration,
    CaseRecord,
    Entry,
    Exhibit,
    Measurement,
    Micrograph,
    Section,
    Specimen,
)
from strandproof.report import CaseReport, MicrographPicture, case_report
from strandproof.storage import preview_jpeg
from strandproof.storage.entry_lines import seal_entry

RecordT = TypeVar("RecordT", bound=CaseRecord)

JPEG = preview_jpeg(np.full((12, 18, 3), 90, np.uint8), max_side=18)


def state_of(*bodies: CaseRecord, case: CaseRecord = CASE) -> CaseState:
    """Build the state of a case in memory; files and links are not checked."""
    entries: list[Entry] = []
    for body in (case, *bodies):
        entries.append(
            seal_entry(
                body,
                number=len(entries) + 1,
                previous_sha256=entries[-1].sha256 if entries else NO_HEAD,
                recorded_at=moment(9, 1),
                recorded_by="R",
            )
        )
    return fold(entries)


def example_state(
    change: Callable[[CaseRecord], CaseRecord] = lambda body: body,
) -> CaseState:
    """Build the state of the example case, each body changed first."""
    case, *others = map(change, BODIES)
    return state_of(*others, case=case)


def like(record: type[RecordT], **changes: Any) -> RecordT:  # noqa: ANN401 - fields differ in type
    """Take the example of a kind and change fields; everything is checked again."""
    body = next(each for each in BODIES if isinstance(each, record))
    return record.model_validate({**body.model_dump(), **changes})


def things() -> tuple[CaseRecord, ...]:
    """Give an exhibit with one specimen, its section, and a calibration."""
    return like(Exhibit), like(Specimen), like(Section), like(Calibration)


def measured_pictures(count: int, **changes: Any) -> tuple[CaseRecord, ...]:  # noqa: ANN401 - fields differ in type
    """Give that many micrographs of one section, each with a measurement."""
    pictures = [like(Micrograph, id=f"p{k}") for k in range(count)]
    single = [
        like(Measurement, id=f"m{k}", measures=f"micrograph/p{k}", **changes)
        for k in range(count)
    ]
    return (*things(), *pictures, *single)


def report_on(
    state: CaseState, pictures: Mapping[str, MicrographPicture] | None = None
) -> CaseReport:
    return case_report(
        state, pictures=pictures or {}, made_at=moment(9, 2), program="a test"
    )


def picture(width_px: int = 1800, height_px: int = 1200) -> MicrographPicture:
    return MicrographPicture(JPEG, width_px, height_px)


def typed_as(body: CaseRecord, words: str) -> CaseRecord:
    """Put words into every field of a record that takes any words."""
    data = body.model_dump()
    for path in _paths(data):
        changed = _with(data, path, words)
        try:
            type(body).model_validate(changed)
        except ValidationError:
            continue
        data = changed
    return type(body).model_validate(data)


def _paths(data: object, so_far: tuple[Any, ...] = ()) -> list[tuple[Any, ...]]:
    if isinstance(data, str):
        return [] if so_far == ("id",) else [so_far]
    if isinstance(data, Mapping):
        steps = list(data.items())
    elif isinstance(data, list | tuple):
        steps = list(enumerate(data))
    else:
        return []
    return [path for step, part in steps for path in _paths(part, (*so_far, step))]


def _with(data: Any, path: tuple[Any, ...], words: str) -> Any:  # noqa: ANN401 - plain data
    if not path:
        return words
    step, *rest = path
    if isinstance(data, Mapping):
        return {**data, step: _with(data[step], tuple(rest), words)}
    parts = list(data)
    parts[step] = _with(parts[step], tuple(rest), words)
    return parts


class PageReader(HTMLParser):
    """Collects what a page is made of."""

    def __init__(self, page: str) -> None:
        super().__init__()
        self.tags: list[tuple[str, dict[str, str | None]]] = []
        self.words: list[str] = []
        self._in_style = False
        self.feed(page)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.append((tag, dict(attrs)))
        self._in_style = tag == "style"

    def handle_endtag(self, tag: str) -> None:
        if tag == "style":
            self._in_style = False

    def handle_data(self, data: str) -> None:
        if not self._in_style:
            self.words.append(data)

    @property
    def names(self) -> list[str]:
        """Names of the elements, in order."""
        return [name for name, _ in self.tags]

    @property
    def text(self) -> str:
        """All words, with single spaces."""
        return " ".join(" ".join(self.words).split())


def pdf_parts(paper: bytes) -> bytes:
    """Give a PDF with its packed streams unpacked behind it."""
    unpacked = []
    for packed in re.findall(rb"stream\r?\n(.*?)\r?\nendstream", paper, re.DOTALL):
        try:
            unpacked.append(zlib.decompress(packed))
        except zlib.error:
            continue
    return b"\n".join([paper, *unpacked])
