"""Limits of copper grades as printed, and nines as the trade writes them.

Sources and status:
- C10100: data sheet of a copper association of 2005, the same list at a second
  supplier, read. It is the association's list of ASTM B170 Grade 1; the standard itself
  was not read.
- cathode Grade 1 and 2: ASTM B115-00(2004), Table 1, read.
- Cu-CATH-1 (EN 1978): rules of an exchange, read (secondary).
- oxygen of C10100 and C10200: ASTM B577-93(2004), page 1, read.
- nines: an encyclopedia (99.97 % is 3.52) and suppliers' pages (4N 100 ppm, 4N5 50 ppm,
  5N 10 ppm, 6N 1 ppm; 99.95 % written 3N5), read.
Tolerance: the printed numbers exactly; 3.52 and 3.30 to half of the last digit.
"""

import pytest

from strandproof.composition import (
    grade_check,
    judge_oxygen,
    nines_number,
    nines_written,
    stated_nines,
)
from strandproof.quantity import Quantity
from strandproof.records.composition import Certificate, ElementContent
from strandproof.tables import package_table

C10100 = (
    "Sb 4 As 5 O 5 P 3 Te 2 Bi 1 Cd 1 Fe 10 Pb 5 Mn 0.5 Ni 10 Se 3 Ag 25 S 15 Sn 2 Zn 1"
)
B115_1 = "Se 2 Te 2 Bi 1 Sb 4 Pb 5 As 5 Fe 10 Ni 10 Sn 5 S 15 Ag 25"
B115_2 = "Se 10 Te 5 Bi 3 Sb 15 Pb 40 As 15 Fe 25 Ni 20 Sn 10 S 25 Ag 70"
CATH_1 = "Ag 25 As 5 Bi 2 Fe 10 Pb 5 S 15 Sb 4 Se 2 Te 2"
GROUPS = {
    ("cathode_b115_1", "se_te_bi"): 3,
    ("cu_cath_1", "as_cd_cr_mn_p_sb"): 15,
    ("cu_cath_1", "bi_se_te"): 3,
    ("cu_cath_1", "co_fe_ni_si_sn_zn"): 20,
}


def pairs(printed: str) -> dict[str, float]:
    parts = printed.split()
    return dict(zip(parts[::2], map(float, parts[1::2]), strict=True))


@pytest.mark.parametrize(
    ("grade", "printed", "statuses"),
    [
        ("c10100", C10100, {"read"}),
        ("cathode_b115_1", B115_1, {"read"}),
        ("cathode_b115_2", B115_2, {"read"}),
        ("cu_cath_1", CATH_1, {"read (secondary)"}),
        ("cu_ofe", C10100, {"from memory"}),
    ],
)
def test_limits_are_those_printed(grade: str, printed: str, statuses: set[str]) -> None:
    rows = {
        key.rpartition(".")[2].capitalize(): row
        for key, row in package_table("copper_grades").items()
        if key.startswith(f"{grade}.max.")
    }
    assert {symbol: row.value for symbol, row in rows.items()} == pairs(printed)
    assert {row.status for row in rows.values()} == statuses


def test_groups_and_totals_are_those_printed() -> None:
    table = package_table("copper_grades")
    for (grade, group), limit in GROUPS.items():
        assert table[f"{grade}.group.{group}"].value == limit
        symbols = {part.lower() for part in group.split("_")}
        named = table[f"{grade}.group.{group}"].conditions.lower().split(" + ")
        assert set(named) == symbols
    assert table["cathode_b115_1.listed_total"].value == 65
    assert table["cu_cath_1.listed_total"].value == 65
    assert table["c10100.copper_minimum"].value == 99.99


@pytest.mark.parametrize(
    ("word", "ppm"), [("4N", 100), ("4N5", 50), ("5N", 10), ("6N", 1), ("3N5", 500)]
)
def test_nines_allow_what_suppliers_print(word: str, ppm: float) -> None:
    assert stated_nines(word).impurity_ppm == ppm
    assert nines_written(ppm) == word


def test_number_of_nines_is_not_the_written_form() -> None:
    assert nines_number(300) == pytest.approx(3.52, rel=0, abs=0.005)
    # 99.95 % is written 3N5, though -log10 gives 3.30; 4N5 has 4.30.
    assert nines_number(500) == pytest.approx(3.30, rel=0, abs=0.005)
    assert nines_number(50) == pytest.approx(4.30, rel=0, abs=0.005)


def test_oxygen_limits_of_both_classes() -> None:
    classes = judge_oxygen(gas=Quantity(7.0, "ppm", 0.1)).classes
    assert [each.limit_ppm for each in classes] == [5, 10]
    assert [each.verdict for each in classes] == ["above", "within"]


def test_a_certificate_at_every_maximum_is_within() -> None:
    contents = tuple(
        ElementContent(symbol=symbol, state="value", ppm=ppm)
        for symbol, ppm in pairs(C10100).items()
    )
    paper = Certificate(item="rod", contents=contents, copper_percent=99.99)
    assert grade_check(paper, "C10100").meets is True
