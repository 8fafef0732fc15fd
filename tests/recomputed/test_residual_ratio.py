"""Residual ratio: check values computed elsewhere, and an independent computation.

Source: the project's copper facts, sections 1.2 to 1.8, 2.3, 3.2 to 3.4, and the
product brief, Appendix A and D6. Status: computed there; the fit's parameters are read
(secondary), slope, mean free path, boundary coefficient, dislocation densities and
nearly all specific resistivities from memory. mpmath computes fit, integral and the
formula of Mayadas and Shatzkes again with 30 digits. Tolerance: half a unit of the last
digit printed, or of the third digit where a ratio is printed to three.
"""

import mpmath
import numpy as np
import pytest

from strandproof.electrical.residual import (
    added_by_reflection_nohm_m,
    bloch_gruneisen_nohm_m,
    boundary_term,
    mayadas_shatzkes_factor,
    phonon_resistivity_nohm_m,
    predicted_residual,
    residual_of_ratio_nohm_m,
    resistivity_nohm_m,
    surface_term,
    warm_ratio_of,
)
from strandproof.records.electrical import MetalState
from strandproof.tables import impurity_resistivities

mpmath.mp.dps = 30
PURE_0C, PURE_20C = 15.43, 16.78


def printed(found: float, text: str) -> None:
    decimals = len(text.partition(".")[2])
    np.testing.assert_allclose(
        found, float(text), rtol=0, atol=0.5 * 10.0**-decimals + 1e-12
    )


def three_digits(found: float, expected: float) -> None:
    unit = 10.0 ** (np.floor(np.log10(expected)) - 2)
    np.testing.assert_allclose(found, expected, rtol=0, atol=max(0.5 * unit, 0.5))


def fit_again(kelvin: float, ratio: float) -> float:
    """The fit of section 1.2, written from its print, in ohm metre."""
    t = mpmath.mpf(str(kelvin))
    residual = mpmath.mpf("1.553e-8") / ratio
    p1, p3 = mpmath.mpf("1.171e-17"), mpmath.mpf("3.841e10")
    phonon = (
        p1
        * t ** mpmath.mpf("4.49")
        / (
            1
            + p1
            * p3
            * t ** mpmath.mpf("3.35")
            * mpmath.exp(-((50 / t) ** mpmath.mpf("6.428")))
        )
    )
    mixed = mpmath.mpf("0.4531") * phonon * residual / (phonon + residual)
    return float(1e9 * (phonon + residual + mixed))


@pytest.mark.parametrize("ratio", [10.0, 100.0, 430.0, 5000.0])
@pytest.mark.parametrize("kelvin", [4.2, 20.0, 50.0, 77.35, 150.0, 273.15, 293.15])
def test_fit_again(kelvin: float, ratio: float) -> None:
    found = resistivity_nohm_m(kelvin, residual_of_ratio_nohm_m(ratio))
    np.testing.assert_allclose(float(found), fit_again(kelvin, ratio), rtol=1e-12)


@pytest.mark.parametrize(
    ("ratio", "texts", "over_4k", "over_77k"),
    [
        (10.0, ("1.553", "1.565", "3.797", "17.55", "18.90"), 12.2, "4.98"),
        (30.0, ("0.518", "0.529", "2.561", "16.11", "17.45"), 33.7, "6.81"),
        (50.0, ("0.311", "0.322", "2.291", "15.81", "17.15"), 55.2, "7.49"),
        (100.0, ("0.155", "0.167", "2.080", "15.59", "16.93"), 109, "8.14"),
        (200.0, ("0.0777", "0.0891", "1.972", "15.48", "16.82"), 217, "8.53"),
        (300.0, ("0.0518", "0.0631", "1.935", "15.44", "16.78"), 324, "8.67"),
        # The print has 8.89, from rounded resistivities; unrounded it is 8.8846.
        (1000.0, ("0.0155", "0.0261", "1.883", "15.39", "16.73"), 1076, "8.88"),
        (5000.0, ("0.0031", "0.0123", "1.865", "15.37", "16.71"), 5361, "8.96"),
        (float("inf"), ("0", "0.0081", "1.860", "15.36", "16.70"), None, "8.98"),
    ],
)
def test_table_of_the_fit(
    ratio: float, texts: tuple[str, ...], over_4k: float | None, over_77k: str
) -> None:
    residual = residual_of_ratio_nohm_m(ratio)
    found = [
        float(resistivity_nohm_m(kelvin, residual))
        for kelvin in (4.2, 20.0, 77.35, 273.15, 293.15)
    ]
    for value, text in zip(found, texts, strict=True):
        printed(value, text)
    printed(found[4] / found[2], over_77k)
    if over_4k is not None:
        # The print has what the phonon part at 4.2 K, 7e-6 nohm m, takes off.
        np.testing.assert_allclose(found[4] / found[0], over_4k, rtol=0.003)


