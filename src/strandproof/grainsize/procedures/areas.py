"""Area procedures: circle, rectangle, triple points, all the metal."""

from dataclasses import replace

import numpy as np

from strandproof.grainsize.grain_size_numbers import planimetric_g_estimate
from strandproof.grainsize.patch import MetalPatch
from strandproof.grainsize.planimetric import count_grains, grains_per_area
from strandproof.grainsize.procedures.figures import (
    corners_in_metal,
    figure_region,
    placed_circles,
    placed_rectangle,
)
from strandproof.grainsize.procedures.settings import ProcedureSettings
from strandproof.grainsize.relations import planimetric_g
from strandproof.grainsize.scaling import (
    PER_SQUARE_MILLIMETRE,
    SQUARE_MILLIMETRES,
    scaled_estimate,
    scaled_quantity,
)
from strandproof.grainsize.triple_points import meeting_points
from strandproof.quantity import Quantity
from strandproof.records.measurement import FrameRule, GrainCount
from strandproof.records.procedures import (
    AreaCount,
    AreaProcedure,
    ChoiceEffect,
    TestFigure,
)
from strandproof.tables import package_table, table_value


def jeffries_circle(patch: MetalPatch, settings: ProcedureSettings) -> AreaCount:
    """Grains in a circle or several, those cut by it one half each.

    Parameters
    ----------
    patch : MetalPatch
        The piece of metal.
    settings : ProcedureSettings
        Scale and rules; with a magnification the circle is 79.8 mm wide on that
        print, else the largest that fits.

    Returns
    -------
    AreaCount
        A grain that ends at the strand's edge is whole.

    Notes
    -----
    n = n1 + n2/2, GB 6394-86 eq. (5), read.

    A circle much larger than its grains counts one grain too many in the mean: a
    convex grain of area a and outline p meets a circle of area A and outline P over
    A + P p/(2 pi) + a and lies inside over A - P p/(2 pi) + a (Steiner, from memory),
    half of both is A + a (computed; 1.04 +- 0.05 too many in 1440 circles of 19
    random cells each). The count less one stands
    beside the result.
    """
    diameter = settings.print_size_px(
        table_value(package_table("grain_size_rules"), "count.circle_diameter")
    )
    figures = placed_circles(patch, diameter_px=diameter, most=settings.placements)
    if diameter is not None:
        figures = tuple(replace(each, size_from="print_size") for each in figures)
    return _counted("jeffries_circle", patch, figures, settings, frame_rule="half")


def saltykov_rectangle(
    patch: MetalPatch,
    settings: ProcedureSettings,
    *,
    height_width_px: tuple[float, float] | None = None,
) -> AreaCount:
    """Grains in a rectangle: cut ones one half, those at its corners a quarter.

    Parameters
    ----------
    patch : MetalPatch
        The piece of metal.
    settings : ProcedureSettings
        Scale and rules.
    height_width_px : tuple of float, optional
        Sides [px]; None takes the largest of 3 to 4 that fits.

    Returns
    -------
    AreaCount
        The count, with the one by halves alone beside it.

    Notes
    -----
    N = N_in + N_edge/2 + 1, N_edge without the four corner grains; Saltykov and
    ASTM E112-13, from memory. Corners off the metal bring no quarter.
    """
    figure = placed_rectangle(patch, height_width_px=height_width_px)
    return _counted(
        "saltykov_rectangle",
        patch,
        (figure,),
        settings,
        frame_rule="half_and_quarter_corners",
    )


def whole_area(patch: MetalPatch, settings: ProcedureSettings) -> AreaCount:
    """Grains on all of the metal in the picture, by the frame rule of the settings.

    Parameters
    ----------
    patch : MetalPatch
        The piece of metal.
    settings : ProcedureSettings
        Scale and rules.

    Returns
    -------
    AreaCount
        The same count as `strandproof.grainsize.measure` gives.
    """
    n_rows, n_cols = patch.metal.shape
    figure = TestFigure(
        kind="whole_metal",
        centre_px=(
            patch.corner_px[0] + 0.5 * (n_rows - 1),
            patch.corner_px[1] + 0.5 * (n_cols - 1),
        ),
        size_px=(float(n_rows), float(n_cols)),
        size_from="whole_metal",
        clipped=False,
    )
    return _counted(
        "whole_area", patch, (figure,), settings, frame_rule=settings.rules.frame_rule
    )


