"""A person's edits win over what a method found, and nothing else changes."""

import json
from dataclasses import replace

import numpy as np
import numpy.typing as npt
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy import ndimage

from strandproof.errors import ParameterError
from strandproof.micrograph.edits import (
    AddBoundary,
    Edit,
    EraseBoundary,
    ExcludeArea,
    MarkTwin,
    TakeInArea,
    edits_as_plain_data,
    edits_from_plain_data,
    verdict_after_edits,
    with_edits,
)
from strandproof.records import BoundarySegments, Flag, LabelledStructure, Strand

Labels = npt.NDArray[np.int32]
SIDE, CELL = 120, 30  # grains of 29 px with lines of 1 px between
ROWS, COLS = np.indices((SIDE, SIDE))
PART_FIRST = AddBoundary(points_px=((15, -0.4), (15, 28)))


def strand(number: int, labels: Labels) -> Strand:
    return Strand(
        number=number,
        area_px=float((labels == number).sum()),
        centroid_px=(0.0, 0.0),
        length_px=120.0,
        width_px=60.0,
        axis_deg=90.0,
        shape="long",
        verdict="undecided",
        verdict_reason="as the method left it",
    )


def grid() -> LabelledStructure:
    """Sixteen grains, two strands of two columns each that touch at column 60."""
    grains = (ROWS // CELL * 4 + COLS // CELL + 1).astype(np.int32)
    grains[(ROWS % CELL == CELL - 1) & (ROWS < SIDE - 1)] = 0
    grains[(COLS % CELL == CELL - 1) & (COLS % 60 < 59)] = 0
    strands = (1 + COLS // 60).astype(np.int32)
    pairs = [(n, n + 4) for n in range(1, 13)] + [(n, n + 1) for n in range(1, 16, 2)]
    pairs.sort()
    return LabelledStructure(
        grain_labels=grains,
        strand_labels=strands,
        strands=(strand(1, strands), strand(2, strands)),
        flags=(),
        method="drawn",
        method_version="1",
        segments=BoundarySegments(
            first=np.array([a for a, _ in pairs], np.int32),
            second=np.array([b for _, b in pairs], np.int32),
            length_px=np.full(len(pairs), 29.5, np.float32),
            probability=np.linspace(0.5, 0.9, len(pairs), dtype=np.float32),
        ),
    )


def segment_of(found: LabelledStructure, one: int, other: int) -> tuple[float, float]:
    assert found.segments is not None
    (row,) = np.flatnonzero(
        (found.segments.first == one) & (found.segments.second == other)
    )
    return float(found.segments.length_px[row]), float(found.segments.probability[row])


def assert_whole(found: LabelledStructure) -> None:
    """Numbers without gaps, each grain in one piece and in one strand."""
    grains, strands = found.grain_labels, found.strand_labels
    assert np.array_equal(np.unique(grains[grains > 0]), np.arange(grains.max()) + 1)
    for number, place in enumerate(ndimage.find_objects(grains), start=1):
        own = grains[place] == number
        assert ndimage.label(own)[1] == 1
        assert np.unique(strands[place][own]).size == 1
    assert strands[grains > 0].min(initial=1) > 0
    if found.unreadable is not None:
        assert not grains[found.unreadable].any()
        assert not strands[found.unreadable].any()


def test_added_boundary_parts_one_grain_and_leaves_the_others() -> None:
    before = grid()
    after = with_edits(before, [PART_FIRST])
    assert after.grain_labels.max() == 17
    changed = after.grain_labels != before.grain_labels
    assert not changed[:, 29:].any()
    assert not changed[30:].any()
    assert (after.grain_labels[15, :29] == 0).all()
    assert after.grain_labels[0, 0] != after.grain_labels[20, 0]
    assert_whole(after)


def test_method_verdicts_and_areas_tell_of_the_edits() -> None:
    after = with_edits(grid(), [PART_FIRST])
    assert after.method == "drawn with 1 edit by hand"
    first, second = after.strands
    assert (first.verdict, first.verdict_reason) == (
        "poly",
        "9 grains after 1 edit by hand.",
    )
    assert second == grid().strands[1]
    assert first.shape == "long"
    assert first.area_px == 60 * SIDE


def test_no_edits_change_nothing() -> None:
    before = grid()
    assert with_edits(before, []) is before


def test_segments_touched_by_no_edit_keep_length_and_probability() -> None:
    after = with_edits(grid(), [PART_FIRST])
    new = int(after.grain_labels[20, 0])
    low, high = sorted((int(after.grain_labels[0, 0]), new))
    length, probability = segment_of(after, low, high)
    assert probability == 1.0
    assert length == pytest.approx(29 * np.pi / 4, rel=0.05)
    for pair in ((3, 4), (3, 7), (9, 13), (15, 16)):
        assert segment_of(after, *pair) == segment_of(grid(), *pair)
    # The border to the right of the parted grain has two parts, found, not drawn.
    for part in (low, high):
        assert segment_of(after, min(part, 2), max(part, 2))[1] == pytest.approx(0.5)


def test_segments_stay_unsaid_where_the_method_does_not_say() -> None:
    assert with_edits(replace(grid(), segments=None), [PART_FIRST]).segments is None


def test_end_that_stops_short_is_led_on_and_stub_is_left_out() -> None:
    after = with_edits(grid(), [AddBoundary(points_px=((15, 3), (15, 40)))])
    assert after.grain_labels.max() == 17
    assert (after.grain_labels[15, :29] == 0).all()
    assert (after.grain_labels[15, 31:59] == 2).all()


def test_closed_ring_is_a_grain() -> None:
    ring = ((5, 5), (5, 20), (20, 20), (20, 5), (5, 5))
    after = with_edits(grid(), [AddBoundary(points_px=ring)])
    assert after.grain_labels.max() == 17
    assert after.grain_labels[10, 10] not in {0, after.grain_labels[1, 1]}


def test_erased_boundary_joins_the_two_grains_only() -> None:
    after = with_edits(grid(), [EraseBoundary(points_px=((4, 30), (24, 28)))])
    assert after.grain_labels.max() == 15
    assert (after.grain_labels[:29, :59] == 1).all()
    assert (after.grain_labels[29, :59] == 0).all()
    assert after.grain_labels[35, 5] != after.grain_labels[35, 35]
    assert after.twin_boundary is None
    assert_whole(after)


def test_stroke_along_a_row_of_boundaries_erases_all_of_them() -> None:
    after = with_edits(grid(), [EraseBoundary(points_px=((3, 29), (116, 29)))])
    assert after.grain_labels.max() == 12
    assert (after.grain_labels[:29, :59] == 1).all()
    assert (after.grain_labels[91:, :59] == after.grain_labels[95, 5]).all()


def test_twin_is_joined_and_its_line_is_kept() -> None:
    after = with_edits(grid(), [MarkTwin(points_px=((4, 29), (24, 29)))])
    assert after.twin_boundary is not None
    assert np.array_equal(after.twin_boundary, (COLS == 29) & (ROWS < 29))
    assert (after.grain_labels[:29, :59] == 1).all()


def test_twin_line_of_labels_without_lines_is_kept() -> None:
    touching = (1 + (COLS >= 50)).astype(np.int32)
    plain = replace(grid(), grain_labels=touching, strand_labels=0 * touching + 1)
    one = replace(plain, strands=(strand(1, plain.strand_labels),), segments=None)
    after = with_edits(one, [MarkTwin(points_px=((4, 50), (110, 50)))])
    assert after.grain_labels.max() == 1
    assert after.twin_boundary is not None
    assert np.array_equal(after.twin_boundary, COLS == 49)
    assert after.strands[0].verdict == "single"


def test_boundary_drawn_over_a_twin_line_wins() -> None:
    edits: list[Edit] = [
        MarkTwin(points_px=((4, 29), (24, 29))),
        AddBoundary(points_px=((0, 29), (28, 29))),
    ]
    after = with_edits(grid(), edits)
    assert after.grain_labels.max() == 16
    assert after.twin_boundary is None


def test_excluded_area_is_measured_no_more() -> None:
    band = ExcludeArea(points_px=((10, 0), (10, 119), (18, 119), (18, 0)))
    after = with_edits(grid(), [band])
    hidden = (ROWS >= 10) & (ROWS <= 18)
    assert after.unreadable is not None
    assert np.array_equal(after.unreadable, hidden)
    assert np.array_equal(after.strand_labels == 0, hidden)
    assert after.grain_labels.max() == 20
    assert after.strands[0].area_px == 60 * (SIDE - 9)
    assert after.strands[0].verdict_reason == "10 grains after 1 edit by hand."
    assert_whole(after)


def test_strand_excluded_whole_is_left_out() -> None:
    area = ExcludeArea(points_px=((0, 60), (0, 119), (119, 119), (119, 60)))
    after = with_edits(grid(), [area])
    assert [each.number for each in after.strands] == [1]
    assert after.grain_labels.max() == 8


def test_area_taken_back_in_is_as_it_was() -> None:
    corners = ((10, 10), (10, 50), (50, 50), (50, 10))
    after = with_edits(
        grid(), [ExcludeArea(points_px=corners), TakeInArea(points_px=corners)]
    )
    assert np.array_equal(after.grain_labels, grid().grain_labels)
    assert np.array_equal(after.strand_labels, grid().strand_labels)
    assert after.unreadable is None


def test_area_that_the_method_could_not_read_is_filled_from_around() -> None:
    before = grid()
    dark = (ROWS >= 20) & (ROWS < 40) & (COLS >= 10) & (COLS < 50)
    blind = replace(
        before,
        grain_labels=np.where(dark, 0, before.grain_labels).astype(np.int32),
        strand_labels=np.where(dark, 0, before.strand_labels).astype(np.int32),
        unreadable=dark,
    )
    whole = ((0, 0), (0, 119), (119, 119), (119, 0))
    after = with_edits(blind, [TakeInArea(points_px=whole)])
    assert after.unreadable is not None
    assert not after.unreadable.any()
    assert np.array_equal(after.strand_labels, before.strand_labels)
    assert after.grain_labels.max() == 16
    # Half of the border of grains 1 and 5 was seen by nobody: 40 of 59 px.
    assert 0 < segment_of(after, 1, 5)[1] < segment_of(before, 1, 5)[1]
    assert segment_of(after, 3, 4) == segment_of(before, 3, 4)
    assert_whole(after)


def test_flag_for_no_boundary_goes_when_one_was_drawn() -> None:
    one = np.ones((SIDE, SIDE), np.int32)
    bare = replace(
        grid(),
        grain_labels=one,
        strand_labels=one,
        strands=(strand(1, one),),
        flags=(Flag("no_boundary_found"), Flag("synthetic")),
        segments=None,
    )
    area = ExcludeArea(points_px=((0, 0), (0, 9), (9, 9)))
    assert with_edits(bare, [area]).flags == bare.flags
    parted = with_edits(bare, [AddBoundary(points_px=((0, 60), (119, 60)))])
    assert parted.flags == (Flag("synthetic"),)


def test_input_is_not_changed() -> None:
    before = grid()
    grains, strands = before.grain_labels.copy(), before.strand_labels.copy()
    with_edits(before, [PART_FIRST, ExcludeArea(points_px=((0, 0), (0, 50), (50, 50)))])
    assert np.array_equal(before.grain_labels, grains)
    assert np.array_equal(before.strand_labels, strands)


def test_edits_are_applied_in_order() -> None:
    area = ExcludeArea(points_px=((0, 0), (0, 28), (28, 28), (28, 0)))
    assert with_edits(grid(), [PART_FIRST, area]).method.endswith("2 edits by hand")
    with pytest.raises(ParameterError, match="parts a grain"):
        with_edits(grid(), [area, PART_FIRST])


@pytest.mark.parametrize(
    ("edit", "said"),
    [
        (AddBoundary(points_px=((0, 0), (0, 120))), "column from 0 to 119"),
        (AddBoundary(points_px=((-3, 0), (0, 20))), "inside of the picture"),
        (AddBoundary(points_px=((15, 9), (15, 19))), "from boundary to boundary"),
        (AddBoundary(points_px=((5, 5), (5, 5))), "on two pixels or more"),
        (AddBoundary(points_px=((5, 29), (25, 29))), "parts a grain"),
        (EraseBoundary(points_px=((10, 10), (18, 18))), "at most 3 px off"),
        (EraseBoundary(points_px=((40, 60), (50, 60))), "Contacts of strands"),
        (MarkTwin(points_px=((10, 10), (18, 18))), "'mark twin'"),
        (TakeInArea(points_px=((0, 0), (0, 9), (9, 9))), "not measured so far"),
        (ExcludeArea(points_px=((0, 0), (0, 9), (9, 300))), "inside of the picture"),
    ],
)
def test_edit_that_changes_nothing_is_refused(edit: Edit, said: str) -> None:
    with pytest.raises(ParameterError, match=said):
        with_edits(grid(), [edit])


def test_excluding_twice_is_refused() -> None:
    area = ExcludeArea(points_px=((0, 0), (0, 28), (28, 28)))
    with pytest.raises(ParameterError, match="measured so far"):
        with_edits(grid(), [area, area])


@pytest.mark.parametrize(
    "points", [(), ((1, 2),), ((1, 2), (float("nan"), 3)), ((1, 2), (1, 2, 3))]
)
def test_points_are_checked(points: tuple[tuple[float, float], ...]) -> None:
    with pytest.raises(ParameterError, match="add boundary"):
        AddBoundary(points_px=points)
    with pytest.raises(ParameterError, match="exclude area"):
        ExcludeArea(points_px=points)


def test_polygon_needs_three_points() -> None:
    with pytest.raises(ParameterError, match="3 points or more"):
        ExcludeArea(points_px=((1, 2), (3, 4)))


def test_plain_data_and_back() -> None:
    edits = (
        PART_FIRST,
        EraseBoundary(points_px=((1.5, 2.0), (3.0, 4.0))),
        MarkTwin(points_px=((1.0, 2.0), (3.0, 4.0))),
        ExcludeArea(points_px=((1.0, 2.0), (3.0, 4.0), (5.0, 6.0))),
        TakeInArea(points_px=((1.0, 2.0), (3.0, 4.0), (5.0, 6.0))),
    )
    data = json.loads(json.dumps(edits_as_plain_data(edits)))
    assert edits_from_plain_data(data) == edits


@pytest.mark.parametrize(
    ("data", "said"),
    [
        ([], "one list"),
        ({}, "one list"),
        ({"edits": 3}, "one list"),
        ({"edits": [], "by": "R"}, "one list"),
        ({"edits": [3]}, "edit 1 was given"),
        ({"edits": [{"kind": "add boundary"}]}, "'kind' and 'points_px'"),
        ({"edits": [{"kind": "paint", "points_px": []}]}, "erase boundary"),
        ({"edits": [{"kind": ["paint"], "points_px": []}]}, "erase boundary"),
        ({"edits": [{"kind": "mark twin", "points_px": [[1, "2"]]}]}, "row, column"),
        ({"edits": [{"kind": "mark twin", "points_px": [[1, True]]}]}, "row, column"),
        ({"edits": [{"kind": "mark twin", "points_px": [[1, 10**400]]}]}, "row, col"),
        ({"edits": [{"kind": "mark twin", "points_px": [[1, float("nan")]]}]}, "row"),
        ({"edits": [{"kind": "mark twin", "points_px": 3}]}, "row, column"),
        ({"edits": [{"kind": "mark twin", "points_px": [[1, 2]]}]}, "2 points"),
    ],
)
def test_plain_data_of_another_form_are_refused(data: object, said: str) -> None:
    with pytest.raises(ParameterError, match=said):
        edits_from_plain_data(data)


@pytest.mark.parametrize(
    ("grains", "edited", "told"),
    [
        (0, 1, ("undecided", "No grains after 1 edit by hand.")),
        (1, 3, ("single", "1 grain after 3 edits by hand.")),
        (2, 1, ("poly", "2 grains after 1 edit by hand.")),
    ],
)
def test_verdict_goes_by_the_grains(
    grains: int, edited: int, told: tuple[str, str]
) -> None:
    assert verdict_after_edits(grains, edited) == told


# Away from corners, and not along a boundary that is there already.
inside = st.integers(8, 20)
cells = st.tuples(st.integers(0, 3), st.integers(0, 3))


@given(cells, inside, st.lists(st.tuples(inside, inside), max_size=3), inside)
@settings(max_examples=40, deadline=None)
def test_erasing_what_was_added_gives_the_same_grains(
    cell: tuple[int, int], start: int, between: list[tuple[int, int]], end: int
) -> None:
    """A line from the left to the right side of one grain, with bends."""
    bends = sorted(between, key=lambda point: point[1])
    local = [(start, 0), *bends, (end, 28)]
    points = tuple((row + 30 * cell[0], col + 30 * cell[1]) for row, col in local)
    before = grid()
    after = with_edits(
        before, [AddBoundary(points_px=points), EraseBoundary(points_px=points)]
    )
    assert np.array_equal(after.grain_labels, before.grain_labels)
    assert after.segments is not None
    assert before.segments is not None
    assert np.array_equal(after.segments.first, before.segments.first)
    assert np.array_equal(after.segments.probability, before.segments.probability)
    assert np.array_equal(after.segments.length_px, before.segments.length_px)


places = st.tuples(st.floats(0, 119), st.floats(0, 119))
any_edit = st.one_of(
    *(
        st.builds(kind, points_px=st.lists(places, min_size=3, max_size=5).map(tuple))
        for kind in (AddBoundary, EraseBoundary, MarkTwin, ExcludeArea, TakeInArea)
    )
)


@given(st.lists(any_edit, min_size=1, max_size=6))
@settings(max_examples=40, deadline=None)
def test_no_grain_is_left_in_two_pieces_or_two_strands(edits: list[Edit]) -> None:
    applied: list[Edit] = []
    found = grid()
    for edit in edits:
        try:
            found = with_edits(grid(), [*applied, edit])
        except ParameterError:
            continue
        applied.append(edit)
    assert_whole(found)
    assert found.segments is not None
    assert (found.segments.first < found.segments.second).all()
    assert ((found.segments.probability >= 0) & (found.segments.probability <= 1)).all()
    if applied:
        assert f"with {len(applied)} edit" in found.method
