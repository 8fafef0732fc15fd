"""The use case behind `orientations`: sentences that carry their basis."""

from pathlib import Path

import pytest

from strandproof.app import workflow
from strandproof.app.workflow import OrientationQuestion
from strandproof.errors import OutputExistsError, ParameterError
from strandproof.grainsize.orientations import SyntheticMap, draw_synthetic_map
from strandproof.records.orientation import OrientationRules, PointOnMap
from strandproof.records.orientation_results import FibreTexture
from strandproof.storage import encode_orientation_table

PASSIVE = OrientationQuestion(meaning="passive")
BASIS = "(square grid, step 0.5 µm, 97.0 % of 32000 points indexed, boundary from 15°)"
GRAINS = (
    "grain,x_um,y_um,area_um2,phi1_deg,Phi_deg,phi2_deg,neighbours\n"
    "1,0,0,50,0,0,0,2\n2,5,0,20.5,40,0,0,1 3\n3,9,0,7,45,0,0,2\n"
)


@pytest.fixture(scope="module")
def example(tmp_path_factory: pytest.TempPathFactory) -> Path:
    path = tmp_path_factory.mktemp("map") / "fellwater.csv"
    workflow.write_example_orientations(path)
    return path


def in_words(path: Path, question: OrientationQuestion) -> tuple[str, ...]:
    return workflow.orientations_in_words(workflow.examine_orientations(path, question))


def test_the_example_says_that_it_is_synthetic(example: Path) -> None:
    assert example.read_text("utf-8").startswith("# SYNTHETIC: ")
    lines = in_words(example, PASSIVE)
    assert lines[0].startswith("fellwater.csv says: SYNTHETIC")


def test_the_example_is_never_written_over_a_file(example: Path) -> None:
    with pytest.raises(OutputExistsError, match="there already"):
        workflow.write_example_orientations(example)


def test_every_number_carries_step_share_and_threshold(example: Path) -> None:
    lines = in_words(example, PASSIVE)
    beginnings = (
        "Mapped: ",
        "Boundaries of 15° and above: ",
        "Boundaries of 2° up to 15°: ",
        "Boundaries of 15° and above crossed per mm along the strand: ",
        "Regions parted by such boundaries: ",
        "Against the largest region's orientation",
    )
    for beginning in beginnings:
        (line,) = (line for line in lines if line.startswith(beginning))
        assert BASIS in line
    assert any(
        "twin-related, within 8.66° of 60° about <111>" in line for line in lines
    )
    assert lines[-1].endswith("or any other length of the strand.")


def test_a_changed_threshold_shows_in_the_sentences(example: Path) -> None:
    question = OrientationQuestion(
        meaning="passive", rules=OrientationRules(boundary_deg=10.0)
    )
    lines = in_words(example, question)
    assert any(line.startswith("Boundaries of 10° and above") for line in lines)
    assert any("boundary from 10°)" in line for line in lines)


def test_places_are_compared_with_the_chances_of_a_match(example: Path) -> None:
    question = OrientationQuestion(
        meaning="passive",
        places=(PointOnMap(x_um=20.0, y_um=20.0), PointOnMap(x_um=180.0, y_um=20.0)),
        texture=FibreTexture(share_111=0.7, share_100=0.3, tilt_deg=8.0),
    )
    lines = in_words(example, question)
    assert any("up to 160 µm apart, do not match within 5°" in line for line in lines)
    chances = [line for line in lines if line.startswith("By chance")]
    assert len(chances) == 4
    assert "in 1 of 1180 cases (0.00085) with random orientations" in chances[0]
    assert "in 1 of 12 cases (0.083) with 100 % <111> fibre, no tilt" in chances[1]
    assert "95 % limits" in chances[3]
    assert any("does not show that no boundary lies between" in line for line in lines)


def test_one_crystal_is_said_to_be_none_resolved_over_this_length(
    tmp_path: Path,
) -> None:
    path = tmp_path / "rod.csv"
    rows = [f"{x},{y},12,34,56" for y in range(5) for x in range(40)]
    path.write_text(
        "x_um,y_um,phi1_deg,Phi_deg,phi2_deg\n" + "\n".join(rows), encoding="utf-8"
    )
    lines = in_words(path, PASSIVE)
    (line,) = (line for line in lines if line.startswith("No boundary"))
    assert "was resolved over the 39.0 µm mapped (square grid, step 1 µm" in line
    assert "This does not show that there is none elsewhere" in line


