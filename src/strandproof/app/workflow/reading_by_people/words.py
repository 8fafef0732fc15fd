"""A reading in words: counts, the doubtful, the direction hint."""

from collections.abc import Sequence
from math import floor, log10
from pathlib import Path

from strandproof.app.workflow.entering import open_case
from strandproof.app.workflow.reading_by_people.measured import count_of_reading
from strandproof.grainsize import intercept_g_estimate
from strandproof.grainsize.marks import DirectionCluster, MarkCount
from strandproof.quantity import Quantity, format_interval, unit_text
from strandproof.records.entries import Reading
from strandproof.records.measurement import Estimate

_PLURALS = {
    "boundary": "boundaries",
    "twin": "twins",
    "scratch": "scratches",
    "slip_trace": "slip traces",
    "strand_edge": "strand edges",
    "uncertain": "uncertain",
}
_NO_DIRECTIONS = (
    "No directions were noted on marks that count or might, so there is no direction "
    "hint."
)
_LOOK_AGAIN = (
    "Boundaries of grains that are longer one way, and two marks on one boundary, "
    "share a direction too. Look again; what you marked stays as it is."
)


def count_in_words(count: MarkCount) -> tuple[str, ...]:
    """Say what marks on test lines give.

    Parameters
    ----------
    count : MarkCount
        From `count_marks`.

    Returns
    -------
    tuple of str
        Counts; mean intercept with and without twins; the range for uncertain
        marks; interval and G, or why there is none.
    """
    seen = ", ".join(
        f"{number} {feature.replace('_', ' ') if number == 1 else _PLURALS[feature]}"
        for feature, number in count.counts.items()
        if number
    )
    length = f"{count.length.value:.1f} {unit_text(count.length.unit)}"
    lines = [f"{seen or 'Nothing'} marked on {length} of test line in metal."]
    if count.twins_excluded is None:
        lines.append(
            f"No boundary was marked on these {length}: that bounds nothing beyond "
            "them, and shows nothing that this method cannot see."
        )
        return tuple(lines)
    places = _decimals(count)
    lines.append(_means_in_words(count, count.twins_excluded, places))
    lines += _doubts_in_words(count, count.twins_excluded.quantity, places)
    lines += _interval_in_words(count, count.twins_excluded)
    return tuple(lines)


def reading_in_words(folder: Path, label: str) -> tuple[str, ...]:
    """Say what a reading found.

    Parameters
    ----------
    folder : Path
        Folder of the case.
    label : str
        Short name of the reading.

    Returns
    -------
    tuple of str
        The verdict and, with test lines, what the marks give.
    """
    state = open_case(folder)
    reading = state.record(Reading, label)
    lines = [f"Verdict: {reading.verdict.replace('_', ' ')}."]
    if reading.test_lines and reading.line_length_px is not None:
        lines += count_in_words(count_of_reading(state, reading))
    return tuple(lines)


def hint_in_words(
    clusters: Sequence[DirectionCluster], greatest: DirectionCluster | None
) -> tuple[str, ...]:
    """Say which marks share a direction, as a question.

    Parameters
    ----------
    clusters : sequence of DirectionCluster
        Shared directions that chance does not explain; marks by their numbers.
    greatest : DirectionCluster or None
        The largest cluster of all; None where no direction was noted.

    Returns
    -------
    tuple of str
        One sentence for each cluster, and what else may explain it.
    """
    if greatest is None:
        return (_NO_DIRECTIONS,)
    if not clusters:
        often = greatest.chance_at_most
        words = (
            f"No direction stands out: at most {len(greatest.marks)} of "
            f"{greatest.of_marks} marks lie within 3 deg. Chance explains that"
            f"{f' (at most {often:.2g})' if often < 0.5 else ''}."
        )
        return (words,)
    lines = [
        (
            f"{len(cluster.marks)} of {cluster.of_marks} marks lie within 3 deg, about "
            f"{cluster.middle_deg:.0f} deg: scratches? By chance at most "
            f"{cluster.chance_at_most:.1g}. "
            f"Marks {', '.join(map(str, cluster.marks))}."
        )
        for cluster in clusters
    ]
    return (*lines, _LOOK_AGAIN)


def _means_in_words(count: MarkCount, mean: Estimate, places: int) -> str:
    words = f"Mean intercept {_number(mean.quantity, places)} without twins"
    if count.counts["twin"] and count.twins_counted is not None:
        counted = _number(count.twins_counted.quantity, places)
        words += f", {counted} with twins counted"
    return words + "."


def _doubts_in_words(count: MarkCount, mean: Quantity, places: int) -> list[str]:
    lines = []
    uncertain = count.counts["uncertain"]
    if count.uncertain_counted is not None and uncertain:
        marks = "uncertain mark is" if uncertain == 1 else "uncertain marks are"
        lines.append(
            f"Between {count.uncertain_counted.value:.{places}f} and "
            f"{_number(mean, places)} without twins, as {uncertain} {marks} in or out."
        )
    if count.other_tangent_rule is not None:
        other = "one" if count.scores.tangent == "half" else "one half"
        lines.append(
            f"Tangents counted as {other} instead: "
            f"{_number(count.other_tangent_rule, places)}."
        )
    return lines


def _interval_in_words(count: MarkCount, mean: Estimate) -> list[str]:
    lines = []
    if mean.interval95 is not None:
        lines.append(
            f"95 % interval of this one reading: "
            f"{format_interval(mean.interval95).partition(' (')[0]}, wide for "
            "boundaries; it does not speak for a lead."
        )
    if mean.quantity.unit == "px":
        lines.append("No scale is known: lengths in pixels, no grain size number.")
    else:
        words = f"Grain size number G {_g(mean)}, twins excluded"
        if count.counts["twin"] and count.twins_counted is not None:
            words += f"; {_g(count.twins_counted)} with twins counted"
        lines.append(f"{words}.")
    return lines


def _g(mean: Estimate) -> str:
    return f"{intercept_g_estimate(mean).quantity.value:.1f}"


def _number(quantity: Quantity, places: int) -> str:
    return f"{quantity.value:.{places}f} {unit_text(quantity.unit)}"


def _decimals(count: MarkCount) -> int:
    """Decimals that leave two figures of the least mean: one reading has no more."""
    means = [
        count.twins_counted and count.twins_counted.quantity.value,
        count.uncertain_counted and count.uncertain_counted.value,
    ]
    least = min(mean for mean in means if mean)
    return max(0, 1 - floor(log10(least)))
