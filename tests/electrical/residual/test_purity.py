"""Range of purity that a residual resistivity allows."""

from dataclasses import replace

import numpy as np
import pytest

from strandproof.electrical.residual import purity_from_residual
from strandproof.quantity import Quantity
from strandproof.records.electrical import ElementBound, MetalState, PurityBound
from strandproof.tables import impurity_resistivities

SOFT = MetalState(mean_intercept_um=50.0, strand_mm=0.3, work="annealed")


def residual(value: float, u: float = 0.002) -> Quantity:
    return Quantity(value, "nohm m", u)


def element(found: PurityBound, symbol: str) -> ElementBound:
    return next(one for one in found.elements if one.symbol == symbol)


def test_upper_bound_lays_everything_on_one_element() -> None:
    found = purity_from_residual(residual(0.1), SOFT)
    upper = 0.1 + 1.644854 * 0.002
    for symbol, one in impurity_resistivities().items():
        np.testing.assert_allclose(
            element(found, symbol).at_most_ppm,
            1e3 * upper / one.dissolved_low,
            rtol=1e-6,
        )
    assert found.least_harmful == "Ag"
    np.testing.assert_allclose(
        found.dissolved_total_ppm[1], element(found, "Ag").at_most_ppm
    )
    assert found.without_silver_at_most_ppm < 0.1 * found.dissolved_total_ppm[1]


def test_brief_d6_cannot_tell() -> None:
    """D6: a ratio of 180; grains alone cap it near 330-980, the surface near 1800."""
    state = MetalState(mean_intercept_um=8.444, strand_mm=0.08)
    found = purity_from_residual(residual(0.0933, 0.0011), state)
    assert found.sentence.startswith("Cannot tell the purity")
    assert "cap the ratio near 330-980" in found.sentence
    assert "0.08 mm strand near 1800" in found.sentence
    assert found.dissolved_total_ppm[0] == 0.0
    assert {one.verdict for one in found.nines} == {"cannot tell"}


def test_low_ratio_of_a_soft_piece_contradicts_nines() -> None:
    found = purity_from_residual(residual(0.3), SOFT)
    verdicts = {one.nines: one.verdict for one in found.nines}
    assert verdicts[6] == verdicts[7] == "contradicted"
    assert verdicts[4] == "cannot tell"
    assert "five nines or more" in found.sentence


@pytest.mark.parametrize(
    "state",
    [
        replace(SOFT, work="unknown"),
        replace(SOFT, work="hard"),
        replace(SOFT, mean_intercept_um=None),
        replace(SOFT, strand_mm=None),
    ],
)
def test_no_lower_bound_where_something_else_may_be_it(state: MetalState) -> None:
    found = purity_from_residual(residual(0.3), state)
    assert found.left_for_impurities_nohm_m[0] == 0.0
    assert {one.verdict for one in found.nines} == {"cannot tell"}


def test_no_reading_confirms_nines() -> None:
    for value in (1e-4, 0.002, 0.05):
        found = purity_from_residual(residual(value), SOFT)
        assert {one.verdict for one in found.nines} <= {"cannot tell", "contradicted"}
        assert "no ratio confirms" in found.sentence


def test_solubility_is_told() -> None:
    found = purity_from_residual(residual(0.1), SOFT)
    oxygen = element(found, "O").solubility_ppm
    assert oxygen is not None
    assert oxygen < 5
    assert element(found, "Ni").solubility_ppm is None


def test_nothing_left_is_none() -> None:
    found = purity_from_residual(residual(0.001), SOFT)
    assert element(found, "P").if_all_ppm is None
    assert element(found, "P").at_most_ppm > 0
