"""Variance components against two classic data sets and an independent program.

1. Yields of dyestuff from six batches, and strengths of chemical paste from three
   casks of each of ten deliveries with two assays each (both in O. L. Davies and
   P. L. Goldsmith, Statistical methods in research and production, 1972; both also
   shipped with the R package lme4, whose documentation prints the REML estimates).
   Data and estimates are **from memory**; that they agree with each other is the check.
2. `statsmodels.MixedLM`, an independent implementation of REML, on unbalanced designs.
   Its standard error of the mean comes from a Hessian over all parameters and is
   0.03 to 0.3 % wider, so that ours is held against the matrix formula with its
   components instead.
"""

import warnings

import numpy as np
import pytest
from pandas import DataFrame  # type: ignore[import-untyped]
from statsmodels.regression.mixed_linear_model import MixedLM

from strandproof.grainsize.by_level import NestedValues, variance_components

DYESTUFF = (
    (1545, 1440, 1440, 1520, 1580),
    (1540, 1555, 1490, 1560, 1495),
    (1595, 1550, 1605, 1510, 1560),
    (1445, 1440, 1595, 1465, 1545),
    (1595, 1630, 1515, 1635, 1625),
    (1520, 1455, 1450, 1480, 1445),
)
PASTES = (
    ((62.8, 62.6), (60.1, 62.3), (62.7, 63.1)),
    ((60.0, 61.4), (57.5, 56.9), (61.1, 58.9)),
    ((58.7, 57.5), (63.9, 63.1), (65.4, 63.7)),
    ((57.1, 56.4), (56.9, 58.6), (64.7, 64.5)),
    ((55.1, 55.1), (54.7, 54.2), (58.8, 57.5)),
    ((63.4, 64.9), (59.3, 58.1), (60.5, 60.0)),
    ((62.5, 62.6), (61.0, 58.7), (56.9, 57.7)),
    ((59.2, 59.4), (65.2, 66.0), (64.8, 64.1)),
    ((54.8, 54.8), (64.0, 64.0), (57.7, 56.8)),
    ((58.3, 59.3), (59.2, 59.2), (58.9, 56.6)),
)


def test_dyestuff() -> None:
    values = NestedValues(
        levels=("batch", "yield"),
        places=tuple((str(b), str(k)) for b in range(6) for k in range(5)),
        values=tuple(float(each) for batch in DYESTUFF for each in batch),
    )
    found = variance_components(values, unit="g")
    batch, residual = found.components
    # Printed: 1764 and 2451; mean 1527.50 with standard error 19.38.
    assert batch.variance == pytest.approx(1764, rel=0, abs=0.5)
    assert residual.variance == pytest.approx(2451, rel=0, abs=0.5)
    assert found.mean.value == pytest.approx(1527.5, rel=0, abs=0.005)
    assert found.mean.standard_uncertainty == pytest.approx(19.38, rel=0, abs=0.005)


def test_pastes() -> None:
    values = NestedValues(
        levels=("batch", "cask", "assay"),
        places=tuple((str(b), str(c), str(k)) for b, c, k in np.ndindex(10, 3, 2)),
        values=tuple(each for batch in PASTES for cask in batch for each in cask),
    )
    found = variance_components(values, unit="1")
    batch, cask, residual = found.components
    # Printed: 1.657, 8.434, 0.678; mean 60.0533 with standard error 0.6769.
    assert batch.variance == pytest.approx(1.657, rel=0, abs=0.0015)
    assert cask.variance == pytest.approx(8.434, rel=0, abs=0.0015)
    assert residual.variance == pytest.approx(0.678, rel=0, abs=0.0005)
    assert found.mean.value == pytest.approx(60.0533, rel=0, abs=0.00005)
    assert found.mean.standard_uncertainty == pytest.approx(0.6769, rel=0, abs=0.0001)


def unbalanced(seed: int) -> NestedValues:
    source = np.random.default_rng(seed)
    places, values = [], []
    for cable in range(6):
        of_cable = 8.4 + source.normal(0, 0.6)
        for strand in range(int(source.integers(2, 5))):
            of_strand = of_cable + source.normal(0, 0.5)
            for field in range(int(source.integers(1, 6))):
                places.append((f"c{cable}", f"s{strand}", f"f{field}"))
                values.append(of_strand + source.normal(0, 0.4))
    return NestedValues(
        levels=("cable", "strand", "field"), places=tuple(places), values=tuple(values)
    )


@pytest.mark.parametrize("seed", [1, 2, 3])
def test_unbalanced_designs_against_statsmodels(seed: int) -> None:
    values = unbalanced(seed)
    data = DataFrame(
        {
            "y": np.array(values.values),
            "cable": np.array([place[0] for place in values.places]),
            "strand": np.array([place[0] + place[1] for place in values.places]),
        }
    )
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")  # It warns near a component of zero.
        other = MixedLM.from_formula(
            "y ~ 1",
            data,
            groups="cable",
            re_formula="1",
            vc_formula={"strand": "0 + C(strand)"},
        ).fit(reml=True, method="powell", xtol=1e-10, ftol=1e-14, maxiter=500)
    found = variance_components(values, unit="um")
    cable, strand, field = found.components
    assert other.converged
    expected = [
        float(np.asarray(other.cov_re)[0, 0]),
        float(other.vcomp[0]),
        float(other.scale),
    ]
    assert [each.variance for each in (cable, strand, field)] == pytest.approx(
        expected, rel=1e-5, abs=0
    )
    assert found.mean.value == pytest.approx(
        float(np.asarray(other.fe_params)[0]), rel=1e-6, abs=0
    )
    covariance = expected[2] * np.eye(len(values.values))
    for names, variance in (
        (data["cable"].to_numpy(), expected[0]),
        (data["strand"].to_numpy(), expected[1]),
    ):
        covariance += variance * (names[:, None] == names)
    weight = np.linalg.inv(covariance).sum()
    assert found.mean.standard_uncertainty == pytest.approx(
        1 / np.sqrt(weight), rel=1e-5, abs=0
    )
