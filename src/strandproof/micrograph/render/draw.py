"""Draws of parameters by name from the table of ranges, and by chance."""

from collections.abc import Sequence
from typing import TypeVar

import numpy as np

from strandproof.micrograph.render.ranges import SAMPLING_RANGES

T = TypeVar("T")


class Draw:
    """Draws by name from the table, and yes or no by chance."""

    def __init__(self, generator: np.random.Generator) -> None:
        self._generator = generator

    def value(self, name: str) -> float:
        """Draw a value by its name in the table."""
        return SAMPLING_RANGES[name].draw(self._generator)

    def chance(self, probability: float) -> bool:
        """Return yes with a probability."""
        return bool(self._generator.uniform() < probability)

    def sometimes(self, name: str, probability: float) -> float:
        """Draw the value with a probability, else take 0."""
        drawn = self.value(name)
        return drawn if self.chance(probability) else 0.0

    def whole(self, low: int, high: int) -> int:
        """Draw a whole number, ends included."""
        return int(self._generator.integers(low, high + 1))

    def axis_deg(self) -> float:
        """Draw any direction, but often one near the horizontal."""
        slanted = self._generator.uniform(-90, 90)
        level = float(np.clip(self._generator.normal(0, 3), -90, 90))
        return level if self.chance(0.4) else slanted

    def given_or(
        self, given: T | None, choices: Sequence[T], weights: Sequence[float]
    ) -> T:
        """Take what was given; draw only where nothing was."""
        return self.one_of(choices, weights) if given is None else given

    def one_of(self, choices: Sequence[T], weights: Sequence[float]) -> T:
        """Draw one of several with the weights given."""
        shares = np.array(weights) / sum(weights)
        return choices[int(self._generator.choice(len(choices), p=shares))]
