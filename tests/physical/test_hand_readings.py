"""Area by hand: ovals, scatter between strands, what one instrument shares."""

import numpy as np
import pytest

from strandproof.errors import ParameterError
from strandproof.physical import section_from_readings

ROUND = ((80.1, 79.9), (80.3, 80.1), (79.7, 79.9))


def test_round_strands() -> None:
    found = section_from_readings(((80.0, 80.0),) * 19, instrument_uncertainty_um=0.5)
    np.testing.assert_allclose(
        found.total_area.value, 19 * np.pi * 0.04**2, rtol=1e-12, atol=0
    )
    # Twice 0.5/80, for the instrument's error is the same on all strands.
    assert found.total_area.relative_uncertainty == pytest.approx(0.0125, rel=1e-9)
    assert not found.flags


def test_strands_not_measured_are_taken_as_alike_and_scatter_counts() -> None:
    some = section_from_readings(ROUND, instrument_uncertainty_um=0.0, strands=19)
    every = section_from_readings(ROUND, instrument_uncertainty_um=0.0)
    np.testing.assert_allclose(
        some.total_area.value, every.total_area.value * 19 / 3, rtol=1e-12, atol=0
    )
    # Of the means 80.0, 80.2, 79.8: s = 0.2, over root 3, for 16 of 19 left out.
    expected = 0.2 / np.sqrt(3) * np.sqrt(16 / 19)
    np.testing.assert_allclose(
        some.mean_diameter.standard_uncertainty, expected, rtol=1e-9, atol=0
    )
    assert some.mean_diameter.degrees_of_freedom == pytest.approx(2)
    assert every.mean_diameter.standard_uncertainty == pytest.approx(0, abs=1e-12)


def test_area_is_the_mean_of_squares_not_the_square_of_the_mean() -> None:
    found = section_from_readings(
        ((60.0, 60.0), (100.0, 100.0)), instrument_uncertainty_um=0.1
    )
    true = np.pi / 4 * (0.06**2 + 0.1**2)
    np.testing.assert_allclose(found.total_area.value, true, rtol=1e-9, atol=0)


@pytest.mark.parametrize("ovality", [0.02, 0.1, 0.2])
def test_an_ellipse_lies_within_what_an_oval_shape_may_take_off(
    ovality: float,
) -> None:
    """Width of an ellipse of half axes a, b at angle t: 2 sqrt(a2 cos2 + b2 sin2)."""
    a, b = 40 * (1 + ovality / 2), 40 * (1 - ovality / 2)
    turns = np.deg2rad(np.arange(0, 180, 15))
    widths = 2 * np.sqrt((a * np.cos(turns)) ** 2 + (b * np.sin(turns)) ** 2)
    found = section_from_readings((tuple(widths),), instrument_uncertainty_um=0.0)
    true = np.pi * a * b * 1e-6
    line = next(one for one in found.total_area.budget if one.name == "oval shape")
    half_width = np.sqrt(3) * line.component
    assert abs(found.total_area.value - true) <= 1.05 * half_width
    assert found.faces[0].ovality == pytest.approx(ovality, rel=0.01)


def test_one_direction_is_flagged_and_has_no_ovality() -> None:
    found = section_from_readings(((80.0,), (80.0, 81.0)), instrument_uncertainty_um=1)
    assert found.faces[0].ovality is None
    assert [flag.name for flag in found.flags] == ["one_direction_read"]
    assert found.flags[0].detail == "strand 1"


def test_refusals() -> None:
    with pytest.raises(ParameterError, match="several strands"):
        section_from_readings(((80.0,),), instrument_uncertainty_um=0.5, strands=19)
    with pytest.raises(ParameterError, match="the 3 measured"):
        section_from_readings(ROUND, instrument_uncertainty_um=0.5, strands=2)
    with pytest.raises(ParameterError, match="above zero"):
        section_from_readings(((80.0, -1.0),), instrument_uncertainty_um=0.5)
    with pytest.raises(ParameterError, match="one strand or more"):
        section_from_readings((), instrument_uncertainty_um=0.5)
    with pytest.raises(ParameterError, match="instrument_uncertainty_um"):
        section_from_readings(ROUND, instrument_uncertainty_um=-0.1)
