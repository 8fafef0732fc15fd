"""One training run on one GPU, measured in minutes; it goes on where it stopped.

Run: python training/run.py FOLDER --minutes 9 --of-minutes 18 --processes 30
"""

import argparse
import json
import time
from dataclasses import dataclass
from math import cos, pi
from pathlib import Path
from threading import Event, Thread
from typing import Any

import torch
from augment import as_it_is, relit, turned
from losses import loss_of
from network import StructureNet
from supply import FIRST_SEED, N_CHANNELS, SIDE_PX, Supply, started_supply
from trained_planes import N_PLANES, TRAINED

_PEAK_RATE, _LAST_RATE = 2.5e-3, 1e-5
_WARM_UP = 0.02  # share of the run
_AVERAGED = 0.999  # of the weights' moving average, kept at each step


@dataclass
class Pool:
    """Samples on the GPU; a thread replaces the oldest as new ones come."""

    samples: torch.Tensor
    count: int = 0
    arrived: int = 0


def fed(pool: Pool, supply: Supply, stop: Event) -> None:
    """Copy filled slots to the GPU until told to stop."""
    n_places = pool.samples.shape[0]
    while not stop.is_set():
        try:
            slot = supply.filled.get(timeout=0.5)
        except Exception:  # noqa: BLE001, S112 - the queue's own exception, and nothing to do
            continue
        place = pool.arrived % n_places
        pool.samples[place].copy_(torch.from_numpy(supply.slots[slot]))
        supply.free.put(slot)
        pool.arrived += 1
        pool.count = min(pool.arrived, n_places)


def rate_at(share: float) -> float:
    """Learning rate after a share of the run: a short rise, then half a cosine."""
    if share < _WARM_UP:
        return _PEAK_RATE * max(share / _WARM_UP, 0.01)
    along = min((share - _WARM_UP) / (1 - _WARM_UP), 1.0)
    return _LAST_RATE + (_PEAK_RATE - _LAST_RATE) * (1 + cos(pi * along)) / 2


@dataclass
class State:
    """Everything that a run goes on from."""

    network: StructureNet
    average: StructureNet
    optimizer: torch.optim.Optimizer
    seconds: float = 0.0
    step: int = 0
    next_seed: int = FIRST_SEED

    def saved(self, folder: Path) -> None:
        """Write four files of weights and one of numbers, each below 16 MB."""
        for name, held in self._held().items():
            torch.save(held, folder / f"{name}.pt")
        numbers = {
            "seconds": self.seconds,
            "step": self.step,
            "next_seed": self.next_seed,
        }
        (folder / "state.json").write_text(json.dumps(numbers), encoding="utf-8")

    def read(self, folder: Path) -> None:
        """Go on from what was written."""
        numbers = json.loads((folder / "state.json").read_text(encoding="utf-8"))
        self.seconds, self.step = numbers["seconds"], numbers["step"]
        self.next_seed = numbers["next_seed"]
        kept = {
            name: torch.load(folder / f"{name}.pt", map_location="cpu")
            for name in ("network", "average", "first_moments", "second_moments")
        }
        self.network.load_state_dict(kept["network"])
        self.average.load_state_dict(kept["average"])
        for index, parameter in enumerate(self._parameters()):
            self.optimizer.state[parameter] = {
                "step": torch.tensor(float(self.step)),
                "exp_avg": kept["first_moments"][index].to(parameter.device),
                "exp_avg_sq": kept["second_moments"][index].to(parameter.device),
            }

    def _parameters(self) -> list[torch.Tensor]:
        return list(self.optimizer.param_groups[0]["params"])

    def _held(self) -> dict[str, Any]:
        moments = [self.optimizer.state[each] for each in self._parameters()]
        return {
            "network": self.network.state_dict(),
            "average": self.average.state_dict(),
            "first_moments": [each["exp_avg"].cpu() for each in moments],
            "second_moments": [each["exp_avg_sq"].cpu() for each in moments],
        }


def started(folder: Path, device: torch.device) -> State:
    """Make a new state, or read the saved one."""
    torch.manual_seed(11)
    network, average = (
        StructureNet(N_PLANES).to(device, memory_format=torch.channels_last)
        for _ in range(2)
    )
    average.load_state_dict(network.state_dict())
    optimizer = torch.optim.AdamW(network.parameters(), lr=1e-3, weight_decay=0.02)
    state = State(network, average, optimizer)
    if (folder / "state.json").exists():
        state.read(folder)
    return state


