"""The series against a wire of known resistance, scipy, GTC and `uncertainties`."""

from dataclasses import replace

import GTC
import numpy as np
import pytest
from electrical_examples import temperature
from four_wire_examples import AMMETER, COLD_OHM, VOLTMETER, wire_series
from scipy.optimize import curve_fit
from uncertainties import ufloat

from strandproof.electrical import conductivity_by_mass, evaluate_series
from strandproof.errors import HotWireError, MissingMeasurementError, ParameterError
from strandproof.quantity import normal_input
from strandproof.records.electrical import (
    FourWireSeries,
    MeterRange,
    ResistanceMeasurement,
    ReversalPair,
    SeriesResult,
)


def names(found: SeriesResult) -> list[str]:
    return [flag.name for flag in found.flags]


def test_thermal_voltage_goes_and_is_shown() -> None:
    found = evaluate_series(wire_series(thermal_v=7e-6), temperature=temperature())
    np.testing.assert_allclose(found.resistance.value, COLD_OHM, rtol=1e-9)
    for point in found.points:
        np.testing.assert_allclose(point.thermal_voltage_v, 7e-6, rtol=1e-6)


def test_heat_is_extrapolated_to_zero_current() -> None:
    found = evaluate_series(wire_series(rise_k=0.5), temperature=temperature())
    assert found.extrapolated
    assert found.rise_k is not None
    np.testing.assert_allclose(found.rise_k.value, 0.5, rtol=1e-6)
    assert "self_heating" in names(found)
    warm = found.points[-1].resistance.value
    np.testing.assert_allclose(warm / COLD_OHM - 1, 0.00193595, rtol=1e-4)


def test_the_line_is_that_of_scipy() -> None:
    series = wire_series(noise_v=2e-6)
    found = evaluate_series(series, temperature=temperature())
    ampere = np.array([pair.current for pair in series.pairs])
    ohm = np.array(
        [(pair.forward - pair.reverse) / 2 / pair.current for pair in series.pairs]
    )
    best, covariance = curve_fit(
        lambda x, start, slope: start + slope * x, ampere**2, ohm, sigma=1 / ampere
    )
    scatter = next(
        line for line in found.resistance.budget if line.name.startswith("scatter")
    )
    np.testing.assert_allclose(found.resistance.value, best[0], rtol=1e-10)
    np.testing.assert_allclose(scatter.component, covariance[0, 0] ** 0.5, rtol=1e-6)
    assert scatter.degrees_of_freedom == len(series.pairs) - 2


def test_errors_of_a_range_are_those_of_gtc_and_do_not_average_out() -> None:
    few = evaluate_series(wire_series(pairs=1), temperature=temperature())
    many = evaluate_series(wire_series(pairs=30), temperature=temperature())
    gain = "ammeter, share of reading"
    for found in (few, many):
        line = next(one for one in found.resistance.budget if one.name == gain)
        np.testing.assert_allclose(
            line.component, COLD_OHM * 3e-4 / np.sqrt(3), rtol=1e-3
        )
    # One current alone, by GTC: two readings on one range share its error.
    volt = GTC.ureal(0, 1e-4 / np.sqrt(3))
    zero = GTC.ureal(0, 1e-5 / np.sqrt(3))
    share = GTC.ureal(0, 3e-4 / np.sqrt(3))
    offset = GTC.ureal(0, 5e-6 / np.sqrt(3))
    read = many.points[0].resistance.value * 0.02
    ohm = (read * (1 + volt) + zero) / (0.02 * (1 + share) + offset)
    np.testing.assert_allclose(
        many.points[0].resistance.standard_uncertainty, ohm.u, rtol=1e-3
    )


def test_one_current_says_so_and_extrapolates_nothing() -> None:
    found = evaluate_series(wire_series((0.05,)), temperature=temperature())
    assert not found.extrapolated
    assert found.rise_k is None
    assert "one_current_only" in names(found)


def test_one_pair_shows_no_scatter() -> None:
    found = evaluate_series(wire_series((0.05,), pairs=1), temperature=temperature())
    assert found.scatter_v is None
    assert "scatter_not_shown" in names(found)


def test_few_pairs_are_flagged_and_five_spare_ones_are_not() -> None:
    few = evaluate_series(
        wire_series((0.05, 0.1), pairs=2, noise_v=1e-6), temperature=temperature()
    )
    enough = evaluate_series(
        wire_series((0.05, 0.1), pairs=4, noise_v=1e-6), temperature=temperature()
    )
    assert "few_readings" in names(few)
    assert "few_readings" not in names(enough)


def test_a_hot_wire_is_refused() -> None:
    with pytest.raises(HotWireError, match="warmed the wire by 8 K"):
        evaluate_series(wire_series(rise_k=8.0), temperature=temperature())


def test_no_temperature_is_refused() -> None:
    with pytest.raises(MissingMeasurementError, match="temperature of the wire"):
        evaluate_series(wire_series(), temperature=None)


