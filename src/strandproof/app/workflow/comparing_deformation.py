"""The use case that compares pictures of a strand before and after handling."""

from collections.abc import Callable, Sequence
from pathlib import Path
from typing import Any, cast

from strandproof.app.workflow.bench_findings import BenchFinding
from strandproof.app.workflow.budget_lines import flags_in_words
from strandproof.micrograph.slip_traces import slip_trace_field
from strandproof.physical import compare_deformation
from strandproof.quantity import Quantity
from strandproof.records.entries import (
    ClaimKind,
    MeasuredValue,
    MeasurementResult,
)
from strandproof.records.entries.numbers import measured_value
from strandproof.records.physical import (
    DeformationComparison,
    HandlingFacts,
    SlipTraceField,
)
from strandproof.records.plain_data import as_plain_data
from strandproof.storage import read_picture

Progress = Callable[[float, str], None]


def compare_pictures(
    before: Sequence[Path],
    after: Sequence[Path],
    facts: HandlingFacts,
    *,
    um_per_px: float,
    progress: Progress | None = None,
) -> DeformationComparison:
    """Find slip traces on pictures and decide whether handling changed them.

    Parameters
    ----------
    before, after : sequence of Path
        Pictures of the same strand, taken alike; five or more each for a decision.
    facts : HandlingFacts
        What was done between.
    um_per_px : float
        Pixel size of all of them [um].
    progress : callable or None
        Called with a fraction and words.

    Returns
    -------
    DeformationComparison
        The verdict with its reason.

    Raises
    ------
    ParameterError
        If the pixel size is not above zero.
    PictureError
        If a picture cannot be read or is too small.
    """
    fields = []
    pictures = [*before, *after]
    for number, path in enumerate(pictures):
        if progress is not None:
            progress(number / len(pictures), path.name)
        fields.append(_field(path, um_per_px))
    return compare_deformation(fields[: len(before)], fields[len(before) :], facts)


def _field(path: Path, um_per_px: float) -> SlipTraceField:
    picture = read_picture(path, um_per_px=um_per_px)
    return slip_trace_field(
        picture.pixels, pixel_size_um=um_per_px, name=path.name, valid=picture.valid
    )


def deformation_in_words(found: DeformationComparison) -> tuple[str, ...]:
    """Say what the comparison decided and what it does not answer.

    Parameters
    ----------
    found : DeformationComparison
        From `compare_pictures`.

    Returns
    -------
    tuple of str
        Lines for people.
    """
    sides = (("before", found.before), ("after", found.after))
    fields = [
        f"  {side}, {field.name}: {_field_in_words(field)}"
        for side, fields in sides
        for field in fields
    ]
    share = f"{100 * found.error_rate:g} %"
    rate = (
        f"Changed is wrong in at most {share} where nothing changed; not changed in "
        f"about {share} where just as much changed as matters."
    )
    return (
        found.sentences[0],
        *fields,
        *found.sentences[1:],
        rate,
        *flags_in_words(found.flags),
    )


def _field_in_words(field: SlipTraceField) -> str:
    lines = f"{field.lines_per_mm:.3g} lines per mm"
    if field.main_direction_deg is None:
        return lines
    return (
        f"{lines}, main direction {field.main_direction_deg:.0f} deg "
        f"(alignment {field.alignment:.2f})"
    )


def deformation_data(found: DeformationComparison) -> dict[str, Any]:
    """Give a comparison as plain data.

    Parameters
    ----------
    found : DeformationComparison
        From `compare_pictures`.

    Returns
    -------
    dict
        JSON data; flags by name.
    """
    data = cast("dict[str, Any]", as_plain_data(found))
    return {**data, "flags": [flag.name for flag in found.flags]}


def deformation_finding(found: DeformationComparison) -> BenchFinding:
    """Give a comparison in the form that a case holds.

    Parameters
    ----------
    found : DeformationComparison
        From `compare_pictures`.

    Returns
    -------
    BenchFinding
        Bears on the crystal state: what lines on a section may be.
    """
    return BenchFinding(
        method="slip traces before and after handling, structure tensor",
        results=(
            MeasurementResult(
                name="change_of_slip_traces_per_mm",
                value=_difference(found),
                words=f"{found.verdict}; {found.sentences[0]}",
            ),
        ),
        bears_on=(ClaimKind.CRYSTAL_STATE,),
        sentence=" ".join(found.sentences),
        flags=tuple(dict.fromkeys(flag.name for flag in found.flags)),
    )


def _difference(found: DeformationComparison) -> MeasuredValue | None:
    # A case holds a number with its interval; without an interval it holds none.
    interval = found.difference
    if interval is None or interval.lower is None or interval.upper is None:
        return None
    middle = 0.5 * (interval.lower + interval.upper)
    return measured_value(Quantity(middle, interval.unit), interval)
