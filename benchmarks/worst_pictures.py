"""The worst synthetic sections of each family, drawn to be looked at.

Run: python benchmarks/worst_pictures.py FOLDER [sections per family] [how many]

Writes one PNG a family: the picture, the exact boundaries and the found ones side by
side, worst boundary F1 first. Seeds and bands as in `segmentation_renders`.
"""

import sys
from pathlib import Path

import numpy as np
import numpy.typing as npt
from in_parallel import each_in_order
from segmentation_renders import FIRST_SEED, drawn_section, outcome

from strandproof.micrograph import overlay, segment
from strandproof.micrograph.render import GRAIN_FAMILIES, GrainFamily
from strandproof.storage import encode_png

Bytes = npt.NDArray[np.uint8]
SIDE_PX = 768


def compared(wanted: tuple[GrainFamily, int]) -> tuple[float, Bytes]:
    """Give F1 and the three pictures side by side."""
    family, seed = wanted
    section = drawn_section(family, seed, readable=True, side_px=SIDE_PX)
    structure = segment(section.picture)
    exact = section.as_bytes()
    exact[section.boundary] = (230, 30, 30)
    exact[section.twin_boundary] = (30, 120, 30)
    found = outcome(structure.grain_labels, section, ())
    pictures = (section.as_bytes(), exact, overlay(section.picture, structure))
    return found.f1, np.hstack(pictures)


def main(folder: Path, count: int, shown: int) -> None:
    """Write the pictures."""
    folder.mkdir(parents=True, exist_ok=True)
    for index, family in enumerate(GRAIN_FAMILIES):
        wanted = [(family, FIRST_SEED + 1000 * index + k) for k in range(count)]
        rows = sorted(each_in_order(compared, wanted), key=lambda row: row[0])
        sheet = np.vstack([picture for _, picture in rows[:shown]])
        (folder / f"{family}.png").write_bytes(encode_png(sheet))
        print(family, [round(f1, 3) for f1, _ in rows[:shown]], flush=True)


if __name__ == "__main__":
    words = sys.argv[1:]
    main(
        Path(words[0]),
        int(words[1]) if len(words) > 1 else 20,
        int(words[2]) if len(words) > 2 else 5,
    )
