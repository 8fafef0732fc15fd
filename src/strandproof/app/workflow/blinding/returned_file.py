"""Readings as a reader sends them back: JSON from the command, or the filled table."""

import csv
import json
from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import datetime
from pathlib import Path
from typing import Any

from strandproof.app.workflow.blinding.contents import RETURN_COLUMNS
from strandproof.errors import ReturnedReadingError

_ABOUT_PICTURE = ("seal", "picture", "verdict", "reason")
MARK_COLUMNS = tuple(each for each in RETURN_COLUMNS if each not in _ABOUT_PICTURE)
"""Columns of a row that say something of a mark."""

Row = Mapping[str, Any]


@dataclass(slots=True)
class ReturnedPicture:
    """What came back for one picture.

    Parameters
    ----------
    verdict, reason : str
        As stated; empty where not.
    read_at : datetime or None
        When it was read, where stated.
    rows : list of (str, mapping)
        Marks with their places in the file.
    """

    verdict: str = ""
    reason: str = ""
    read_at: datetime | None = None
    rows: list[tuple[str, Row]] = field(default_factory=list)


@dataclass(frozen=True, slots=True)
class ReturnedFile:
    """All that came back.

    Parameters
    ----------
    seals : frozenset of str
        Every seal that the file carries; a sound one carries one.
    pictures : mapping of str to ReturnedPicture
        By code and running number.
    """

    seals: frozenset[str]
    pictures: Mapping[str, ReturnedPicture]


def parse_returned(content: bytes, name: str) -> ReturnedFile:
    """Read a file of readings, JSON or CSV by the ending of its name.

    Parameters
    ----------
    content : bytes
        As it came.
    name : str
        Its name.

    Returns
    -------
    ReturnedFile
        Seal, verdicts and rows; nothing is checked against the hand-out yet.

    Raises
    ------
    ReturnedReadingError
        If it is no such file.
    """
    try:
        text = content.decode("utf-8-sig")
    except UnicodeDecodeError:
        raise ReturnedReadingError((f"{name} is not written in UTF-8.",)) from None
    if Path(name).suffix.lower() == ".json":
        return _of_json(text, name)
    return _of_table(text, name)


def _of_json(text: str, name: str) -> ReturnedFile:
    try:
        data = json.loads(text)
        pictures = {
            str(each["picture"]): _of_object(each, name) for each in data["readings"]
        }
        doubled = len(pictures) < len(data["readings"])
        seal = str(data["seal"])
    except (ValueError, KeyError, TypeError, AttributeError) as error:
        fault = f"{name} is no file of readings ({type(error).__name__}: {error})."
        raise ReturnedReadingError((fault,)) from None
    if doubled:
        raise ReturnedReadingError((f"{name} holds a picture twice.",))
    return ReturnedFile(frozenset({seal}), pictures)


def _of_object(each: Mapping[str, Any], name: str) -> ReturnedPicture:
    read_at = each.get("read_at")
    return ReturnedPicture(
        verdict=str(each.get("verdict") or ""),
        reason=str(each.get("reason") or ""),
        read_at=None if read_at is None else datetime.fromisoformat(read_at),
        rows=[
            (f"{name}, {each['picture']}, mark {number}", dict(mark))
            for number, mark in enumerate(each.get("marks") or (), 1)
        ],
    )


def _of_table(text: str, name: str) -> ReturnedFile:
    """Read the filled table.

    Raises
    ------
    ReturnedReadingError
        If its heading is another, or one picture has two verdicts.
    """
    heading = text.partition("\n")[0]
    # Some table programs write semicolons where the comma is the decimal sign.
    table = csv.DictReader(
        text.splitlines(), delimiter=";" if ";" in heading else ",", restval=""
    )
    if not {"seal", "picture", "verdict"} <= set(table.fieldnames or ()):
        fault = f"{name}: the first row must be {', '.join(RETURN_COLUMNS)}."
        raise ReturnedReadingError((fault,))
    seals: set[str] = set()
    pictures: dict[str, ReturnedPicture] = {}
    for row in table:
        cells = {key: (row.get(key) or "").strip() for key in RETURN_COLUMNS}
        if not any(cells.values()):
            continue
        where = f"{name}, line {table.line_num}"
        seals.add(cells["seal"])
        _take_row(
            pictures.setdefault(cells["picture"], ReturnedPicture()), cells, where
        )
    return ReturnedFile(frozenset(seals), pictures)


def _take_row(picture: ReturnedPicture, cells: Mapping[str, str], where: str) -> None:
    """Add one row to what is known of its picture.

    Raises
    ------
    ReturnedReadingError
        If it contradicts an earlier row.
    """
    for key in ("verdict", "reason"):
        before = getattr(picture, key)
        if cells[key] and before and cells[key] != before:
            fault = f"{where}: {key} {cells[key]!r}, but {before!r} stands above."
            raise ReturnedReadingError((fault,))
        setattr(picture, key, before or cells[key])
    mark = {key: cells[key] for key in MARK_COLUMNS if cells[key]}
    if mark:
        picture.rows.append((where, mark))
