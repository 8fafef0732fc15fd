"""Which metal: readings, and how well each kind of strand fits them."""

from dataclasses import dataclass
from typing import Literal

from strandproof.quantity import Quantity
from strandproof.records.flags import Flag

MetalProperty = Literal[
    "density", "resistivity", "temperature_coefficient", "hardness", "mass_resistivity"
]
MetalSign = Literal["magnet", "scrape", "etch", "surface", "core", "skin"]


@dataclass(frozen=True, slots=True, kw_only=True)
class MetalReadings:
    """Everything known about a strand whose metal is asked for.

    Parameters
    ----------
    measured : mapping of MetalProperty to Quantity
        Numbers with their standard uncertainty, in g/cm3, nohm m, 1/K, HV and
        ohm g/m2.
    seen : mapping of MetalSign to str
        Answers in words, as `answers_of` lists them.
    """

    measured: dict[MetalProperty, Quantity]
    seen: dict[MetalSign, str]


@dataclass(frozen=True, slots=True, kw_only=True)
class Contribution:
    """What one reading says about one kind of strand.

    Parameters
    ----------
    reading : str
        Property or sign.
    log10_ratio : float
        Common logarithm of its likelihood over the largest one that any kind of strand
        gives for this reading, the chance of a plain blunder in it; zero or below.
    distance : float or None
        Distance of a number from the range's middle, in standard deviations of reading
        and range together; None for an answer in words.
    probability : float or None
        Probability of an answer in words; None for a number.
    status : str
        Least trusted status of the table rows used.
    """

    reading: str
    log10_ratio: float
    distance: float | None
    probability: float | None
    status: str


@dataclass(frozen=True, slots=True, kw_only=True)
class MetalFit:
    """How one kind of strand fits all readings.

    Parameters
    ----------
    metal : str
        Kind of strand.
    log10_ratio : float
        Common logarithm of its joint likelihood over that of the best kind; zero
        for the best.
    misfit_probability : float or None
        Chance of numbers at least as far off if it were this kind; None without a
        number.
    unlikely_answers : tuple of str
        Readings in words that it hardly ever gives.
    fits : bool
        True where neither speaks against it.
    contributions : tuple of Contribution
        One for each reading.
    """

    metal: str
    log10_ratio: float
    misfit_probability: float | None
    unlikely_answers: tuple[str, ...]
    fits: bool
    contributions: tuple[Contribution, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class MetalRanking:
    """Kinds of strand, best first.

    Parameters
    ----------
    fits : tuple of MetalFit
        Every kind in the table, best first.
    not_told_apart : tuple of str
        The best kind and those within the factor at which metals count as not told
        apart; empty where none fits.
    sentences : tuple of str
        The finding and its limits, in words.
    flags : tuple of Flag
        What a reader has to know.
    """

    fits: tuple[MetalFit, ...]
    not_told_apart: tuple[str, ...]
    sentences: tuple[str, ...]
    flags: tuple[Flag, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Mixture:
    """A strand of several metals side by side, by the rule of mixtures.

    Parameters
    ----------
    density_g_per_cm3 : float
        Density [g/cm3].
    resistivity_nohm_m : float
        Resistivity along the strand [nohm m].
    percent_iacs : float
        Its conductivity [% IACS].
    mass_percent : mapping of str to float
        Share of each metal by mass [%].
    """

    density_g_per_cm3: float
    resistivity_nohm_m: float
    percent_iacs: float
    mass_percent: dict[str, float]
