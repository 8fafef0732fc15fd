"""Real micrographs under open licences, through the same path as `measure --pixels`.

Sets: `iron-nital-a` (pure iron, grooves, grains labelled by hand; five sections of ONE
area) and `tbm-ucr` (an alloy whose grains differ by hue, lines drawn by hand; soft
labels), `am-edge-stress` (unlabelled; black mount). None is copper. Figures measured
when the bounds were set stand beside them; they are regression values.
"""

import os
from pathlib import Path

import numpy as np
import pytest
from real_micrographs import DATA, LabelledMicrograph, colour_tiles, iron_sections
from structure_errors import g_errors

from strandproof.app.workflow import PictureMeasurement, measure_picture
from strandproof.micrograph import boundary_agreement
from strandproof.micrograph.agreement import label_changes, without_boundary_pixels


@pytest.fixture(scope="module", autouse=True)
def _data_at_hand() -> None:
    if not DATA.is_dir():
        words = "no shared/data beside the project: real micrographs are not tested"
        if os.environ.get("CI"):
            pytest.fail(words)
        pytest.skip(words)


def measured(path: Path) -> PictureMeasurement:
    return measure_picture(path, in_pixels=True)


def f1_and_errors(micrograph: LabelledMicrograph) -> tuple[float, float, float, bool]:
    """Boundary F1, errors of G by intercepts and by grains per area; one field?"""
    result = measured(micrograph.path)
    labels = without_boundary_pixels(result.structure.grain_labels)
    agreement = boundary_agreement(
        label_changes(labels), micrograph.boundary, tolerance_px=micrograph.tolerance_px
    )
    g = g_errors(labels, micrograph.labels)
    largest = max(result.structure.strands, key=lambda strand: strand.area_px)
    assert largest.verdict == "poly"
    is_field = [strand.shape for strand in result.structure.strands] == ["field"]
    return agreement.f1, abs(g.intercept), abs(g.planimetric), is_field


def test_iron_sections_agree_with_the_labels() -> None:
    """Measured: F1 0.966 (lowest 0.952), |dG| 0.06 and 0.03 (medians)."""
    rows = np.array([f1_and_errors(each) for each in iron_sections()])
    assert rows.shape == (5, 4)
    f1, by_intercept, by_area, _ = np.median(rows, axis=0)
    assert rows[:, 3].all()
    assert f1 > 0.95
    assert rows[:, 0].min() > 0.94
    assert by_intercept < 0.1
    assert by_area < 0.1


def test_colour_tiles_agree_with_the_labels() -> None:
    """Measured: F1 0.779, |dG| 0.41 by intercepts and 0.37 by area (medians)."""
    rows = np.array([f1_and_errors(each) for each in colour_tiles()])
    assert rows.shape == (30, 4)
    f1, by_intercept, by_area, _ = np.median(rows, axis=0)
    # In two tiles a dark brown corner is taken for mount.
    assert rows[:, 3].sum() >= 28
    assert f1 > 0.76
    assert by_intercept < 0.45
    assert by_area < 0.45


def test_black_mount_is_no_metal() -> None:
    """The upper fifth of these pictures is the mount, looked at by eye."""
    paths = sorted((DATA / "am-edge-stress" / "images").glob("*.png"))
    assert len(paths) == 6
    taken: list[float] = []
    for path in paths:
        result = measured(path)
        dark = (np.atleast_3d(result.picture.pixels) < 0.15)[..., 0]
        if dark[:60].mean() > 0.9:
            taken.append(float((result.structure.strand_labels[:60] > 0).mean()))
    assert len(taken) >= 3
    assert max(taken) < 0.1
