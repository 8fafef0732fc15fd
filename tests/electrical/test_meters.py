from math import sqrt

import numpy as np
import pytest
from scipy import stats

from strandproof.electrical import meter_uncertainty
from strandproof.electrical.meters import kind_of_meter, meter_errors, range_named
from strandproof.errors import ParameterError
from strandproof.records.electrical import MeterRange

OHMS = MeterRange(
    name="10 ohm range",
    unit="ohm",
    percent_of_reading=0.01,
    percent_of_range=0.005,
    full_scale=10.0,
)


def test_reading_and_range_are_rectangular_unless_told_otherwise() -> None:
    # The standard deviation of a rectangular distribution, from scipy.
    gain = stats.uniform(-1e-4 * 1.7296, 2e-4 * 1.7296).std()
    zero = stats.uniform(-5e-4, 1e-3).std()
    found = meter_uncertainty(1.7296, OHMS)
    np.testing.assert_allclose(
        found.standard_uncertainty, sqrt(gain**2 + zero**2), rtol=1e-12
    )


def test_a_statement_of_95_percent_is_two_deviations() -> None:
    normal = MeterRange(name="V", unit="V", percent_of_reading=0.02, shape="normal")
    found = meter_uncertainty(1.0, normal)
    np.testing.assert_allclose(found.standard_uncertainty, 1e-4, rtol=1e-12)


def test_counts_of_a_digit_are_the_range_part() -> None:
    handheld = MeterRange(
        name="mV", unit="mV", percent_of_reading=0.5, counts=3, digit=0.01
    )
    assert handheld.range_part == pytest.approx(0.03, rel=1e-12)
    shapes = {one.distribution for one in meter_errors(handheld, prefix="m").values()}
    assert shapes == {"rectangular"}


def test_beyond_the_scale_is_refused() -> None:
    with pytest.raises(ParameterError, match="at most 1.2 times the full scale"):
        meter_uncertainty(12.5, OHMS)


def test_negative_parts_and_nameless_ranges_are_refused() -> None:
    with pytest.raises(ParameterError, match="percent_of_reading"):
        MeterRange(name="V", unit="V", percent_of_reading=-0.1)
    with pytest.raises(ParameterError, match="a name for the range"):
        MeterRange(name="", unit="V")


def test_ranges_go_by_name_where_there_are_several() -> None:
    other = MeterRange(name="1 ohm range", unit="ohm")
    assert range_named("", [OHMS]) is OHMS
    assert range_named("1 ohm range", [OHMS, other]) is other
    with pytest.raises(ParameterError, match="one of 10 ohm range, 1 ohm range"):
        range_named("", [OHMS, other])


@pytest.mark.parametrize(
    ("unit", "kind"),
    [("uV", "voltage"), ("mA", "current"), ("uohm", "resistance")],
)
def test_the_unit_tells_what_a_meter_reads(unit: str, kind: str) -> None:
    assert kind_of_meter(unit) == kind


def test_another_unit_is_refused() -> None:
    with pytest.raises(ParameterError, match="V, A or ohm"):
        kind_of_meter("Hz")
