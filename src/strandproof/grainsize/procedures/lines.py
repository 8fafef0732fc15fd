"""Line procedures: Heyn lines in four directions, one circle, three circles."""

from collections.abc import Iterable, Sequence
from dataclasses import replace
from math import pi

import numpy as np

from strandproof.grainsize.blocks import BlockTally, joined_tally, summed_tally
from strandproof.grainsize.estimates import mean_intercept_estimate
from strandproof.grainsize.grain_size_numbers import intercept_g_estimate
from strandproof.grainsize.intercepts import DIRECTIONS_DEG, PatchLines, walk_patch
from strandproof.grainsize.patch import MetalPatch
from strandproof.grainsize.procedures.contacts import contact_map, run_events
from strandproof.grainsize.procedures.curves import (
    Curve,
    circle_curve,
    metal_runs,
    straight_curve,
)
from strandproof.grainsize.procedures.figures import (
    largest_circle_px,
    placed_circles,
    three_diameters_px,
)
from strandproof.grainsize.procedures.scoring import (
    intercepts_of,
    intersections_of,
    other_choices,
    summed_events,
)
from strandproof.grainsize.procedures.settings import ProcedureSettings
from strandproof.grainsize.relations import intercept_g
from strandproof.grainsize.scaling import (
    MICROMETRES,
    MILLIMETRES,
    scaled_estimate,
    scaled_quantity,
)
from strandproof.grainsize.traverses import WalkedLine
from strandproof.quantity import Quantity
from strandproof.records.measurement import Estimate
from strandproof.records.procedures import (
    ChoiceEffect,
    LineCount,
    LineEvents,
    LineProcedure,
    TestFigure,
)
from strandproof.tables import package_table, table_value


def heyn_lines(
    patch: MetalPatch,
    settings: ProcedureSettings,
    *,
    axis_deg: float = 0.0,
    has_axis: bool = False,
    walked: PatchLines | None = None,
) -> LineCount:
    """Straight lines in four directions, about one mean intercept apart.

    Parameters
    ----------
    patch : MetalPatch
        The piece of metal.
    settings : ProcedureSettings
        Scale, rules and scores.
    axis_deg : float
        Direction of the strand axis [deg], from +x towards +y upwards.
    has_axis : bool
        Whether it is the axis of a strand seen from the side.
    walked : PatchLines, optional
        Lines already laid by `walk_patch`; None lays them.

    Returns
    -------
    LineCount
        Counts of all four directions together.

    Notes
    -----
    The interval is that of `strandproof.grainsize.measure` for the same lines, scaled
    by the ratio of the two counts.
    """
    if walked is None:
        walked = walk_patch(
            patch, axis_deg=axis_deg, has_axis=has_axis, rules=settings.rules
        )
    lines = [line for each in walked.lines for line in each]
    events, length = _met(patch, _line_curves(lines, patch, settings), settings)
    intercepts = intercepts_of(events, settings.scoring)
    figure = TestFigure(
        kind="lines",
        centre_px=_middle(patch),
        size_px=tuple(float(len(each)) for each in walked.lines),
        size_from="whole_metal",
        clipped=False,
    )
    estimate = mean_intercept_estimate(
        _scaled_tally(walked, intercepts, length),
        directions=len(DIRECTIONS_DEG),
        rules=settings.rules,
    )
    return _line_count(
        "heyn_lines", (figure,), settings, events=events, length=length, mean=estimate
    )


def single_circle(patch: MetalPatch, settings: ProcedureSettings) -> LineCount:
    """One circle, laid where the metal is widest, or several side by side.

    Parameters
    ----------
    patch : MetalPatch
        The piece of metal.
    settings : ProcedureSettings
        Scale, rules and scores; with a magnification the circle is 250 mm around
        on that print (from memory of ASTM E112), else the largest that fits.

    Returns
    -------
    LineCount
        A circle has no direction, so that elongated grains are met evenly.
    """
    around = _print_length(settings, "figure.single_circle_length")
    figures = placed_circles(
        patch,
        diameter_px=None if around is None else around / pi,
        most=settings.placements,
    )
    return _circles(patch, settings, "single_circle", _named(figures, around))


def three_circles(patch: MetalPatch, settings: ProcedureSettings) -> LineCount:
    """Three concentric circles, equally spaced, at one place or several.

    Parameters
    ----------
    patch : MetalPatch
        The piece of metal.
    settings : ProcedureSettings
        Scale, rules and scores; with a magnification the circles are 500 mm long
        in all on that print (read), else the outer one is the largest that fits.

    Returns
    -------
    LineCount
        Counts of all three circles together.
    """
    total = _print_length(settings, "figure.three_circles_length")
    largest = None if total is None else three_diameters_px(total)[0]
    outer = placed_circles(patch, diameter_px=largest, most=settings.placements)
    fits = largest_circle_px(patch) + 1e-9
    figures = tuple(
        replace(
            each,
            size_px=(each.size_px[0] * share / 3.0,),
            clipped=each.size_px[0] * share / 3.0 > fits,
        )
        for each in _named(outer, total)
        for share in (3.0, 2.0, 1.0)
    )
    return _circles(patch, settings, "three_circles", figures)


