"""Certificates, papers and oxygen on the command line."""

import json
from pathlib import Path

import pytest
from command_line import Command

from strandproof.app.workflow import open_case
from strandproof.records.entries import ClaimKind, Document, Measurement, Observation

MILL = """\
Element;Value;Unit
Ag;11,2;ppm
Bi;<0,2;ppm
Fe;3,1;ppm
P;<0,5;ppm
"""
M3 = (
    "Bears on composition of an 8 mm rod, heat 77-B, 4 elements. Cannot bear on "
    "crystal state. Not linked to any exhibit's lot. Oxygen not reported."
)
STATED = ("--item", "8 mm rod", "--lot", "heat 77-B", "--basis", "metals_only")


@pytest.fixture
def mill(tmp_path: Path) -> Path:
    path = tmp_path / "mill.csv"
    path.write_text(MILL, encoding="utf-8")
    return path


def test_a_certificate_is_judged_in_words(command: Command, mill: Path) -> None:
    answer = command(
        *("certificate", mill, *STATED, "--nines", "4N7", "--grade", "C10100"),
        *("--measured-iacs", "101.8", "--measured-iacs-u", "0.2"),
    )
    assert answer.code == 0, answer.words
    assert "4N7 (metals only): 99.997 %, at most 30 ppm" in answer.words
    assert "Hard ends: 14.3 ppm" in answer.words
    assert "to 15 ppm, each at its limit" in answer.words
    assert "Not reported: O, decides oxygen-free" in answer.words
    assert "Fe: 3.1, limit at most 10 ppm; within" in answer.words
    assert "The conductivity agrees with the analysis. That says little" in answer.words


def test_six_nines_with_8_ppm_and_without_a_basis(command: Command) -> None:
    typed = ("certificate", "--item", "rod", "--nines", "6N", "--element", "Fe=8")
    refused = command(*typed)
    assert refused.code == 1
    assert "The basis of '6N' is missing" in refused.words
    told = command(*typed, "--basis", "metals_only", "--json")
    data = json.loads(told.out)
    assert [each["name"] for each in data["contradictions"]] == ["nines_contradicted"]
    assert data["totals"][0]["lowest_ppm"] == 8.0


def test_a_certificate_from_json_and_its_drawing(
    command: Command, tmp_path: Path
) -> None:
    paper, drawing = tmp_path / "paper.json", tmp_path / "limits.svg"
    fields = {"item": "rod", "basis": "gases_in", "elements": ["O=3", "Fe=<2"]}
    paper.write_text(json.dumps(fields), encoding="utf-8")
    answer = command("certificate", paper, "--grade", "C10100", "--plot", drawing)
    assert answer.code == 0, answer.words
    assert drawing.read_text("utf-8").startswith("<svg")
    assert command("certificate", paper, "--plot", tmp_path / "other.svg").code == 1
    paper.write_text(json.dumps({**fields, "purity": "6N"}), encoding="utf-8")
    assert "purity" in command("certificate", paper).words


def test_an_analysis_of_a_specimen_goes_into_the_case(
    command: Command, mill: Path, case: Path
) -> None:
    answer = command(
        *("certificate", mill, *STATED, "--case", case, "--id", "analysis", "--by"),
        *("R", "--measures", "exhibit/E1", "--observation", "O-analysis"),
    )
    assert answer.code == 0, answer.words
    measurement = open_case(case).record(Measurement, "analysis")
    # Oxygen has no number, so the analysis does not bear on it.
    assert measurement.bears_on == (ClaimKind.COMPOSITION,)
    assert ClaimKind.OXYGEN in measurement.does_not_bear_on
    assert open_case(case).record(Observation, "O-analysis").value is not None


def test_a_mill_certificate_goes_into_the_case_and_is_judged(
    command: Command, mill: Path, case: Path
) -> None:
    answer = command(
        *("certificate", mill, *STATED, "--case", case, "--id", "mill", "--by", "R"),
        *("--paper-kind", "mill_certificate", "--offered-for", "K1"),
    )
    assert answer.code == 0, answer.words
    document = open_case(case).record(Document, "mill")
    assert document.elements == ("Ag", "Bi", "Fe", "P")
    assert document.file_sha256 is not None
    told = command("paper", case)
    assert f"mill: {M3}" in told.words
    assert "unsupported by papers." in told.words
    data = json.loads(command("paper", case, "--document", "mill", "--json").out)
    assert data[0]["verdicts"]["crystal_state"]["ability"] == "cannot bear"
    assert command("paper", case, "--document", "other").code == 1
    assert command("paper", case, "--claim", "K9").code == 1


def test_the_grid_and_one_cell_of_it(command: Command) -> None:
    grid = command("paper")
    assert "licence (licence or trade-mark paper):" in grid.words
    cell = command("paper", "--kind", "licence", "--claim-kind", "casting_route")
    assert cell.words.startswith(
        "Licence or trade-mark paper, casting route: cannot bear; it permits"
    )
    assert len(json.loads(command("paper", "--json").out)) == 12 * len(ClaimKind)
    assert command("paper", "--kind", "licence", "--claim-kind", "colour").code == 1


def test_oxygen_in_words_and_into_the_case(command: Command, case: Path) -> None:
    answer = command(
        *("oxygen", "--points", "1/400", "--points", "0/400", "--points", "2/400"),
        *("--hydrogen", "fail", "--hydrogen-method", "ISO 2626"),
        *("--case", case, "--id", "ox", "--measures", "exhibit/E1", "--by", "R"),
    )
    assert answer.code == 0, answer.words
    assert "Section, 3 fields: area fraction of oxide 0.0025" in answer.words
    assert "C10200 (at most 10 ppm): ABOVE; the hydrogen test failed." in answer.words
    measurement = open_case(case).record(Measurement, "ox")
    assert measurement.bears_on == (ClaimKind.OXYGEN,)
    names = [result.name for result in measurement.results]
    assert names == ["oxygen_as_oxide", "hydrogen_test"]


def test_oxygen_as_data_and_refused(command: Command) -> None:
    areas = ("oxygen", "--areas", "0/40000", "--areas", "0/40000")
    data = json.loads(command(*areas, "--json").out)
    assert data["section"]["oxygen_interval_ppm"] == [0.0, None]
    assert command("oxygen").code == 1
    assert command(*areas, "--points", "1/400").code == 1
    assert command("oxygen", "--points", "1 of 400", "--points", "0/400").code == 1
    assert command("oxygen", "--points", "1/400").code == 1


def test_a_paper_needs_its_case(command: Command, mill: Path) -> None:
    words = ("certificate", mill, *STATED, "--paper-kind", "mill_certificate")
    assert command(*words).code == 2
