"""A layer on a section: budget, oblique cut, and where nothing may be stated."""

from dataclasses import replace
from typing import Any

import numpy as np
import pytest

from strandproof.errors import NotResolvedError, ParameterError
from strandproof.physical import layer_thickness
from strandproof.records.physical import LayerReadings

TIN = LayerReadings(
    readings_um=(1.7, 2.1, 1.9, 2.0, 1.8, 1.9, 2.0, 1.8), resolution_um=0.35
)


def test_budget_of_the_drains_layer() -> None:
    found = layer_thickness(TIN)
    parts = {line.name: line.component for line in found.thickness.budget}
    edge = 0.35 / 2 / np.sqrt(3)
    scatter = np.std(TIN.readings_um, ddof=1) / np.sqrt(8)
    np.testing.assert_allclose(
        [parts["place of the outer edge"], parts["place of the inner edge"]],
        edge,
        rtol=1e-9,
        atol=0,
    )
    np.testing.assert_allclose(
        parts["mean of the readings"], scatter, rtol=1e-9, atol=0
    )
    np.testing.assert_allclose(
        found.thickness.standard_uncertainty,
        np.sqrt(2 * edge**2 + scatter**2),
        rtol=1e-9,
        atol=0,
    )
    assert (found.smallest_um, found.largest_um) == (1.7, 2.1)
    assert not found.flags


def wall(radius: float, thickness: float, tilt_deg: float) -> float:
    """Mean wall of a tube cut obliquely: its area over the girth of its middle."""
    stretch = 1 / np.cos(np.deg2rad(tilt_deg))
    middle = radius - thickness / 2
    turns = np.linspace(0, 2 * np.pi, 20_000, endpoint=False)
    step = np.hypot(stretch * middle * np.sin(turns), middle * np.cos(turns))
    area = np.pi * stretch * (radius**2 - (radius - thickness) ** 2)
    return float(area / (2 * np.pi * step.mean()))


@pytest.mark.parametrize("tilt", [5.0, 15.0, 30.0])
def test_oblique_cut_of_a_tube(tilt: float) -> None:
    """The true thickness lies within the bound, and near the middle."""
    read = wall(60.0, 2.0, tilt)
    given = LayerReadings(
        readings_um=(read, read),
        resolution_um=0.3,
        diameters_um=(120.0, 120.0 / np.cos(np.deg2rad(tilt))),
    )
    found = layer_thickness(given)
    least = np.cos(np.deg2rad(tilt))
    assert read * least <= 2.0 <= read
    np.testing.assert_allclose(found.thickness.value, 2.0, rtol=0.025, atol=0)
    line = next(one for one in found.thickness.budget if one.name == "oblique cut")
    np.testing.assert_allclose(
        line.component, read * (1 - least) / 2 / np.sqrt(3), rtol=1e-6, atol=0
    )
    by_angle = layer_thickness(replace(given, diameters_um=None, largest_tilt_deg=tilt))
    np.testing.assert_allclose(
        by_angle.thickness.value, found.thickness.value, rtol=1e-12, atol=0
    )


def test_scale_counts_in_per_cent() -> None:
    found = layer_thickness(replace(TIN, scale_uncertainty_percent=2.0))
    line = next(one for one in found.thickness.budget if one.name == "pixel size")
    np.testing.assert_allclose(line.component, 0.02 * 1.9, rtol=1e-9, atol=0)


def test_intervals_cover_the_truth() -> None:
    """500 layers of 1.9 um, with edges misplaced as the model says."""
    chance = np.random.default_rng(11)
    inside = 0
    for _ in range(500):
        edges = chance.uniform(-0.175, 0.175, 2).sum()
        readings = 1.9 + edges + chance.normal(0, 0.13, 8)
        found = layer_thickness(replace(TIN, readings_um=tuple(readings))).interval
        assert found.lower is not None
        assert found.upper is not None
        inside += found.lower <= 1.9 <= found.upper
    # Two rectangles make a triangle, whose tails are short: a little above 95 %.
    assert 0.93 <= inside / 500 <= 0.995


@pytest.mark.parametrize(
    ("changes", "flag"),
    [
        ({"readings_um": (1.9, 2.0, 1.8)}, "few_layer_readings"),
        ({"readings_um": (1.0, 2.1, 2.0, 2.5)}, "uneven_layer"),
        ({"resolution_um": 0.5}, "layer_near_resolution"),
        ({"largest_tilt_deg": 15.0}, "oblique_cut"),
    ],
)
def test_flags(changes: dict[str, Any], flag: str) -> None:
    assert [one.name for one in layer_thickness(replace(TIN, **changes)).flags] == [
        flag
    ]


def test_below_the_resolution_only_a_bound_is_stated() -> None:
    with pytest.raises(NotResolvedError, match="thinner than about 2 um"):
        layer_thickness(replace(TIN, resolution_um=1.0))


@pytest.mark.parametrize(
    ("changes", "match"),
    [
        ({"readings_um": (1.9,)}, "several places"),
        ({"readings_um": (1.9, 0.0)}, "above zero"),
        ({"resolution_um": 0.0}, "resolution_um"),
        ({"scale_uncertainty_percent": -1.0}, "scale_uncertainty"),
        ({"largest_tilt_deg": 61.0}, "largest_tilt_deg"),
        ({"diameters_um": (120.0, 110.0)}, "smallest and largest"),
    ],
)
def test_readings_that_cannot_be(changes: dict[str, Any], match: str) -> None:
    with pytest.raises(ParameterError, match=match):
        replace(TIN, **changes)
