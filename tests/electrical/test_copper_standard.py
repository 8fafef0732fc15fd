import pytest

from strandproof.electrical import (
    copper_standard_from_table,
    metal,
    package_copper_standard,
)
from strandproof.errors import ParameterError, UnknownTableError
from strandproof.tables import package_table


def test_the_standard_comes_out_of_the_table() -> None:
    table = package_table("conductor_standards")
    assert copper_standard_from_table(table) == package_copper_standard()


def test_a_table_without_a_row_says_which() -> None:
    table = dict(package_table("conductor_standards"))
    del table["band.ceiling"]
    with pytest.raises(UnknownTableError, match=r"no row named 'band\.ceiling'"):
        copper_standard_from_table(table)


def test_exact_and_rounded_rows_stand_side_by_side() -> None:
    table = package_table("conductor_standards")
    exact = table["iacs.volume_resistivity.exact"]
    assert abs(exact.value - 1 / 58) < 1e-17
    rounded = table["iacs.volume_resistivity"]
    assert abs(exact.value - rounded.value) <= rounded.half_digit
    mass = table["iacs.mass_resistivity"]
    assert (
        abs(table["iacs.mass_resistivity.exact"].value - mass.value) <= mass.half_digit
    )


def test_copper_is_the_standard() -> None:
    copper = metal("copper")
    assert copper.density_g_per_cm3 == 8.89
    assert (
        copper.resistivity_ohm_m == package_copper_standard().volume_resistivity_ohm_m
    )


def test_metals_that_are_not_in_the_table_are_named() -> None:
    with pytest.raises(ParameterError, match="clad_aluminium_10, clad_aluminium_15"):
        metal("gold")
