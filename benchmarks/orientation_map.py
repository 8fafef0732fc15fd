"""Time and memory of a large synthetic map of orientations, read and measured.

Run: python benchmarks/orientation_map.py [rows columns]
"""

import resource
import sys
import tempfile
import time
from pathlib import Path
from typing import Literal

from strandproof.grainsize.orientations import (
    SyntheticMap,
    draw_synthetic_map,
    measure_orientation_map,
)
from strandproof.records.orientation import OrientationTable
from strandproof.storage import encode_orientation_table, read_orientation_table


def run(path: Path, *, rows: int, columns: int, grid: str) -> None:
    """Draw, write, read and measure one map; print the times."""
    kind: Literal["square", "hexagonal"] = "square" if grid == "square" else "hexagonal"
    wanted = SyntheticMap(rows=rows, columns=columns, grid=kind)
    path.write_bytes(encode_orientation_table(draw_synthetic_map(wanted, seed=3).table))
    start = time.perf_counter()
    table = read_orientation_table(path, meaning="passive")
    read = time.perf_counter()
    assert isinstance(table, OrientationTable)  # noqa: S101 - a map was written
    found = measure_orientation_map(table)
    done = time.perf_counter()
    print(f"{grid}: {path.stat().st_size / 1e6:.0f} MB, {rows} x {columns} points")
    print(f"  read {read - start:.1f} s, measured {done - read:.1f} s")
    print(f"  {found.grains.grains} regions, twin share {found.boundaries.twin_share}")


def main() -> None:
    """Run both grids."""
    rows, columns = (int(word) for word in sys.argv[1:3] or ("1000", "1000"))
    with tempfile.TemporaryDirectory() as folder:
        for grid in ("square", "hexagonal"):
            run(Path(folder) / "map.csv", rows=rows, columns=columns, grid=grid)
    peak = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
    print(f"largest memory {peak / 1e6:.2f} GB, drawing included")


if __name__ == "__main__":
    main()
