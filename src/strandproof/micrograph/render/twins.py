"""Annealing twins: straight lamellae laid into grains after the grains are bent."""

from dataclasses import dataclass, replace
from typing import Literal, get_args

import numpy as np
import numpy.typing as npt
from scipy import ndimage

from strandproof.micrograph.render.population import TwinHabit
from strandproof.micrograph.render.relaxation import LabelPlane

_LEAST_THICKNESS_PX = 2.5
_LEAST_EXTENT_PX = 10.0  # grains narrower than this carry no twin
_THIN_PX = (2.0, 4.0)  # thickness of lamellae drawn thin

_EndForm = Literal["cut", "tapered", "lens", "stepped", "blunt"]
_SHAPED_ENDS: tuple[_EndForm, ...] = get_args(_EndForm)[1:]


@dataclass(frozen=True, slots=True, eq=False)
class TwinMap:
    """Twins of all grains.

    Parameters
    ----------
    labels : ndarray of int32, shape (n_rows, n_cols)
        0 in the parent, else the number of the lamella.
    sets : ndarray of int32, shape (n_lamellae + 1,)
        For each lamella number the set (1 or 2) of parallel lamellae it belongs
        to within its grain; entry 0 is 0. Lamellae of one set share their
        crystal orientation and so their shade.
    """

    labels: LabelPlane
    sets: npt.NDArray[np.int32]


def no_twins(shape: tuple[int, int]) -> TwinMap:
    """Return a plane without twins."""
    return TwinMap(np.zeros(shape, np.int32), np.zeros(1, np.int32))


def draw_twins(
    grains: LabelPlane, habit: TwinHabit, generator: np.random.Generator
) -> TwinMap:
    """Lay lamellae into the grains of a section.

    Parameters
    ----------
    grains : ndarray of int32, shape (n_rows, n_cols)
        Grain numbers from 1; 0 outside.
    habit : TwinHabit
        How often, how many, how thick.
    generator : numpy.random.Generator
        Source of chance.

    Returns
    -------
    TwinMap
        Lamellae; each lies inside exactly one grain.
    """
    labels = np.zeros(grains.shape, np.int32)
    sets = [0]
    for number, window in enumerate(ndimage.find_objects(grains), start=1):
        if generator.uniform() >= habit.grain_fraction:
            continue
        if min(side.stop - side.start for side in window) < _LEAST_EXTENT_PX:
            continue
        _twin_one_grain(
            grains[window] == number, labels[window], sets, habit, generator
        )
    return _without_empty(labels, np.array(sets, np.int32))


def _twin_one_grain(
    inside: npt.NDArray[np.bool_],
    labels: LabelPlane,
    sets: list[int],
    habit: TwinHabit,
    generator: np.random.Generator,
) -> None:
    angle = generator.uniform(0, np.pi)
    n_sets = 2 if generator.uniform() < habit.crossing_fraction else 1
    for set_number in range(1, n_sets + 1):
        frame = _GrainFrame.of(inside, angle)
        free = inside & (labels == 0)  # a later set stops at the earlier one
        for lamella in _lamellae(frame, habit, generator):
            part = free & frame.covers(lamella)
            sets.append(set_number)
            labels[part] = len(sets) - 1
        angle += np.deg2rad(generator.uniform(40, 90))


@dataclass(frozen=True, slots=True)
class _Lamella:
    """Limits across (low, high) and along (start, stop); one step of a side.

    An end is cut at a slant (pixels along for each pixel across), or narrows over
    `end_length` in another form, towards a place `end_side` (0 low, 1 high).
    """

    low: float
    high: float
    start: float
    stop: float
    slant: float
    step_at: float
    step: float
    end_form: _EndForm = "cut"
    end_length: float = 1.0
    end_side: float = 0.5


@dataclass(frozen=True, slots=True, eq=False)
class _GrainFrame:
    """Coordinates across and along the lamellae of one grain [px]."""

    across: npt.NDArray[np.float32]
    along: npt.NDArray[np.float32]
    across_range: tuple[float, float]
    along_range: tuple[float, float]

    @classmethod
    def of(cls, inside: npt.NDArray[np.bool_], angle: float) -> "_GrainFrame":
        rows = np.arange(inside.shape[0], dtype=np.float32)[:, None]
        columns = np.arange(inside.shape[1], dtype=np.float32)[None, :]
        cosine, sine = np.float32(np.cos(angle)), np.float32(np.sin(angle))
        across = columns * cosine + rows * sine
        along = rows * cosine - columns * sine
        return cls(across, along, _range(across[inside]), _range(along[inside]))

    def covers(self, lamella: _Lamella) -> npt.NDArray[np.bool_]:
        high = np.where(
            self.along > lamella.step_at, lamella.high + lamella.step, lamella.high
        )
        within: npt.NDArray[np.bool_] = (self.across > lamella.low) & (
            self.across < high
        )
        if lamella.end_form != "cut":
            return within & self._within_end(lamella)
        cut = self.along + lamella.slant * (self.across - lamella.low)
        return within & (cut > lamella.start) & (cut < lamella.stop)

    def _within_end(self, lamella: _Lamella) -> npt.NDArray[np.bool_]:
        """Pixels that the narrowing end still covers."""
        to_end = np.minimum(self.along - lamella.start, lamella.stop - self.along)
        left = _share_left(lamella.end_form, to_end / lamella.end_length)
        thickness = lamella.high - lamella.low
        tip = lamella.low + lamella.end_side * thickness
        low = tip - left * (tip - lamella.low)
        high = tip + left * (lamella.high - tip)
        covered: npt.NDArray[np.bool_] = (
            (to_end > 0) & (self.across > low) & (self.across < high)
        )
        return covered