def triple_point_count(
    patch: MetalPatch,
    settings: ProcedureSettings,
    *,
    height_width_px: tuple[float, float] | None = None,
) -> AreaCount:
    """Grains per area from the points where three grains meet, in a rectangle.

    Parameters
    ----------
    patch : MetalPatch
        The piece of metal.
    settings : ProcedureSettings
        Scale and rules; the frame rule decides whether one grain is added.
    height_width_px : tuple of float, optional
        Sides [px]; None takes the largest of 3 to 4 that fits.

    Returns
    -------
    AreaCount
        `inside` holds the points; where four grains meet there are two.

    Notes
    -----
    N = P/2 + 1, from memory (Euler). Counting faces, edges and points of a network
    whose points join three edges inside a frame gives F = P/2 + B/2 + 1, with B
    grains cut by the frame; so P/2 + 1 is exactly what cut grains of one half give,
    and P/2 what corner grains of a quarter give (computed).
    """
    figure = placed_rectangle(patch, height_width_px=height_width_px)
    region = figure_region(figure, patch)
    # With 0 off the figure only points that lie wholly within are left.
    met = meeting_points(np.where(region, patch.labels, 0))
    points = int(met.triple_points.sum())
    added = 1.0 if settings.rules.frame_rule == "half" else 0.0
    count = GrainCount(
        inside=points,
        cut=0,
        equivalent=0.5 * points + added,
        area=Quantity(float(region.sum()), "px^2"),
    )
    return _area_count(
        "triple_points",
        (figure,),
        count,
        settings,
        frame_rule=settings.rules.frame_rule,
        # Always so on a rectangle in metal: the two rules differ by one grain.
        corners=4,
    )


def _counted(
    procedure: AreaProcedure,
    patch: MetalPatch,
    figures: tuple[TestFigure, ...],
    settings: ProcedureSettings,
    *,
    frame_rule: FrameRule,
) -> AreaCount:
    each = [_figure_count(patch, figure) for figure in figures]
    corners = sum(number for _, number in each)
    quarters = 0.25 * corners if frame_rule == "half_and_quarter_corners" else 0.0
    count = GrainCount(
        inside=sum(one.inside for one, _ in each),
        cut=sum(one.cut for one, _ in each),
        equivalent=sum(one.equivalent for one, _ in each) - quarters,
        area=Quantity(sum(one.area.value for one, _ in each), "px^2"),
    )
    return _area_count(
        procedure, figures, count, settings, frame_rule=frame_rule, corners=corners
    )


def _figure_count(patch: MetalPatch, figure: TestFigure) -> tuple[GrainCount, int]:
    """Count by halves, and the corners that lie in metal."""
    region = figure_region(figure, patch)
    count = count_grains(patch.labels, region, frame_rule="half")
    if figure.kind == "circle":
        return count, 0
    if figure.kind == "rectangle":
        return count, corners_in_metal(figure, patch)
    return count, int(region[[0, 0, -1, -1], [0, -1, 0, -1]].sum())


def _area_count(
    procedure: AreaProcedure,
    figures: tuple[TestFigure, ...],
    count: GrainCount,
    settings: ProcedureSettings,
    *,
    frame_rule: FrameRule,
    corners: int,
) -> AreaCount:
    pixel_size = settings.pixel_size
    density = grains_per_area(count)
    scaled = density and scaled_estimate(density, pixel_size, PER_SQUARE_MILLIMETRE)
    g = None
    if scaled is not None and pixel_size is not None:
        g = planimetric_g_estimate(scaled, relations=settings.relations)
    return AreaCount(
        procedure=procedure,
        figures=figures,
        frame_rule=frame_rule,
        inside=count.inside,
        cut=count.cut,
        corners=corners,
        equivalent=count.equivalent,
        area=scaled_quantity(count.area, pixel_size, SQUARE_MILLIMETRES),
        grains_per_area=scaled,
        g=g,
        effects=_effects(
            figures, count, settings, frame_rule=frame_rule, corners=corners
        ),
    )


def _effects(
    figures: tuple[TestFigure, ...],
    count: GrainCount,
    settings: ProcedureSettings,
    *,
    frame_rule: FrameRule,
    corners: int,
) -> tuple[ChoiceEffect, ...]:
    """Give the count under the other frame rule: by corners, or for whole circles."""
    whole_circles = [
        each for each in figures if each.kind == "circle" and not each.clipped
    ]
    if whole_circles:
        option, status = "half_less_one_a_circle", "computed"
        change = -1.0 * len(whole_circles)
    elif corners:
        option = "half" if frame_rule != "half" else "half_and_quarter_corners"
        key = "frame" if option == "half" else "corner"
        status = package_table("grain_size_rules")[f"count.{key}_grain_score"].status
        change = 0.25 * corners * (1.0 if option == "half" else -1.0)
    else:
        return ()
    equivalent = count.equivalent + change
    g = None
    if settings.pixel_size is not None and equivalent > 0:
        area_mm2 = count.area.value * (settings.pixel_size.value / 1000.0) ** 2
        g = planimetric_g(equivalent / area_mm2, relations=settings.relations)
    return (
        ChoiceEffect(
            rule="frame_rule", option=option, status=status, count=equivalent, g=g
        ),
    )
