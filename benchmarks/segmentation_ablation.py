"""What each step of the segmentation is worth: same sections, one step left out.

Run: python benchmarks/segmentation_ablation.py [sections per family]

Seeds and bands as in `segmentation_renders`, polycrystals only. Prints the same row for
the whole method and for each step left out.
"""

import sys
from collections.abc import Callable
from contextlib import AbstractContextManager, nullcontext
from unittest.mock import patch

import numpy as np
import numpy.typing as npt
from in_parallel import each_in_order
from segmentation_renders import FIRST_SEED, Outcome, drawn_section, outcome, row

from strandproof.micrograph import segment
from strandproof.micrograph.render import GRAIN_FAMILIES, GrainFamily

Labels = npt.NDArray[np.int32]
LEARNED = "strandproof.micrograph.learned"


def seen_once() -> AbstractContextManager[object]:
    """Leave out the look at the halved picture."""
    return patch(f"{LEARNED}.maps.is_seen_twice", lambda *_: False)


def uncut_necks() -> AbstractContextManager[object]:
    """Leave whole what narrows."""
    return patch(f"{LEARNED}.patches._DEPTHS_PX", ())


def with_slivers() -> AbstractContextManager[object]:
    """Keep thin strips at the metal's edge."""
    return patch(f"{LEARNED}.grains._without_edge_slivers", lambda regions, _: regions)


def with_straight_twins() -> AbstractContextManager[object]:
    """Keep straight borders that are rather a twin's side."""
    return patch(f"{LEARNED}.grains._without_twins", lambda regions, *_: regions)


def plain_mean() -> AbstractContextManager[object]:
    """Take the probability itself for the strength of a pixel."""
    return patch.multiple(f"{LEARNED}.regions", _NO_CREST=0.0, _FULL_CREST=1.0)


WAYS: dict[str, Callable[[], AbstractContextManager[object]]] = {
    "whole method": nullcontext,
    "seen once": seen_once,
    "necks uncut": uncut_necks,
    "plain mean": plain_mean,
    "slivers kept": with_slivers,
    "twin step left out": with_straight_twins,
}


def every_way(wanted: tuple[GrainFamily, int]) -> dict[str, Outcome]:
    """Draw one section and segment it by the whole method and with steps left out."""
    family, seed = wanted
    section = drawn_section(family, seed, readable=True, side_px=768)
    found = {}
    for name, leaving_out in WAYS.items():
        with leaving_out():
            labels = segment(section.picture).grain_labels
        found[name] = outcome(labels, section, ())
    return found


def main(count: int) -> None:
    """Print the table."""
    wanted = [
        (family, FIRST_SEED + 1000 * index + k)
        for index, family in enumerate(GRAIN_FAMILIES)
        if family != "single"
        for k in range(count)
    ]
    found = list(each_in_order(every_way, wanted))
    for name in WAYS:
        print(row(name, [outcomes[name] for outcomes in found]))


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 8)