def _circles(
    patch: MetalPatch,
    settings: ProcedureSettings,
    procedure: LineProcedure,
    figures: tuple[TestFigure, ...],
) -> LineCount:
    curves = [
        circle_curve(
            (
                figure.centre_px[0] - patch.corner_px[0],
                figure.centre_px[1] - patch.corner_px[1],
            ),
            figure.size_px[0],
            step_px=settings.rules.sample_step_px,
        )
        for figure in figures
    ]
    events, length = _met(patch, curves, settings)
    tally = BlockTally(
        lengths_px=np.array([length]),
        intercepts=np.array([intercepts_of(events, settings.scoring)]),
        crossings=_boundaries(events),
    )
    mean = mean_intercept_estimate(tally, directions=1, rules=settings.rules)
    return _line_count(
        procedure, figures, settings, events=events, length=length, mean=mean
    )


def _line_count(
    procedure: LineProcedure,
    figures: tuple[TestFigure, ...],
    settings: ProcedureSettings,
    *,
    events: LineEvents,
    length: float,
    mean: Estimate | None,
) -> LineCount:
    pixel_size, scoring = settings.pixel_size, settings.scoring
    scaled = mean and scaled_estimate(mean, pixel_size, MICROMETRES)
    g = None
    if scaled is not None and pixel_size is not None:
        g = intercept_g_estimate(scaled, relations=settings.relations)
    return LineCount(
        procedure=procedure,
        figures=figures,
        events=events,
        scoring=scoring,
        intersections=intersections_of(events, scoring),
        intercepts=intercepts_of(events, scoring),
        length=scaled_quantity(Quantity(length, "px"), pixel_size, MILLIMETRES),
        mean_intercept=scaled,
        g=g,
        effects=_effects(events, length, settings),
    )


def _effects(
    events: LineEvents, length: float, settings: ProcedureSettings
) -> tuple[ChoiceEffect, ...]:
    found = []
    for option, rules in other_choices(settings.scoring):
        count = intercepts_of(events, rules)
        g = None
        if settings.pixel_size is not None and count > 0 and _boundaries(events):
            mean_mm = length * settings.pixel_size.value / count / 1000.0
            g = intercept_g(mean_mm, relations=settings.relations)
        found.append(
            ChoiceEffect(
                rule=option.rule,
                option=option.option,
                status=option.status,
                count=count,
                g=g,
            )
        )
    return tuple(found)


def _met(
    patch: MetalPatch, curves: Iterable[Curve], settings: ProcedureSettings
) -> tuple[LineEvents, float]:
    """Events on all curves and the length of line in metal [px]."""
    contacts = contact_map(patch, contact_px=settings.scoring.contact_px)
    runs = [run for curve in curves for run in metal_runs(curve, patch)]
    events = summed_events(run_events(contacts, run) for run in runs)
    return events, sum(run.length_px for run in runs)


def _line_curves(
    lines: Sequence[WalkedLine], patch: MetalPatch, settings: ProcedureSettings
) -> list[Curve]:
    row, col = patch.corner_px

    def at(place: tuple[float, float]) -> tuple[float, float]:
        return (place[0] - row, place[1] - col)

    return [
        straight_curve(
            at(line.traverse.start_px),
            at(line.traverse.end_px),
            step_px=settings.rules.sample_step_px,
        )
        for line in lines
    ]


def _scaled_tally(walked: PatchLines, intercepts: float, length: float) -> BlockTally:
    tally = joined_tally([summed_tally(walked.tallies)])
    counted, seen = float(tally.intercepts.sum()), float(tally.lengths_px.sum())
    if counted <= 0 or intercepts <= 0:
        return replace(tally, crossings=0)
    return replace(
        tally,
        intercepts=tally.intercepts * (intercepts / counted),
        lengths_px=tally.lengths_px * (length / seen),
    )


def _boundaries(events: LineEvents) -> int:
    """Count boundaries met other than by touch: without one there is no mean."""
    return events.crossings + events.triple_points + len(events.higher_junctions)


def _print_length(settings: ProcedureSettings, key: str) -> float | None:
    return settings.print_size_px(table_value(package_table("grain_size_rules"), key))


def _named(
    figures: tuple[TestFigure, ...], print_length: float | None
) -> tuple[TestFigure, ...]:
    if print_length is None:
        return figures
    return tuple(replace(each, size_from="print_size") for each in figures)


def _middle(patch: MetalPatch) -> tuple[float, float]:
    rows, cols = np.nonzero(patch.metal)
    return (
        float(rows.mean()) + patch.corner_px[0],
        float(cols.mean()) + patch.corner_px[1],
    )
