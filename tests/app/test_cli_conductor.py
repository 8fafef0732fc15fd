"""The commands for conductors and lots, as a person types them.

K3, K4 and S9 of the product brief with the numbers of its Appendix A: 0.0955 mm^2 and
74 % of gauge 26, in effect size 27.3; 108.7 to 114.9 % IACS needed; a clad core of
0.347 g/m and 281 mohm/m.
"""

import json
from pathlib import Path

import pytest
from command_line import Command
from workflow_examples import started

from strandproof.app.workflow import open_case
from strandproof.records.entries import ClaimKind, Measurement

CORE = ("--millimetres", "0.08", "--millimetres-u", "0.0005", "--strands", "19")
STRAND = (
    *("--ohm", "1.7296", "--ohm-u", "0.00086", "--metres", "0.5", "--metres-u"),
    *("0.0003", "--celsius", "23.8", "--celsius-u", "0.2"),
    *("--milligrams", "22.28", "--milligrams-u", "0.0285"),
)
LOT = ("--strands", "19", "--square-mm", "0.0955", "--tolerance-percent", "5")
CORES = """core;strands;length [mm];mass [mg];R (mΩ);T (°C)
1;19;1000;849,2;183,2;23,5
2;19;1000;848,0;183,0;23,5
3;19;1000;347,0;285,0;23,5
4;19;1000;848,7;183,1;23,5
5;19;1000;850,1;182,7;23,5
"""


def test_k3_gauge(command: Command) -> None:
    answer = command("conductor-check", *CORE, "--awg", "26")
    assert answer.code == 0
    assert "0.0955 ± 0.0024 mm² (k = 2) of metal against 0.1288 mm²" in answer.out
    assert "74 %, in effect size 27.3" in answer.out
    assert "does not conform" in answer.out
    assert "probability of a false rejection: below 0.1 %" in answer.out


def test_k4_lower_resistance(command: Command) -> None:
    answer = command(
        "conductor-check",
        *(*STRAND, "--lower-percent", "8", "--lower-percent-to", "13"),
    )
    assert "needs 108.7 to 114.9 % IACS; copper ends at 103.3 %" in answer.out
    assert "100.9 ± 0.4 % IACS, which lies below the needed range" in answer.out
    assert "does not conform" in answer.out


def test_class_area_strands_and_metric_gauge_as_data(command: Command) -> None:
    answer = command(
        "conductor-check",
        *(*CORE, "--claimed-strands", "19", "--metric-gauge", "3.5", "--square-mm"),
        *("0.096", "--json"),
    )
    found = {one["name"]: one for one in json.loads(answer.out)}
    assert {name: one["verdict"] for name, one in found.items()} == {
        "area_for_metric_gauge": "undetermined",
        "area": "undetermined",
        "strands": "conforms",
    }
    assert found["strands"]["risk"] is None
    metal = command(
        "conductor-check",
        *("--ohm", "0.0255", "--ohm-u", "0.00005", "--metres", "1", "--celsius", "21"),
        *("--class", "5", "--square-mm", "0.75", "--json"),
    )
    assert [one["verdict"] for one in json.loads(metal.out)] == ["conforms"]


@pytest.mark.parametrize(
    ("words", "reason"),
    [
        ((), "a class with its area"),
        (("--class", "5"), "The nominal area of the class is missing"),
        (("--awg", "26"), "The mass is missing"),
        (("--claimed-strands", "19"), "The strand count is missing"),
        (("--awg", "26", "--millimetres", "0.08"), "The strand count is missing"),
        (
            ("--class", "5", "--square-mm", "1", "--ohm", "1", "--metres", "1"),
            "The temperature of the wire is missing",
        ),
    ],
)
def test_what_is_missing_is_refused(
    command: Command, words: tuple[str, ...], reason: str
) -> None:
    answer = command("conductor-check", *words)
    assert answer.code == 1
    assert reason in " ".join(answer.err.split())


def test_checks_enter_a_case(command: Command, tmp_path: Path) -> None:
    folder = started(tmp_path / "H7").folder
    answer = command(
        "conductor-check",
        *(*STRAND, *CORE, "--awg", "26", "--lower-percent", "8", "--case", folder),
        *("--id", "checks", "--measures", "specimen/E1-s1", "--by", "A1"),
    )
    assert answer.code == 0
    entered = open_case(folder).record(Measurement, "checks")
    assert entered.bears_on == (ClaimKind.BUILD, ClaimKind.PERFORMANCE)


def test_s9_lot_with_one_clad_core(command: Command, tmp_path: Path) -> None:
    table = tmp_path / "lot.csv"
    table.write_text(CORES, "utf-8")
    answer = command("screen-lot", table, *LOT)
    assert answer.code == 0
    assert "3: hold; mass and resistance fit copper-clad aluminium (15 %" in answer.out
    assert "0.347 g/m, 281.1 mΩ/m, 157.1 % IACS by mass" in answer.out
    assert "Lot held: 1 of 5 (3)" in answer.out
    data = json.loads(command("screen-lot", table, *LOT, "--json").out)
    assert [one["action"] for one in data["cores"]].count("accept") == 4


def test_a_lot_that_was_typed_enters_a_case(command: Command, tmp_path: Path) -> None:
    folder = started(tmp_path / "H7").folder
    answer = command(
        "screen-lot",
        *("--core", "A:19,1,0.849,0.1805,20,0.0801", "--core", "B:19,1,0.849,0.1805"),
        *("--celsius", "20", *LOT, "--case", folder, "--id", "lot", "--by", "Q"),
        *("--measures", "specimen/E1-s1"),
    )
    assert answer.code == 0
    assert "Lot accepted" in answer.out
    assert "up to 77.6 % of the lot" in answer.out
    entered = open_case(folder).record(Measurement, "lot")
    assert entered.bears_on == (ClaimKind.BUILD,)


@pytest.mark.parametrize(
    ("words", "code"),
    [
        ((), 2),
        (("--core", "A:19,1,0.849"), 1),
        (("--core", "A:19.5,1,0.849,0.18,20"), 1),
        (("--core", "A:19,1,0.849,0.18"), 1),
        (("--core", "nothing"), 2),
    ],
)
def test_lots_that_cannot_be_judged(
    command: Command, words: tuple[str, ...], code: int
) -> None:
    assert command("screen-lot", *words, *LOT).code == code
