"""Flags of the whole picture: blur, saturation, contrast."""

import numpy as np
import numpy.typing as npt
from scipy import ndimage

from strandproof.micrograph.classical import classical_evidence
from strandproof.micrograph.lab import lab_picture
from strandproof.micrograph.quality import picture_flags

Plane = npt.NDArray[np.float32]


def names(picture: Plane) -> set[str]:
    colours = lab_picture(picture.astype(np.float32))
    metal = np.ones(picture.shape[:2], np.bool_)
    evidence = classical_evidence(colours.lab, metal)
    return {flag.name for flag in picture_flags(colours, evidence)}


def cells(noise: float = 0.01) -> Plane:
    chance = np.random.default_rng(1)
    rows, columns = np.indices((200, 200))
    places = chance.uniform(0, 200, (40, 2))
    distance = np.sort(
        np.hypot(rows[..., None] - places[:, 0], columns[..., None] - places[:, 1])
    )
    groove = distance[..., 1] - distance[..., 0] < 2
    picture = np.where(groove, 0.35, 0.75) + chance.normal(0, noise, groove.shape)
    drawn: Plane = np.clip(picture, 0, 1).astype(np.float32)
    return drawn


def test_sharp_picture_raises_nothing() -> None:
    assert names(cells()) == set()


def test_blurred_picture_is_flagged() -> None:
    assert "blurred" in names(ndimage.gaussian_filter(cells(0.0), 4))


def test_enlarged_picture_is_flagged() -> None:
    assert "blurred" in names(ndimage.zoom(cells(0.01), 4, order=3))


def test_white_areas_are_flagged() -> None:
    picture = cells()
    picture[:60] = 1.0
    assert "saturated" in names(picture)


def test_noise_hides_grooves_and_is_flagged() -> None:
    assert "low_contrast" in names(cells(0.35))


def test_no_metal_no_flags() -> None:
    colours = lab_picture(cells())
    evidence = classical_evidence(colours.lab, np.zeros((200, 200), np.bool_))
    assert picture_flags(colours, evidence) == ()
