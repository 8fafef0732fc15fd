from collections.abc import Mapping
from typing import cast, get_args

import numpy as np
import pytest

from strandproof.errors import ParameterError, UnknownTableError
from strandproof.physical import (
    PROPERTY_UNITS,
    answers_of,
    metal_names,
    mixture,
    per_metre,
    probability_of_answer,
    property_range,
    rank_metals,
    skin_volume_share,
)
from strandproof.quantity import Quantity
from strandproof.records.physical import (
    MetalProperty,
    MetalRanking,
    MetalReadings,
    MetalSign,
    Mixture,
)
from strandproof.tables import package_table


def ranked(
    seen: Mapping[str, str] | None = None, **measured: tuple[float, float]
) -> MetalRanking:
    units = dict[str, str](PROPERTY_UNITS)  # type: ignore[arg-type]
    numbers = {
        name: Quantity(value, units[name], u) for name, (value, u) in measured.items()
    }
    return rank_metals(
        MetalReadings(
            measured=cast("dict[MetalProperty, Quantity]", numbers),
            seen=cast("dict[MetalSign, str]", dict(seen or {})),
        )
    )


def names(ranking: MetalRanking) -> list[str]:
    return [flag.name for flag in ranking.flags]


@pytest.mark.parametrize("metal", metal_names())
@pytest.mark.parametrize("sign", get_args(MetalSign))
def test_probabilities_of_one_reading_add_up(metal: str, sign: MetalSign) -> None:
    total = sum(probability_of_answer(metal, sign, a) for a in answers_of(sign))
    np.testing.assert_allclose(total, 1.0, rtol=0, atol=1e-12)


@pytest.mark.parametrize("metal", metal_names())
def test_ranges_are_in_order(metal: str) -> None:
    for what in PROPERTY_UNITS:
        one = property_range(metal, what)
        assert 0 < one.lower < one.upper


@pytest.mark.parametrize("metal", metal_names())
def test_readings_in_the_middle_of_a_metal_fit_it(metal: str) -> None:
    """Each kind is among those not told apart when all its own numbers are read."""
    middles = {what: property_range(metal, what).middle for what in PROPERTY_UNITS}
    del middles["mass_resistivity"]
    own = {str(what): (middle, 0.01 * middle) for what, middle in middles.items()}
    assert metal in ranked(None, **own).not_told_apart


def test_surface_alone_does_not_tell_silver_from_plated() -> None:
    found = ranked({"surface": "silver"})
    assert set(found.not_told_apart) == {"silver", "silver_plated_copper"}
    assert names(found) == ["surface_read_only"]
    assert any("skin only" in line for line in found.sentences)


def test_density_settles_it() -> None:
    plated = ranked({"surface": "silver"}, density=(8.97, 0.03))
    solid = ranked({"surface": "silver"}, density=(10.47, 0.03))
    assert plated.not_told_apart == ("silver_plated_copper",)
    assert solid.not_told_apart == ("silver",)
    assert not names(plated)


def test_section_tells_core_and_skin() -> None:
    found = ranked({"core": "copper", "skin": "tin"})
    assert found.not_told_apart == ("tinned_copper",)


def test_clad_aluminium_by_density_by_mass_resistivity_and_by_magnet() -> None:
    assert ranked(density=(3.5, 0.1)).not_told_apart == ("clad_aluminium",)
    by_mass = ranked({"magnet": "not_attracted"}, mass_resistivity=(0.096, 0.001))
    assert by_mass.not_told_apart == ("clad_aluminium",)
    steel = ranked({"magnet": "attracted"}, resistivity=(50.0, 1.0))
    assert steel.fits[0].metal == "clad_steel"


