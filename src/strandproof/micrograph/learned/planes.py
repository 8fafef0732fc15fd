"""The planes that the network answers with: names, order, meaning."""

from typing import Final

METAL: Final = 0
GRAIN_BOUNDARY: Final = 1
TWIN_BOUNDARY: Final = 2
UNREADABLE: Final = 3
STRAND_CONTACT: Final = 4

PLANES: Final = (
    "metal",  # 1 on metal, 0 on resin
    "grain boundary",  # crest of 1 on the boundary's centre line
    "twin boundary",  # crest of 1 on the centre line of a twin's side
    "not readable",  # out of focus, glare, smeared, lettered over
    "strand contact",  # crest of 1 where two strands touch
)
