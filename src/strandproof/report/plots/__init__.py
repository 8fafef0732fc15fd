"""Plots as SVG: plain numbers in, one drawing out, readable in grey and on a phone.

Each is a pure function; the same numbers give the same bytes. Every drawing carries a
title and a description for those who cannot see it. Nothing here chooses what is true:
means, intervals and which marks belong together come from the caller.
"""

from strandproof.report.plots.histogram import histogram_svg
from strandproof.report.plots.levels import (
    CableValues,
    LevelMean,
    StrandValues,
    level_scatter_svg,
)
from strandproof.report.plots.marks import (
    FEATURES,
    DrawnMark,
    ReaderMarks,
    reader_marks_svg,
)
from strandproof.report.plots.means import MeanWithInterval
from strandproof.report.plots.of_readings import (
    level_scatter_plot,
    mark_directions_plot,
    reader_marks_plots,
)
from strandproof.report.plots.rose import direction_rose_svg

__all__ = [
    "FEATURES",
    "CableValues",
    "DrawnMark",
    "LevelMean",
    "MeanWithInterval",
    "ReaderMarks",
    "StrandValues",
    "direction_rose_svg",
    "histogram_svg",
    "level_scatter_plot",
    "level_scatter_svg",
    "mark_directions_plot",
    "reader_marks_plots",
    "reader_marks_svg",
]
