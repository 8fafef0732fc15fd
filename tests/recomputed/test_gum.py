"""GUM example H.2 recomputed with the package uncertainties.

Status: recomputed. Inputs are the rounded means, uncertainties and correlations
of the example (read in the tests of GTC 1.5.1); the package uncertainties (BSD
licence) is an independent implementation of first-order propagation. It knows no
degrees of freedom, so only values, uncertainties and correlations are compared.

The second part recomputes the Welch-Satterthwaite formula by hand, for inputs read
in the manual of the R package metRology; its result, 15.608, is computed, not read.
"""

from math import inf

import numpy as np
import pytest
import uncertainties
import uncertainties.umath

from strandproof.quantity import (
    Correlation,
    JointResult,
    ModelNumber,
    cos,
    normal_input,
    propagate,
    propagate_several,
    sin,
)

MEANS = (4.9990, 19.6610e-3, 1.04446)
SPREADS = (0.0032, 0.0095e-3, 0.00075)
COEFFICIENTS = ((1.0, -0.36, 0.86), (-0.36, 1.0, -0.65), (0.86, -0.65, 1.0))


def impedance(
    voltage: ModelNumber, current: ModelNumber, phase: ModelNumber
) -> dict[str, ModelNumber]:
    ratio = voltage / current
    return {"R": ratio * cos(phase), "X": ratio * sin(phase), "Z": ratio}


@pytest.fixture(scope="module")
def joint() -> JointResult:
    names = ("voltage", "current", "phase")
    inputs = [
        normal_input(name, mean, spread, unit="1")
        for name, mean, spread in zip(names, MEANS, SPREADS, strict=True)
    ]
    correlations = [
        Correlation(names[i], names[j], COEFFICIENTS[i][j])
        for i, j in ((0, 1), (0, 2), (1, 2))
    ]
    return propagate_several(
        impedance,
        inputs,
        units={"R": "ohm", "X": "ohm", "Z": "ohm"},
        correlations=correlations,
    )


def test_h2_agrees_with_an_independent_package(joint: JointResult) -> None:
    covariance = np.outer(SPREADS, SPREADS) * np.array(COEFFICIENTS)
    voltage, current, phase = uncertainties.correlated_values(MEANS, covariance)
    ratio = voltage / current
    other = (
        ratio * uncertainties.umath.cos(phase),
        ratio * uncertainties.umath.sin(phase),
        ratio,
    )
    expected = np.array(uncertainties.covariance_matrix(other))
    found = [[joint.covariances[row, column] for column in "RXZ"] for row in "RXZ"]
    values = [joint.quantities[name].value for name in "RXZ"]
    np.testing.assert_allclose(
        values, [number.nominal_value for number in other], rtol=1e-12, atol=0
    )
    np.testing.assert_allclose(found, expected, rtol=1e-9, atol=0)


def test_welch_satterthwaite_of_four_inputs() -> None:
    uncertainties_of_inputs = (0.1, 0.3, 0.2, 1.1)
    sensitivities = (1.0, 2.0, 3.0, 0.5)
    freedoms = (inf, 6.0, 8.0, 3.0)
    inputs = [
        normal_input(f"x{place}", 1.0, u, unit="1", degrees_of_freedom=freedom)
        for place, (u, freedom) in enumerate(
            zip(uncertainties_of_inputs, freedoms, strict=True)
        )
    ]

    def model(
        x0: ModelNumber, x1: ModelNumber, x2: ModelNumber, x3: ModelNumber
    ) -> ModelNumber:
        return x0 + 2.0 * x1 + 3.0 * x2 + 0.5 * x3

    result = propagate(model, inputs, unit="1")
    components = np.multiply(uncertainties_of_inputs, sensitivities)
    by_hand = (components**2).sum() ** 2 / (components**4 / freedoms).sum()
    np.testing.assert_allclose(result.degrees_of_freedom, by_hand, rtol=1e-12, atol=0)
    np.testing.assert_allclose(result.degrees_of_freedom, 15.608, rtol=0, atol=0.0005)
