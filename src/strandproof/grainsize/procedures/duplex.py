"""Kinds of duplex grain size, each with the figures behind its answer.

The criteria are those of ASTM E1181 as remembered; where none is remembered the
table of rules says judgement. A section makes a spread of its own even of equal
grains, and the criteria leave room for that.
"""

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt
from scipy import ndimage

from strandproof.grainsize.patch import MetalPatch
from strandproof.grainsize.procedures.statistics import (
    WholeGrains,
    boundary_contrast,
    weighted_percentile,
)
from strandproof.records.structure_findings import DuplexKind
from strandproof.tables import TableRow, package_table, table_value

Floats = npt.NDArray[np.float64]
Bools = npt.NDArray[np.bool_]
_LEAST_GRAINS = 20


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Sizes:
    """Whole grains with their size as G above that of the largest possible."""

    g: Floats
    area: Floats
    coarse: Bools
    distance_g: float
    near_share: float
    lesser_percent: float


def duplex_kinds(
    patch: MetalPatch,
    grains: WholeGrains,
    *,
    axis_deg: float | None,
    table: Mapping[str, TableRow] | None = None,
) -> tuple[DuplexKind, ...]:
    """Answer for each kind of duplex grain size whether it is there.

    Parameters
    ----------
    patch : MetalPatch
        The piece of metal.
    grains : WholeGrains
        Its whole grains; fewer than 20 give no answer at all.
    axis_deg : float or None
        Direction of the strand axis [deg]; None where there is none, and then no
        size change from edge to middle is looked for.
    table : Mapping from str to TableRow, optional
        Criteria; None takes the package's table ``grain_size_rules``.

    Returns
    -------
    tuple of DuplexKind
        Six answers, or none with too few grains.
    """
    if grains.labels.size < _LEAST_GRAINS:
        return ()
    rules = package_table("grain_size_rules") if table is None else table
    sizes = _sizes(grains, rules)
    bimodal = _bimodal(sizes, rules)
    isolated = _isolated_coarse(sizes, rules)
    coarse = np.zeros(int(patch.labels.max()) + 1, np.bool_)
    coarse[grains.labels[sizes.coarse]] = True
    split = bimodal.present or isolated.present
    if isolated.present and not bimodal.present:
        coarse[:] = False
        coarse[grains.labels[_isolated(sizes, rules)]] = True
    return (
        isolated,
        _wide_range(sizes, rules),
        bimodal,
        _cross_section(patch, grains, sizes, axis_deg, rules),
        _necklace(patch, coarse, rules, split=split),
        _banding(patch, coarse, axis_deg or 0.0, rules, split=bimodal.present),
    )


def _sizes(grains: WholeGrains, rules: Mapping[str, TableRow]) -> _Sizes:
    """Sizes in G and their best cut into coarse and fine by area."""
    area = grains.areas_px * grains.weights
    g = -np.log2(grains.areas_px)
    coarse = g <= _two_class_cut(g, area)
    # Grains that are all of one size are one class.
    classes = [part for part in _both(coarse) if part.any()]
    centres = [float(np.average(g[part], weights=area[part])) for part in classes]
    near = np.zeros(g.size, np.bool_)
    for centre, part in zip(centres, classes, strict=True):
        reach = table_value(rules, "duplex.same_size_g")
        near |= part & (np.abs(g - centre) <= reach)
    return _Sizes(
        g=g,
        area=area,
        coarse=coarse,
        distance_g=centres[-1] - centres[0],
        near_share=float(area[near].sum() / area.sum()),
        lesser_percent=_lesser_percent(area, coarse),
    )


def _lesser_percent(area: Floats, coarse: Bools) -> float:
    share = 100.0 * float(area[coarse].sum() / area.sum())
    return min(share, 100.0 - share)


def _both(coarse: Bools) -> tuple[Bools, Bools]:
    return coarse, ~coarse


def _two_class_cut(g: Floats, area: Floats) -> float:
    """Size that parts two classes best (greatest variance between them)."""
    order = np.argsort(g)
    sizes, weights = g[order], area[order]
    below = np.cumsum(weights)[:-1]
    above = weights.sum() - below
    sums = np.cumsum(weights * sizes)
    mean_below, mean_above = sums[:-1] / below, (sums[-1] - sums[:-1]) / above
    between = below * above * (mean_above - mean_below) ** 2
    # Grains of one size cannot be parted: cut only where the size changes.
    between[np.diff(sizes) == 0] = -1.0
    return float(sizes[int(between.argmax())])


def _isolated(sizes: _Sizes, rules: Mapping[str, TableRow]) -> Bools:
    mean = -np.log2(sizes.area.sum() / np.sum(sizes.area / 2.0 ** (-sizes.g)))
    return np.asarray(
        sizes.g <= mean - table_value(rules, "duplex.isolated_coarse_g"), np.bool_
    )


def _isolated_coarse(sizes: _Sizes, rules: Mapping[str, TableRow]) -> DuplexKind:
    chosen = _isolated(sizes, rules)
    percent = 100.0 * float(sizes.area[chosen].sum() / sizes.area.sum())
    most = table_value(rules, "duplex.isolated_coarse_area")
    present = bool(chosen.any()) and percent <= most
    return DuplexKind(
        name="isolated_coarse",
        present=present,
        figures=(("grains", float(chosen.sum())), ("area_percent", percent)),
        status=rules["duplex.isolated_coarse_g"].status,
        sentence=(
            f"{int(chosen.sum())} grains are coarser than the mean by 3 in G or more; "
            f"they fill {percent:.1f} % of the area."
        ),
    )