def test_a_resistance_that_falls_with_the_current_is_flagged() -> None:
    found = evaluate_series(wire_series(rise_k=-2.0), temperature=temperature())
    assert "resistance_falls_with_current" in names(found)


def test_a_bend_is_flagged() -> None:
    series = wire_series((0.02, 0.04, 0.07, 0.1), pairs=4, noise_v=1e-6)
    bent = replace(
        series,
        pairs=tuple(
            replace(pair, forward=pair.forward * 1.001, reverse=pair.reverse * 1.001)
            if pair.current == 0.07
            else pair
            for pair in series.pairs
        ),
    )
    straight = evaluate_series(series, temperature=temperature())
    assert "not_straight_in_squared_current" not in names(straight)
    found = evaluate_series(bent, temperature=temperature())
    assert "not_straight_in_squared_current" in names(found)


def test_an_ohmmeter_reads_both_ways_without_sign() -> None:
    series = FourWireSeries(
        pairs=(
            ReversalPair(current=100, forward=1729.63, reverse=1729.57),
            ReversalPair(current=100, forward=1729.64, reverse=1729.58),
        ),
        reads="resistance",
        unit="mohm",
        current_unit="mA",
        meter=(MeterRange(name="ohmmeter", unit="ohm", percent_of_reading=0.05),),
    )
    found = evaluate_series(series, temperature=temperature())
    np.testing.assert_allclose(found.resistance.value, 1.729605, rtol=1e-9)
    np.testing.assert_allclose(
        found.points[0].thermal_voltage_v, 0.1 * 0.03e-3, rtol=1e-6
    )


def test_drift_of_the_thermal_voltage_is_shown() -> None:
    series = wire_series((0.05, 0.1))
    drifting = replace(
        series,
        pairs=tuple(
            replace(
                pair,
                forward=pair.forward + 1e-6 * (pair.seconds or 0) / 60,
                reverse=pair.reverse + 1e-6 * (pair.seconds or 0) / 60,
            )
            for pair in series.pairs
        ),
    )
    found = evaluate_series(drifting, temperature=temperature())
    assert found.thermal_drift_v_per_min is not None
    np.testing.assert_allclose(found.thermal_drift_v_per_min, 1e-6, rtol=1e-6)


def test_readings_out_of_range_are_refused() -> None:
    with pytest.raises(ParameterError, match="Name the range that was really used"):
        evaluate_series(
            wire_series(meter=replace(VOLTMETER, full_scale=0.01)),
            temperature=temperature(),
        )
    signless = replace(
        wire_series(),
        pairs=(ReversalPair(current=0.1, forward=0.173, reverse=0.173),),
    )
    with pytest.raises(ParameterError, match="Give a reversed voltage with its sign"):
        evaluate_series(signless, temperature=temperature())


def test_a_series_needs_pairs_meters_and_an_ammeter_for_volts() -> None:
    series = wire_series()
    with pytest.raises(ParameterError, match="one pair or more"):
        replace(series, pairs=())
    with pytest.raises(ParameterError, match="ammeter"):
        replace(series, ammeter=())
    with pytest.raises(ParameterError, match="ammeter"):
        replace(series, reads="resistance")


def test_the_whole_chain_is_that_of_the_uncertainties_package() -> None:
    """Readings to per cent IACS; one length twice; all of it written out again."""
    series = wire_series((0.05,), pairs=1)
    measurement = ResistanceMeasurement(
        resistance=series,
        temperature=temperature(),
        gauge_length=normal_input("length", 0.5, 0.0003, unit="m"),
        mass=normal_input("mass", 22.28, 0.0285, unit="mg"),
        lay_factor=normal_input("lay factor", 1.02, 0.002, unit="1"),
    )
    found = conductivity_by_mass(measurement)
    root = np.sqrt(3)
    volt = (series.pairs[0].forward - series.pairs[0].reverse) / 2
    read = volt * (1 + ufloat(0, 1e-4 / root)) + ufloat(0, 1e-5 / root)
    ampere = 0.05 * (1 + ufloat(0, AMMETER.percent_of_reading / 100 / root))
    ampere += ufloat(0, AMMETER.range_part / root)
    ohm = read / ampere + ufloat(0, VOLTMETER.digit / np.sqrt(24) / 0.05)
    length = ufloat(0.5, 0.0003) * ufloat(1.02, 0.002)
    at_20c = ohm / (1 + ufloat(0.00393, 0.00003) * (ufloat(23.8, 0.2) - 20))
    delta = at_20c * ufloat(22.28e-3, 0.0285e-3) / length**2
    percent = 100 * 0.15328 / delta
    np.testing.assert_allclose(found.percent_iacs.value, percent.n, rtol=1e-9)
    np.testing.assert_allclose(
        found.percent_iacs.standard_uncertainty, percent.s, rtol=1e-6
    )
