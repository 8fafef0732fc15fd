import periodictable
import pytest

from strandproof.tables import impurity_resistivities, package_table

TABLE = package_table("impurity_resistivity")


def test_molar_masses_are_those_of_the_library() -> None:
    for key, row in TABLE.items():
        if key.endswith(".molar_mass"):
            symbol = key.partition(".")[0].capitalize()
            mass = periodictable.elements.symbol(symbol).mass
            assert mass == pytest.approx(row.value, rel=0, abs=row.half_digit + 1e-9)


def test_ranges_hold_the_recommended_value() -> None:
    elements = impurity_resistivities()
    assert len(elements) == 23
    for one in elements.values():
        assert 0 < one.dissolved_low <= one.dissolved <= one.dissolved_high
        assert 0 < one.precipitated_low <= one.precipitated_high < one.dissolved_low


def test_only_nickel_and_aluminium_do_not_rest_on_memory() -> None:
    statuses = {symbol: one.status for symbol, one in impurity_resistivities().items()}
    assert {s for s, status in statuses.items() if status != "from memory"} == {
        "Ni",
        "Al",
    }


def test_conflicting_memories_show_as_a_range() -> None:
    elements = impurity_resistivities()
    for symbol, factor in (("Ag", 4.0), ("Mg", 2.3), ("Te", 1.9)):
        one = elements[symbol]
        assert one.dissolved_high / one.dissolved_low > factor
        assert one.remark.startswith("CONFLICT")