def trained(state: State, pool: Pool, options: argparse.Namespace, ends: float) -> None:
    """Take steps until the clock says stop."""
    device, of_seconds = pool.samples.device, 60 * options.of_minutes
    log = options.folder / "log.jsonl"
    light = as_it_is if "relit" in options.without else relit
    on_gpu = torch.Generator(device).manual_seed(state.step + 1)
    on_cpu = torch.Generator().manual_seed(state.step + 1)
    state.network.train()
    began, before = time.monotonic(), state.seconds
    while time.monotonic() < ends:
        state.seconds = before + time.monotonic() - began
        for group in state.optimizer.param_groups:
            group["lr"] = rate_at(state.seconds / of_seconds)
        chosen = torch.randint(pool.count, (options.batch,), generator=on_cpu).to(
            device
        )
        batch = turned(pool.samples[chosen], on_cpu).float() / 255
        picture = light(batch[:, :3], on_gpu).contiguous(
            memory_format=torch.channels_last
        )
        with torch.autocast(device.type, torch.bfloat16):
            scores = state.network(picture)
        loss, parts = loss_of(scores.float(), batch[:, 3:])
        state.optimizer.zero_grad(set_to_none=True)
        loss.backward()
        torch.nn.utils.clip_grad_norm_(state.network.parameters(), 2.0)
        state.optimizer.step()
        averaged(state)
        state.step += 1
        if state.step % 100 == 0:
            line = {
                "step": state.step,
                "seconds": round(state.seconds, 1),
                "rate": round(rate_at(state.seconds / of_seconds), 6),
                "samples": pool.arrived,
                "loss": round(float(loss), 4),
            } | {
                name: round(float(value), 4)
                for name, value in zip(TRAINED, parts, strict=True)
            }
            with log.open("a", encoding="utf-8") as file:
                file.write(json.dumps(line) + "\n")
            if state.step % 500 == 0:
                print(json.dumps(line), flush=True)


@torch.no_grad()
def averaged(state: State) -> None:
    """Move the averaged weights a little towards the new ones."""
    keep = min(_AVERAGED, (state.step + 1) / (state.step + 10))
    for old, new in zip(
        state.average.state_dict().values(),
        state.network.state_dict().values(),
        strict=True,
    ):
        if old.dtype.is_floating_point:
            old.lerp_(new, 1 - keep)
        else:
            old.copy_(new)


def options() -> argparse.Namespace:
    """Read the words after the command."""
    words = argparse.ArgumentParser(description=__doc__)
    words.add_argument("folder", type=Path)
    words.add_argument("--minutes", type=float, default=9.0)
    words.add_argument("--of-minutes", type=float, default=18.0)
    words.add_argument("--processes", type=int, default=14)
    words.add_argument("--seed-shift", type=int, default=0)
    words.add_argument("--without", nargs="*", default=[], help="for ablations: relit")
    words.add_argument("--batch", type=int, default=40)
    words.add_argument("--pool", type=int, default=12_000, help="samples on the GPU")
    words.add_argument("--fresh", type=int, default=800, help="samples at the start")
    return words.parse_args()


def first_seed(given: argparse.Namespace) -> int:
    """Give the seed that rendering goes on with."""
    saved = given.folder / "state.json"
    seed = FIRST_SEED
    if saved.exists():
        seed = int(json.loads(saved.read_text(encoding="utf-8"))["next_seed"])
    return seed + int(given.seed_shift)


def wait_for_samples(pool: Pool, supply: Supply, fresh: int) -> None:
    """Wait until there is something to learn from.

    Raises
    ------
    SystemExit
        If a rendering process ended.
    """
    while pool.count < fresh:
        time.sleep(0.2)
        if not all(process.is_alive() for process in supply.processes):
            raise SystemExit("A rendering process ended; see above.")


def main() -> None:
    """Run."""
    given, begins = options(), time.monotonic()
    given.folder.mkdir(parents=True, exist_ok=True)
    seed = first_seed(given)
    # The processes are forked before the GPU is touched.
    supply = started_supply(
        given.processes, n_slots=4 * given.processes, first_seed=seed
    )
    device = torch.device("cuda" if torch.cuda.is_available() else "cpu")
    torch.backends.cudnn.benchmark = True
    state = started(given.folder, device)
    places = (given.pool, N_CHANNELS, SIDE_PX, SIDE_PX)
    pool = Pool(torch.zeros(places, dtype=torch.uint8, device=device))
    stop = Event()
    feeder = Thread(target=fed, args=(pool, supply, stop), daemon=True)
    feeder.start()
    wait_for_samples(pool, supply, given.fresh)
    print(f"{pool.count} samples after {time.monotonic() - begins:.0f} s", flush=True)
    trained(state, pool, given, begins + 60 * given.minutes)
    stop.set()
    feeder.join()
    state.next_seed = seed + 4 * pool.arrived + 1000  # beyond everything rendered
    state.saved(given.folder)
    print(f"step {state.step}, {pool.arrived} samples rendered", flush=True)
    supply.close()


if __name__ == "__main__":
    main()
