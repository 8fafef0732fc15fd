"""Outlines of drawn disks: bias of diameter and girth over places and sizes."""

import numpy as np
import pytest

from strandproof.errors import ParameterError
from strandproof.physical.outlines import outline_of


@pytest.mark.parametrize(("radius", "bias"), [(25.0, 0.15), (80.0, 0.2)])
def test_diameter_and_girth_of_disks(radius: float, bias: float) -> None:
    chance = np.random.default_rng(7)
    side = int(2 * radius + 20)
    rows, columns = np.indices((side, side))
    found = []
    for row, column in chance.uniform(radius + 9, radius + 11, (10, 2)):
        found.append(outline_of(np.hypot(rows - row, columns - column) <= radius))
    diameters = [float(each.diameters_px.mean()) for each in found]
    assert abs(np.mean(diameters) - 2 * radius) < bias
    girths = [each.girth_px / (2 * np.pi * radius) for each in found]
    np.testing.assert_allclose(girths, 1.0, rtol=0, atol=0.005)
    ovality = [float(np.ptp(each.diameters_px)) for each in found]
    assert np.mean(ovality) < 0.8


def test_a_piece_at_the_edge_of_its_mask_is_whole() -> None:
    found = outline_of(np.ones((60, 40), dtype=np.bool_))
    np.testing.assert_allclose(found.diameters_px[[0, 18]], [40, 60], rtol=0, atol=0.05)
    assert found.area_px == 2400


def test_no_metal() -> None:
    with pytest.raises(ParameterError, match="a few pixels"):
        outline_of(np.zeros((20, 20), dtype=np.bool_))
