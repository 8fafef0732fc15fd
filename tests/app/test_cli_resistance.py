"""The command for a resistance, as a person types it.

M18 and Appendix A of the product brief: 100.9 ± 0.4 % IACS; without a temperature
refused; 0.078 mm gives 105.9 % IACS.
"""

import json
from pathlib import Path

import openpyxl
import pytest
from command_line import Command
from workflow_examples import started

from strandproof.app.workflow import open_case
from strandproof.records.entries import ClaimKind, Measurement, Observation

STRAND = (
    *("--ohm", "1.7296", "--ohm-u", "0.00086", "--metres", "0.5", "--metres-u"),
    *("0.0003", "--celsius", "23.8", "--celsius-u", "0.2"),
)
WEIGHED = ("--milligrams", "22.28", "--milligrams-u", "0.0285")
GEOMETRY = (*STRAND[4:], *WEIGHED)
METERS = ("--meter", "0.01%+0.001%@1V+1*0.000001V", "--ammeter", "0.03%+0.005%@0.1A")
READINGS = """I (mA);U+ (mV);U- (mV);t (min)
20;34,598;-34,591;0
20;34,599;-34,592;1
20;34,597;-34,591;2
50;86,523;-86,517;3
50;86,524;-86,517;4
100;173,298;-173,292;5
100;173,297;-173,291;6
"""


def test_the_brief_s_strand(command: Command) -> None:
    answer = command("resistance", *STRAND, *WEIGHED)
    assert answer.code == 0
    assert "By mass: 100.9 ± 0.4 % IACS (95 %, k = 1.96)" in answer.out
    assert "1.708" in answer.out
    assert "cannot tell crystals" in answer.out


def test_refusals_are_one_paragraph(command: Command) -> None:
    cold = [word for word in STRAND if word not in {"--celsius", "23.8"}]
    for words, reason in (
        ((*cold, *WEIGHED), "The temperature of the wire is missing."),
        ((*STRAND, "--millimetres", "0.078"), "105.9 % IACS, and copper ends at"),
        ((*STRAND, *WEIGHED, "--form", "twisted"), "2 % of lay makes the resist"),
        (
            (
                *(*STRAND, *WEIGHED, "--conductor", "core:76:copper"),
                *("--conductor", "drain:7:copper:tin"),
            ),
            "two conductor types in parallel (76 core strands + 7 tinned drain",
        ),
        (
            ("--pair", "100,180,-180", "--pair", "50,86.5,-86.5", *GEOMETRY, *METERS),
            "warmed the wire by",
        ),
        (STRAND[4:], "The resistance is missing."),
    ):
        answer = command("resistance", *words)
        assert answer.code == 1
        assert answer.out == ""
        assert answer.err.startswith("Refused. ")
        assert reason in " ".join(answer.err.split())


def test_a_table_of_readings(command: Command, tmp_path: Path) -> None:
    table = tmp_path / "readings.csv"
    table.write_text(READINGS, "utf-8")
    answer = command("resistance", "--readings", table, *GEOMETRY, *METERS)
    assert answer.code == 0
    assert "thermal voltage removed 3.3 uV" in answer.out
    assert "At zero current, by a straight line in I^2: 1.72957" in answer.out
    assert "Rise of the wire at the highest current: 0.50 ± 0.05 K" in answer.out
    assert "Leads and contacts were not checked." in answer.out
    assert "By mass: 100.9 ± 0.4 % IACS" in answer.out


def test_the_same_table_as_xlsx_with_columns_named_once(
    command: Command, tmp_path: Path
) -> None:
    book = openpyxl.Workbook()
    sheet = book.active
    assert sheet is not None
    for number, row in enumerate(READINGS.splitlines()):
        cells = row.replace(",", ".").split(";")
        sheet.append(
            ["strom (mA)", "vor (mV)", "zurück (mV)", "t (min)"]
            if number == 0
            else [float(cell) for cell in cells]
        )
    table = tmp_path / "readings.xlsx"
    book.save(table)
    words = ("--readings", table, *GEOMETRY, *METERS, "--json")
    unknown = command("resistance", *words)
    assert unknown.code == 1
    assert "Name the missing one" in unknown.err
    named = command(
        "resistance",
        *words,
        *("--column", "current=strom (mA)", "--column", "forward=vor (mV)"),
        *("--column", "reverse=zurück (mV)"),
    )
    again = command("resistance", *words)
    assert (named.code, again.code) == (0, 0)
    assert json.loads(again.out) == json.loads(named.out)
    series = json.loads(again.out)["series"]
    assert [one["pairs"] for one in series["currents"]] == [3, 2, 2]
    assert series["resistance"]["value"] == pytest.approx(1.72957, abs=1e-5)


def test_an_ohmmeter_by_its_specification(command: Command) -> None:
    answer = command(
        "resistance",
        *("--ohm", "1.7296", "--meter", "0.02%+0.01%@10ohm", *GEOMETRY, "--json"),
    )
    budget = json.loads(answer.out)["routes"][0]["budget"]
    part = next(one["component"] for one in budget if one["name"] == "resistance")
    # Two rectangular parts: 0.02 % and 1 mohm of 1.7296 ohm.
    expected = 100.93 * ((0.0002**2 + (0.001 / 1.7296) ** 2) / 3) ** 0.5
    assert part == pytest.approx(expected, rel=1e-3)


def test_mass_and_diameter_that_disagree_are_flagged(command: Command) -> None:
    answer = command("resistance", *STRAND, *WEIGHED, "--millimetres", "0.076")
    assert answer.code == 0
    assert "Geometry by mass and by diameter disagree" in answer.out


def test_the_result_enters_a_case_with_its_drawing(
    command: Command, tmp_path: Path
) -> None:
    folder = started(tmp_path / "H7").folder
    plot = tmp_path / "budget.svg"
    answer = command(
        "resistance",
        *(*STRAND, *WEIGHED, "--plot", plot, "--case", folder, "--id", "ohm"),
        *("--measures", "specimen/E1-s1", "--by", "A1", "--observation", "O-ohm"),
    )
    assert answer.code == 0
    assert plot.read_text("utf-8").startswith("<svg")
    state = open_case(folder)
    entered = state.record(Measurement, "ohm")
    assert entered.bears_on == (ClaimKind.PERFORMANCE,)
    assert set(entered.does_not_bear_on) == set(ClaimKind) - {ClaimKind.PERFORMANCE}
    seen = state.record(Observation, "O-ohm")
    assert "100.9 ± 0.4 % IACS" in seen.statement
    again = command("resistance", *STRAND, *WEIGHED, "--plot", plot)
    assert again.code == 1


@pytest.mark.parametrize(
    "words",
    [
        ("--ohm", "1.7", "--pair", "100,1,-1", *GEOMETRY),
        ("--ohm", "1.7", *GEOMETRY),
        ("--ohm", "1.7", "--meter", "accurate", *GEOMETRY),
        ("--pair", "100,1", *GEOMETRY),
        (*STRAND, *WEIGHED, "--column", "forward"),
        ("--ohm", "1.7", "--meter", "0.1%+1%@1V+1*1mV", *GEOMETRY),
    ],
)
def test_wrong_use(command: Command, words: tuple[str, ...]) -> None:
    assert command("resistance", *words).code == 2