def _wide_range(sizes: _Sizes, rules: Mapping[str, TableRow]) -> DuplexKind:
    ends = [weighted_percentile(sizes.g, sizes.area, each) for each in (5.0, 95.0)]
    span = ends[1] - ends[0]
    return DuplexKind(
        name="wide_range",
        present=span >= table_value(rules, "duplex.wide_range_g"),
        figures=(("span_g", span),),
        status=rules["duplex.wide_range_g"].status,
        sentence=f"The central 90 % of the area spans {span:.1f} in G.",
    )


def _bimodal(sizes: _Sizes, rules: Mapping[str, TableRow]) -> DuplexKind:
    percent = 100.0 * sizes.near_share
    # A share that would still be isolated grains makes no second size.
    present = (
        sizes.distance_g >= table_value(rules, "duplex.bimodal_g")
        and percent >= table_value(rules, "duplex.bimodal_area")
        and sizes.lesser_percent > table_value(rules, "duplex.isolated_coarse_area")
    )
    return DuplexKind(
        name="bimodal",
        present=present,
        figures=(
            ("distance_g", sizes.distance_g),
            ("area_percent", percent),
            ("lesser_percent", sizes.lesser_percent),
        ),
        status=rules["duplex.bimodal_g"].status,
        sentence=(
            f"Two sizes {sizes.distance_g:.1f} apart in G hold {percent:.0f} % of the "
            f"area within 1 in G; the lesser fills {sizes.lesser_percent:.0f} %."
        ),
    )


def _cross_section(
    patch: MetalPatch,
    grains: WholeGrains,
    sizes: _Sizes,
    axis_deg: float | None,
    rules: Mapping[str, TableRow],
) -> DuplexKind:
    status = rules["duplex.gradient_g"].status
    depth = ndimage.distance_transform_edt(patch.metal)
    rows, cols = (grains.centres_px[:, axis].round().astype(int) for axis in (0, 1))
    at = depth[rows, cols]
    outer = at <= np.median(depth[patch.metal])
    no_edge = axis_deg is None or patch.metal.all()
    if no_edge or outer.all() or not outer.any():
        return DuplexKind(
            name="cross_section",
            present=False,
            figures=(),
            status=status,
            sentence="No strand edge shows, so no change from edge to middle is known.",
        )
    # Grains per area of each zone, as one grain size number apart.
    means = [
        float(
            np.sum(sizes.area[part]) / np.sum(sizes.area[part] * 2.0 ** sizes.g[part])
        )
        for part in (outer, ~outer)
    ]
    change = float(np.log2(means[1] / means[0]))
    return DuplexKind(
        name="cross_section",
        present=abs(change) >= table_value(rules, "duplex.gradient_g"),
        figures=(("edge_minus_middle_g", change),),
        status=status,
        sentence=f"From middle to edge of the strand G changes by {change:+.1f}.",
    )


def _necklace(
    patch: MetalPatch, coarse: Bools, rules: Mapping[str, TableRow], *, split: bool
) -> DuplexKind:
    status = rules["duplex.necklace_share"].status
    if not split or not coarse.any():
        return _not_parted("necklace", status)
    share = float(boundary_contrast(patch, coarse)[coarse].mean())
    return DuplexKind(
        name="necklace",
        present=share >= table_value(rules, "duplex.necklace_share"),
        figures=(("fine_share_of_outline", share),),
        status=status,
        sentence=f"Fine grains border {100 * share:.0f} % of the coarse outlines.",
    )


def _banding(
    patch: MetalPatch,
    coarse: Bools,
    axis_deg: float,
    rules: Mapping[str, TableRow],
    *,
    split: bool,
) -> DuplexKind:
    status = rules["duplex.band_contrast"].status
    if not split:
        return _not_parted("banding", status)
    is_coarse = coarse[patch.labels]
    areas = np.bincount(patch.labels.ravel())[np.flatnonzero(coarse)]
    width = float(np.sqrt(areas.mean()))
    rows, cols = np.nonzero(patch.metal)
    angle = np.deg2rad(axis_deg)
    across = cols * np.sin(angle) + rows * np.cos(angle)
    along = cols * np.cos(angle) - rows * np.sin(angle)
    chosen = is_coarse[rows, cols].astype(np.float64)
    bands = _strip_deviation(across, chosen, width)
    other = _strip_deviation(along, chosen, width)
    high, low = max(bands, other), min(bands, other)
    contrast = table_value(rules, "duplex.band_contrast")
    return DuplexKind(
        name="banding",
        present=high >= contrast and high >= 2.0 * low,
        figures=(("across_bands", high), ("along_bands", low)),
        status=status,
        sentence=(
            f"The coarse share scatters by {high:.2f} over strips one way and by "
            f"{low:.2f} the other way."
        ),
    )


def _strip_deviation(places: Floats, chosen: Floats, width: float) -> float:
    strips = np.floor((places - places.min()) / width).astype(np.intp)
    size = np.bincount(strips).astype(np.float64)
    share = np.bincount(strips, chosen) / np.maximum(size, 1.0)
    # Slivers at the ends hold next to nothing.
    kept = size >= 0.25 * size.max()
    return float(share[kept].std())


def _not_parted(name: str, status: str) -> DuplexKind:
    return DuplexKind(
        name="necklace" if name == "necklace" else "banding",
        present=False,
        figures=(),
        status=status,
        sentence="The sizes do not part into coarse and fine, so this was not asked.",
    )
