"""The seam: evidence made by any method is enough for grains, and means the same."""

from dataclasses import FrozenInstanceError, fields, replace

import numpy as np
import numpy.typing as npt
import pytest

from strandproof.micrograph.classical import classical_evidence
from strandproof.micrograph.evidence import BoundaryEvidence
from strandproof.micrograph.regions import region_graph
from strandproof.micrograph.segmentation import grains_from_evidence

Plane = npt.NDArray[np.float32]
SHAPE = (120, 120)
ROWS, COLS = np.indices(SHAPE)
HALVES = (1 + (COLS >= 60)).astype(np.int32)


def learned(strength: Plane) -> BoundaryEvidence:
    """Give evidence as a learned method would: strength twice, and no shade."""
    return BoundaryEvidence(
        strength=strength,
        line_strength=strength,
        shade=np.zeros((*strength.shape, 1), np.float32),
        shade_weight=np.ones(strength.shape, np.float32),
        metal=np.ones(strength.shape, np.bool_),
        visible_line_depth=np.inf,
        visible_step=np.inf,
    )


def bent_cross(height: float) -> Plane:
    """Two wavy crests, 3 px wide: straight ones could be scratches."""
    level = np.abs(ROWS - 60 - 8 * np.sin(COLS / 9)) <= 1.5
    upright = np.abs(COLS - 60 - 8 * np.sin(ROWS / 9)) <= 1.5
    return np.where(level | upright, height, 0).astype(np.float32)


def grains(evidence: BoundaryEvidence) -> int:
    one_strand = evidence.metal.astype(np.int32)
    return int(grains_from_evidence(evidence, one_strand).max())


@pytest.mark.parametrize(("height", "expected"), [(0.9, 4), (0.3, 1)])
def test_strength_alone_is_enough_and_counts_from_one_half(
    height: float, expected: int
) -> None:
    assert grains(learned(bent_cross(height))) == expected


def test_no_grain_lies_outside_of_the_metal() -> None:
    metal = ROWS >= 20
    found = grains_from_evidence(
        replace(learned(bent_cross(0.9)), metal=metal), metal.astype(np.int32)
    )
    assert np.array_equal(found > 0, metal)


@pytest.mark.parametrize(("line", "step"), [(0.5, 0.0), (0.0, 1.0)])
def test_half_strength_and_one_clear_step_are_as_likely_as_not(
    line: float, step: float
) -> None:
    """Regions of 7200 px^2 are trusted but for about 0.3 %."""
    evidence = replace(
        learned(np.full(SHAPE, max(line, 0.6 * step), np.float32)),
        line_strength=np.full(SHAPE, line, np.float32),
        shade=np.where(COLS >= 60, step, 0)[..., None].astype(np.float32),
    )
    (found,) = region_graph(HALVES, evidence).border_evidence()
    assert found == pytest.approx(0.5, rel=0.005)


def test_evidence_of_the_general_method_keeps_to_the_ranges() -> None:
    chance = np.random.default_rng(6)
    lightness = np.where(np.abs(COLS - 60) < 2, 20, 60) + chance.normal(0, 1, SHAPE)
    metal = ROWS >= 15
    found = classical_evidence(lightness[..., None].astype(np.float32), metal)
    for name in ("strength", "line_strength", "shade_weight"):
        plane = getattr(found, name)
        assert (plane.shape, plane.dtype) == (SHAPE, np.float32)
        assert ((plane >= 0) & (plane <= 1)).all()
    assert found.shade.shape == (*SHAPE, 1)
    assert (found.line_strength <= found.strength).all()
    assert not found.strength[~metal].any()
    # the crest lies on the groove's centre line, away from the metal's corner
    assert np.abs(found.strength[25:-10].argmax(axis=1) - 60).max() <= 1


def test_without_metal_nothing_is_known() -> None:
    lab = np.zeros((*SHAPE, 3), np.float32)
    found = classical_evidence(lab, np.zeros(SHAPE, np.bool_))
    assert not found.strength.any()
    assert found.visible_line_depth == found.visible_step == np.inf


@pytest.mark.parametrize("name", [field.name for field in fields(BoundaryEvidence)])
def test_evidence_is_not_exchanged_after_making(name: str) -> None:
    evidence = learned(bent_cross(0.9))
    with pytest.raises(FrozenInstanceError, match=name):
        setattr(evidence, name, None)


def test_two_records_are_equal_only_if_they_are_one() -> None:
    """Comparing arrays has no single answer, so records are compared as objects."""
    evidence = learned(bent_cross(0.9))
    assert evidence == evidence  # noqa: PLR0124 - equality with itself is the claim
    assert evidence != replace(evidence)
