"""Real labelled micrographs under open licences, where they are at hand.

They lie outside of the project, in ``shared/data`` beside it, and are never copied
into it. Used to check, never to train.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import numpy as np
import numpy.typing as npt
from skimage.measure import label
from skimage.morphology import skeletonize
from skimage.segmentation import watershed

from strandproof.micrograph.agreement import label_changes, without_boundary_pixels
from strandproof.storage import read_picture

Labels = npt.NDArray[np.integer[Any]]
Mask = npt.NDArray[np.bool_]

DATA = Path(__file__).parents[2] / "shared" / "data"
SPECKS_PX = 20  # regions below this are specks of colour, says the data's own page


@dataclass(frozen=True, slots=True, eq=False)
class LabelledMicrograph:
    """A real micrograph with what people drew on it."""

    name: str
    path: Path
    labels: Labels
    boundary: Mask
    tolerance_px: float


def iron_sections(data: Path = DATA) -> Iterator[LabelledMicrograph]:
    """Give five serial sections of pure iron, grains labelled by hand."""
    for path in sorted((data / "iron-nital-a" / "images").glob("*.tif")):
        colours = read_picture(path.parents[1] / "groundtruth" / path.name).pixels
        levels = np.rint(colours * 255).astype(np.int64)
        flat = levels @ np.array([65536, 256, 1])
        labels = _without_specks(label(flat, background=-1, connectivity=1))
        yield LabelledMicrograph(path.name, path, labels, label_changes(labels), 3.0)


def colour_tiles(data: Path = DATA) -> Iterator[LabelledMicrograph]:
    """Give tiles of an alloy whose grains differ by hue, lines drawn by hand."""
    for path in sorted((data / "tbm-ucr" / "tiles256_images").glob("*.png")):
        mask_path = path.parents[1] / "tiles256_masks" / path.name
        lines = read_picture(mask_path).pixels > 0.5
        lines = np.atleast_3d(lines)[..., 0]
        seeds = label(~lines, connectivity=1)
        seeds[np.bincount(seeds.ravel())[seeds] < SPECKS_PX] = 0
        labels = watershed(lines.astype(float), seeds).astype(np.int32)
        yield LabelledMicrograph(path.name, path, labels, skeletonize(lines), 4.0)


def _without_specks(labels: Labels) -> Labels:
    kept = np.where(np.bincount(labels.ravel())[labels] < SPECKS_PX, 0, labels)
    return without_boundary_pixels(kept.astype(np.int32))
