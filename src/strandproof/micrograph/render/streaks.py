"""Scratches and comet tails: long thin straight marks drawn with soft edges."""

from dataclasses import dataclass
from math import cos, hypot, radians, sin

import numpy as np
import numpy.typing as npt

from strandproof.micrograph.render.appearance import Preparation
from strandproof.micrograph.render.noise import FloatPlane, stream


@dataclass(frozen=True, slots=True)
class Streak:
    """A straight or slightly bent mark.

    Parameters
    ----------
    start, stop : tuple of float
        Row and column of both ends [px].
    width_px : float
        Width at half depth at the start [px].
    depth : float
        Darkness, 0 to 1.
    taper : bool
        True if width and darkness fall to nothing at `stop` (a comet's tail).
    bow_px : float
        Height of the arc that the mark makes, 0 for a straight one [px].
    flank : float
        Lightness of the raised edges as a share of the darkness.
    """

    start: tuple[float, float]
    stop: tuple[float, float]
    width_px: float
    depth: float
    taper: bool = False
    bow_px: float = 0.0
    flank: float = 0.3


@dataclass(frozen=True, slots=True, eq=False)
class StreakPlanes:
    """Darkness and lightness (raised edges) of all streaks, 0 to 1."""

    dark: FloatPlane
    light: FloatPlane


def draw_streaks(
    shape: tuple[int, int], streaks: list[Streak], generator: np.random.Generator
) -> StreakPlanes:
    """Draw streaks with uneven depth along their length.

    Parameters
    ----------
    shape : tuple of int
        Rows and columns.
    streaks : list of Streak
        What to draw.
    generator : numpy.random.Generator
        Source of the unevenness.

    Returns
    -------
    StreakPlanes
        The planes.
    """
    planes = StreakPlanes(np.zeros(shape, np.float32), np.zeros(shape, np.float32))
    for streak in streaks:
        _draw_one(planes, streak, generator)
    return planes


def _draw_one(
    planes: StreakPlanes, streak: Streak, generator: np.random.Generator
) -> None:
    (y0, x0), (y1, x1) = streak.start, streak.stop
    length = hypot(y1 - y0, x1 - x0)
    if length < 2:
        return
    steep = abs(y1 - y0) > abs(x1 - x0)
    lead = (y0, y1) if steep else (x0, x1)  # runs along this axis
    side = (x0, x1) if steep else (y0, y1)
    size = planes.dark.shape if steep else planes.dark.shape[::-1]
    first, last = max(0, int(min(lead))), min(size[0], int(max(lead)) + 1)
    if first >= last:
        return
    position = np.arange(first, last, dtype=np.float64)
    share = (position - lead[0]) / (lead[1] - lead[0])
    centre = side[0] + share * (side[1] - side[0])
    centre += streak.bow_px * 4 * share * (1 - share)
    reach = int(2.0 * streak.width_px + 3)
    near = np.rint(centre)[:, None] + np.arange(-reach, reach + 1)
    tilt = abs(lead[1] - lead[0]) / length
    offset = np.abs(near - centre[:, None]) * tilt
    along = _along(streak, share, generator)
    dark, light = _cross_section(offset, streak, along)
    inside = (near >= 0) & (near < size[1])
    main = np.broadcast_to(position.astype(np.intp)[:, None], near.shape)[inside]
    cross = near[inside].astype(np.intp)
    place = (main, cross) if steep else (cross, main)
    planes.dark[place] = np.maximum(planes.dark[place], dark[inside])
    planes.light[place] = np.maximum(planes.light[place], light[inside])


def _along(
    streak: Streak, share: npt.NDArray[np.float64], generator: np.random.Generator
) -> npt.NDArray[np.float64]:
    """Strength along the streak: uneven, faded ends, or falling for a tail."""
    knots = generator.uniform(0.35, 1.15, 12)
    strength: npt.NDArray[np.float64] = np.interp(
        share, np.linspace(0, 1, knots.size), knots
    )
    if streak.taper:
        strength *= np.clip(1 - share, 0, 1)
    else:
        strength *= np.clip(np.minimum(share, 1 - share) * 14, 0, 1)
    return strength


def _cross_section(
    offset: npt.NDArray[np.float64],
    streak: Streak,
    along: npt.NDArray[np.float64],
) -> tuple[FloatPlane, FloatPlane]:
    width = np.full(along.shape, streak.width_px)
    if streak.taper:
        width = np.maximum(streak.width_px * (0.3 + 0.7 * along), 0.6)
    sigma = np.maximum(width / 2.355, 0.4)[:, None]
    strength = (streak.depth * along)[:, None]
    dark = strength * np.exp(-0.5 * (offset / sigma) ** 2)
    edge = (offset - 1.15 * width[:, None]) / (0.5 * sigma + 0.3)
    light = streak.flank * strength * np.exp(-0.5 * edge**2)
    return dark.astype(np.float32), light.astype(np.float32)


def scratches(
    shape: tuple[int, int], preparation: Preparation, seed: int
) -> list[Streak]:
    """Draw the places of scratches: a main direction, some astray, some doubled."""
    generator = stream(seed, "scratches")
    area = shape[0] * shape[1] / 1e6
    main = generator.uniform(0, 180)
    found: list[Streak] = []
    for _ in range(generator.poisson(preparation.scratches_per_mpx * area)):
        angle = main + preparation.scratch_scatter_deg * generator.standard_normal()
        found += _one_scratch(shape, radians(angle), preparation, generator)
    return found


def _one_scratch(
    shape: tuple[int, int],
    angle: float,
    preparation: Preparation,
    generator: np.random.Generator,
) -> list[Streak]:
    diagonal = hypot(*shape)
    half = 0.5 * diagonal * min(1.2, 0.15 + generator.exponential(0.55))
    y, x = generator.uniform(0, shape[0]), generator.uniform(0, shape[1])
    dy, dx = half * sin(angle), half * cos(angle)
    width = float(np.clip(generator.lognormal(0.25, 0.45), 0.8, 4.0))
    depth = preparation.scratch_depth * generator.uniform(0.4, 1.3)
    depth = min(1.0, depth * (0.7 + 0.3 * width))
    twice = 2 if generator.uniform() < 0.15 else 1
    shifts = [k * generator.uniform(4, 10) for k in range(twice)]
    return [
        Streak((y - dy + s, x - dx - s), (y + dy + s, x + dx - s), width, depth)
        for s in shifts
    ]


def comet_tails(
    shape: tuple[int, int], preparation: Preparation, seed: int
) -> list[Streak]:
    """Draw tails that start at pits and all run one way."""
    generator = stream(seed, "comets")
    area = shape[0] * shape[1] / 1e6
    main = generator.uniform(0, 360)
    found = []
    for _ in range(generator.poisson(preparation.comet_tails_per_mpx * area)):
        angle = radians(main + 4 * generator.standard_normal())
        y, x = generator.uniform(0, shape[0]), generator.uniform(0, shape[1])
        length = generator.uniform(18, 90)
        stop = (y + length * sin(angle), x + length * cos(angle))
        found.append(Streak((y, x), stop, generator.uniform(2.5, 6), 0.5, taper=True))
    return found
