"""The planes that are trained: those of the package, and three that help to learn."""

from typing import Final

from strandproof.micrograph.learned.planes import PLANES

METAL: Final = 0
GRAIN_BOUNDARY: Final = 1
TWIN_BOUNDARY: Final = 2
SCRATCH: Final = 3
DEFECT: Final = 4
UNREADABLE: Final = 5
STRAND_CONTACT: Final = 6
DISTANCE: Final = 7

TRAINED: Final = (
    "metal",
    "grain boundary",
    "twin boundary",
    "scratch or slip trace",
    "defect",  # pit, pore, comet tail, stain
    "not readable",
    "strand contact",
    "distance",  # to the next grain boundary or edge of metal, 0 to 1
)
N_PLANES: Final = len(TRAINED)

DISTANCE_SCALE_PX: Final = 12.0
"""The distance plane is 1 - exp(-d / this)."""

ANSWERED: Final = tuple(TRAINED.index(name) for name in PLANES)
"""The trained planes that the exported network answers with, in their order."""
