"""Strands described: shape, axis, size."""

import numpy as np
import numpy.typing as npt
import pytest

from strandproof.micrograph.learned.verdicts import Verdict
from strandproof.micrograph.strands import described_strands
from strandproof.records import Strand

Labels = npt.NDArray[np.int32]
SIZE = 200


def described(strands: Labels) -> tuple[Strand, ...]:
    numbers = range(1, int(strands.max()) + 1)
    verdicts = {k: Verdict(word="undecided", reason=f"Drawn {k}.") for k in numbers}
    return described_strands(strands, verdicts)


def disc(radius: float, squeeze: float = 1.0) -> Labels:
    rows, columns = np.indices((SIZE, SIZE)) - SIZE / 2
    inside: Labels = (np.hypot(rows * squeeze, columns) <= radius).astype(np.int32)
    return inside


def strip(angle_deg: float, width: float) -> Labels:
    rows, columns = np.indices((SIZE, SIZE)) - SIZE / 2
    angle = np.deg2rad(angle_deg)
    across = rows * np.cos(angle) + columns * np.sin(angle)
    inside: Labels = (np.abs(across) <= width / 2).astype(np.int32)
    return inside


def test_whole_picture_is_a_field() -> None:
    (strand,) = described(np.ones((SIZE, SIZE), np.int32))
    assert (strand.shape, strand.axis_deg, strand.area_px) == ("field", None, SIZE**2)
    assert strand.ovality is None


def test_disc_is_a_round_face_with_its_diameter() -> None:
    (strand,) = described(disc(60))
    assert (strand.shape, strand.axis_deg) == ("round", None)
    assert strand.width_px == pytest.approx(120, rel=0.01)
    assert strand.equivalent_diameter_px == pytest.approx(120, rel=0.01)
    assert strand.centroid_px == pytest.approx((100, 100), abs=0.6)
    assert strand.ovality == pytest.approx(0, abs=0.02)


def test_ovality_of_an_ellipse() -> None:
    """Diameters 120 and 100: (120 - 100) / 110."""
    (strand,) = described(disc(60, squeeze=1.2))
    assert strand.shape == "round"
    assert strand.ovality == pytest.approx(20 / 110, abs=0.015)


@pytest.mark.parametrize("angle", [-75.0, -45.0, 0.0, 20.0, 60.0, 89.0])
def test_strip_is_long_with_the_direction_of_its_edges(angle: float) -> None:
    (strand,) = described(strip(angle, 60))
    assert strand.shape == "long"
    assert strand.axis_deg is not None
    assert abs((strand.axis_deg - angle + 90) % 180 - 90) < 1.5
    assert strand.width_px == pytest.approx(60, abs=3)


def test_each_strand_has_its_own_verdict() -> None:
    strands = np.zeros((SIZE, SIZE), np.int32)
    strands[20:80], strands[120:180] = 1, 2
    assert [each.verdict_reason for each in described(strands)] == [
        "Drawn 1.",
        "Drawn 2.",
    ]


def test_no_strand_no_description() -> None:
    assert described(np.zeros((SIZE, SIZE), np.int32)) == ()
