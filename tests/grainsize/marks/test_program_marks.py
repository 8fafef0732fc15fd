"""What labels show along test lines, on drawn structures."""

import numpy as np
import pytest

from strandproof.grainsize.marks import StraightTestLine, program_marks
from strandproof.records import LabelledStructure


def columns_structure(*, resin_rows: int = 0) -> LabelledStructure:
    """Ten grains of ten columns each, 60 rows; the first rows may be resin."""
    labels = np.repeat(np.arange(1, 11), 10)[None, :].repeat(60, axis=0)
    metal = np.ones(labels.shape, np.bool_)
    metal[:resin_rows] = False
    return LabelledStructure(
        grain_labels=np.where(metal, labels, 0).astype(np.int32),
        strand_labels=metal.astype(np.int32),
        strands=(),
        flags=(),
        method="drawn",
        method_version="1",
    )


def places(line: StraightTestLine, structure: LabelledStructure) -> dict[str, object]:
    (marked,) = program_marks(structure, [line])
    return {
        "boundary": [m.along_px for m in marked.marks if m.feature == "boundary"],
        "edge": [m.along_px for m in marked.marks if m.feature == "strand_edge"],
        "metal": marked.metal_px,
    }


def test_every_change_of_grain_is_a_boundary() -> None:
    line = StraightTestLine(number=1, start_px=(-0.5, 30.0), end_px=(99.5, 30.0))
    found = places(line, columns_structure())
    assert found["boundary"] == pytest.approx([10.0 * k for k in range(1, 10)], abs=0.3)
    assert found["edge"] == []
    assert found["metal"] == pytest.approx(100.0)


def test_part_of_a_line_shows_only_what_lies_on_it() -> None:
    line = StraightTestLine(number=1, start_px=(14.5, 30.0), end_px=(44.5, 30.0))
    found = places(line, columns_structure())
    assert found["boundary"] == pytest.approx([5.0, 15.0, 25.0], abs=0.3)


def test_line_drawn_from_right_to_left() -> None:
    line = StraightTestLine(number=1, start_px=(44.5, 30.0), end_px=(14.5, 30.0))
    found = places(line, columns_structure())
    assert found["boundary"] == pytest.approx([5.0, 15.0, 25.0], abs=0.3)


def test_edge_of_the_strand_is_marked_and_shortens_the_metal() -> None:
    line = StraightTestLine(number=1, start_px=(24.0, -0.5), end_px=(24.0, 59.5))
    found = places(line, columns_structure(resin_rows=20))
    assert found["boundary"] == []
    assert found["edge"] == pytest.approx([20.0], abs=0.3)
    assert found["metal"] == pytest.approx(40.0, abs=0.3)


def test_line_in_resin_alone_holds_no_metal() -> None:
    line = StraightTestLine(number=1, start_px=(-0.5, 5.0), end_px=(99.5, 5.0))
    found = places(line, columns_structure(resin_rows=20))
    assert found == {"boundary": [], "edge": [], "metal": 0}
