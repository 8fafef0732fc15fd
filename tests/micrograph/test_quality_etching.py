"""Grooves on drawn cells whose width, depth and noise are known."""

import numpy as np
import pytest
from quality_pictures import cell_labels, grooved, label_edges

from strandproof.micrograph.lab import lab_picture
from strandproof.micrograph.quality.crossings import line_crossings
from strandproof.micrograph.quality.etching import (
    GrooveLook,
    boundary_closure,
    groove_look,
)

GRAINS = cell_labels(384, 100)
ONE_STRAND = np.ones_like(GRAINS)


def look(**drawing: float) -> GrooveLook:
    picture = grooved(GRAINS, **drawing)
    ways = line_crossings(GRAINS, ONE_STRAND)
    found = groove_look(lab_picture(picture).lab, ways)
    assert found is not None
    return found


@pytest.mark.parametrize("width", [3.0, 6.0, 10.0])
def test_width_over_intercept_is_at_most_a_fifth_below_the_area_share(
    width: float,
) -> None:
    """The share of dark pixels, counted: no test line needed."""
    found = look(width=width, noise=0.0)
    ways = line_crossings(GRAINS, ONE_STRAND)
    length = sum(way.length_px[1:].sum() for way in ways)
    intercept = length / sum(way.place.size for way in ways)
    picture = grooved(GRAINS, width=width, noise=0.0)
    dark = float((picture < 0.72 - 0.2).mean())
    assert found.width_px is not None
    assert 0.8 * dark < found.width_px / intercept < 1.05 * dark


def test_clear_grooves_are_seen_and_stand_out() -> None:
    found = look(depth=0.4, noise=0.01)
    assert found.unseen_share is not None
    assert found.contrast is not None
    assert found.unseen_share < 0.02
    assert found.contrast > 5


def test_noise_alone_shows_no_more_than_its_own_quantile() -> None:
    """Without any groove 98 % of the crossings show no more than noise."""
    found = look(depth=0.0, noise=0.05)
    assert found.width_px is None
    assert found.unseen_share == pytest.approx(0.98, abs=0.015)


def test_steps_of_shade_are_seen_without_a_groove() -> None:
    shade = np.random.default_rng(4).uniform(0.3, 0.9, 101)[GRAINS]
    picture = (shade + grooved(GRAINS, depth=0.0) - 0.72).clip(0, 1)
    ways = line_crossings(GRAINS, ONE_STRAND)
    found = groove_look(lab_picture(picture.astype(np.float32)).lab, ways)
    assert found is not None
    assert found.unseen_share is not None
    assert found.unseen_share < 0.2


def test_steps_of_hue_are_seen() -> None:
    chance = np.random.default_rng(4)
    tint = chance.uniform(-0.1, 0.1, 101)[GRAINS]
    planes = [0.6 + tint, np.full(GRAINS.shape, 0.6), 0.6 - tint]
    picture = np.stack(planes, axis=-1) + chance.normal(0, 0.01, (*GRAINS.shape, 1))
    ways = line_crossings(GRAINS, ONE_STRAND)
    found = groove_look(lab_picture(picture.astype(np.float32)).lab, ways)
    assert found is not None
    assert found.unseen_share is not None
    assert found.unseen_share < 0.25


def test_few_crossings_say_nothing() -> None:
    halves = np.ones((40, 40), np.int32)
    halves[:, 20:] = 2
    ways = line_crossings(halves, np.ones_like(halves))
    assert groove_look(np.zeros((40, 40, 1), np.float32), ways) is None


def test_small_grains_hide_their_inside() -> None:
    grains = cell_labels(384, 9000)
    ways = line_crossings(grains, np.ones_like(grains))
    found = groove_look(lab_picture(grooved(grains, width=1)).lab, ways)
    assert found is not None
    assert found.unseen_share is None
    assert found.contrast is None


def test_sure_evidence_on_drawn_boundaries_closes() -> None:
    sure = (255 * label_edges(GRAINS)).astype(np.uint8)
    found = boundary_closure(GRAINS, ONE_STRAND, sure)
    assert found.drawn_px == np.count_nonzero(sure)
    assert (found.unsupported_px, found.left_over_px) == (0, 0)


def test_lines_that_end_inside_of_grains_are_left_over() -> None:
    """Draw half of the grains only; the evidence knows them all."""
    drawn = np.where(GRAINS > 50, 0, GRAINS).astype(np.int32) + 1
    sure = (255 * label_edges(GRAINS)).astype(np.uint8)
    found = boundary_closure(drawn, ONE_STRAND, sure)
    assert found.unsupported_px == 0
    assert found.left_over_px > 0.2 * found.drawn_px


def test_lines_drawn_as_no_grain_count_as_much_as_none() -> None:
    """Half as wide a line would double the share of what is left over."""
    plane = np.zeros(GRAINS.shape, np.uint8)
    plane[::40] = 255
    lined = np.where(label_edges(GRAINS), 0, GRAINS)
    found = [boundary_closure(grains, ONE_STRAND, plane) for grains in (GRAINS, lined)]
    assert found[0].left_over_px > 0
    assert found[0] == found[1]


def test_strand_edges_are_no_left_over_lines() -> None:
    strands = ONE_STRAND.copy()
    strands[:, 190:] = 0
    grains = GRAINS * strands
    edge = np.zeros(GRAINS.shape, np.uint8)
    edge[:, 189] = 255
    found = boundary_closure(grains, strands, edge)
    assert found.left_over_px == 0


def test_one_grain_has_no_share_of_guesses() -> None:
    one = np.ones((300, 300), np.int32)
    found = boundary_closure(one, one, np.zeros((300, 300), np.uint8))
    assert found.drawn_px == 0
    assert found.unsupported() == 0


@pytest.mark.parametrize(("level", "expected"), [(127, 1.0), (128, 0.0)])
def test_half_of_255_decides_on_support(level: int, expected: float) -> None:
    plane = np.full(GRAINS.shape, level, np.uint8)
    found = boundary_closure(GRAINS, ONE_STRAND, plane)
    assert found.unsupported() == expected


def test_closure_is_looked_at_on_metal() -> None:
    """A large picture whose only metal lies between its far corners."""
    strands = np.zeros((1536, 3072), np.int32)
    strands[600:984, 1600:1984] = 1
    grains = np.zeros_like(strands)
    grains[600:984, 1600:1984] = GRAINS
    nothing = np.zeros(strands.shape, np.uint8)
    found = boundary_closure(grains, strands, nothing)
    assert found.unsupported() == 1
