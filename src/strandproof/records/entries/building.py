"""From fields as they were typed to a checked body, or to words about the faults."""

from collections.abc import Mapping
from typing import Any

from pydantic import ValidationError

from strandproof.errors import InvalidEntryError, ParameterError
from strandproof.records.entries.bodies import CaseRecord
from strandproof.records.entries.kinds import ENTRY_KINDS, kind_in_words


def build_body(kind: str, fields: Mapping[str, Any]) -> CaseRecord:
    """Build the body of an entry from its fields.

    Parameters
    ----------
    kind : str
        Name of a registered kind.
    fields : mapping
        Field names with values, as JSON would hold them.

    Returns
    -------
    CaseRecord
        The checked body.

    Raises
    ------
    ParameterError
        If the kind is not known.
    InvalidEntryError
        If a field is missing, unknown or does not fit; every fault is named.

    Examples
    --------
    >>> build_body("case", {"id": "H0", "title": "A rod", "owner": "R"}).id
    'H0'
    """
    if kind not in ENTRY_KINDS:
        raise ParameterError("kind", kind, allowed="one of " + ", ".join(ENTRY_KINDS))
    try:
        return ENTRY_KINDS[kind].model_validate(dict(fields))
    except ValidationError as error:
        raise InvalidEntryError(kind_in_words(kind), faults_in_words(error)) from None


def faults_in_words(error: ValidationError) -> tuple[str, ...]:
    """Say what does not fit, one sentence a field.

    Parameters
    ----------
    error : ValidationError
        What the record found.

    Returns
    -------
    tuple of str
        Sentences that name field, value and what is allowed.
    """
    faults = error.errors(include_url=False)
    places = [fault["loc"] for fault in faults]
    return tuple(
        f"{'.'.join(str(step) for step in fault['loc']) or 'entry'}: "
        f"{fault['msg']} (given: {fault['input']!r})."
        for fault in faults
        if not any(_lies_within(place, fault["loc"]) for place in places)
    )


def _lies_within(place: tuple[int | str, ...], whole: tuple[int | str, ...]) -> bool:
    """Tell whether a fault lies inside of another, which is then only its echo."""
    return len(place) > len(whole) and place[: len(whole)] == whole
