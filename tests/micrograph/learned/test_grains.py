"""From drawn planes to closed grains."""

import numpy as np
import numpy.typing as npt

from strandproof.micrograph.learned import planes
from strandproof.micrograph.learned.grains import Grains, grains_of

Bytes = npt.NDArray[np.uint8]
SIDE = 120
ONE_STRAND = np.ones((SIDE, SIDE), np.int32)


def maps_with(**lines: list[tuple[slice, slice]]) -> Bytes:
    maps = np.zeros((len(planes.PLANES), SIDE, SIDE), np.uint8)
    for name, places in lines.items():
        for rows, cols in places:
            maps[getattr(planes, name), rows, cols] = 250
    return maps


EVERYWHERE = slice(None)
ACROSS = (slice(59, 61), EVERYWHERE)
UPRIGHT = (EVERYWHERE, slice(59, 61))


def found(maps: Bytes, strands: npt.NDArray[np.int32] = ONE_STRAND) -> Grains:
    return grains_of(maps[planes.GRAIN_BOUNDARY], maps[planes.TWIN_BOUNDARY], strands)


def test_a_cross_of_boundaries_makes_four_grains() -> None:
    grains = found(maps_with(GRAIN_BOUNDARY=[ACROSS, UPRIGHT]))
    assert sorted(np.unique(grains.labels)) == [1, 2, 3, 4]
    assert grains.graph.first.size == 4
    assert (grains.graph.boundary_strength() > 0.9).all()


def test_twin_sides_part_no_grains() -> None:
    grains = found(maps_with(TWIN_BOUNDARY=[UPRIGHT, (EVERYWHERE, slice(80, 82))]))
    assert grains.labels.max() == 1


def test_a_straight_side_rather_a_twin_than_a_boundary_is_joined() -> None:
    maps = maps_with(GRAIN_BOUNDARY=[UPRIGHT])
    assert found(maps).labels.max() == 2
    maps[planes.GRAIN_BOUNDARY] //= 2
    maps[planes.TWIN_BOUNDARY, :, 59:61] = 200
    assert found(maps).labels.max() == 1


def test_no_grain_lies_in_two_strands() -> None:
    strands = ONE_STRAND.copy()
    strands[:, 70:] = 2
    grains = found(maps_with(GRAIN_BOUNDARY=[ACROSS]), strands)
    assert grains.labels.max() == 4
    for number in range(1, 5):
        assert np.unique(strands[grains.labels == number]).size == 1


def test_a_thin_strip_at_the_edge_of_the_metal_is_no_grain() -> None:
    strands = ONE_STRAND.copy()
    strands[:10] = 0
    strip = maps_with(GRAIN_BOUNDARY=[(slice(12, 14), EVERYWHERE)])
    assert found(strip, strands).labels.max() == 1
    layer = maps_with(GRAIN_BOUNDARY=[(slice(22, 24), EVERYWHERE)])
    assert found(layer, strands).labels.max() == 2


def test_without_metal_there_are_no_grains() -> None:
    grains = found(maps_with(GRAIN_BOUNDARY=[ACROSS]), np.zeros_like(ONE_STRAND))
    assert grains.labels.max() == 0
