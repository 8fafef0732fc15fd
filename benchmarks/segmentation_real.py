"""Segmentation on real labelled micrographs, beside a plain pipeline.

Run: python benchmarks/segmentation_real.py

Prints for each picture and as medians: grains, mean intercept in pixels, boundary F1
(3 px for the iron sections, 4 px for the colour tiles) and the error of G against the
labels. The five iron sections show one area; tiles of one field are not independent.
"""

import time
from collections.abc import Callable, Iterable
from typing import Any

import numpy as np
import numpy.typing as npt
from plain_pipeline import plain_labels
from real_micrographs import LabelledMicrograph, colour_tiles, iron_sections
from structure_errors import g_errors, mean_intercept_px

from strandproof.micrograph import boundary_agreement, segment
from strandproof.micrograph.agreement import label_changes, without_boundary_pixels
from strandproof.storage import read_picture

Labels = npt.NDArray[np.integer[Any]]
Row = tuple[float, float, float, float, float, float]


def ours(picture: npt.NDArray[np.float32]) -> Labels:
    """Use this project's method."""
    return without_boundary_pixels(segment(picture).grain_labels)


def figures(
    micrograph: LabelledMicrograph, method: Callable[[npt.NDArray[np.float32]], Labels]
) -> Row:
    """Measure one picture by one method."""
    picture = read_picture(micrograph.path).pixels
    begin = time.perf_counter()
    labels = without_boundary_pixels(method(picture))
    seconds = time.perf_counter() - begin
    agreement = boundary_agreement(
        label_changes(labels), micrograph.boundary, tolerance_px=micrograph.tolerance_px
    )
    g = g_errors(labels, micrograph.labels)
    return (
        float(np.unique(labels).size),
        mean_intercept_px(labels),
        agreement.f1,
        g.intercept,
        g.planimetric,
        1e6 * seconds / labels.size,
    )


def show(title: str, micrographs: Iterable[LabelledMicrograph]) -> None:
    """Print a table for one set."""
    methods = {"ours": ours, "plain": plain_labels}
    rows: dict[str, list[Row]] = {name: [] for name in methods}
    print(
        f"\n{title}\n{'picture':16} {'method':6} grains  l/px    F1   dG i  dG p  s/Mpx"
    )
    for micrograph in micrographs:
        true = mean_intercept_px(micrograph.labels)
        grains = np.unique(micrograph.labels).size
        print(f"{micrograph.name:16} labels {grains:5d} {true:6.1f}")
        for name, method in methods.items():
            rows[name].append(figures(micrograph, method))
            n, length, f1, g_i, g_p, speed = rows[name][-1]
            print(
                f"{'':16} {name:6} {n:5.0f} {length:6.1f} {f1:6.3f} {g_i:+6.2f} "
                f"{g_p:+6.2f} {speed:5.1f}"
            )
    for name, table in rows.items():
        _, _, f1, g_i, g_p, speed = np.median(np.abs(np.array(table)), axis=0)
        print(
            f"median, {name}: F1 {f1:.3f}, |dG| intercept {g_i:.2f}, "
            f"planimetric {g_p:.2f}, {speed:.1f} s per megapixel"
        )


if __name__ == "__main__":
    show("iron sections (real, grooves)", iron_sections())
    show("colour tiles (real, hue without grooves)", colour_tiles())
