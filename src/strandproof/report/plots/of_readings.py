"""Plots of what the grain-size part found: marks of readers, directions, levels."""

from collections.abc import Sequence

from markupsafe import Markup

from strandproof.grainsize import FieldCount, NestedMeans
from strandproof.grainsize.by_level import NestedValues, unit_means
from strandproof.grainsize.marks import (
    DirectionCluster,
    LineMark,
    MarkComparison,
    MarkedLine,
    doubted_directions,
)
from strandproof.report.plots.levels import (
    CableValues,
    LevelMean,
    StrandValues,
    level_scatter_svg,
)
from strandproof.report.plots.marks import DrawnMark, ReaderMarks, reader_marks_svg
from strandproof.report.plots.means import MeanWithInterval
from strandproof.report.plots.rose import direction_rose_svg


def reader_marks_plots(
    first: Sequence[MarkedLine],
    second: Sequence[MarkedLine],
    comparison: MarkComparison,
    *,
    readers: tuple[str, str],
    title: str,
) -> tuple[Markup, ...]:
    """Draw two readers' marks, one drawing for each test line.

    Parameters
    ----------
    first, second : sequence of MarkedLine
        The same lines as each reader marked them.
    comparison : MarkComparison
        Which marks are the same.
    readers : tuple of str
        The readers, in that order.
    title : str
        Which field.

    Returns
    -------
    tuple of Markup
        SVG elements, in the order of the first reader's lines.
    """
    theirs = {marked.line.number: marked for marked in second}
    return tuple(
        reader_marks_svg(
            _drawn(readers[0], mine),
            _drawn(readers[1], theirs[mine.line.number]),
            length=mine.line.length_px,
            unit="px",
            title=f"{title}, test line {mine.line.number}",
            same=_same(mine, theirs[mine.line.number], comparison),
        )
        for mine in first
    )


def mark_directions_plot(
    marks: Sequence[LineMark], cluster: DirectionCluster | None, *, title: str
) -> Markup:
    """Draw the directions that a hint looks at, and the range it points at.

    Parameters
    ----------
    marks : sequence of LineMark
        A reading's marks; those taken for boundaries, or uncertain, are drawn where
        the reader noted a direction.
    cluster : DirectionCluster or None
        The range to point at.
    title : str
        Whose marks on which field.

    Returns
    -------
    Markup
        An SVG element; without any direction there is nothing to draw, and it is
        refused.
    """
    return direction_rose_svg(
        doubted_directions(marks)[1],
        title=title,
        what="marks (boundary or uncertain)",
        pointed_at_deg=None if cluster is None else (cluster.from_deg, cluster.to_deg),
    )


def level_scatter_plot(
    counts: Sequence[FieldCount], means: NestedMeans, *, title: str
) -> Markup:
    """Draw mean intercepts of fields, strands and leads, with the intervals by level.

    Parameters
    ----------
    counts : sequence of FieldCount
        The fields that the means were made from.
    means : NestedMeans
        Means and intervals.
    title : str
        Of which pieces.

    Returns
    -------
    Markup
        An SVG element.
    """
    values = NestedValues(
        levels=("lead", "strand", "section", "field"),
        places=tuple((c.lead, c.strand, c.section, c.field) for c in counts),
        values=tuple(count.mean_intercept_um() for count in counts),
    )
    leads, strands = unit_means(values, 1), unit_means(values, 2)
    cables = [
        CableValues(
            name=lead,
            mean=mean,
            strands=tuple(
                StrandValues(
                    # Strands are often named for their lead, which stands beside them.
                    name=strand.removeprefix(f"{lead}-"),
                    values=_fields(values, (lead, strand)),
                    mean=strand_mean,
                )
                for (of_lead, strand), strand_mean in strands.items()
                if of_lead == lead
            ),
        )
        for (lead,), mean in leads.items()
    ]
    levels = [
        LevelMean(
            units=f"{each.level}s",
            count=each.units,
            mean=MeanWithInterval.of_estimate(each.estimate),
            holds=True,
            speaks_for=each.speaks_for,
            # Only the outermost level speaks for more than what was examined.
            narrow=each.level != "lead",
        )
        for each in means.levels
    ]
    return level_scatter_svg(
        cables, levels=levels, quantity="mean lineal intercept", unit="um", title=title
    )


def _drawn(reader: str, marked: MarkedLine) -> ReaderMarks:
    length = marked.line.length_px
    return ReaderMarks(
        reader,
        tuple(
            # A mark at the very end may lie past it by rounding.
            DrawnMark(min(max(mark.along_px, 0.0), length), mark.feature)
            for mark in marked.marks
        ),
    )


def _same(
    first: MarkedLine, second: MarkedLine, comparison: MarkComparison
) -> list[tuple[int, int]]:
    """Find the places of paired marks; equal marks of one reader are told apart."""
    mine = list(enumerate(first.marks))
    theirs = list(enumerate(second.marks))
    return [
        (_taken(mine, pair.first), _taken(theirs, pair.second))
        for pair in comparison.matched
        if pair.line == first.line.number and pair.first and pair.second
    ]


def _taken(left: list[tuple[int, LineMark]], mark: LineMark) -> int:
    place = next(k for k, (_, each) in enumerate(left) if each == mark)
    return left.pop(place)[0]


def _fields(values: NestedValues, unit: tuple[str, str]) -> tuple[float, ...]:
    pairs = zip(values.places, values.values, strict=True)
    return tuple(value for place, value in pairs if place[:2] == unit)
