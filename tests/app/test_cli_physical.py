"""Hardness, density, which metal, deformation and home from the command line."""

import json
import re
from pathlib import Path

import numpy as np
import pytest
from command_line import Command

from strandproof.storage import encode_png

HARDNESS = (
    "hardness",
    "--gram-force",
    25,
    "--indentation",
    "29.5:30.1:80:110",
    "--indentation",
    "30:30.4:78:110",
    "--block-percent",
    "1.5",
)
IN_WATER = (
    *("density", "--air-mg", 500, "--mg-u", "0.1", "--water-mg", "444.1"),
    *("--celsius", "20.5", "--wire-um", 20, "--no-bubbles", "--pure-water"),
)


def test_hardness_says_value_budget_and_state(command: Command) -> None:
    answer = command(*HARDNESS)
    assert answer.code == 0
    assert "Vickers hardness 52 ± 4 HV" in answer.words
    assert "soft copper" in answer.words
    assert "scatter of the indentations" in answer.words
    assert "not how it was cast" in answer.words


def test_hardness_from_a_table(command: Command, tmp_path: Path) -> None:
    table = tmp_path / "readings.csv"
    rows = "d1 (um),d2 (um),edge (um),next (um)\n29.5,30.1,80,110\n30,30.4,78,\n"
    table.write_text(rows, encoding="utf-8")
    answer = command("hardness", "--gram-force", 25, "--table", table, "--json")
    data = json.loads(answer.out)
    assert len(data["values_hv"]) == 2
    assert data["flags"] == ["indentation_distances_not_given", "no_reference_block"]


def test_hardness_in_millimetres_is_the_same(command: Command, tmp_path: Path) -> None:
    found = []
    for unit, factor in (("um", 1.0), ("mm", 1e-3)):
        table = tmp_path / f"{unit}.csv"
        rows = "\n".join(f"{d * factor},{d * factor}" for d in (30.0, 31.0))
        table.write_text(f"d1 ({unit}),d2 ({unit})\n{rows}\n", encoding="utf-8")
        answer = command("hardness", "--gram-force", 25, "--table", table, "--json")
        found.append(json.loads(answer.out)["hardness"]["value"])
    np.testing.assert_allclose(found[0], found[1], rtol=1e-9)


def test_hardness_too_near_the_edge_is_refused_in_one_paragraph(
    command: Command,
) -> None:
    answer = command("hardness", "--gram-force", 100, "--indentation", "60:61:40:200")
    assert answer.code == 1
    assert not answer.out
    assert "Refused. Indentation 1: its centre is 40.0 um from the edge" in answer.words
    assert "151.2 um or more" in answer.words
    assert "none is stated" in answer.words


@pytest.mark.parametrize("wrong", ["30", "30:31:1:2:3", "30:x"])
def test_hardness_misuse(command: Command, wrong: str) -> None:
    answer = command("hardness", "--gram-force", 25, "--indentation", wrong)
    assert answer.code == 2


def test_hardness_plans_a_force(command: Command) -> None:
    answer = command("hardness", "--gram-force", 25, "--wire-um", 80)
    assert "at most 6.9 gf" in answer.words
    assert command("hardness", "--gram-force", 25).code == 2


def test_density_by_water_and_by_geometry(command: Command) -> None:
    water = command(*IN_WATER)
    assert "Density by weighing in water: 8.92 ± 0.05 g/cm3" in water.words
    assert "Keep in mind" not in water.words
    geometry = command(
        *("density", "--air-mg", 847, "--mg-u", 1, "--metres", 1, "--json"),
        *("--millimetres", "0.08", "--strands", 19),
    )
    assert round(json.loads(geometry.out)["density"]["value"], 2) == 8.87


def test_density_without_temperature_is_misuse(command: Command) -> None:
    answer = command("density", "--air-mg", 500, "--mg-u", 1, "--water-mg", 444)
    assert answer.code == 2
    assert "temperature" in answer.words


def test_which_metal_shows_contributions_and_the_trap(command: Command) -> None:
    answer = command("which-metal", "--seen", "surface=silver")
    assert "silver or silver-plated copper" in answer.words
    assert "reads the skin only" in answer.words
    settled = command(
        *("which-metal", "--seen", "surface=silver", "--json"),
        *("--measured", "density=10.47:0.04"),
    )
    data = json.loads(settled.out)
    assert data["not_told_apart"] == ["silver"]
    assert [one["reading"] for one in data["fits"][0]["contributions"]] == [
        "density",
        "surface",
    ]


def test_which_metal_may_say_none(command: Command) -> None:
    answer = command("which-metal", "--measured", "density=19.3:0.1")
    assert answer.code == 0
    assert "None of these metals fits" in answer.words


@pytest.mark.parametrize(
    ("words", "code", "said"),
    [
        (("--measured", "density=8.9"), 2, "lacks its standard uncertainty"),
        (("--measured", "weight=8.9:0.1"), 1, "one of density"),
        (("--seen", "colour=red"), 1, "one of magnet"),
        (("--seen", "magnet"), 2, "name=words"),
        ((), 1, "one or more numbers"),
    ],
)
def test_which_metal_refusals(
    command: Command, words: tuple[str, ...], code: int, said: str
) -> None:
    answer = command("which-metal", *words)
    assert answer.code == code
    assert said in answer.words


