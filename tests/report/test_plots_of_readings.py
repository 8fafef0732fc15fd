"""Plots of readings: the numbers of the grain-size part come out as they went in."""

import pytest
from svg_reading import described, parsed, shapes, written

from strandproof.errors import ParameterError
from strandproof.grainsize import FieldCount, nested_means
from strandproof.grainsize.marks import (
    LineMark,
    MarkedLine,
    StraightTestLine,
    compare_marks,
    greatest_cluster,
)
from strandproof.report.plots import (
    level_scatter_plot,
    mark_directions_plot,
    reader_marks_plots,
)
from strandproof.report.plots.canvas import RANGE

LINES = [
    StraightTestLine(number=number, start_px=(0.0, row), end_px=(600.0, row))
    for number, row in ((1, 100.0), (2, 200.0))
]


def marked(number: int, *marks: LineMark) -> MarkedLine:
    return MarkedLine(line=LINES[number - 1], marks=marks)


def boundary(along_px: float, direction_deg: float | None = None) -> LineMark:
    return LineMark(along_px=along_px, feature="boundary", direction_deg=direction_deg)


TWIN = LineMark(along_px=303.0, feature="twin")
# The two equal marks of the first reader must each keep their own partner.
FIRST = [marked(1, boundary(50), boundary(50), boundary(300)), marked(2)]
SECOND = [marked(2, boundary(10)), marked(1, boundary(51), boundary(49), TWIN)]


def test_every_line_is_drawn_with_its_own_pairs() -> None:
    drawings = reader_marks_plots(
        FIRST,
        SECOND,
        compare_marks(FIRST, SECOND, tolerance_px=4.0),
        readers=("A1", "A2"),
        title="DQV-835 field 3",
    )
    titles, told = zip(*(described(parsed(each)) for each in drawings), strict=True)
    assert titles == ("DQV-835 field 3, test line 1", "DQV-835 field 3, test line 2")
    assert "3 places marked by both, 2 as the same thing" in told[0]
    assert "1 as different things" in told[0]
    assert "marked by one only, A1 0, A2 1" in told[1]
    assert "place on the line, px" in written(parsed(drawings[0]))


def test_mark_past_the_end_by_rounding_is_drawn_at_the_end() -> None:
    lines = [marked(1, boundary(600.0 + 1e-7))]
    (drawing,) = reader_marks_plots(
        lines,
        [marked(1)],
        compare_marks(lines, [marked(1)], tolerance_px=4.0),
        readers=("A1", "A2"),
        title="t",
    )
    (circle,) = shapes(parsed(drawing), "circle")
    assert circle.get("cx") == "378.0"


def test_rose_points_at_the_cluster_of_the_hint() -> None:
    angles = (27.1, 28.3, 29.9, 120.0, 5.5)
    marks = [boundary(20.0 * k, angle) for k, angle in enumerate(angles)]
    marks.append(LineMark(along_px=590, feature="scratch", direction_deg=28.0))
    cluster = greatest_cluster(angles, within_deg=3.0)
    assert cluster is not None
    _, told = described(parsed(mark_directions_plot(marks, cluster, title="A2")))
    assert "3 of 5 marks (boundary or uncertain) lie within 2.8°" in told
    _, plain = described(parsed(mark_directions_plot(marks, None, title="A2")))
    assert "lie within" not in plain


def test_marks_without_directions_have_no_rose() -> None:
    with pytest.raises(ParameterError, match="one direction or more"):
        mark_directions_plot([boundary(10)], None, title="A2")


def test_levels_have_the_means_and_intervals_of_the_nested_means() -> None:
    counts = [
        FieldCount(
            lead=lead,
            strand=f"{lead}-s{strand}",
            field=str(field),
            line_length_um=100.0,
            boundaries=boundaries + field,
        )
        for lead, boundaries in (("E1", 11), ("E2", 12), ("E3", 10))
        for strand in (1, 2)
        for field in (0, 1, 2)
    ]
    means = nested_means(counts)
    svg = parsed(level_scatter_plot(counts, means, title="H7"))
    assert len([c for c in shapes(svg, "circle") if c.get("r") == "3.5"]) == 18
    lines = written(svg)
    assert lines.count("s1") == lines.count("s2") == 3
    _, told = described(svg)
    for lead, mean in means.lead_means_um:
        assert f"{lead} {mean:.3g} µm from 2 strands and 6 fields" in told
    for level in means.levels:
        assert f"{level.units} {level.level}s: " in told
        assert f", for {level.speaks_for}." in told


def test_only_the_interval_by_lead_is_a_thick_bar() -> None:
    counts = [
        FieldCount(
            lead=lead,
            strand=f"{lead}-{strand}",
            field="1",
            line_length_um=100.0,
            boundaries=boundaries + strand,
        )
        for lead, boundaries in (("E1", 11), ("E2", 13))
        for strand in (1, 2)
    ]
    svg = parsed(level_scatter_plot(counts, nested_means(counts), title="H7"))
    bars = [each for each in shapes(svg, "line") if each.get("stroke") == RANGE]
    assert [each.get("stroke-width") for each in bars] == ["8", "3"]
    assert "for the very pieces examined only" in " ".join(written(svg))
