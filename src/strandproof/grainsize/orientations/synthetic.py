"""Synthetic maps of orientations with exact truth, for tests and the demo."""

from dataclasses import dataclass
from math import sqrt
from typing import Literal

import numpy as np
import numpy.typing as npt
from scipy.spatial import KDTree

from strandproof.errors import ParameterError
from strandproof.grainsize.orientations.rotations import (
    Floats,
    about_axis,
    product,
    random_rotations,
)
from strandproof.grainsize.orientations.textures import fibre_orientations
from strandproof.grainsize.orientations.twin_relation import twin_rotations
from strandproof.records.orientation import OrientationTable
from strandproof.records.orientation_results import FibreTexture

SYNTHETIC_NOTE = "SYNTHETIC: drawn by a program, no measurement."


@dataclass(frozen=True, slots=True, kw_only=True)
class SyntheticMap:
    """What a synthetic map is to show.

    Parameters
    ----------
    rows, columns : int
        Points down and across; 1 to 4000.
    step_um : float
        Distance of neighbouring points [um]; above 0.
    grain_um : float
        Side of the square that one grain fills on average [um]; above 0.
    grid : {"square", "hexagonal"}
        Arrangement.
    twin_share : float
        Share of the grains that hold one twin lamella; 0 to 1.
    noise_deg : float
        Standard deviation of the angular error about each axis [deg].
    lost_share, wrong_share : float
        Share of points not indexed, and of points with a random orientation.
    texture : FibreTexture or None
        Texture of the grains, the axis of the strand being x; None is random.
    """

    rows: int = 80
    columns: int = 400
    step_um: float = 0.5
    grain_um: float = 9.0
    grid: Literal["square", "hexagonal"] = "square"
    twin_share: float = 0.5
    noise_deg: float = 0.3
    lost_share: float = 0.03
    wrong_share: float = 0.002
    texture: FibreTexture | None = None


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class DrawnMap:
    """A synthetic map with what it was drawn from.

    Parameters
    ----------
    table : OrientationTable
        The map; its notes say that it is synthetic.
    crystal : ndarray of int, shape (n,)
        True crystal of each point; a twin lamella is a crystal of its own.
    orientations : ndarray of float, shape (n_crystals, 4)
        True orientation of each crystal.
    """

    table: OrientationTable
    crystal: npt.NDArray[np.int64]
    orientations: Floats


def draw_synthetic_map(wanted: SyntheticMap, *, seed: int) -> DrawnMap:
    """Draw a map of grains at random places, some with a twin lamella.

    Parameters
    ----------
    wanted : SyntheticMap
        What it is to show.
    seed : int
        Seed of the drawing; the same seed draws the same map.

    Returns
    -------
    DrawnMap
        The map, marked as synthetic, and its truth.

    Raises
    ------
    ParameterError
        If a size or share is outside of what is allowed.

    Notes
    -----
    Grains are the cells nearest to random points. A lamella is a straight band
    through a grain's point, of a direction drawn at random, not that of a {111}
    plane; its crystal is turned by 60 deg about one <111> axis exactly.
    """
    _require(wanted)
    chance = np.random.default_rng(seed)
    x, y = _places(wanted)
    width, height = np.ptp(x) + wanted.step_um, np.ptp(y) + wanted.step_um
    count = max(1, round(width * height / wanted.grain_um**2))
    seeds = chance.uniform(0.0, 1.0, (count, 2)) * (width, height)
    _, nearest = KDTree(seeds).query(np.column_stack([x, y]))
    grain = np.asarray(nearest, dtype=np.int64)
    parents = _grain_orientations(wanted.texture, count, chance)
    axes = twin_rotations()[chance.integers(0, 4, count)]
    crystals = np.concatenate([parents, product(parents, axes)])
    crystal = grain + count * _in_lamella(wanted, seeds, grain, (x, y), chance)
    noisy = _blurred(crystals[crystal], np.deg2rad(wanted.noise_deg), chance)
    wrong = chance.random(len(x)) < wanted.wrong_share
    noisy[wrong] = random_rotations(int(wrong.sum()), chance)
    angles = bunge_angles(noisy)
    angles[chance.random(len(x)) < wanted.lost_share] = np.nan
    table = OrientationTable(
        name="synthetic map",
        x_um=x,
        y_um=y,
        angles_rad=angles,
        meaning="passive",
        notes=(SYNTHETIC_NOTE,),
    )
    return DrawnMap(table=table, crystal=crystal, orientations=crystals)