def pictures(folder: Path, name: str, spacing: float, seed: int) -> list[Path]:
    made = []
    rows, columns = np.indices((128, 128), dtype=np.float64)
    for number in range(5):
        chance = np.random.default_rng(seed + number)
        place = (0.6 * columns + 0.8 * rows + chance.uniform(0, spacing)) % spacing
        offset = np.minimum(place, spacing - place)
        light = 0.7 * (1 - 0.3 * np.exp(-0.5 * (offset / 0.9) ** 2))
        grey = np.clip(255 * light + chance.normal(0, 4, light.shape), 0, 255)
        made.append(folder / f"{name}{number}.png")
        made[-1].write_bytes(encode_png(grey.astype(np.uint8)))
    return made


def test_deformation_decides_and_names_the_objection(
    command: Command, case: Path, tmp_path: Path
) -> None:
    before = pictures(tmp_path, "before", 30.0, 1)
    after = pictures(tmp_path, "after", 12.0, 50)
    options: list[str | Path] = ["--um-per-px", "0.5", "--handling", "bent ten times"]
    for side, paths in (("--before", before), ("--after", after)):
        for path in paths:
            options += [side, path]
    polished = ("--polished-before", "--untouched-after")
    into = (
        "--case",
        case,
        "--id",
        "bent",
        "--measures",
        "specimen/E1-s1",
        "--by",
        "A1",
    )
    answer = command("deformation", *options, *polished, *into)
    assert answer.code == 0
    entry = (case / "entries.jsonl").read_text(encoding="utf-8").splitlines()[-1]
    body = json.loads(entry)["body"]
    assert body["bears_on"] == ["crystal_state"]
    assert body["results"][0]["words"].startswith("changed; ")
    assert answer.out.startswith("Changed:")
    assert "does not answer the objection that heat made the grains" in answer.words
    silent = command("deformation", *options, "--json")
    data = json.loads(silent.out)
    assert data["verdict"] == "cannot tell"
    assert data["flags"] == ["not_polished_before_bending"]
    assert len(data["after"]) == 5
    wrong = command("deformation", *options, "--objection", "luck")
    assert wrong.code == 2


def test_home_of_the_brief(command: Command) -> None:
    """M18 and M33: u 1 mg on 22.28 mg; weigh all 19 strands over 1 m (847 mg)."""
    answer = command(
        *("at-home", "--scale-u-mg", 1, "--metres", "0.5", "--millimetres", "0.08"),
        *("--milligrams", "22.28", "--length-u-mm", "0.3", "--all-strands", 19),
        *("--meter-percent", "0.05", "--celsius-u", "0.2"),
    )
    assert answer.code == 0
    assert "conductivity: 100 ± 9 % IACS" in answer.words
    assert "weigh all 19 strands over 1 m (847 mg)" in answer.words
    can, cannot = answer.words.split("Cannot be decided:")
    assert "copper or copper-clad aluminium, by resistance, mass and length" in can
    for never in ("crystals", "casting route", "oxygen", "soft or hard"):
        assert never in cannot
        assert never not in can
    for safe in ("No flame", "mains", "No acid", "Request to a laboratory"):
        assert safe in cannot


def test_home_gives_no_recipe(command: Command) -> None:
    words = command(
        *("at-home", "--scale-u-mg", 1, "--metres", 1, "--millimetres", "0.1")
    ).words
    assert not re.search(r"nitric|ferric|chloride|peroxide|ammoni|\d+ ?ml\b", words)


def test_home_as_data_and_refused(command: Command) -> None:
    good = ("at-home", "--metres", 1, "--millimetres", "0.1", "--strands", 19)
    data = json.loads(command(*good, "--scale-u-mg", 1, "--json").out)
    assert data["conductivity_percent"] is None
    assert any("four-wire" in line for line in data["advice"])
    refused = command(*good, "--scale-u-mg", 0)
    assert refused.code == 1
    assert "above zero" in refused.words


@pytest.mark.parametrize(
    ("words", "kind"),
    [
        (HARDNESS, "crystal_state"),
        (IN_WATER, "build"),
        (("which-metal", "--seen", "core=copper"), "build"),
    ],
)
def test_results_enter_a_case(
    command: Command, case: Path, words: tuple[str, ...], kind: str
) -> None:
    answer = command(
        *words,
        *("--case", case, "--id", "bench", "--measures", "specimen/E1-s1"),
        *("--by", "A1", "--observation", "seen"),
    )
    assert answer.code == 0, answer.words
    lines = (case / "entries.jsonl").read_text(encoding="utf-8").splitlines()
    measurement, observation = (json.loads(line)["body"] for line in lines[-2:])
    assert measurement["bears_on"] == [kind]
    assert "casting_route" in measurement["does_not_bear_on"]
    assert observation["evidence"] == ["measurement/bench"]
