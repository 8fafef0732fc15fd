"""Strands described: shape, axis, size, verdict."""

import numpy as np
import numpy.typing as npt
import pytest

from strandproof.micrograph.evidence import BoundaryEvidence
from strandproof.micrograph.strands import described_strands
from strandproof.records import Strand

Labels = npt.NDArray[np.int32]
SIZE = 200


def described(
    grains: Labels, strands: Labels, *, depth: float = 5.0, shades: bool = True
) -> tuple[Strand, ...]:
    shade = (grains * 7 % 5).astype(np.float32)[..., None] * (2.0 if shades else 0.0)
    plain = np.full(grains.shape, 0.6, np.float32)
    evidence = BoundaryEvidence(
        strength=plain,
        line_strength=plain,
        shade=shade,
        shade_weight=np.ones(grains.shape, np.float32),
        metal=strands > 0,
        visible_line_depth=depth,
        visible_step=5.0,
    )
    return described_strands(grains, strands, evidence)


def disc(radius: float) -> Labels:
    rows, columns = np.indices((SIZE, SIZE)) - SIZE / 2
    inside: Labels = (np.hypot(rows, columns) <= radius).astype(np.int32)
    return inside


def strip(angle_deg: float, width: float) -> Labels:
    rows, columns = np.indices((SIZE, SIZE)) - SIZE / 2
    angle = np.deg2rad(angle_deg)
    across = rows * np.cos(angle) + columns * np.sin(angle)
    inside: Labels = (np.abs(across) <= width / 2).astype(np.int32)
    return inside


def test_whole_picture_is_a_field() -> None:
    ones = np.ones((SIZE, SIZE), np.int32)
    (strand,) = described(ones, ones)
    assert (strand.shape, strand.axis_deg, strand.area_px) == ("field", None, SIZE**2)


def test_disc_is_a_round_face_with_its_diameter() -> None:
    (strand,) = described(disc(60), disc(60))
    assert (strand.shape, strand.axis_deg) == ("round", None)
    assert strand.width_px == pytest.approx(120, rel=0.01)
    assert strand.centroid_px == pytest.approx((100, 100), abs=0.6)


@pytest.mark.parametrize("angle", [-75.0, -45.0, 0.0, 20.0, 60.0, 89.0])
def test_strip_is_long_with_the_direction_of_its_edges(angle: float) -> None:
    (strand,) = described(strip(angle, 60), strip(angle, 60))
    assert strand.shape == "long"
    assert strand.axis_deg is not None
    assert abs((strand.axis_deg - angle + 90) % 180 - 90) < 1.5
    assert strand.width_px == pytest.approx(60, abs=3)


def test_one_region_is_single_only_if_grooves_would_have_shown() -> None:
    (clear,) = described(disc(60), disc(60), depth=5.0)
    (murky,) = described(disc(60), disc(60), depth=40.0)
    assert (clear.verdict, murky.verdict) == ("single", "undecided")
    assert "5 L* deep would have shown" in clear.verdict_reason


def test_two_regions_decide_nothing() -> None:
    grains = disc(60)
    grains[:, 100:] *= 2
    (strand,) = described(grains, disc(60))
    assert strand.verdict == "undecided"


def quarters() -> Labels:
    grains = disc(60)
    grains[:, 100:] *= 2
    grains[100:] += 2 * (grains[100:] > 0)
    return grains


def test_regions_of_different_shade_are_a_polycrystal() -> None:
    (strand,) = described(quarters(), disc(60))
    assert strand.verdict == "poly"


def test_straight_lines_without_steps_could_be_scratches() -> None:
    (strand,) = described(quarters(), disc(60), shades=False)
    assert strand.verdict == "undecided"
    assert "scratches" in strand.verdict_reason


def test_each_strand_is_judged_alone() -> None:
    strands = np.zeros((SIZE, SIZE), np.int32)
    strands[20:80], strands[120:180] = 1, 2
    grains = strands.copy()
    grains[120:180, ::] = 2 + np.arange(SIZE) // 40
    one, other = described(grains, strands)
    assert (one.verdict, other.verdict) == ("single", "poly")


def test_no_strand_no_description() -> None:
    nothing = np.zeros((SIZE, SIZE), np.int32)
    assert described(nothing, nothing) == ()
