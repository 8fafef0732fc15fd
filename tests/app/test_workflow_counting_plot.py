"""Histograms of what a count rests on, and when there is none to draw."""

from dataclasses import replace
from pathlib import Path

import numpy as np
import numpy.typing as npt
import pytest

from strandproof.app.workflow.counting import CountedPicture, CountingChoices
from strandproof.app.workflow.counting_plot import PlotOf, write_count_plots
from strandproof.errors import OutputExistsError, ParameterError
from strandproof.grainsize.procedures import count_structure
from strandproof.quantity import Quantity
from strandproof.records import LabelledStructure, Strand
from strandproof.storage import encode_png, read_picture

SCALE = Quantity(0.5, "um", 0.001)


def counted(
    folder: Path, labels: npt.NDArray[np.int32], scale: Quantity | None = SCALE
) -> CountedPicture:
    """Count given labels of a picture that is metal from edge to edge."""
    path = folder / "drawn.png"
    path.write_bytes(encode_png(np.full(labels.shape, 128, np.uint8)))
    rows, cols = labels.shape
    strand = Strand(
        number=1,
        area_px=float(labels.size),
        centroid_px=((rows - 1) / 2, (cols - 1) / 2),
        length_px=float(cols),
        width_px=float(rows),
        axis_deg=None,
        shape="field",
        verdict="poly",
        verdict_reason="drawn",
    )
    structure = LabelledStructure(
        grain_labels=labels,
        strand_labels=np.ones(labels.shape, np.int32),
        strands=(strand,),
        flags=(),
        method="drawn",
        method_version="1",
    )
    choices = CountingChoices(procedures=("heyn_lines", "whole_area"))
    settings = choices.settings(scale)
    return CountedPicture(
        name=path.name,
        picture=read_picture(path),
        counts=count_structure(structure, settings, procedures=choices.procedures),
        outside_share=0.0,
        structure=structure,
        settings=settings,
    )


@pytest.fixture
def squares() -> npt.NDArray[np.int32]:
    """Squares of 20 px, the outer ones cut in half: 12 x 16 in all, 11 x 15 whole."""
    rows, cols = np.indices((240, 320))
    return (1 + (rows + 10) // 20 * 17 + (cols + 10) // 20).astype(np.int32)


@pytest.mark.parametrize(
    ("of", "words"),
    [
        ("intercepts", "lineal intercept, µm"),
        ("areas", "grain area, µm²"),
    ],
)
def test_one_histogram_with_mean_and_interval(
    squares: npt.NDArray[np.int32],
    tmp_path: Path,
    of: PlotOf,
    words: str,
) -> None:
    plots = write_count_plots(
        counted(tmp_path, squares), tmp_path / "spread.svg", of=of
    )
    assert (plots.files, plots.not_drawn) == ((tmp_path / "spread.svg",), ())
    drawing = plots.files[0].read_text("utf-8")
    assert words in drawing
    assert "The bar is the interval of the mean" in drawing
    # Squares of 10 um by 10 um.
    assert ("165 values. Circle: mean 100" in drawing) == (of == "areas")


def test_without_a_scale_it_is_drawn_in_pixels(
    squares: npt.NDArray[np.int32], tmp_path: Path
) -> None:
    result = counted(tmp_path, squares, None)
    (path,) = write_count_plots(result, tmp_path / "a.svg").files
    assert "lineal intercept, px" in path.read_text("utf-8")
    (path,) = write_count_plots(result, tmp_path / "b.svg", of="areas").files
    assert "grain area, px²" in path.read_text("utf-8")


def test_without_a_mean_nothing_is_drawn_and_it_says_why(tmp_path: Path) -> None:
    one = np.ones((240, 320), np.int32)
    plots = write_count_plots(counted(tmp_path, one), tmp_path / "spread.svg")
    assert plots.files == ()
    (why,) = plots.not_drawn
    assert why.startswith("Strand 1 is not drawn: ")
    assert list(tmp_path.glob("*.svg")) == []


@pytest.mark.parametrize("of", ["intercepts", "areas"])
def test_a_mean_that_was_not_counted_is_asked_for(
    squares: npt.NDArray[np.int32], tmp_path: Path, of: PlotOf
) -> None:
    result = counted(tmp_path, squares)
    (strand,) = result.counts.strands
    bare = replace(strand, lines=(), areas=())
    result = replace(result, counts=replace(result.counts, strands=(bare,)))
    with pytest.raises(ParameterError, match=f"{of} with a procedure of"):
        write_count_plots(result, tmp_path / "spread.svg", of=of)


def test_several_pieces_get_a_file_each(
    squares: npt.NDArray[np.int32], tmp_path: Path
) -> None:
    result = counted(tmp_path, squares)
    (strand,) = result.counts.strands
    (piece,) = result.structure.strands
    halves = np.ones(squares.shape, np.int32)
    halves[:, 160:] = 2
    result = replace(
        result,
        counts=replace(result.counts, strands=(strand, replace(strand, number=2))),
        structure=replace(
            result.structure,
            strand_labels=halves,
            strands=(piece, replace(piece, number=2)),
        ),
    )
    plots = write_count_plots(result, tmp_path / "spread.svg")
    assert [path.name for path in plots.files] == ["spread-1.svg", "spread-2.svg"]


def test_a_drawing_of_that_name_is_kept(
    squares: npt.NDArray[np.int32], tmp_path: Path
) -> None:
    target = tmp_path / "spread.svg"
    target.write_text("mine", "utf-8")
    with pytest.raises(OutputExistsError):
        write_count_plots(counted(tmp_path, squares), target)
    assert target.read_text("utf-8") == "mine"
