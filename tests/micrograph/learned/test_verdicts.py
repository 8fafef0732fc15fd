"""Verdicts from evidence, and the evidence from drawn planes."""

from dataclasses import replace

import numpy as np
import pytest

from strandproof.micrograph.learned import planes
from strandproof.micrograph.learned.card import KnownStrands, known_strands, model_card
from strandproof.micrograph.learned.grains import grains_of
from strandproof.micrograph.learned.metal import metal_map
from strandproof.micrograph.learned.verdicts import (
    StrandEvidence,
    strand_evidence,
    verdict_of,
)

KNOWN = KnownStrands(
    singles=200,
    singles_called_poly=1,
    many=400,
    many_called_single=0,
    few=50,
    few_called_single=3,
)
NOTHING = StrandEvidence(
    n_grains=1, closed=0.0, strength=0.0, loose=0.0, unreadable=0.0
)


@pytest.mark.parametrize(
    ("changes", "word"),
    [
        ({}, "single"),
        ({"loose": 3.0}, "undecided"),
        ({"unreadable": 0.7}, "undecided"),
        ({"n_grains": 2, "closed": 0.05}, "undecided"),
        ({"n_grains": 9, "closed": 0.0}, "single"),
        ({"n_grains": 2, "closed": 2.0, "loose": 2.0, "strength": 0.5}, "undecided"),
        ({"n_grains": 2, "closed": 2.0, "loose": 2.0, "strength": 0.9}, "poly"),
        ({"n_grains": 50, "closed": 20.0, "loose": 20.0, "strength": 0.9}, "poly"),
    ],
)
def test_the_word_follows_from_the_evidence(
    changes: dict[str, float], word: str
) -> None:
    assert verdict_of(replace(NOTHING, **changes), KNOWN).word == word  # type: ignore[arg-type]


def test_a_verdict_says_how_often_it_was_wrong() -> None:
    """1 of 200: 2.35 %, 0 of 400: 1 - 0.05^(1/400) = 0.75 %; rounded upwards."""
    poly = verdict_of(replace(NOTHING, n_grains=9, closed=5.0, strength=1.0), KNOWN)
    assert "one crystal called so: 1 of 200 (at most 2.4 %, 95 %)" in poly.reason
    single = verdict_of(NOTHING, KNOWN)
    assert "many crystals called so: 0 of 400 (at most 0.8 %, 95 %)" in single.reason
    assert "a few boundaries cross: 3 of 50" in single.reason


def test_evidence_of_a_drawn_cross() -> None:
    maps = np.zeros((len(planes.PLANES), 100, 100), np.uint8)
    maps[planes.METAL] = 255
    maps[planes.GRAIN_BOUNDARY, 49:51] = 255
    maps[planes.UNREADABLE, :, 80:] = 255
    metal = metal_map(maps)
    strands = np.where(metal.unreadable, 0, metal.strand_labels).astype(np.int32)
    boundary, twin = maps[planes.GRAIN_BOUNDARY], maps[planes.TWIN_BOUNDARY]
    grains = grains_of(boundary, twin, strands)
    found = strand_evidence(boundary, metal, strands, grains)
    assert list(found) == [1]
    assert found[1].n_grains == 2
    assert found[1].unreadable == pytest.approx(0.2)
    side = np.sqrt(8000)
    assert found[1].loose == pytest.approx(80 / side)
    assert found[1].closed == pytest.approx(80 * 0.785 / side)
    assert found[1].strength == pytest.approx(1.0)


def test_the_card_holds_enough_known_strands() -> None:
    known = known_strands()
    assert known.singles >= 150
    assert known.many >= 300
    assert known.few >= 50
    assert {"trained on", "figures", "fails on"} <= set(model_card())
