from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from orientation_examples import map_of_blocks

from strandproof.errors import ParameterError, TableRowError
from strandproof.grainsize.orientations.grid import point_grid
from strandproof.records.orientation import OrientationTable


def kept(table: OrientationTable, rows: list[int]) -> OrientationTable:
    return replace(
        table,
        x_um=table.x_um[rows],
        y_um=table.y_um[rows],
        angles_rad=table.angles_rad[rows],
    )


@given(
    rows=st.integers(2, 30),
    columns=st.integers(2, 30),
    hexagonal=st.booleans(),
    step_um=st.floats(0.05, 20.0),
    seed=st.integers(0, 2**32 - 1),
)
def test_points_in_any_order_find_their_cells(
    *, rows: int, columns: int, hexagonal: bool, step_um: float, seed: int
) -> None:
    table = map_of_blocks(
        np.zeros((rows, columns)), step_um=step_um, hexagonal=hexagonal
    )
    order = np.random.default_rng(seed).permutation(rows * columns)
    grid = point_grid(kept(table, order.tolist()))
    assert grid.kind == ("hexagonal" if hexagonal else "square")
    assert grid.step_um == pytest.approx(step_um, rel=1e-9)
    assert (
        order[grid.points].tolist()
        == np.arange(rows * columns).reshape(rows, columns).tolist()
    )


@pytest.mark.parametrize("hexagonal", [False, True])
def test_rounded_coordinates_do_not_drift(*, hexagonal: bool) -> None:
    """0.35 um printed with two digits, 900 columns: the mean step still holds."""
    table = map_of_blocks(np.zeros((4, 900)), step_um=0.35, hexagonal=hexagonal)
    rounded = replace(table, x_um=table.x_um.round(2), y_um=table.y_um.round(2))
    grid = point_grid(rounded)
    assert grid.points.shape == (4, 900)
    assert (grid.points >= 0).all()


def test_holes_and_a_missing_row_stay_empty() -> None:
    table = map_of_blocks(np.zeros((5, 6)))
    rows = [n for n in range(30) if n not in {0, 7, *range(12, 18)}]
    grid = point_grid(kept(table, rows))
    assert grid.points.shape == (5, 6)
    assert (grid.points[2] == -1).all()
    assert int((grid.points == -1).sum()) == 8


def test_rectangular_cells_are_a_square_grid() -> None:
    grid = point_grid(map_of_blocks(np.zeros((3, 4)), step_um=0.5, row_step_um=2.0))
    assert grid.kind == "square"
    assert grid.cell_area_um2 == pytest.approx(1.0)


@pytest.mark.parametrize("shape", [(1, 50), (50, 1)])
def test_one_row_or_column_is_a_line(shape: tuple[int, int]) -> None:
    grid = point_grid(map_of_blocks(np.zeros(shape), step_um=0.2))
    assert grid.kind == "line"
    assert grid.points.shape == shape
    assert grid.step_um == pytest.approx(0.2)
    assert grid.row_step_um == pytest.approx(0.2)


def test_a_point_off_the_grid_is_named_by_its_line() -> None:
    table = map_of_blocks(np.zeros((6, 7)))
    table.x_um[16] += 0.3
    with pytest.raises(TableRowError, match="line 18: the point at x = 2.3, y = 2 um"):
        point_grid(table)


def test_a_point_twice_names_both_lines() -> None:
    table = map_of_blocks(np.zeros((6, 7)))
    table.x_um[16], table.y_um[16] = table.x_um[3], table.y_um[3]
    with pytest.raises(TableRowError, match="line 18: .* as that of line 5"):
        point_grid(table)


def test_shifted_rows_at_another_distance_are_no_hexagons() -> None:
    table = map_of_blocks(np.zeros((6, 7)), hexagonal=True)
    with pytest.raises(ParameterError, match=r"0\.866"):
        point_grid(replace(table, y_um=1.5 * table.y_um))


def test_scattered_places_are_no_map() -> None:
    chance = np.random.default_rng(5)
    table = map_of_blocks(np.zeros((1, 40)))
    scattered = replace(
        table, x_um=chance.uniform(0, 9, 40), y_um=chance.uniform(0, 9, 40)
    )
    with pytest.raises((TableRowError, ParameterError), match="grid"):
        point_grid(scattered)


def test_a_few_points_far_apart_are_no_map() -> None:
    table = map_of_blocks(np.zeros((2, 3)))
    far = replace(
        table,
        x_um=np.array([0.0, 1.0, 2.0, 90_000.0, 90_001.0, 90_002.0]),
        y_um=np.array([0.0, 0.0, 0.0, 1.0, 1.0, 1.0]),
    )
    with pytest.raises(ParameterError, match="one map at a time"):
        point_grid(far)


def test_a_single_point_is_no_map() -> None:
    with pytest.raises(ParameterError, match="2 or more"):
        point_grid(map_of_blocks(np.zeros((1, 1))))
