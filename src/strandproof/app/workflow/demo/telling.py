"""Telling an invented case: who does what at which moment."""

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

from strandproof.app.workflow.entering import (
    Desk,
    enter,
    enter_claim,
    enter_micrograph,
    enter_together,
)

Progress = Callable[[float, str], None]
Fields = Mapping[str, Any]

YEAR = 2031


@dataclass(frozen=True, slots=True)
class Told:
    """Where an invented case is told.

    Parameters
    ----------
    folder : Path
        Folder of the case.
    scratch : Path
        Folder for files on their way into the case.
    progress : callable
        Called with a fraction and words.
    """

    folder: Path
    scratch: Path
    progress: Progress

    def desk(self, person: str, day: str) -> Desk:
        """Give the desk of a person on a day of the invented year.

        Parameters
        ----------
        person : str
            Who works there.
        day : str
            Month and day, with the hour if it matters: ``"04-02"``,
            ``"05-06 16:40"``.

        Returns
        -------
        Desk
            Its clock stands still.
        """
        moment = moment_of(day)
        return Desk(self.folder, person, lambda: moment)

    def file(self, name: str, content: str | bytes) -> Path:
        """Write a file that is to be brought into the case.

        Parameters
        ----------
        name : str
            Name.
        content : str or bytes
            Words, or a picture.

        Returns
        -------
        Path
            Where it lies.
        """
        path = self.scratch / name
        data = content.encode("utf-8") if isinstance(content, str) else content
        path.write_bytes(data)
        return path

    def claim(self, person: str, day: str, fields: Fields, *, shown: str) -> None:
        """Enter a claim with a file that shows its words.

        Parameters
        ----------
        person, day : str
            Who, when.
        fields : mapping
            Fields of the claim.
        shown : str
            Content of the file.
        """
        capture = self.file(f"{fields['id']}.txt", shown)
        said = {"said_at": moment_of(day), **fields}
        enter_claim(self.desk(person, day), said, capture=capture)

    def entries(self, person: str, day: str, *drafts: tuple[str, Fields]) -> None:
        """Enter things of any kind, together.

        Parameters
        ----------
        person, day : str
            Who, when.
        *drafts : tuple of (str, mapping)
            Kind and fields.
        """
        enter_together(self.desk(person, day), drafts)

    def with_file(
        self, person: str, day: str, kind: str, *, fields: Fields, file: tuple[str, str]
    ) -> None:
        """Enter something that has one file of words.

        Parameters
        ----------
        person, day, kind : str
            Who, when, what.
        fields : mapping
            Its fields.
        file : tuple of (str, str)
            Field of the hash, and the words.
        """
        field, words = file
        path = self.file(f"{fields['id']}.txt", words)
        enter(self.desk(person, day), kind, fields, files={field: path})

    def micrographs(
        self, person: str, day: str, pictures: Iterable[tuple[Fields, bytes]]
    ) -> None:
        """Enter micrographs.

        Parameters
        ----------
        person, day : str
            Who, when.
        pictures : iterable of (mapping, bytes)
            Fields and PNG.
        """
        desk = self.desk(person, day)
        for fields, png in pictures:
            path = self.file(f"{fields['id']}.png", png)
            enter_micrograph(desk, {"synthetic": True, **fields}, picture=path)


def moment_of(day: str) -> datetime:
    """Read a moment of the invented year, in UTC.

    Parameters
    ----------
    day : str
        ``"04-02"`` (noon) or ``"04-02 19:12"``.

    Returns
    -------
    datetime
        The moment.
    """
    date, _, hour = day.partition(" ")
    return datetime.fromisoformat(f"{YEAR}-{date}T{hour or '12:00'}").replace(
        tzinfo=UTC
    )
