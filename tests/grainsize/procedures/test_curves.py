from math import pi

import numpy as np
import pytest

from strandproof.errors import ParameterError
from strandproof.grainsize.patch import MetalPatch, metal_patch
from strandproof.grainsize.procedures.curves import (
    circle_curve,
    metal_runs,
    straight_curve,
)


def _strand(height: int = 60, width: int = 200, rim: int = 10) -> MetalPatch:
    """A strand from frame to frame with resin above and below."""
    metal = np.zeros((height + 2 * rim, width), np.bool_)
    metal[rim : rim + height] = True
    return metal_patch(metal.astype(np.int32), metal)


def test_a_circle_in_metal_is_one_run_without_ends() -> None:
    circle = circle_curve((40.0, 100.0), 40.0, step_px=0.25)
    (run,) = metal_runs(circle, _strand())
    assert run.ends == ()
    assert run.length_px == pytest.approx(40.0 * pi, rel=1e-12, abs=0)


def test_a_circle_over_both_edges_leaves_two_arcs() -> None:
    circle = circle_curve((39.5, 100.0), 100.0, step_px=0.1)
    runs = list(metal_runs(circle, _strand()))
    assert [run.ends for run in runs] == [("strand_edge", "strand_edge")] * 2
    # Each arc: 2 R asin(30/50).
    expected = 100.0 * float(np.arcsin(0.6))
    for run in runs:
        assert run.length_px == pytest.approx(expected, rel=0, abs=0.3)


def test_ends_tell_frame_edge_and_the_line_itself() -> None:
    patch = _strand()
    along = straight_curve((40.0, -0.5), (40.0, 199.5), step_px=0.25)
    across = straight_curve((-0.5, 50.0), (79.5, 50.0), step_px=0.25)
    within = straight_curve((40.0, 50.0), (40.0, 90.0), step_px=0.25)
    for curve, kind, length in (
        (along, "frame", 200.0),
        (across, "strand_edge", 60.0),
        (within, "line_end", 40.0),
    ):
        (run,) = metal_runs(curve, patch)
        assert run.ends == (kind, kind)
        assert run.length_px == pytest.approx(length, rel=1e-9, abs=0)


def test_a_line_beside_the_metal_has_no_run() -> None:
    curve = straight_curve((3.0, 0.0), (3.0, 199.0), step_px=0.25)
    assert list(metal_runs(curve, _strand())) == []


def test_figures_without_extent_are_refused() -> None:
    with pytest.raises(ParameterError, match="a point away from start_px"):
        straight_curve((1.0, 1.0), (1.0, 1.0), step_px=0.25)
    with pytest.raises(ParameterError, match="a length above 0"):
        circle_curve((1.0, 1.0), 0.0, step_px=0.25)
