"""The drawing of a combined grain size, made anew only where the numbers agree."""

from pathlib import Path

import pytest
from workflow_examples import add, bench, desk_at

from strandproof.app.workflow import Desk, ReadersAsked, combine_readings, open_case
from strandproof.app.workflow.combining_plot import (
    combined_drawings,
    write_combined_plot,
)
from strandproof.app.workflow.new_file import require_new_file
from strandproof.errors import OutputExistsError

READERS = ReadersAsked("A1", "A2", "stage")


@pytest.fixture
def desk(tmp_path: Path) -> Desk:
    desk = bench(tmp_path / "H7")
    combine_readings(desk, "size", READERS)
    return desk


def test_every_lead_strand_and_interval_is_drawn(desk: Desk, tmp_path: Path) -> None:
    write_combined_plot(desk.folder, READERS, tmp_path / "size.svg")
    drawing = (tmp_path / "size.svg").read_text("utf-8")
    assert drawing.startswith("<svg")
    # Product brief, Appendix A: 8.444 +- 0.783 um by lead.
    assert "3 leads: 8.4 ± 0.8 µm (95 %)" in drawing
    for words in ("E1 8.33 µm from 3 strands and 15 fields", "45 fields:"):
        assert words in drawing


def test_a_drawing_of_that_name_is_kept(desk: Desk, tmp_path: Path) -> None:
    target = tmp_path / "size.svg"
    target.write_text("mine", "utf-8")
    with pytest.raises(OutputExistsError, match="a file is there"):
        require_new_file(target)
    with pytest.raises(OutputExistsError):
        write_combined_plot(desk.folder, READERS, target)
    assert target.read_text("utf-8") == "mine"
    require_new_file(None)
    require_new_file(tmp_path / "new.svg")


def test_the_report_gets_a_drawing_with_words(desk: Desk) -> None:
    (drawing,) = combined_drawings(open_case(desk.folder)).values()
    assert "Means by lead: E1 8.33 µm; E2 8.80 µm; E3 8.20 µm." in drawing.alt
    assert "3 leads: 8.4 ± 0.8 µm (95 %)" in drawing.svg


def test_later_readings_take_the_drawing_away(desk: Desk) -> None:
    later = {
        "id": "later",
        "reads": "section/E1-s1-L",
        "reader": "A1",
        "blind": False,
        "verdict": "boundaries",
        "counts": {"boundary": 30},
        "line_length_px": 2000.0,
        "read_at": "2031-07-01T12:00:00Z",
    }
    add(desk_at(desk.folder), [("reading", later)])
    assert combined_drawings(open_case(desk.folder)) == {}


def test_another_calibration_beside_is_not_mistaken(desk: Desk) -> None:
    other = {
        "id": "other",
        "pixel_size": {"value": 0.2, "unit": "um", "standard_uncertainty": 0.001},
        "method": "stage scale",
        "made_at": "2031-07-01T12:00:00Z",
        "made_by": "A1",
    }
    add(desk, [("calibration", other)])
    combine_readings(desk, "otherwise", ReadersAsked("A1", "A2", "other"))
    drawings = combined_drawings(open_case(desk.folder))
    assert set(drawings) == {"size", "otherwise"}
    assert "E1 8.33 µm" in drawings["size"].alt
    assert "E1 9.66 µm" in drawings["otherwise"].alt
