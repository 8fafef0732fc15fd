"""Strands from drawn planes."""

import numpy as np
import numpy.typing as npt

from strandproof.micrograph.learned import planes
from strandproof.micrograph.learned.metal import metal_map

Bytes = npt.NDArray[np.uint8]
SIDE = 200


def maps_of(metal: npt.NDArray[np.bool_]) -> Bytes:
    maps = np.zeros((len(planes.PLANES), *metal.shape), np.uint8)
    maps[planes.METAL] = 255 * metal
    return maps


def two_strands() -> Bytes:
    metal = np.zeros((SIDE, SIDE), np.bool_)
    metal[20:180, 20:180] = True
    maps = maps_of(metal)
    maps[planes.STRAND_CONTACT, 20:180, 98:102] = 255
    return maps


def test_a_contact_parts_two_strands_without_losing_metal() -> None:
    maps = two_strands()
    labels = metal_map(maps).strand_labels
    assert labels.max() == 2
    assert np.array_equal(labels > 0, maps[planes.METAL] > 0)
    assert labels[100, 40] != labels[100, 160]
    assert abs(int(np.flatnonzero(np.diff(labels[100, 20:180]))[0]) + 20 - 100) <= 2


def test_specks_in_the_mount_are_no_strand() -> None:
    maps = two_strands()
    maps[planes.METAL, 2:6, 2:6] = 255
    labels = metal_map(maps).strand_labels
    assert labels.max() == 2
    assert not labels[:10, :10].any()


def test_pores_belong_to_the_metal_and_large_holes_do_not() -> None:
    metal = np.ones((SIDE, SIDE), np.bool_)
    metal[50:54, 50:54] = False
    metal[100:140, 100:140] = False
    labels = metal_map(maps_of(metal)).strand_labels
    assert labels[52, 52] == 1
    assert labels[120, 120] == 0


def test_a_notch_at_the_frame_is_no_pore() -> None:
    metal = np.ones((SIDE, SIDE), np.bool_)
    metal[0:4, 50:54] = False
    assert metal_map(maps_of(metal)).strand_labels[1, 51] == 0


def test_what_shows_nothing_is_no_metal() -> None:
    valid = np.ones((SIDE, SIDE), np.bool_)
    valid[:, :50] = False
    maps = maps_of(np.ones((SIDE, SIDE), np.bool_))
    labels = metal_map(maps, valid=valid).strand_labels
    assert not labels[:, :50].any()
    assert labels[:, 50:].all()


def test_only_large_unreadable_areas_count() -> None:
    maps = maps_of(np.ones((SIDE, SIDE), np.bool_))
    maps[planes.UNREADABLE, :40, :40] = 255
    maps[planes.UNREADABLE, 100:105, 100:105] = 255
    unreadable = metal_map(maps).unreadable
    assert unreadable[:40, :40].all()
    assert unreadable.sum() == 1600


def test_no_metal_gives_no_strand() -> None:
    assert metal_map(maps_of(np.zeros((SIDE, SIDE), np.bool_))).strand_labels.max() == 0
