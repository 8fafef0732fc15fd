"""Faces on drawn sections whose sizes are known: disks, rings, ellipses."""

from dataclasses import replace

import numpy as np
import numpy.typing as npt
import pytest
from skimage.measure import regionprops

from strandproof.errors import NotResolvedError, ParameterError
from strandproof.physical import section_from_labels
from strandproof.quantity import Quantity
from strandproof.records.physical import EdgeKnowledge

Labels = npt.NDArray[np.int32]
EDGE = EdgeKnowledge(pixel_size=Quantity(0.5, "um", 0.001), resolution_um=1.0)


def drawn(
    *faces: tuple[float, float, float, float], hole: float = 0.0, size: int = 700
) -> Labels:
    """Ellipses by row, column and half axes [px], with a round hole of some radius."""
    rows, columns = np.indices((size, size))
    labels = np.zeros((size, size), dtype=np.int32)
    for number, (row, column, down, right) in enumerate(faces, start=1):
        y, x = rows - row, columns - column
        inside = (y / down) ** 2 + (x / right) ** 2 <= 1
        labels[inside & (np.hypot(y, x) >= hole)] = number
    return labels


def test_area_and_diameter_of_disks_lie_within_the_stated_uncertainty() -> None:
    chance = np.random.default_rng(3)
    for _ in range(20):
        radius = chance.uniform(30, 120)
        row, column = chance.uniform(150, 160, 2)
        found = section_from_labels(
            drawn((row, column, radius, radius), size=320), edge=EDGE
        )
        area, diameter = found.total_area, found.mean_diameter
        true = np.pi * (0.5 * radius) ** 2 * 1e-6
        assert abs(area.value - true) < 0.003 * true
        assert abs(diameter.value - radius) < 0.2 * 0.5
        assert abs(area.value - true) < 0.2 * area.standard_uncertainty


def test_nineteen_strands_are_counted_and_their_areas_add_up() -> None:
    chance = np.random.default_rng(5)
    grid = [(70 + 130 * i, 70 + 130 * j) for i in range(4) for j in range(5)][:19]
    places = np.array(grid) + chance.uniform(-0.5, 0.5, (19, 2))
    labels = drawn(*((r, c, 50.3, 50.3) for r, c in places))
    found = section_from_labels(labels, edge=EDGE)
    assert found.strands == len(found.faces) == 19
    total = sum(face.area.value for face in found.faces) * 1e-6
    np.testing.assert_allclose(found.total_area.value, total, rtol=1e-12, atol=0)
    np.testing.assert_allclose(
        found.total_area.value, 19 * np.pi * 25.15**2 * 1e-6, rtol=1e-3, atol=0
    )
    # The edge is off by the same on all, so it does not average out.
    one = found.faces[0].area.relative_uncertainty
    assert found.total_area.relative_uncertainty == pytest.approx(one, rel=0.01)


def test_a_ring_is_metal_without_its_hole() -> None:
    ring = drawn((350, 350, 200, 200), hole=100)
    found = section_from_labels(ring, edge=EDGE)
    true = np.pi * (100**2 - 50**2) * 1e-6
    np.testing.assert_allclose(found.total_area.value, true, rtol=5e-4, atol=0)
    # Both edges move: girth is that of both circles.
    line = next(one for one in found.total_area.budget if "edge" in one.name)
    girth_mm = 2 * np.pi * (100 + 50) * 1e-3
    np.testing.assert_allclose(line.sensitivity * 1e3, girth_mm, rtol=5e-3, atol=0)
    np.testing.assert_allclose(found.mean_diameter.value, 200, rtol=1e-3, atol=0)


def test_an_ellipse_is_oval_and_its_diameters_are_its_axes() -> None:
    found = section_from_labels(drawn((350, 350, 160, 200)), edge=EDGE).faces[0]
    np.testing.assert_allclose(
        [found.smallest_um, found.largest_um], [160, 200], rtol=2e-3, atol=0
    )
    assert found.ovality == pytest.approx(40 / 180, rel=0.02)


def test_against_regionprops_of_scikit_image() -> None:
    labels = drawn((200, 200, 90, 120), (480, 420, 100, 100))
    found = section_from_labels(labels, edge=EDGE).faces
    outside_regions = regionprops(labels)  # type: ignore[no-untyped-call]
    for face, outside in zip(found, outside_regions, strict=True):
        np.testing.assert_allclose(
            face.area.value, 0.25 * outside.area, rtol=1e-12, atol=0
        )
        # Its largest diameter joins the corners of pixels, ours the smoothed edge.
        over = 0.5 * outside.feret_diameter_max - face.largest_um
        assert 0 < over < 0.5 * 2
        np.testing.assert_allclose(
            face.largest_um, 0.5 * outside.axis_major_length, rtol=5e-3, atol=0
        )


def test_the_scale_counts_twice_in_an_area() -> None:
    coarse = replace(EDGE, pixel_size=Quantity(0.5, "um", 0.005))
    found = section_from_labels(drawn((350, 350, 200, 200)), edge=coarse).total_area
    line = next(one for one in found.budget if one.name == "pixel size")
    np.testing.assert_allclose(line.component / found.value, 0.02, rtol=1e-9, atol=0)


def test_faces_cut_by_the_frame_are_left_out_and_told() -> None:
    labels = drawn((100, 100, 80, 80), (0, 400, 90, 90), (300, 690, 60, 60))
    found = section_from_labels(labels, edge=EDGE)
    assert (found.strands, found.cut_faces) == (1, 2)
    assert [flag.name for flag in found.flags] == ["faces_cut_by_frame"]


def test_two_strands_in_contact_are_flagged() -> None:
    rows, columns = np.indices((300, 500))
    two = (np.hypot(rows - 150, columns - 160) <= 80) | (
        np.hypot(rows - 150, columns - 318) <= 80
    )
    found = section_from_labels(two.astype(np.int32), edge=EDGE)
    assert [flag.name for flag in found.flags] == ["face_not_round"]


def test_what_is_not_known_about_the_picture_is_flagged() -> None:
    bare = EdgeKnowledge(pixel_size=Quantity(0.5, "um"))
    found = section_from_labels(drawn((350, 350, 200, 200)), edge=bare)
    names = [flag.name for flag in found.flags]
    assert names == ["pixel_size_without_uncertainty", "resolution_not_given"]
    assert bare.blur_um == 1.0


def test_below_what_the_picture_resolves_nothing_is_stated() -> None:
    labels = drawn((350, 350, 30, 30))
    blurred = replace(EDGE, resolution_um=7.0)
    with pytest.raises(NotResolvedError, match="at least 35 um in this picture"):
        section_from_labels(labels, edge=blurred)
    with pytest.raises(NotResolvedError, match="higher magnification"):
        section_from_labels(drawn((350, 350, 4, 4)), edge=EDGE)


def test_nothing_whole_to_measure() -> None:
    with pytest.raises(ParameterError, match="one whole face"):
        section_from_labels(drawn((0, 0, 90, 90)), edge=EDGE)


@pytest.mark.parametrize(
    "size", [Quantity(0.5, "mm"), Quantity(0.0, "um"), Quantity(-1.0, "um")]
)
def test_pixel_sizes_that_cannot_be(size: Quantity) -> None:
    with pytest.raises(ParameterError, match="in um"):
        EdgeKnowledge(pixel_size=size)
