"""Which borders are taken for a twin's side."""

import numpy as np
import pytest

from strandproof.micrograph.border_lines import border_lines
from strandproof.micrograph.borders import borders_of
from strandproof.micrograph.learned.regions import region_graph
from strandproof.micrograph.learned.twins import twin_borders

SHAPE = (80, 80)
ROWS, COLS = np.indices(SHAPE)


@pytest.mark.parametrize(
    ("bend_px", "twin", "boundary", "taken"),
    [(0, 200, 120, [True]), (0, 120, 200, [False]), (8, 200, 120, [False])],
)
def test_straight_and_rather_a_twin(
    bend_px: float, twin: int, boundary: int, taken: list[bool]
) -> None:
    edge = 40 + bend_px * np.sin(ROWS / 10)
    labels = (1 + (edge <= COLS)).astype(np.int32)
    borders = borders_of(labels)
    graph = region_graph(
        labels,
        np.full(SHAPE, boundary, np.uint8),
        np.full(SHAPE, twin, np.uint8),
        borders=borders,
    )
    assert twin_borders(graph, border_lines(borders, SHAPE[1])).tolist() == taken
