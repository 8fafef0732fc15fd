"""An endless supply of rendered samples, made by many processes."""

import multiprocessing as mp
from collections.abc import Iterator
from dataclasses import dataclass
from multiprocessing.shared_memory import SharedMemory
from multiprocessing.synchronize import Event
from queue import Empty

import numpy as np
import numpy.typing as npt
from reserved_ranges import is_reserved
from targets import Sample, labelled, sample_of, zoomed
from trained_planes import N_PLANES

from strandproof.micrograph.render import (
    SectionParameters,
    random_section_parameters,
    render_section,
)

SIDE_PX = 512
N_CHANNELS = 3 + N_PLANES
FIRST_SEED = 20_000_000  # the benchmark's seeds lie below
_SIDES_PX = (512, 768, 1024)
_SIDE_SHARES = (0.55, 0.25, 0.20)
_ZOOMED_SHARE = 0.35
_ZOOM = (0.6, 1.9)
_TEXTURE_SHARE = 0.12  # more single crystals than the sampler draws by itself


def drawn_parameters(
    generator: np.random.Generator, shape: tuple[int, int]
) -> SectionParameters:
    """Draw parameters that training may see.

    Parameters
    ----------
    generator : numpy.random.Generator
        Source of chance.
    shape : tuple of int
        Rows and columns.

    Returns
    -------
    SectionParameters
        Parameters outside of the reserved bands.
    """
    family = "single" if generator.uniform() < _TEXTURE_SHARE else None
    while True:
        drawn = random_section_parameters(generator, family=family, shape=shape)
        if not is_reserved(drawn):
            return drawn


def samples_of_seed(seed: int) -> Iterator[Sample]:
    """Render one section and cut it to samples of one size.

    Parameters
    ----------
    seed : int
        Seed of everything about the section.

    Yields
    ------
    Sample
        Samples of 512 x 512 px.
    """
    generator = np.random.default_rng(seed)
    side = int(generator.choice(_SIDES_PX, p=_SIDE_SHARES))
    parameters = drawn_parameters(generator, (side, side))
    section = labelled(render_section(parameters, seed=seed))
    if generator.uniform() < _ZOOMED_SHARE:
        low = max(_ZOOM[0], (SIDE_PX + 1) / side)
        section = zoomed(
            section, float(np.exp(generator.uniform(*np.log([low, _ZOOM[1]]))))
        )
    whole = sample_of(section)
    n_rows, n_cols = whole.picture.shape[1:]
    for top in _starts(n_rows, generator):
        for left in _starts(n_cols, generator):
            cut = (slice(None), slice(top, top + SIDE_PX), slice(left, left + SIDE_PX))
            yield Sample(picture=whole.picture[cut], targets=whole.targets[cut])


def _starts(size: int, generator: np.random.Generator) -> list[int]:
    """Give the starts of as many pieces as fit, at random places."""
    n_pieces = size // SIDE_PX
    spare = size - n_pieces * SIDE_PX
    shift = int(generator.integers(spare + 1))
    return [shift + k * SIDE_PX for k in range(n_pieces)]


@dataclass(frozen=True, slots=True, eq=False)
class Supply:
    """Processes that fill slots of shared memory.

    Parameters
    ----------
    memory : SharedMemory
        The slots.
    slots : ndarray of uint8, shape (n_slots, 3 + n_planes, 512, 512)
        Picture and targets.
    filled, free : Queue of int
        Numbers of slots.
    stop : Event
        Ends the processes.
    processes : tuple of Process
        The processes.
    """

    memory: SharedMemory
    slots: npt.NDArray[np.uint8]
    filled: "mp.Queue[int]"
    free: "mp.Queue[int]"
    stop: Event
    processes: tuple[mp.Process, ...]

    def close(self) -> None:
        """End the processes and free the memory."""
        self.stop.set()
        for process in self.processes:
            process.join(timeout=10)
            if process.is_alive():
                process.terminate()
        self.memory.close()
        self.memory.unlink()


def started_supply(n_processes: int, *, n_slots: int, first_seed: int) -> Supply:
    """Start the processes.

    Parameters
    ----------
    n_processes : int
        Processes.
    n_slots : int
        Slots, each of 512 x 512 px.
    first_seed : int
        Process k renders first_seed + k, first_seed + k + n_processes, ...

    Returns
    -------
    Supply
        A running supply.
    """
    context = mp.get_context("fork")
    shape = (n_slots, N_CHANNELS, SIDE_PX, SIDE_PX)
    memory = SharedMemory(create=True, size=int(np.prod(shape)))
    slots: npt.NDArray[np.uint8] = np.ndarray(shape, np.uint8, memory.buf)
    filled, free, stop = context.Queue(), context.Queue(), context.Event()
    for slot in range(n_slots):
        free.put(slot)
    processes = tuple(
        context.Process(
            target=_fill,
            args=(slots, filled, free, stop, range(first_seed + k, 2**62, n_processes)),
            daemon=True,
        )
        for k in range(n_processes)
    )
    for process in processes:
        process.start()
    return Supply(memory, slots, filled, free, stop, processes)  # type: ignore[arg-type]


def _fill(
    slots: npt.NDArray[np.uint8],
    filled: "mp.Queue[int]",
    free: "mp.Queue[int]",
    stop: Event,
    seeds: range,
) -> None:
    for seed in seeds:
        for sample in samples_of_seed(seed):
            slot = _next(free, stop)
            if slot is None:
                return
            slots[slot, :3] = sample.picture
            slots[slot, 3:] = sample.targets
            filled.put(slot)


def _next(free: "mp.Queue[int]", stop: Event) -> int | None:
    while not stop.is_set():
        try:
            return free.get(timeout=0.5)
        except Empty:
            continue
    return None