@pytest.mark.parametrize("answer", answers_of("etch"))
def test_etch_response_changes_nothing(answer: str) -> None:
    without = ranked(density=(8.9, 0.05))
    found = ranked({"etch": answer}, density=(8.9, 0.05))
    assert [fit.log10_ratio for fit in found.fits] == [
        fit.log10_ratio for fit in without.fits
    ]
    assert any("does not identify a metal" in line for line in found.sentences)


def test_none_of_these() -> None:
    found = ranked(density=(19.3, 0.1))
    assert found.not_told_apart == ()
    assert names(found) == ["no_metal_fits"]
    assert found.sentences[0] == "None of these metals fits the readings."
    assert not any(fit.fits for fit in found.fits)


def test_contradicting_answers_fit_nothing() -> None:
    found = ranked({"core": "silver", "magnet": "attracted"})
    assert found.not_told_apart == ()
    silver = next(fit for fit in found.fits if fit.metal == "silver")
    assert silver.unlikely_answers == ("magnet",)


def test_no_number_is_worth_more_than_a_hundred() -> None:
    found = ranked(density=(8.92, 0.001))
    worst = min(fit.log10_ratio for fit in found.fits)
    np.testing.assert_allclose(worst, -2.0, rtol=0, atol=0.01)


def test_contributions_add_up_and_carry_their_status() -> None:
    found = ranked({"surface": "copper"}, density=(3.5, 0.1), resistivity=(27.0, 0.3))
    sums = [sum(one.log10_ratio for one in fit.contributions) for fit in found.fits]
    np.testing.assert_allclose(
        [one - sums[0] for one in sums],
        [fit.log10_ratio for fit in found.fits],
        rtol=0,
        atol=1e-12,
    )
    clad = found.fits[0]
    assert clad.metal == "clad_aluminium"
    assert [one.status for one in clad.contributions] == [
        "read (secondary)",
        "read (secondary)",
        "judgement",
    ]


def test_product_and_factor_together_are_refused() -> None:
    with pytest.raises(ParameterError, match="count a reading twice"):
        ranked(mass_resistivity=(0.15, 0.001), density=(8.9, 0.05))


def test_refusals() -> None:
    with pytest.raises(ParameterError, match="one or more"):
        ranked()
    with pytest.raises(ParameterError, match="standard uncertainty above zero"):
        ranked(density=(8.9, 0.0))
    with pytest.raises(ParameterError, match="one of attracted, not_attracted"):
        ranked({"magnet": "perhaps"})
    with pytest.raises(ParameterError, match="magnet, scrape, etch"):
        ranked({"colour": "red"})
    wrong = MetalReadings(measured={"density": Quantity(8.9, "kg/m3", 0.1)}, seen={})
    with pytest.raises(ParameterError, match="a number in g/cm3"):
        rank_metals(wrong)


def test_mixtures_refuse_what_is_no_whole() -> None:
    with pytest.raises(ParameterError, match="add up to one"):
        mixture({"copper": 0.5})
    with pytest.raises(UnknownTableError, match="aluminium, copper"):
        mixture({"moon": 1.0})
    with pytest.raises(ParameterError, match="half of a diameter"):
        skin_volume_share(100.0, 51.0)
    whole = Mixture(
        density_g_per_cm3=9, resistivity_nohm_m=17, percent_iacs=100, mass_percent={}
    )
    with pytest.raises(ParameterError, match="above zero"):
        per_metre(whole, 0.0)


@pytest.mark.parametrize("share", [10, 15])
def test_two_tables_have_one_clad_aluminium(share: int) -> None:
    """The electrical part keeps the same rows of ASTM B566 for its own use."""
    conductors = package_table("conductor_standards")
    side = {10: ("lower", "upper"), 15: ("upper", "lower")}[share]
    metals = package_table("metal_properties")
    for what, end in zip(("density", "resistivity"), side, strict=True):
        mine = metals[f"clad_aluminium.{what}.{end}"]
        other = conductors[f"metal.clad_aluminium_{share}.{what}"]
        assert (mine.value, mine.status) == (other.value, other.status)
