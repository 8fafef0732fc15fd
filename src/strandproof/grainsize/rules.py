"""The options and thresholds a measurement goes by, out of the table of rules."""

from collections.abc import Mapping

from strandproof.records.measurement import CountingRules, FrameRule, LineEndRule
from strandproof.tables import TableRow, package_table, table_value

# Four samples a pixel: a line then misses no pixel that it crosses over more than
# a quarter of its width.
_SAMPLE_STEP_PX = 0.25


def counting_rules(
    *,
    frame_rule: FrameRule = "half_and_quarter_corners",
    line_ends: LineEndRule = "half",
    table: Mapping[str, TableRow] | None = None,
) -> CountingRules:
    """Rules of counting with their thresholds; every result keeps a copy.

    Parameters
    ----------
    frame_rule : {"half", "half_and_quarter_corners"}
        Score of a grain cut by the picture's frame, see `CountingRules`.
    line_ends : {"half", "whole_at_strand_edge"}
        Score of an intercept at the end of a line, see `CountingRules`.
    table : Mapping from str to TableRow, optional
        Thresholds; None takes the package's table ``grain_size_rules``, which
        says which of them are judgement.

    Returns
    -------
    CountingRules
        The rules; alter single thresholds with `dataclasses.replace`.

    Examples
    --------
    >>> counting_rules().minimum_grains
    50.0
    """
    rows = package_table("grain_size_rules") if table is None else table
    return CountingRules(
        frame_rule=frame_rule,
        line_ends=line_ends,
        line_spacing=table_value(rows, "intercept.line_spacing"),
        sample_step_px=_SAMPLE_STEP_PX,
        minimum_grains=table_value(rows, "count.minimum_grains"),
        minimum_grains_across=table_value(rows, "strand.minimum_grains_across"),
        minimum_intercept_px=table_value(rows, "intercept.minimum_pixels"),
        elongation_limit=table_value(rows, "strand.elongation"),
        minimum_block_side=table_value(rows, "interval.minimum_block_side"),
        minimum_blocks=int(table_value(rows, "interval.minimum_blocks")),
        maximum_blocks=int(table_value(rows, "interval.maximum_blocks")),
    )
