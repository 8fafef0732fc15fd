"""Controls and hypotheses in the manner of the brief's running case."""

from collections.abc import Callable, Sequence

import pytest

from strandproof.records.entries import Control, Observation
from strandproof.weighing import ControlReading

MakeControls = Callable[..., tuple[ControlReading, ...]]


def single_crystals(
    count: int, *, wrong: int = 0, mounts: Sequence[str] = ("",)
) -> tuple[ControlReading, ...]:
    return tuple(
        ControlReading(
            control=Control(
                id=f"single-{number}",
                specimen=f"S{number}",
                kind="single_crystal",
                known_by="diffraction",
                mount=mounts[number % len(mounts)],
            ),
            verdict="boundaries" if number < wrong else "none_resolved",
            blind=True,
        )
        for number in range(count)
    )


def oxygen_free(
    count: int, *, wrong: int = 0, mount: str = ""
) -> tuple[ControlReading, ...]:
    return tuple(
        ControlReading(
            control=Control(
                id=f"soft-{number}",
                specimen=f"P{number}",
                kind="polycrystal",
                known_by="papers",
                mount=mount,
                described_as="oxygen-free",
            ),
            verdict="none_resolved" if number < wrong else "boundaries",
            blind=True,
        )
        for number in range(count)
    )


@pytest.fixture(name="single_crystals", scope="session")
def single_crystals_fixture() -> MakeControls:
    return single_crystals


@pytest.fixture(name="oxygen_free", scope="session")
def oxygen_free_fixture() -> MakeControls:
    return oxygen_free


@pytest.fixture(scope="session")
def grains_seen() -> Observation:
    return Observation(
        id="O1",
        statement="Many equiaxed grains on every long section.",
        evidence=("measurement/f1-size",),
        cables=3,
        strands=9,
        sections=18,
        fields=54,
        method="etched section",
        dependence_group="preparation and readers",
        reading_outcome="boundaries",
    )
