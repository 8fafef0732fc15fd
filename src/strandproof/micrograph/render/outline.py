"""Outlines of the strands: which pixel is metal of which strand, how deep inside."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from strandproof.micrograph.render.noise import FloatPlane
from strandproof.micrograph.render.population import StrandLayout

# Rows (n, 1) and columns (1, m) to the depth inside an outline [px], shape (n, m).
DepthOf = Callable[[FloatPlane, FloatPlane], FloatPlane]

_RIM_PX = 48  # depth is known this far outside of a round strand
_CONTACT_PX = 1.5  # outlines in contact overlap by this much


@dataclass(frozen=True, slots=True)
class _Outline:
    """Depth function and the window of the picture in which it is evaluated."""

    depth: DepthOf
    window: tuple[slice, slice]


@dataclass(frozen=True, slots=True, eq=False)
class StrandMap:
    """Where the strands lie.

    Parameters
    ----------
    labels : ndarray of int32, shape (n_rows, n_cols)
        0 outside of metal, else the strand's number.
    depth_px : ndarray of float32, shape (n_rows, n_cols) or None
        Distance to the strand's edge, positive inside [px]; None where metal
        fills the picture.
    """

    labels: npt.NDArray[np.int32]
    depth_px: FloatPlane | None


def strand_map(
    shape: tuple[int, int],
    layout: StrandLayout,
    *,
    um_per_px: float,
    generator: np.random.Generator,
) -> StrandMap:
    """Place the strands of a layout in a picture."""
    if layout.width_um is None:
        return StrandMap(np.ones(shape, np.int32), None)
    width = layout.width_um / um_per_px
    rows = np.arange(shape[0], dtype=np.float32)[:, None]
    columns = np.arange(shape[1], dtype=np.float32)[None, :]
    labels = np.zeros(shape, np.int32)
    depth = np.full(shape, -2.0 * _RIM_PX, np.float32)
    outlines = _outlines(shape, layout, width, generator)
    for number, outline in enumerate(outlines, start=1):
        window = outline.window
        inside = outline.depth(rows[window[0]], columns[:, window[1]])
        labels[window][(inside > depth[window]) & (inside > 0)] = number
        depth[window] = np.maximum(depth[window], inside)
    return StrandMap(_renumber(labels), depth)


def _renumber(labels: npt.NDArray[np.int32]) -> npt.NDArray[np.int32]:
    found, dense = np.unique(labels, return_inverse=True)
    offset = 0 if found[0] == 0 else 1
    return (dense.reshape(labels.shape) + offset).astype(np.int32)


def _outlines(
    shape: tuple[int, int],
    layout: StrandLayout,
    width: float,
    generator: np.random.Generator,
) -> Iterator[_Outline]:
    middle = np.array([(shape[0] - 1) / 2, (shape[1] - 1) / 2])
    angle = np.deg2rad(layout.axis_deg)
    rough = layout.roughness * width
    whole = (slice(0, shape[0]), slice(0, shape[1]))
    if layout.arrangement == "round":
        centre = middle + generator.uniform(-0.04, 0.04, 2) * width
        yield _disc(shape, centre, width / 2, rough, generator)
    elif layout.arrangement == "bundle":
        for place in _cluster(layout, width, generator):
            yield _disc(shape, middle + place, width / 2, rough, generator)
    elif layout.arrangement == "long":
        reach = float(np.hypot(*shape)) / 2
        for offset in _side_by_side(layout, width, generator):
            waves = [_edge_waves(width, rough, reach, generator) for _ in range(2)]
            yield _Outline(_band(middle, angle, (offset, width), waves), whole)
    else:
        yield _Outline(_rounded_rectangle(middle, angle, layout, width), whole)


def _disc(
    shape: tuple[int, int],
    centre: npt.NDArray[np.float64],
    radius: float,
    roughness: float,
    generator: np.random.Generator,
) -> _Outline:
    """Round outline with a few harmonics of out-of-roundness, as a table by angle."""
    orders = np.arange(2, 8)[:, None]
    sizes = roughness * generator.standard_normal(orders.shape) / orders
    phases = generator.uniform(0, 2 * np.pi, orders.shape)
    steps = np.linspace(-np.pi, np.pi, 2049)
    table = radius + np.sum(sizes * np.cos(orders * steps + phases), axis=0)
    edge = table.astype(np.float32)

    def depth(rows: FloatPlane, columns: FloatPlane) -> FloatPlane:
        y, x = rows - np.float32(centre[0]), columns - np.float32(centre[1])
        turn = (np.arctan2(y, x) + np.float32(np.pi)) * np.float32(1024 / np.pi)
        inside: FloatPlane = edge[turn.astype(np.intp)] - np.hypot(y, x)
        return inside

    reach = radius + 4 * roughness + _RIM_PX
    sides = [
        slice(max(0, int(c - reach)), max(0, min(n, int(c + reach) + 2)))
        for c, n in zip(centre, shape, strict=True)
    ]
    return _Outline(depth, (sides[0], sides[1]))


def _cluster(
    layout: StrandLayout, width: float, generator: np.random.Generator
) -> list[npt.NDArray[np.float64]]:
    """Centres of round strands, each laid against earlier ones, none overlapping.

    Of all free places the one nearest to the middle is taken, which packs the
    strands as a bunched conductor does.
    """
    turn = generator.uniform(0, 2 * np.pi)
    centres = np.zeros((1, 2))
    while len(centres) < layout.count:
        gap = _gap(layout, width, generator)
        places = _places_beside(centres, width + gap, turn)
        apart = np.hypot(*(places[:, None] - centres[None]).transpose(2, 0, 1))
        least = width + min(gap, 0.0) - 1e-6
        places = places[apart.min(axis=1) >= least]
        pull = np.hypot(*places.T) + 0.1 * width * generator.uniform(size=len(places))
        centres = np.vstack((centres, places[pull.argmin()]))
    return list(centres - centres.mean(axis=0))


def _places_beside(
    centres: npt.NDArray[np.float64], distance: float, turn: float
) -> npt.NDArray[np.float64]:
    """Places at a distance from one earlier strand, or from two of them."""
    angles = turn + 2 * np.pi * np.arange(6) / 6
    around = distance * np.column_stack((np.sin(angles), np.cos(angles)))
    single = (centres[:, None] + around).reshape(-1, 2)
    first, second = np.triu_indices(len(centres), 1)
    step = centres[second] - centres[first]
    apart = np.hypot(*step.T)
    near = apart < 2 * distance
    step, apart = step[near], apart[near, None]
    normal = step[:, ::-1] * np.array([-1, 1]) / apart
    height = np.sqrt(distance**2 - (apart / 2) ** 2)
    middle = centres[first][near] + step / 2
    return np.concatenate((single, middle + height * normal, middle - height * normal))


def _gap(layout: StrandLayout, width: float, generator: np.random.Generator) -> float:
    """Gap to the neighbour; outlines in contact overlap a little."""
    if generator.uniform() < layout.touching_fraction:
        return -_CONTACT_PX
    return max(2.0, layout.gap_fraction * width * generator.uniform(0.5, 1.5))


def _side_by_side(
    layout: StrandLayout, width: float, generator: np.random.Generator
) -> list[float]:
    steps = [width + _gap(layout, width, generator) for _ in range(layout.count - 1)]
    offsets = np.concatenate(([0.0], np.cumsum(steps)))
    return [float(offset) for offset in offsets - offsets[-1] / 2]


def _edge_waves(
    width: float, roughness: float, reach: float, generator: np.random.Generator
) -> FloatPlane:
    """Long and short waves of one edge, one value a pixel along the strand."""
    lengths = width * generator.uniform((2.0, 0.9, 0.4), (6.0, 1.5, 0.8))
    sizes = roughness * generator.normal(0, (0.7, 0.4, 0.2))
    phases = generator.uniform(0, 2 * np.pi, 3)
    along = np.arange(int(2 * reach) + 4)[:, None]
    waves = sizes * np.sin(2 * np.pi * along / lengths + phases)
    edge: FloatPlane = waves.sum(axis=1).astype(np.float32)
    return edge


def _band(
    middle: npt.NDArray[np.float64],
    angle: float,
    place: tuple[float, float],
    waves: list[FloatPlane],
) -> DepthOf:
    """Long section: two nearly parallel edges."""
    offset, width = place
    cosine, sine = np.float32(np.cos(angle)), np.float32(np.sin(angle))

    def depth(rows: FloatPlane, columns: FloatPlane) -> FloatPlane:
        y, x = np.float32(middle[0]) - rows, columns - np.float32(middle[1])
        along = (x * cosine + y * sine).astype(np.intp) + waves[0].size // 2
        across = -x * sine + y * cosine - np.float32(offset)
        half = np.float32(width / 2)
        inside: FloatPlane = np.minimum(
            half + waves[0][along] - across, half + waves[1][along] + across
        )
        return inside

    return depth


def _rounded_rectangle(
    middle: npt.NDArray[np.float64], angle: float, layout: StrandLayout, width: float
) -> DepthOf:
    thickness = width * (layout.thickness_um or 0) / (layout.width_um or 1)
    radius = min(layout.corner_fraction * thickness, width / 2)
    half = np.array([width, thickness]) / 2 - radius
    cosine, sine = np.float32(np.cos(angle)), np.float32(np.sin(angle))

    def depth(rows: FloatPlane, columns: FloatPlane) -> FloatPlane:
        y, x = np.float32(middle[0]) - rows, columns - np.float32(middle[1])
        along = np.abs(x * cosine + y * sine) - np.float32(half[0])
        across = np.abs(-x * sine + y * cosine) - np.float32(half[1])
        outside = np.hypot(np.maximum(along, 0), np.maximum(across, 0))
        beyond = outside + np.minimum(np.maximum(along, across), 0)
        inside: FloatPlane = (np.float32(radius) - beyond).astype(np.float32)
        return inside

    return depth