def test_deviation_is_not_bigger_than_half_the_residual() -> None:
    for ratio in (20.0, 400.0):
        residual = residual_of_ratio_nohm_m(ratio)
        whole = float(resistivity_nohm_m(293.15, residual))
        phonon = float(phonon_resistivity_nohm_m(293.15))
        assert residual < whole - phonon < 1.4531 * residual


def bloch_again(kelvin: float, theta: float) -> mpmath.mpf:
    share = mpmath.mpf(str(kelvin)) / theta
    integral = mpmath.quad(
        lambda x: x**5 / ((mpmath.e**x - 1) * (1 - mpmath.e**-x)), [0, 1 / share]
    )
    return share**5 * integral


@pytest.mark.parametrize(
    ("theta", "kelvin", "text"),
    [
        (327.0, 77.35, "2.01"),
        (327.0, 293.15, "16.71"),
        (343.0, 77.35, "1.88"),
        # Printed 16.73; the integral gives 16.7250, at the edge of the digit.
        (343.0, 293.15, "16.73"),
        (343.0, 400.0, "23.62"),
    ],
)
def test_bloch_gruneisen(theta: float, kelvin: float, text: str) -> None:
    found = bloch_gruneisen_nohm_m(kelvin, theta_k=theta)
    again = 15.41 * bloch_again(kelvin, theta) / bloch_again(273.15, theta)
    np.testing.assert_allclose(found, float(again), rtol=1e-9)
    printed(found, text)


@pytest.mark.parametrize(
    ("iacs", "coefficient", "ratio"),
    [
        (97.0, "0.00383", "1.3047"),
        (100.0, "0.00395", "1.3142"),
        (101.0, "0.00399", "1.3174"),
        (102.0, "0.00403", "1.3205"),
        (103.0, "0.00407", "1.3237"),
    ],
)
def test_warm_ratio(iacs: float, coefficient: str, ratio: str) -> None:
    printed(0.0681 / (1724.13793 / iacs), coefficient)
    printed(warm_ratio_of(iacs), ratio)


@pytest.mark.parametrize(
    ("ratio", "u_percent", "lower", "upper"),
    [
        (50, 0.2, 49, 51),
        (50, 0.5, 48, 52),
        (50, 1.0, 47, 53),
        (100, 0.2, 98, 102),
        (100, 0.5, 95, 106),
        (100, 1.0, 90, 112),
        (300, 0.2, 283, 319),
        (300, 0.5, 261, 352),
        (300, 1.0, 231, 424),
        (500, 0.2, 456, 553),
        (500, 0.5, 402, 657),
        (500, 1.0, 336, 953),
        (1000, 0.2, 841, 1232),
        (1000, 0.5, 677, 1885),
        # The print has no upper end here, from the rounded 8.89; unrounded it is far
        # out, but there: 14,800.
        (1000, 1.0, 510, 14_800),
    ],
)
def test_what_a_nitrogen_ratio_buys(
    ratio: float, u_percent: float, lower: float, upper: float
) -> None:
    # The ratio that copper with the printed end has must lie u away from the true one.
    def nitrogen(of: float) -> float:
        return fit_again(293.15, of) / fit_again(77.35, of)

    true = nitrogen(ratio)
    for end, sign in ((lower, -1), (upper, 1)):
        moved = 100 * (nitrogen(end) / true - 1)
        unit = 1 if end < 10_000 else 100
        half_unit = 50 * abs(nitrogen(end + unit) - nitrogen(end - unit)) / true
        assert abs(moved - sign * u_percent) <= half_unit


