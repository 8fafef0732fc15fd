"""Plots as SVG: plain numbers in, one drawing out, readable in grey and on a phone.

Each is a pure function; the same numbers give the same bytes. Every drawing carries a
title and a description for those who cannot see it. Nothing here chooses what is true:
means, intervals and which marks belong together come from the caller.
"""

from strandproof.report.plots.budget_bars import budget_bars_svg
from strandproof.report.plots.certificate_limits import certificate_limits_svg
from strandproof.report.plots.custody import (
    CustodyPanel,
    GapSpan,
    HeldSpan,
    custody_svg,
)
from strandproof.report.plots.effect_bars import EffectRow, effect_bars_svg
from strandproof.report.plots.field_places import FieldStrip, field_places_svg
from strandproof.report.plots.frequency import (
    RiseCurve,
    frequency_svg,
    rise_in_words,
)
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
from strandproof.report.plots.residual_map import PurityCurve, residual_map_svg
from strandproof.report.plots.rose import direction_rose_svg

__all__ = [
    "FEATURES",
    "CableValues",
    "CustodyPanel",
    "DrawnMark",
    "EffectRow",
    "FieldStrip",
    "GapSpan",
    "HeldSpan",
    "LevelMean",
    "MeanWithInterval",
    "PurityCurve",
    "ReaderMarks",
    "RiseCurve",
    "StrandValues",
    "budget_bars_svg",
    "certificate_limits_svg",
    "custody_svg",
    "direction_rose_svg",
    "effect_bars_svg",
    "field_places_svg",
    "frequency_svg",
    "histogram_svg",
    "level_scatter_plot",
    "level_scatter_svg",
    "mark_directions_plot",
    "reader_marks_plots",
    "reader_marks_svg",
    "residual_map_svg",
    "rise_in_words",
]
