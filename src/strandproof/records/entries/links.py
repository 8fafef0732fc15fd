"""What a body refers to: other entries by name, and files by hash."""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any, get_args

from pydantic import BaseModel
from pydantic.fields import FieldInfo

from strandproof.records.entries.bodies import AnyEntry, KeptFile, LabelOf

Marker = LabelOf | KeptFile | AnyEntry


@dataclass(frozen=True, slots=True)
class EntryLink:
    """A short name that must belong to an entry of the case.

    Parameters
    ----------
    kind : str
        Kind of the entry.
    label : str
        Its short name.
    """

    kind: str
    label: str


def entry_links(body: BaseModel) -> tuple[EntryLink, ...]:
    """List the entries that a body refers to.

    Parameters
    ----------
    body : BaseModel
        Body of an entry, or a record inside it.

    Returns
    -------
    tuple of EntryLink
        In the order of the fields; doubles are kept.
    """
    links: list[EntryLink] = []
    for marker, value in _marked_values(body):
        if isinstance(marker, LabelOf):
            links.append(EntryLink(marker.kind, value))
        elif isinstance(marker, AnyEntry):
            kind, _, label = value.partition("/")
            links.append(EntryLink(kind, label))
    return tuple(links)


def file_links(body: BaseModel) -> tuple[str, ...]:
    """List the hashes of the files that a body refers to.

    Parameters
    ----------
    body : BaseModel
        Body of an entry, or a record inside it.

    Returns
    -------
    tuple of str
        SHA-256 in hexadecimal, in the order of the fields.
    """
    return tuple(
        value for marker, value in _marked_values(body) if isinstance(marker, KeptFile)
    )


def _marked_values(body: BaseModel) -> Iterator[tuple[Marker, str]]:
    for name, field in type(body).model_fields.items():
        value = getattr(body, name)
        for leaf in _leaves(value):
            if isinstance(leaf, BaseModel):
                yield from _marked_values(leaf)
            elif isinstance(leaf, str):
                marker = _marker_of(field)
                if marker is not None:
                    yield marker, leaf


def _leaves(value: object) -> Iterator[object]:
    if isinstance(value, dict):
        yield from value.values()
    elif isinstance(value, tuple):
        yield from value
    else:
        yield value


def _marker_of(field: FieldInfo) -> Marker | None:
    for item in (*field.metadata, *_nested(field.annotation)):
        if isinstance(item, LabelOf | KeptFile | AnyEntry):
            return item
    return None


def _nested(annotation: Any) -> Iterator[object]:  # noqa: ANN401 - typing constructs have no common type
    yield from getattr(annotation, "__metadata__", ())
    for argument in get_args(annotation):
        yield from _nested(argument)
