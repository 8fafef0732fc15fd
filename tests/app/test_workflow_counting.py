"""The use case behind the count, without the command line."""

from pathlib import Path

import numpy as np
import pytest
import tifffile

from strandproof.app.workflow.counting import (
    PROCEDURE_NAMES,
    CountingChoices,
    count_picture,
    counting_document,
    counting_in_words,
)
from strandproof.app.workflow.counting_words import BoundAsked
from strandproof.errors import UnsupportedPictureError
from strandproof.grainsize.procedures import PROCEDURES
from strandproof.micrograph.render import (
    GrainPopulation,
    SectionParameters,
    StrandLayout,
    render_section,
)
from strandproof.quantity import Quantity
from strandproof.storage import encode_png, read_picture, write_labels

PIXEL = Quantity(0.5, "um", 0.002)


def test_all_procedures_are_offered() -> None:
    assert PROCEDURE_NAMES == PROCEDURES
    assert CountingChoices().procedures == PROCEDURES


def test_progress_is_told_and_ends_at_one(picture: Path) -> None:
    told: list[float] = []
    result = count_picture(
        picture,
        CountingChoices(procedures=("heyn_lines",)),
        pixel_size=PIXEL,
        progress=lambda done, _: told.append(done),
    )
    assert told == sorted(told)
    assert told[-1] == 1.0
    assert result.outside_share == 0.0
    assert counting_document(result)["file"]["sha256"] == read_picture(picture).sha256


def test_labels_of_sixteen_bits_come_back_exactly(
    picture: Path, tmp_path: Path
) -> None:
    labels = (np.arange(240 * 320) % 60_000).reshape(240, 320).astype(np.int32) // 400
    given = tmp_path / "given.png"
    write_labels(given, labels, source=picture)
    result = count_picture(
        picture,
        CountingChoices(procedures=("whole_area",)),
        in_pixels=True,
        labels_files=(given, None),
    )
    assert result.counts.method == "labels given"
    (area,) = result.counts.strands[0].areas
    assert area.inside + area.cut == np.unique(labels[labels > 0]).size


def test_labels_off_the_metal_are_said(tmp_path: Path) -> None:
    section = render_section(
        SectionParameters(
            population=GrainPopulation(family="equiaxed", mean_intercept_um=30.0),
            layout=StrandLayout(arrangement="long", width_um=120.0),
            shape=(240, 300),
        ),
        seed=3,
    )
    path, given = tmp_path / "strand.png", tmp_path / "labels.png"
    path.write_bytes(encode_png(section.as_bytes()))
    everywhere = 1 + np.tile(np.arange(300) // 30, (240, 1)).astype(np.int32)
    write_labels(given, everywhere, source=path)
    result = count_picture(
        path,
        CountingChoices(procedures=()),
        in_pixels=True,
        labels_files=(given, None),
    )
    exact = float((section.strand_labels == 0).mean())
    assert 0.3 < exact < 0.7
    assert result.outside_share == pytest.approx(exact, rel=0, abs=0.05)
    said = counting_in_words(result, bound=BoundAsked())
    assert said.endswith("% of the labelled pixels lie on no metal found.")


def test_labels_in_colour_or_another_format_are_refused(
    picture: Path, tmp_path: Path
) -> None:
    colour, tiff = tmp_path / "colour.png", tmp_path / "labels.tif"
    shades = np.random.default_rng(3).integers(0, 255, (240, 320, 3), dtype=np.uint8)
    colour.write_bytes(encode_png(shades))
    tifffile.imwrite(tiff, np.ones((240, 320), np.uint16), photometric="minisblack")
    for path in (colour, tiff):
        with pytest.raises(UnsupportedPictureError, match="one grey value a grain"):
            count_picture(
                picture,
                CountingChoices(),
                in_pixels=True,
                labels_files=(path, None),
            )
