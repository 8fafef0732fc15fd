"""The card of the packaged network: what it was trained on and how often it errs."""

import json
from dataclasses import dataclass
from functools import cache
from importlib.resources import files
from math import ceil
from typing import Any

from strandproof.quantity import binomial_upper_limit


@dataclass(frozen=True, slots=True, kw_only=True)
class KnownStrands:
    """Verdicts on drawn strands with known answers, kept apart from the training.

    Parameters
    ----------
    singles, singles_called_poly : int
        Strands of one crystal, and how many of them were called polycrystalline.
    many, many_called_single : int
        Strands of many crystals, and how many were called one crystal.
    few, few_called_single : int
        Strands that a few boundaries cross, and how many were called one crystal.
    """

    singles: int
    singles_called_poly: int
    many: int
    many_called_single: int
    few: int
    few_called_single: int

    def of_poly(self) -> str:
        """Say how often one crystal was called polycrystalline.

        Returns
        -------
        str
            A sentence.
        """
        counts = _rate(self.singles_called_poly, self.singles)
        return f"Drawn strands of one crystal called so: {counts}. {_CAUTION}"

    def of_single(self) -> str:
        """Say how often several crystals were called one.

        Returns
        -------
        str
            Two sentences.
        """
        many = _rate(self.many_called_single, self.many)
        few = _rate(self.few_called_single, self.few)
        return (
            f"Drawn strands of many crystals called so: {many}; of those that a few "
            f"boundaries cross: {few}. {_CAUTION}"
        )


_CAUTION = "Real etches may be harder."


def _rate(wrong: int, total: int) -> str:
    limit = ceil(1000 * (binomial_upper_limit(wrong, total).upper or 1.0)) / 10
    return f"{wrong} of {total} (at most {limit:.1f} %, 95 %)"


@cache
def model_card() -> dict[str, Any]:
    """Read the card.

    Returns
    -------
    dict
        Training, figures by family, known strands, where it fails.
    """
    path = files("strandproof.micrograph.learned") / "data" / "structure_card.json"
    card: dict[str, Any] = json.loads(path.read_text(encoding="utf-8"))
    return card


@cache
def known_strands() -> KnownStrands:
    """Read the verdicts on known strands from the card.

    Returns
    -------
    KnownStrands
        Counts.
    """
    return KnownStrands(**model_card()["known strands"])
