"""Short trainings side by side on the same samples: what each change of light is worth.

Run: python training/compare.py FOLDER --minutes 8 --processes 15

Every network takes the same steps on the same samples in turn, from the same start;
they differ only in how pictures are changed on the GPU. Writes one exported network a
way. `benchmarks/segmentation_renders.py` then judges them.
"""

import argparse
import time
from collections.abc import Callable
from pathlib import Path
from threading import Event, Thread

import torch
from augment import as_it_is, relit, turned
from export import exported
from losses import loss_of
from network import StructureNet
from run import Pool, State, averaged, fed, rate_at, wait_for_samples
from supply import FIRST_SEED, N_CHANNELS, SIDE_PX, started_supply
from trained_planes import N_PLANES

Light = Callable[[torch.Tensor, torch.Generator], torch.Tensor]


def in_grey(pictures: torch.Tensor, generator: torch.Generator) -> torch.Tensor:
    """Change light, then take colour away."""
    return relit(pictures, generator).mean(1, keepdim=True).expand(-1, 3, -1, -1)


WAYS: dict[str, Light] = {"relit": relit, "as_drawn": as_it_is, "grey": in_grey}


def new_state(device: torch.device) -> State:
    """Make one network; every one starts from the same weights."""
    torch.manual_seed(11)
    network, average = (
        StructureNet(N_PLANES).to(device, memory_format=torch.channels_last)
        for _ in range(2)
    )
    average.load_state_dict(network.state_dict())
    rule = torch.optim.AdamW(network.parameters(), lr=1e-3, weight_decay=0.02)
    return State(network, average, rule)


def step(state: State, batch: torch.Tensor, picture: torch.Tensor, rate: float) -> None:
    """Take one step."""
    for group in state.optimizer.param_groups:
        group["lr"] = rate
    with torch.autocast(batch.device.type, torch.bfloat16):
        scores = state.network(picture.contiguous(memory_format=torch.channels_last))
    loss, _ = loss_of(scores.float(), batch[:, 3:])
    state.optimizer.zero_grad(set_to_none=True)
    loss.backward()
    torch.nn.utils.clip_grad_norm_(state.network.parameters(), 2.0)
    state.optimizer.step()
    averaged(state)
    state.step += 1


def trained(pool: Pool, minutes: float, n_batch: int) -> dict[str, State]:
    """Train all networks for a time, taking turns at each batch."""
    device = pool.samples.device
    states = {name: new_state(device) for name in WAYS}
    on_gpu = torch.Generator(device).manual_seed(1)
    on_cpu = torch.Generator().manual_seed(1)
    began = time.monotonic()
    while (share := (time.monotonic() - began) / (60 * minutes)) < 1:
        chosen = torch.randint(pool.count, (n_batch,), generator=on_cpu).to(device)
        batch = turned(pool.samples[chosen], on_cpu).float() / 255
        for name, light in WAYS.items():
            step(states[name], batch, light(batch[:, :3], on_gpu), rate_at(share))
    steps = next(iter(states.values())).step
    print(f"{steps} steps of {n_batch}, {pool.arrived} samples", flush=True)
    return states


def main() -> None:
    """Train, then export each network's averaged weights."""
    words = argparse.ArgumentParser(description=__doc__)
    words.add_argument("folder", type=Path)
    words.add_argument("--minutes", type=float, default=8.0)
    words.add_argument("--processes", type=int, default=15)
    words.add_argument("--batch", type=int, default=40)
    chosen = words.parse_args()
    # Seeds of their own; the processes are forked before the GPU is touched.
    supply = started_supply(
        chosen.processes,
        n_slots=4 * chosen.processes,
        first_seed=FIRST_SEED + 50_000_000,
    )
    device = torch.device("cuda" if torch.cuda.is_available() else "cpu")
    torch.backends.cudnn.benchmark = True
    shape = (12_000, N_CHANNELS, SIDE_PX, SIDE_PX)
    pool = Pool(torch.zeros(shape, dtype=torch.uint8, device=device))
    stop = Event()
    feeder = Thread(target=fed, args=(pool, supply, stop), daemon=True)
    feeder.start()
    wait_for_samples(pool, supply, 400)
    states = trained(pool, chosen.minutes, chosen.batch)
    stop.set()
    feeder.join()
    supply.close()
    for name, state in states.items():
        folder = chosen.folder / name
        folder.mkdir(parents=True, exist_ok=True)
        torch.save(state.average.cpu().state_dict(), folder / "average.pt")
        print(exported(folder / "average.pt", folder))


if __name__ == "__main__":
    main()
