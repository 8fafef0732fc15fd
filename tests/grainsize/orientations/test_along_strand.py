import numpy as np
import pytest
from orientation_examples import map_of_blocks

from strandproof.grainsize.orientations.along_strand import orientation_spread
from strandproof.grainsize.orientations.regions import TrustedPoints
from strandproof.grainsize.orientations.rotations import quaternions_of_bunge_angles
from strandproof.records.orientation import Axis, OrientationRules

NONE = np.array([1.0, 0.0, 0.0, 0.0])


@pytest.mark.parametrize("axis", ["x", "y"])
def test_stretches_follow_the_axis(axis: Axis) -> None:
    row = np.repeat(0.99 * np.arange(20.0), 10)
    angles = np.tile(row, (4, 1)) if axis == "x" else np.tile(row, (4, 1)).T
    table = map_of_blocks(angles)
    turned = quaternions_of_bunge_angles(table.angles_rad, meaning="passive")
    measured = np.ones(800, dtype=np.bool_)
    along = table.x_um if axis == "x" else table.y_um
    measured[(along >= 30) & (along < 50)] = False
    points = TrustedPoints(
        orientations=turned, measured=measured, indexed=800, isolated=0, bridged=0
    )
    found = orientation_spread(table, points, NONE, rules=OrientationRules(axis=axis))
    assert len(found.stretches) == 20
    assert found.stretches[0].median_deg == pytest.approx(0.0, abs=1e-5)
    assert found.stretches[10].median_deg == pytest.approx(9.9, abs=1e-5)
    assert found.stretches[3].points == 0
    assert found.stretches[3].median_deg is None
    assert sum(stretch.points for stretch in found.stretches) == 720
    # Of 18 steps of 0.99 deg kept: 0 to 2; these and 5; these and 6 to 15.
    expected = (3 / 18, 4 / 18, 14 / 18)
    assert found.share_within == pytest.approx(expected, abs=1e-9)
