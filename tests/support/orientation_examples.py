"""Small maps of orientations whose boundaries can be counted by hand."""

import numpy as np
import numpy.typing as npt

from strandproof.grainsize.orientations.grid import PointGrid, point_grid
from strandproof.records.orientation import OrientationTable

Floats = npt.NDArray[np.float64]


def map_of_blocks(
    phi1_deg: list[list[float]] | Floats,
    *,
    step_um: float = 1.0,
    row_step_um: float | None = None,
    hexagonal: bool = False,
) -> OrientationTable:
    """Make a map from phi1 of each point, the other angles being 0.

    Crystals with the same Phi and phi2 of 0 differ by a turn about <100>, so their
    disorientation is the difference of phi1, up to 45 deg. NaN is not indexed.
    """
    first = np.asarray(phi1_deg, dtype=np.float64)
    rows, columns = np.indices(first.shape)
    pitch = step_um if row_step_um is None else row_step_um
    shift = 0.5 * (rows % 2) if hexagonal else 0.0 * rows
    if hexagonal:
        pitch = step_um * np.sqrt(0.75)
    angles = np.zeros((first.size, 3))
    angles[:, 0] = np.radians(first.ravel())
    angles[np.isnan(first.ravel())] = np.nan
    return OrientationTable(
        name="blocks.csv",
        x_um=(step_um * (columns + shift)).ravel().astype(np.float64),
        y_um=(pitch * rows).ravel().astype(np.float64),
        angles_rad=angles,
        meaning="passive",
    )


def grid_of(table: OrientationTable) -> PointGrid:
    """Put a table on its grid."""
    return point_grid(table)
