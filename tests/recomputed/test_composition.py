"""Sums and conversions of composition, computed here once more.

- C10100: the maxima add up to 92.5 ppm, 62.5 ppm without O and Ag, which leaves
  99.99075 % (project check list, computed; the maxima were read). Every maximum
  dissolved gives a residual ratio of 24, of 72 without S, O, Se and Te (fact base,
  computed there as 15.43 over the residual resistivity, from coefficients that are
  mostly from memory).
- residual ratio of 1 ppm and content for a ratio of 100: fact base, table of
  impurities, computed there from remembered coefficients, printed to three digits.
- cuprous oxide: 5 ppm of oxygen are 0.007 % by volume, 10: 0.013, 50: 0.067,
  200: 0.27, 400: 0.53 (fact base, computed there; the density of the oxide is from
  memory).
- 5 ppm of oxygen cap the purity at 99.9995 %, number 5.30, written 5N5 (check list,
  computed).
Tolerance: half a unit of the last printed digit.
"""

import pytest

from strandproof.composition import (
    electrical_consequence,
    impurity_total,
    nines_number,
    nines_written,
    oxygen_of_oxide_fraction,
)
from strandproof.records.composition import Basis, Certificate, ElementContent
from strandproof.tables import impurity_resistivities, package_table

MAXIMA = {
    key.rpartition(".")[2].capitalize(): row.value
    for key, row in package_table("copper_grades").items()
    if key.startswith("c10100.max.")
}


def certificate(contents: dict[str, float]) -> Certificate:
    return Certificate(
        item="rod",
        contents=tuple(
            ElementContent(symbol=symbol, state="value", ppm=ppm)
            for symbol, ppm in contents.items()
        ),
    )


def test_the_maxima_of_c10100_add_up() -> None:
    paper = certificate(MAXIMA)
    whole = impurity_total(paper, basis=Basis.GASES_IN)
    assert whole.detected_ppm == pytest.approx(92.5, rel=0, abs=1e-9)
    assert 100 - whole.detected_ppm / 1e4 == pytest.approx(99.99075, rel=0, abs=5e-6)
    rest = {k: v for k, v in MAXIMA.items() if k not in {"O", "Ag"}}
    total = impurity_total(certificate(rest), basis=Basis.GASES_IN)
    assert total.detected_ppm == pytest.approx(62.5, rel=0, abs=1e-9)
    assert nines_written(whole.detected_ppm) == "4N"


def dissolved_ratio(contents: dict[str, float]) -> float:
    """15.43 nohm m over the recommended coefficients times the contents."""
    table = impurity_resistivities()
    return 15430 / sum(table[k].dissolved * ppm for k, ppm in contents.items())


def test_residual_ratio_of_c10100_at_every_maximum() -> None:
    assert dissolved_ratio(MAXIMA) == pytest.approx(24, rel=0, abs=0.5)
    rest = {k: v for k, v in MAXIMA.items() if k not in {"S", "O", "Se", "Te"}}
    assert dissolved_ratio(rest) == pytest.approx(72, rel=0, abs=0.5)
    # The lower end takes the highest coefficient of each element and all dissolved.
    found = electrical_consequence(certificate(MAXIMA)).residual_ratio
    table = impurity_resistivities()
    highest = sum(table[k].dissolved_high * ppm for k, ppm in MAXIMA.items())
    assert found.lowest == pytest.approx(1 + 15430 / highest, rel=1e-9)
    assert found.lowest < dissolved_ratio(MAXIMA) + 1 < found.highest


@pytest.mark.parametrize(
    ("symbol", "ratio", "half"),
    [
        ("P", 1080, 5),
        ("Fe", 1460, 5),
        ("As", 2700, 50),
        ("Ni", 12900, 50),
        ("Ag", 186000, 500),
        ("S", 830, 5),
        ("O", 735, 0.5),
    ],
)
def test_residual_ratio_of_one_ppm(symbol: str, ratio: float, half: float) -> None:
    assert dissolved_ratio({symbol: 1.0}) == pytest.approx(ratio, rel=0, abs=half)


def test_nickel_by_mass_from_the_measured_value_by_atom() -> None:
    # 1.112 microohm cm per at% (read) is 1.20 pohm m per ppm by mass (computed).
    by_mass = 1.112 * 63.546 / 58.693
    assert by_mass == pytest.approx(1.20, rel=0, abs=0.005)
    nickel = impurity_resistivities()["Ni"]
    assert nickel.dissolved_high == pytest.approx(by_mass, rel=1e-9)


@pytest.mark.parametrize(
    ("ppm", "percent", "half"),
    [
        (5, 0.007, 0.0005),
        (10, 0.013, 0.0005),
        (50, 0.067, 0.0005),
        (200, 0.27, 0.005),
        (400, 0.53, 0.005),
    ],
)
def test_oxide_of_an_oxygen_content(ppm: float, percent: float, half: float) -> None:
    for end, sign in ((percent - half, -1), (percent + half, 1)):
        assert sign * (oxygen_of_oxide_fraction(end / 100) - ppm) > 0


def test_oxygen_alone_caps_the_purity() -> None:
    assert nines_number(5) == pytest.approx(5.30, rel=0, abs=0.005)
    assert nines_written(5) == "5N5"
