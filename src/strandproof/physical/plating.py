"""Thickness of a layer from readings round a section, or the bound where none shows."""

from math import cos, radians

from strandproof.errors import NotResolvedError
from strandproof.physical.rules import rule
from strandproof.quantity import (
    Input,
    ModelNumber,
    coverage_factor,
    expanded_interval,
    input_from_readings,
    normal_input,
    propagate,
    rectangular_input,
)
from strandproof.records import Flag
from strandproof.records.physical import LayerReadings, LayerThickness

_FEWEST_READINGS = 4
_UNEVEN = 2.0
_CONFIDENCE = 0.95


def layer_thickness(given: LayerReadings) -> LayerThickness:
    """Give the thickness of a layer, with what blur and an oblique cut may do.

    The readings are taken round the section at places chosen beforehand. Each edge
    may lie anywhere within half of the blur to either side, alike on all readings and
    independently on the two edges. An oblique cut makes the layer look thicker.

    Parameters
    ----------
    given : LayerReadings
        Readings, resolution, and what is known about the tilt.

    Returns
    -------
    LayerThickness
        Mean thickness with budget and 95 % interval, and the range of the readings.

    Raises
    ------
    NotResolvedError
        If the mean reading is below two widths of a blurred edge; the message says
        below what the layer lies.

    Notes
    -----
    t = (m + e1 + e2) s c, with m the mean reading, e the errors of the edges, s the
    scale and c the factor of an oblique cut. Tilted by f, a tube's wall reads between
    t (across the tilt) and t/cos f (along it). Over all directions, area over girth of
    the elliptic wall gives t 2/(1 + cos f), so c = (1 + cos f)/2; since the tilt is a
    largest one, c is taken as anywhere from cos f to 1. cos f is the smallest over the
    largest diameter: an oval strand makes the interval wider, not wrong.

    Examples
    --------
    >>> readings = (1.7, 2.1, 1.9, 2.0, 1.8, 1.9, 2.0, 1.8)
    >>> tin = layer_thickness(LayerReadings(readings_um=readings, resolution_um=0.35))
    >>> round(tin.thickness.value, 1), round(tin.interval.half_width, 1)
    (1.9, 0.3)
    """
    mean = input_from_readings(
        "mean of the readings", given.readings_um, unit="um", symbol="mean"
    )
    _require_visible(mean.estimate, given)
    least = _least_factor(given)
    inputs = (mean, *_edges(given), _scale(given), _oblique(least))
    thickness = propagate(_thickness, inputs, unit="um")
    return LayerThickness(
        thickness=thickness,
        interval=expanded_interval(thickness, _CONFIDENCE),
        coverage_factor=coverage_factor(
            _CONFIDENCE, degrees_of_freedom=thickness.degrees_of_freedom
        ),
        smallest_um=min(given.readings_um),
        largest_um=max(given.readings_um),
        readings=len(given.readings_um),
        oblique_factor=0.5 * (least + 1.0),
        flags=_flags(given, mean.estimate, least),
    )


def _thickness(
    mean: ModelNumber,
    outer: ModelNumber,
    inner: ModelNumber,
    scale: ModelNumber,
    oblique: ModelNumber,
) -> ModelNumber:
    return (mean + outer + inner) * scale * oblique


def _edges(given: LayerReadings) -> tuple[Input, Input]:
    half = 0.5 * given.resolution_um
    return (
        rectangular_input(
            "place of the outer edge", 0.0, half, unit="um", symbol="outer"
        ),
        rectangular_input(
            "place of the inner edge", 0.0, half, unit="um", symbol="inner"
        ),
    )


def _scale(given: LayerReadings) -> Input:
    u = 0.01 * given.scale_uncertainty_percent
    return normal_input("pixel size", 1.0, u, unit="1", symbol="scale")


def _least_factor(given: LayerReadings) -> float:
    if given.diameters_um is not None:
        smallest, largest = given.diameters_um
        return smallest / largest
    return cos(radians(given.largest_tilt_deg))


def _oblique(least: float) -> Input:
    if least == 1.0:
        return normal_input("oblique cut", 1.0, 0.0, unit="1", symbol="oblique")
    middle, half = 0.5 * (1.0 + least), 0.5 * (1.0 - least)
    return rectangular_input("oblique cut", middle, half, unit="1", symbol="oblique")


def _require_visible(mean_um: float, given: LayerReadings) -> None:
    least = rule("layer.least_blurs") * given.resolution_um
    if mean_um < least:
        what = f"A layer read as {mean_um:.2g} um"
        raise NotResolvedError(
            what,
            f"{least:.2g} um where an edge is {given.resolution_um:.2g} um wide",
            remedy=f"Say that the layer, if there is one, is thinner than about "
            f"{least:.2g} um; for a thickness take a picture with a finer resolution.",
        )


def _flags(given: LayerReadings, mean_um: float, least: float) -> tuple[Flag, ...]:
    low, high = min(given.readings_um), max(given.readings_um)
    blurs = mean_um / given.resolution_um
    excess = 100.0 * (1.0 / least - 1.0)
    raised = (
        (len(given.readings_um) < _FEWEST_READINGS, "few_layer_readings", ""),
        (
            blurs < rule("layer.near_blurs"),
            "layer_near_resolution",
            f"{blurs:.1f} widths",
        ),
        (
            excess >= rule("layer.oblique"),
            "oblique_cut",
            f"up to {excess:.1f} %",
        ),
        (high > _UNEVEN * low, "uneven_layer", f"{low:.3g} to {high:.3g} um"),
    )
    return tuple(Flag(name, detail) for wanted, name, detail in raised if wanted)