def _share_left(
    form: _EndForm, to_end: npt.NDArray[np.float32]
) -> npt.NDArray[np.float32]:
    """Share of the thickness left at a distance from the tip, in lengths of it."""
    near: npt.NDArray[np.floating] = np.clip(to_end, 0, 1)
    if form == "stepped":
        near = np.ceil(3 * near) / 3
    elif form != "tapered":  # an ellipse: long in a lens, short in a blunt end
        near = np.sqrt(near * (2 - near))
    return near.astype(np.float32)


def _range(values: npt.NDArray[np.float32]) -> tuple[float, float]:
    return float(values.min()), float(values.max())


def _lamellae(
    frame: _GrainFrame, habit: TwinHabit, generator: np.random.Generator
) -> list[_Lamella]:
    low, high = frame.across_range
    extent = high - low
    if extent < _LEAST_EXTENT_PX:
        return []
    count = 1 + generator.poisson(habit.mean_lamellae - 1)
    details = generator.spawn(1)[0]  # leaves what is drawn from `generator`
    found: list[_Lamella] = []
    if generator.uniform() < habit.corner_fraction:
        depth = extent * generator.uniform(0.12, 0.3)
        found.append(_Lamella(high - depth, np.inf, -np.inf, np.inf, 0.0, np.inf, 0.0))
        high -= depth
        count -= 1
    clear = max(_LEAST_THICKNESS_PX, 0.03 * extent)
    for _ in range(count):
        thickness = max(
            _LEAST_THICKNESS_PX,
            extent * _log_uniform(habit.thickness_fraction, generator),
        )
        if details.uniform() < habit.thin_fraction:
            thickness = details.uniform(*_THIN_PX)
        start = low + clear + generator.uniform() * (high - low - thickness)
        stop = start + thickness
        if stop > high - clear or any(
            start < other.high + clear and stop > other.low - clear for other in found
        ):
            continue
        lamella = _lamella(frame, (start, stop), habit, generator)
        if details.uniform() < habit.shaped_end_fraction:
            lamella = _with_shaped_end(lamella, details)
        found.append(lamella)
    return found


def _log_uniform(limits: tuple[float, float], generator: np.random.Generator) -> float:
    return float(np.exp(generator.uniform(*np.log(limits))))


def _lamella(
    frame: _GrainFrame,
    sides: tuple[float, float],
    habit: TwinHabit,
    generator: np.random.Generator,
) -> _Lamella:
    """One lamella, which may end inside of the grain or have a step in one side."""
    start, stop = -np.inf, np.inf
    low, high = frame.along_range
    if generator.uniform() < habit.ending_fraction:
        end = low + generator.uniform(0.3, 0.7) * (high - low)
        start, stop = (end, stop) if generator.uniform() < 0.5 else (start, end)
    step_at, step = np.inf, 0.0
    thickness = sides[1] - sides[0]
    if (
        generator.uniform() < habit.stepped_fraction
        and thickness > 2 * _LEAST_THICKNESS_PX
    ):
        step_at = low + generator.uniform(0.25, 0.75) * (high - low)
        step = -thickness * generator.uniform(0.2, 0.5)
    slant = generator.normal(0, 0.5)
    return _Lamella(sides[0], sides[1], start, stop, slant, step_at, step)


def _with_shaped_end(lamella: _Lamella, details: np.random.Generator) -> _Lamella:
    """Give a lamella that ends inside of its grain another form of end."""
    if np.isinf(lamella.start) and np.isinf(lamella.stop):
        return lamella
    thickness = lamella.high - lamella.low
    form = _SHAPED_ENDS[int(details.integers(len(_SHAPED_ENDS)))]
    length = 0.5 if form == "blunt" else float(np.exp(details.uniform(0.7, 2.2)))
    return replace(
        lamella,
        end_form=form,
        end_length=max(length * thickness, 1.0),
        end_side=float(details.choice((0.0, 0.5, 1.0))),
        step_at=np.inf,
        step=0.0,
    )


def _without_empty(labels: LabelPlane, sets: npt.NDArray[np.int32]) -> TwinMap:
    """Renumber lamellae so that each number occurs in the picture."""
    present = np.bincount(labels.ravel(), minlength=sets.size) > 0
    present[0] = True
    renumbered = np.cumsum(present) - 1
    return TwinMap(renumbered[labels].astype(np.int32), sets[present])
