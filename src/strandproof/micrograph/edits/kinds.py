"""What a person can change in a segmentation, as records and as plain data.

An edit holds only points on the picture, so it can be kept beside the picture and
applied again to whatever a later method finds there.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from math import isfinite
from typing import ClassVar

from strandproof.errors import ParameterError

Point = tuple[float, float]

REACH_PX = 3.0
"""A stroke of a person counts as on a boundary up to this far from it [px]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class _Drawn:
    """Something drawn on the picture.

    Parameters
    ----------
    points_px : tuple of tuple of float
        Rows and columns [px]; the centre of the first pixel is (0, 0).
    """

    kind: ClassVar[str] = ""
    least_points: ClassVar[int] = 2

    points_px: tuple[Point, ...]

    def __post_init__(self) -> None:
        if len(self.points_px) < self.least_points:
            raise ParameterError(
                self.named("points_px"),
                self.points_px,
                allowed=f"{self.least_points} points or more",
            )
        for point in self.points_px:
            if len(point) != 2 or not all(isfinite(each) for each in point):
                raise ParameterError(
                    self.named("point"),
                    point,
                    allowed="a row and a column, both finite numbers",
                )

    @classmethod
    def named(cls, part: str) -> str:
        """Name a part of such an edit, for messages.

        Parameters
        ----------
        part : str
            The part.

        Returns
        -------
        str
            For example ``"points_px of 'add boundary'"``.
        """
        return f"{part} of '{cls.kind}'"


@dataclass(frozen=True, slots=True, kw_only=True)
class AddBoundary(_Drawn):
    """A grain boundary that was missed: a line through its points.

    An open end that stops up to 4 px short of a boundary or an edge is led on to it.
    """

    kind: ClassVar[str] = "add boundary"


@dataclass(frozen=True, slots=True, kw_only=True)
class EraseBoundary(_Drawn):
    """A line that is no grain boundary: the grains at its sides are one.

    The whole border between those grains goes, up to where a third grain begins.
    """

    kind: ClassVar[str] = "erase boundary"


@dataclass(frozen=True, slots=True, kw_only=True)
class MarkTwin(_Drawn):
    """A line that is the side of a twin: the grains are one, the line is kept."""

    kind: ClassVar[str] = "mark twin"


@dataclass(frozen=True, slots=True, kw_only=True)
class ExcludeArea(_Drawn):
    """A polygon where nothing can be told: it is measured no more."""

    kind: ClassVar[str] = "exclude area"
    least_points: ClassVar[int] = 3


@dataclass(frozen=True, slots=True, kw_only=True)
class TakeInArea(_Drawn):
    """A polygon that can be read after all.

    What an earlier edit excluded comes back as it was. Where the method itself found
    nothing readable, the grains around are continued into the area; boundaries made
    so were seen by nobody and have probability 0.
    """

    kind: ClassVar[str] = "take in area"
    least_points: ClassVar[int] = 3


Edit = AddBoundary | EraseBoundary | MarkTwin | ExcludeArea | TakeInArea

_KINDS: dict[str, type[Edit]] = {
    each.kind: each
    for each in (AddBoundary, EraseBoundary, MarkTwin, ExcludeArea, TakeInArea)
}


_FARTHEST_PX = 1e9  # no picture is so large; JSON holds numbers that no float does


def edits_as_plain_data(edits: Sequence[Edit]) -> dict[str, object]:
    """Give edits as plain data, ready for JSON.

    Parameters
    ----------
    edits : sequence of Edit
        In the order in which they are applied.

    Returns
    -------
    dict
        ``{"edits": [{"kind": ..., "points_px": [[row, column], ...]}, ...]}``.

    Examples
    --------
    >>> edits_as_plain_data([AddBoundary(points_px=((0.0, 1.0), (9.0, 1.0)))])
    {'edits': [{'kind': 'add boundary', 'points_px': [[0.0, 1.0], [9.0, 1.0]]}]}
    """
    return {
        "edits": [
            {"kind": edit.kind, "points_px": [list(each) for each in edit.points_px]}
            for edit in edits
        ]
    }


def edits_from_plain_data(data: object) -> tuple[Edit, ...]:
    """Make edits from plain data.

    Parameters
    ----------
    data : object
        What `edits_as_plain_data` gives, as read from JSON.

    Returns
    -------
    tuple of Edit
        In the order given.

    Raises
    ------
    ParameterError
        If the data have another form; the text names the edit at fault.
    """
    listed = None
    if isinstance(data, Mapping) and set(data) == {"edits"}:
        listed = data["edits"]
    if not isinstance(listed, list):
        # What was read may be long: its keys, or its kind, say enough.
        given = list(data) if isinstance(data, Mapping) else type(data).__name__
        raise ParameterError(
            "file of edits", given, allowed='an object with one list, {"edits": [...]}'
        )
    return tuple(_edit(number, each) for number, each in enumerate(listed, start=1))


def _edit(number: int, data: object) -> Edit:
    named = f"edit {number}"
    if not isinstance(data, Mapping) or set(data) != {"kind", "points_px"}:
        raise ParameterError(
            named, data, allowed="an object with 'kind' and 'points_px'"
        )
    kind = _KINDS.get(data["kind"]) if isinstance(data["kind"], str) else None
    if kind is None:
        named += ", its kind,"
        raise ParameterError(named, data["kind"], allowed=" or ".join(_KINDS))
    points = data["points_px"]
    if not isinstance(points, list):
        points = [points]
    wrong = [each for each in points if not _is_point(each)]
    if wrong:
        named += ", its points_px,"
        raise ParameterError(
            named,
            wrong[0],
            allowed="a list of points, each a list of two numbers: row, column",
        )
    return kind(points_px=tuple((float(row), float(col)) for row, col in points))


def _is_point(data: object) -> bool:
    return (
        isinstance(data, list)
        and len(data) == 2
        and all(isinstance(each, int | float) for each in data)
        and not any(isinstance(each, bool) for each in data)
        and all(abs(each) <= _FARTHEST_PX for each in data)
    )
