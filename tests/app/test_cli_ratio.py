"""The commands on ratios and effect sizes."""

import json
from pathlib import Path

from command_line import Command

D6 = (
    *("resistance-ratio", "--where", "helium", "--ratio", "180", "--ratio-u", "2"),
    *("--micrometres", "8.444", "--millimetres", "0.08"),
)
WARM = ("resistance-ratio", "--where", "warm", "--ratio", "1.3142", "--ratio-u", "2e-4")
EFFECTS = ("effect-sizes", "--micrometres", "8.444", "--millimetres", "0.08")


def test_helium_ratio_cannot_tell(command: Command, tmp_path: Path) -> None:
    plot = tmp_path / "map.svg"
    answer = command(*D6, "--plot", plot)
    assert answer.code == 0, answer.words
    assert "Liquid helium: suffocation" in answer.words
    assert "cap the ratio near 330-980" in answer.words
    assert plot.read_text("utf-8").startswith("<svg")
    assert command(*D6, "--plot", plot).code == 1


def test_result_goes_into_a_case_as_measurement_and_observation(
    command: Command, case: Path
) -> None:
    answer = command(
        *D6,
        *("--case", case, "--id", "rrr", "--measures", "specimen/E1-s1"),
        *("--by", "R", "--observation", "O-rrr"),
    )
    assert answer.code == 0, answer.words
    assert "measurement rrr" in answer.words
    assert "observation O-rrr" in answer.words
    assert command("verify", case).code == 0


def test_warm_ratio_as_json(command: Command) -> None:
    answer = command(*WARM, "--warm-celsius", "100", "--json")
    assert answer.code == 0, answer.words
    data = json.loads(answer.out)
    assert 98 < data["percent_iacs"]["lower"] < 99
    assert 101 < data["percent_iacs"]["upper"] < 102
    assert data["flags"] == ["no_reference_wire"]


def test_effects_before_measuring(command: Command, tmp_path: Path) -> None:
    plot = tmp_path / "bars.svg"
    answer = command(*EFFECTS, "--plot", plot)
    assert answer.code == 0, answer.words
    assert "Mayadas-Shatzkes" in answer.words
    assert plot.read_text("utf-8").startswith("<svg")
    assert json.loads(command(*EFFECTS, "--json").out)["effects"]


def test_supposed_composition_predicts_ratios(command: Command) -> None:
    soft = ("--impurity", "Fe=2", "--impurity", "Ag=20")
    answer = command(*EFFECTS, *soft)
    assert answer.code == 0, answer.words
    assert "2 ppm Fe dissolved" in answer.words
    ratio = json.loads(command(*EFFECTS, *soft, "--json").out)["supposed"]["ratio_273"]
    locked = json.loads(command(*EFFECTS, *soft, "--precipitated", "--json").out)[
        "supposed"
    ]["ratio_273"]
    assert ratio[0] < ratio[1] < ratio[2]
    assert locked[1] > ratio[1]
    wrong = command(*EFFECTS, "--impurity", "Fe")
    assert wrong.code == 2
    assert "SYMBOL=PPM" in wrong.words
    assert command(*EFFECTS, "--impurity", "Xx=1").code == 1


def test_refused_and_misused(command: Command, tmp_path: Path) -> None:
    no_upper = command(*WARM)
    assert no_upper.code == 1
    assert "upper temperature" in no_upper.words
    no_u = command("resistance-ratio", "--where", "helium", "--ratio", "180")
    assert no_u.code == 2
    assert "--ratio-u" in no_u.words
    drawing = command(*WARM, "--warm-celsius", "100", "--plot", tmp_path / "x.svg")
    assert drawing.code == 2
    assert "needs nitrogen or helium" in drawing.words