@pytest.mark.parametrize(
    ("micrometres", "reflection", "text"),
    [
        (0.1, 0.2, "14.5"),
        (0.1, 0.3, "24.6"),
        (0.1, 0.5, "56"),
        (1.0, 0.2, "1.49"),
        (1.0, 0.3, "2.55"),
        (1.0, 0.5, "5.9"),
        (10.0, 0.2, "0.150"),
        (10.0, 0.3, "0.256"),
        (10.0, 0.5, "0.60"),
        (20.0, 0.2, "0.075"),
        (20.0, 0.3, "0.128"),
        (50.0, 0.3, "0.051"),
        (100.0, 0.3, "0.026"),
        (1000.0, 0.5, "0.0060"),
    ],
)
def test_mayadas_shatzkes_at_room_temperature(
    micrometres: float, reflection: float, text: str
) -> None:
    added = added_by_reflection_nohm_m(
        micrometres, interior_nohm_m=PURE_20C, reflection=reflection
    )
    printed(100 * added / PURE_20C, text)


@pytest.mark.parametrize(
    ("interior", "micrometres", "expected"),
    [
        (100, 1, (40, 28, 15)),
        (100, 10, (86, 79, 62)),
        (100, 50, (97, 95, 89)),
        (100, 100, (98, 97, 94)),
        (1000, 1, (64, 39, 17)),
        (1000, 10, (401, 283, 146)),
        (1000, 50, (763, 655, 454)),
        (1000, 100, (864, 789, 621)),
        (10_000, 1, (69, 40, 17)),
        (10_000, 10, (644, 386, 170)),
        (10_000, 50, (2532, 1661, 791)),
        (10_000, 100, (4011, 2830, 1460)),
    ],
)
def test_mayadas_shatzkes_at_helium_temperature(
    interior: int, micrometres: int, expected: tuple[int, ...]
) -> None:
    inside = PURE_0C / interior
    for reflection, ratio in zip((0.2, 0.3, 0.5), expected, strict=True):
        added = added_by_reflection_nohm_m(
            micrometres, interior_nohm_m=inside, reflection=reflection
        )
        # The print rounds the mean free path (4.3, 43, 434 um).
        np.testing.assert_allclose(
            PURE_0C / (inside + added), ratio, rtol=0.002, atol=0.5
        )


@pytest.mark.parametrize("strength", [1e-4, 0.017, 0.9, 30.0, 99.9, 100.1, 5000.0])
def test_mayadas_shatzkes_again(strength: float) -> None:
    a = mpmath.mpf(str(strength))
    with mpmath.workdps(60):
        again = 3 * (mpmath.mpf(1) / 3 - a / 2 + a**2 - a**3 * mpmath.log(1 + 1 / a))
    np.testing.assert_allclose(
        mayadas_shatzkes_factor(strength), float(again), rtol=2e-7
    )


def test_mayadas_shatzkes_as_a_coefficient() -> None:
    # 1.5 rho lambda R/(1 - R): 2.5e-16, 4.3e-16 and 1.0e-15 ohm m2.
    for reflection, text in ((0.2, "2.5"), (0.3, "4.3"), (0.5, "10")):
        added = added_by_reflection_nohm_m(
            1e4, interior_nohm_m=PURE_20C, reflection=reflection
        )
        printed(1e16 * added * 1e-9 * 1e-2, text)


def test_boundaries_of_the_brief() -> None:
    crossed = boundary_term(8.444)
    area = boundary_term(8.444, reading="per_area")
    share = 100 / (1e3 / 58)
    printed(share * crossed.lower, "0.09")
    printed(share * crossed.upper, "0.27")
    printed(share * area.lower, "0.27")
    printed(share * area.upper, "0.55")
    printed(PURE_0C / crossed.upper, "326")
    printed(PURE_0C / crossed.lower, "977")