def test_a_list_of_grains_says_what_was_not_stated(tmp_path: Path) -> None:
    path = tmp_path / "grains.csv"
    path.write_text(GRAINS, encoding="utf-8")
    lines = in_words(path, PASSIVE)
    basis = "(step not stated, share indexed not stated, boundary from 15°)"
    assert any(line.startswith("Grains listed: 3") and basis in line for line in lines)
    (pairs,) = (line for line in lines if line.startswith("Pairs of neighbours: 2; 1"))
    assert "Pairs are counted, no lengths." in pairs
    stated = OrientationQuestion(
        meaning="passive", stated_step_um=0.5, stated_share_indexed=0.97
    )
    joined = " ".join(in_words(path, stated))
    assert "(step 0.5 µm as stated, 97.0 % indexed as stated, boundary" in joined


def test_listed_places_of_the_rod(tmp_path: Path) -> None:
    path = tmp_path / "places.csv"
    rows = "".join(f"L{n},{9 * n},10,{20 + 0.4 * n},30\n" for n in range(5))
    path.write_text(f"place,x_mm,phi1_deg,Phi_deg,phi2_deg\n{rows}", encoding="utf-8")
    question = OrientationQuestion(meaning="passive", tolerance_deg=2.0)
    lines = in_words(path, question)
    assert any(
        line.startswith("The 5 places, up to 36.0 mm apart, match within 2°")
        for line in lines
    )
    assert any(
        line.startswith("By chance") and "in under 1 of a million cases" in line
        for line in lines
    )
    anew = OrientationQuestion(meaning="passive", tolerance_deg=2.0, frame="axis")
    assert any(
        "the direction along the strand" in line for line in in_words(path, anew)
    )


def test_plain_data_holds_the_numbers_and_the_sentences(example: Path) -> None:
    question = OrientationQuestion(
        meaning="passive",
        places=(PointOnMap(x_um=20.0, y_um=20.0), PointOnMap(x_um=180.0, y_um=20.0)),
    )
    answer = workflow.examine_orientations(example, question)
    data = workflow.orientations_data(answer)
    assert data["schema"] == "strandproof-orientations"
    assert data["map"]["coverage"]["points"] == 32000
    assert 0.2 < data["map"]["boundaries"]["twin_share"] < 0.5
    assert len(data["map"]["spread"]["stretches"]) == 20
    assert data["match"]["matches"] is False
    assert data["grain_list"] is None
    assert data["sentences"] == list(workflow.orientations_in_words(answer))


def test_a_remark_that_contradicts_is_not_passed_over(example: Path) -> None:
    with pytest.raises(ParameterError, match="as the table's own remark says"):
        workflow.examine_orientations(example, OrientationQuestion(meaning="active"))


@pytest.mark.parametrize(
    ("question", "named"),
    [
        (OrientationQuestion(meaning="passive", stated_step_um=0.5), "stated_step_um"),
        (
            OrientationQuestion(
                meaning="passive",
                texture=FibreTexture(share_111=0.7, share_100=0.3),
            ),
            "texture",
        ),
    ],
)
def test_a_map_is_not_told_what_it_holds_or_does_not_need(
    question: OrientationQuestion, named: str, example: Path
) -> None:
    with pytest.raises(ParameterError, match=named):
        workflow.examine_orientations(example, question)


def test_noisy_orientations_are_told_as_such(tmp_path: Path) -> None:
    noisy = draw_synthetic_map(
        SyntheticMap(rows=20, columns=60, noise_deg=1.5, twin_share=0.0), seed=1
    )
    path = tmp_path / "noisy.csv"
    path.write_bytes(encode_orientation_table(noisy.table))
    lines = in_words(path, PASSIVE)
    assert any("boundaries from 2° may be noise" in line for line in lines)


@pytest.mark.parametrize(
    ("question", "named"),
    [
        (OrientationQuestion(meaning="passive", stated_step_um=0.0), "stated_step_um"),
        (
            OrientationQuestion(meaning="passive", stated_share_indexed=97.0),
            "stated_share_indexed",
        ),
        (
            OrientationQuestion(
                meaning="passive", places=(PointOnMap(x_um=0.0, y_um=0.0),)
            ),
            "places",
        ),
        (
            OrientationQuestion(
                meaning="passive",
                texture=FibreTexture(share_111=0.7, share_100=0.3),
            ),
            "texture",
        ),
        (
            OrientationQuestion(meaning="passive", place_radius_um=2.0),
            "place_radius_um",
        ),
    ],
)
def test_questions_that_do_not_fit(
    question: OrientationQuestion, named: str, tmp_path: Path
) -> None:
    path = tmp_path / "grains.csv"
    path.write_text(GRAINS, encoding="utf-8")
    with pytest.raises(ParameterError, match=named):
        workflow.examine_orientations(path, question)
