"""Enlarged, shrunk or smoothed after it was taken."""

from dataclasses import dataclass

from strandproof.micrograph.quality.compression import shows_blocks
from strandproof.micrograph.quality.spectrum import Combs, FlatPower

_COMB_FROM = 12.0
_EMPTY_BELOW = 0.2  # level^2; rounding to 8 bits alone leaves 1/12
_FALL_FROM = 8.0  # coarse over finest; less is no fall
_LEAST_COARSE = 0.5  # level^2; a drawn plane without noise has nothing to lose


@dataclass(frozen=True, slots=True, kw_only=True)
class Resizing:
    """Traces of resizing.

    Parameters
    ----------
    comb : float
        Strength of the comb that interpolation leaves; 0 for none.
    factors : tuple of float
        Enlargements that would leave this comb, the smaller first; empty where
        there is no comb or where it does not tell.
    empty_band : bool
        True where the finest band holds nothing but rounding.
    """

    comb: float
    factors: tuple[float, ...]
    empty_band: bool


def resizing_traces(power: FlatPower, combs: Combs) -> Resizing:
    """Judge whether a picture was resized or smoothed.

    Parameters
    ----------
    power : FlatPower
        Power by frequency in the flattest blocks.
    combs : Combs
        Regular patterns.

    Returns
    -------
    Resizing
        What was found.

    Notes
    -----
    An enlargement f leaves a comb at 1/f or, below 2, at 1 - 1/f, so that one
    frequency means two factors. Resizing a compressed picture moves the comb of
    its blocks, which looks the same. An exact doubling leaves no comb, only the
    empty band; where compression emptied that band too, it is not found.
    """
    compressed = shows_blocks(combs)
    falls = power.coarse > max(_FALL_FROM * power.finest, _LEAST_COARSE)
    empty = falls and power.finest < _EMPTY_BELOW and not compressed
    comb = 0.0
    factors: tuple[float, ...] = ()
    if combs.other > _COMB_FROM:
        comb = combs.other
        factors = (1 / (1 - combs.other_frequency), 1 / combs.other_frequency)
    elif combs.halves > _COMB_FROM and not compressed:
        comb = combs.halves
    return Resizing(comb=comb, factors=factors, empty_band=empty)