def test_surface_of_thin_strands() -> None:
    for millimetres, ratio in ((0.05, 1150), (0.1, 2300), (0.3, 6900), (1.0, 23_000)):
        cap = PURE_0C / surface_term(millimetres).upper
        np.testing.assert_allclose(cap, ratio, rtol=0.005)
    # The brief's strand: near 1800.
    np.testing.assert_allclose(PURE_0C / surface_term(0.08).upper, 1800, rtol=0.03)


COLUMNS = (
    (MetalState(mean_intercept_um=20.0, strand_mm=0.1), 1e12),
    (MetalState(mean_intercept_um=50.0, strand_mm=0.3), 1e12),
    (MetalState(strand_mm=0.3), 1e12),
    (MetalState(strand_mm=0.3), 1e15),
    (MetalState(mean_intercept_um=50.0, strand_mm=0.3), 1e14),
)


@pytest.mark.parametrize(
    ("bulk", "expected"),
    [
        (150, (124, 139, 147, 51, 118)),
        (400, (255, 328, 376, 64, 231)),
        (1500, (479, 824, 1213, 73, 401)),
        (5000, (618, 1339, 2796, 75, 493)),
        (20_000, (681, 1676, 4815, 76, 532)),
    ],
)
def test_expected_ratio_of_real_strands(bulk: int, expected: tuple[int, ...]) -> None:
    """Section 1.8: 3e-16/D, 6.7e-16/d and 2e-25 N added to the bulk's own."""
    for (state, density), ratio in zip(COLUMNS, expected, strict=True):
        grains = state.mean_intercept_um
        # f gamma is 3e-16 ohm m2 there, and 2.67e-16 in the middle of our range.
        boundaries = 0.0 if grains is None else 1.125 * boundary_term(grains).best
        surface = surface_term(state.strand_mm or 1.0).upper
        total = PURE_0C / bulk + boundaries + surface + 1e9 * 2e-25 * density
        np.testing.assert_allclose(PURE_0C / total, ratio, rtol=0.01)


@pytest.mark.parametrize(
    ("symbol", "ppm", "ratio", "percent"),
    [
        ("Ag", 100.0, 1860, "0.05"),
        ("Ni", 100.0, 129, "0.7"),
        ("Fe", 100.0, 15, "6.3"),
        ("P", 100.0, 11, "8.5"),
        ("Ag", 10.0, 18_600, None),
        ("Ni", 10.0, 1290, "0.07"),
        ("Fe", 10.0, 146, "0.63"),
        ("P", 10.0, 108, "0.85"),
        ("Ni", 1.0, 12_900, None),
        ("Fe", 1.0, 1460, "0.06"),
        ("P", 1.0, 1080, "0.09"),
    ],
)
def test_total_dissolved(
    symbol: str, ppm: float, ratio: float, percent: str | None
) -> None:
    found = predicted_residual({symbol: ppm}, MetalState(work="annealed")).terms[0]
    three_digits(PURE_0C / found.best, ratio)
    if percent is not None:
        printed(100 * found.best / PURE_20C, percent)


def test_every_limit_of_c10100_dissolved_gives_24() -> None:
    """Limits as printed in section 2.3: read, a data sheet of 2005."""
    limits = {
        "Sb": 4,
        "As": 5,
        "O": 5,
        "P": 3,
        "Te": 2,
        "Pb": 5,
        "Zn": 1,
        "Fe": 10,
        "Ag": 25,
        "Bi": 1,
        "Cd": 1,
        "Mn": 0.5,
        "Ni": 10,
        "Se": 3,
        "S": 15,
        "Sn": 2,
    }
    known = impurity_resistivities()

    def ratio(leaving_out: str = "") -> float:
        added = sum(
            1e-3 * ppm * known[symbol].dissolved
            for symbol, ppm in limits.items()
            if symbol not in leaving_out.split()
        )
        return PURE_0C / added

    printed(ratio(), "24")
    printed(ratio(leaving_out="S O Se Te"), "72")
