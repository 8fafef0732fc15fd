"""Flags that a measurement raises about its own standing."""

from collections.abc import Iterable, Iterator
from math import log

from strandproof.quantity import Quantity
from strandproof.records import Flag, Strand
from strandproof.records.measurement import (
    CountingRules,
    GrainCount,
    InterceptCount,
)

# One-sided 95 % limit of a Poisson count of 0.
_NONE_SEEN = -log(0.05)


def scale_flags(pixel_size: Quantity | None) -> Iterator[Flag]:
    """Flag a missing or half-known scale of the picture.

    Parameters
    ----------
    pixel_size : Quantity or None
        Size of a pixel [um].

    Yields
    ------
    Flag
        ``no_scale`` or ``pixel_size_without_uncertainty``.
    """
    if pixel_size is None:
        yield Flag("no_scale")
    elif pixel_size.standard_uncertainty == 0:
        yield Flag("pixel_size_without_uncertainty", f"{pixel_size.value:g} um")


def count_flags(
    count: GrainCount,
    intercepts: InterceptCount,
    *,
    rules: CountingRules,
    side_view: bool,
    strand: int | None = None,
) -> Iterator[Flag]:
    """Flag how little was counted, of a strand or the whole picture.

    Parameters
    ----------
    count : GrainCount
        Grains counted.
    intercepts : InterceptCount
        Intercepts, in pixels.
    rules : CountingRules
        Thresholds.
    side_view : bool
        Whether 0 and 90 deg are along and across a strand axis in the picture.
    strand : int or None
        Number of the strand; None for the whole picture.

    Yields
    ------
    Flag
        ``few_grains``, ``few_pixels_per_grain``, ``elongated_grains``.
    """
    if count.equivalent < rules.minimum_grains:
        yield Flag("few_grains", f"{count.equivalent:g} equivalent grains", strand)
    mean = intercepts.mean_intercept
    if mean is not None and mean.quantity.value < rules.minimum_intercept_px:
        detail = f"mean intercept {mean.quantity.value:.1f} px"
        yield Flag("few_pixels_per_grain", detail, strand)
    elongated = _elongation_text(intercepts, rules) if side_view else ""
    if elongated:
        yield Flag("elongated_grains", elongated, strand)


def _elongation_text(intercepts: InterceptCount, rules: CountingRules) -> str:
    """Say how the grains are elongated; empty where they are not, or not seen."""
    limit, ratio = rules.elongation_limit, intercepts.elongation
    if ratio is not None:
        inside = 1 / limit <= ratio <= limit
        return "" if inside else f"along / across {ratio:.2f}"
    along, _, across, _ = intercepts.directions
    for seen, unseen, where in ((along, across, "across"), (across, along, "along")):
        # No crossing over L: the mean intercept there is at least L/2.996 (95 %).
        mean, bound = seen.mean_intercept, unseen.length.value / _NONE_SEEN
        if mean is not None and bound > limit * mean.quantity.value:
            return f"no boundary resolved {where}"
    return ""


def strand_flags(
    strand: Strand, grains_across: float | None, *, rules: CountingRules
) -> Iterator[Flag]:
    """Flag what the shape of one strand means for its grain size.

    Parameters
    ----------
    strand : Strand
        The strand.
    grains_across : float or None
        Its width in mean intercepts; None without a boundary.
    rules : CountingRules
        Thresholds.

    Yields
    ------
    Flag
        ``axis_assumed``, ``few_grains_across``. A round face shows no axis and
        none is assumed; a field from edge to edge shows no width.
    """
    if strand.axis_deg is None and strand.shape != "round":
        yield Flag("axis_assumed", "", strand.number)
    if strand.shape == "field":
        return
    if grains_across is None:
        yield Flag("few_grains_across", "no boundary crossed", strand.number)
    elif grains_across < rules.minimum_grains_across:
        detail = f"{grains_across:.1f} grains across"
        yield Flag("few_grains_across", detail, strand.number)


def without_repeats(flags: Iterable[Flag]) -> tuple[Flag, ...]:
    """Keep each condition of each strand once, in order.

    Parameters
    ----------
    flags : iterable of Flag
        The flags; the first of a kind is kept.

    Returns
    -------
    tuple of Flag
        The flags left.
    """
    kept: dict[tuple[str, int | None], Flag] = {}
    for flag in flags:
        kept.setdefault((flag.name, flag.strand), flag)
    return tuple(kept.values())