def bunge_angles(rotations: Floats) -> Floats:
    """Give the passive Bunge angles of orientations.

    Parameters
    ----------
    rotations : ndarray of float, shape (n, 4)
        Unit quaternions.

    Returns
    -------
    ndarray of float, shape (n, 3)
        phi1, Phi, phi2 [rad]; phi1 and phi2 from 0 to 2 pi, Phi from 0 to pi.
        Where Phi is 0 or pi only a sum or difference of the others counts; it
        is put wherever rounding leaves it.
    """
    w, x, y, z = (rotations[:, part] for part in range(4))
    total, difference = np.arctan2(z, w), np.arctan2(y, x)
    tilt = 2.0 * np.arctan2(np.hypot(x, y), np.hypot(w, z))
    full = 2.0 * np.pi
    return np.column_stack(
        [(total + difference) % full, tilt, (total - difference) % full]
    )


def _require(wanted: SyntheticMap) -> None:
    for name in ("rows", "columns"):
        if not 1 <= getattr(wanted, name) <= 4000:
            raise ParameterError(name, getattr(wanted, name), allowed="1 to 4000")
    for name in ("step_um", "grain_um"):
        if not getattr(wanted, name) > 0:
            raise ParameterError(name, getattr(wanted, name), allowed="above 0 [um]")
    for name in ("twin_share", "lost_share", "wrong_share"):
        if not 0.0 <= getattr(wanted, name) <= 1.0:
            raise ParameterError(name, getattr(wanted, name), allowed="0 to 1")
    if not 0.0 <= wanted.noise_deg <= 10.0:
        raise ParameterError("noise_deg", wanted.noise_deg, allowed="0 to 10 [deg]")


def _places(wanted: SyntheticMap) -> tuple[Floats, Floats]:
    row, column = np.indices((wanted.rows, wanted.columns))
    shift, pitch = (0.5, sqrt(0.75)) if wanted.grid == "hexagonal" else (0.0, 1.0)
    x = wanted.step_um * (column + shift * (row % 2))
    y = wanted.step_um * pitch * row
    return x.ravel().astype(np.float64), y.ravel().astype(np.float64)


def _grain_orientations(
    texture: FibreTexture | None, count: int, chance: np.random.Generator
) -> Floats:
    if texture is None:
        return random_rotations(count, chance)
    # The texture's axis is z; the strand of a map lies along x.
    from_z_to_x = about_axis(np.array([0.0, 1.0, 0.0]), np.array(0.5 * np.pi))
    return product(from_z_to_x, fibre_orientations(texture, count, chance))


def _in_lamella(
    wanted: SyntheticMap,
    seeds: Floats,
    grain: npt.NDArray[np.int64],
    places: tuple[Floats, Floats],
    chance: np.random.Generator,
) -> npt.NDArray[np.bool_]:
    direction = chance.uniform(0.0, np.pi, len(seeds))
    has_twin = chance.random(len(seeds)) < wanted.twin_share
    x, y = places[0] - seeds[grain, 0], places[1] - seeds[grain, 1]
    across = x * np.cos(direction[grain]) + y * np.sin(direction[grain])
    return np.asarray(has_twin[grain] & (np.abs(across) < 0.15 * wanted.grain_um))


def _blurred(
    rotations: Floats, deviation_rad: float, chance: np.random.Generator
) -> Floats:
    vector = chance.normal(0.0, deviation_rad, (len(rotations), 3))
    angle = np.linalg.norm(vector, axis=1)
    safe = np.where(angle > 0.0, angle, 1.0)
    axis = np.asarray(vector / safe[:, np.newaxis], dtype=np.float64)
    return product(rotations, about_axis(axis, np.asarray(angle, dtype=np.float64)))
