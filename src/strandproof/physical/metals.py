"""Kinds of strand and what each leads one to expect, read from the tables."""

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from math import sqrt
from typing import get_args

from strandproof.errors import ParameterError
from strandproof.records.physical import MetalProperty, MetalSign
from strandproof.tables import STATUSES, package_table

PROPERTY_UNITS: Mapping[MetalProperty, str] = {
    "density": "g/cm3",
    "resistivity": "nohm m",
    "temperature_coefficient": "1/K",
    "hardness": "HV",
    "mass_resistivity": "ohm g/m2",
}
"""Unit in which each property is taken."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PropertyRange:
    """Range in which a property of one kind of strand lies.

    Parameters
    ----------
    lower, upper : float
        Ends, in the property's unit.
    status : str
        Least trusted status of the two ends.
    """

    lower: float
    upper: float
    status: str

    @property
    def middle(self) -> float:
        """Middle of the range."""
        return 0.5 * (self.lower + self.upper)

    @property
    def deviation(self) -> float:
        """Standard deviation of an even spread over the range, width/sqrt(12)."""
        return (self.upper - self.lower) / sqrt(12.0)


@cache
def metal_names() -> tuple[str, ...]:
    """Kinds of strand in the table, in its order.

    Returns
    -------
    tuple of str
        For example ``("copper", "silver", ...)``.
    """
    suffix = ".density.lower"
    return tuple(
        key.removesuffix(suffix)
        for key in package_table("metal_properties")
        if key.endswith(suffix)
    )


def metal_in_words(name: str) -> str:
    """Name of a kind of strand as it is written in a sentence.

    Parameters
    ----------
    name : str
        As in `metal_names`.

    Returns
    -------
    str
        For example ``"copper-clad aluminium"``.

    Examples
    --------
    >>> metal_in_words("clad_aluminium"), metal_in_words("silver_plated_copper")
    ('copper-clad aluminium', 'silver-plated copper')
    """
    words = name.replace("clad_", "copper-clad ").replace("_plated_", "-plated ")
    return words.replace("_", " ")


def property_range(metal: str, what: MetalProperty) -> PropertyRange:
    """Range of a property of one kind of strand.

    Parameters
    ----------
    metal : str
        As in `metal_names`.
    what : str
        Property.

    Returns
    -------
    PropertyRange
        Its range.

    Examples
    --------
    >>> property_range("clad_aluminium", "density").upper
    3.63
    """
    table = package_table("metal_properties")
    ends = [table[f"{metal}.{what}.{side}"] for side in ("lower", "upper")]
    worst = max((row.status for row in ends), key=STATUSES.index)
    return PropertyRange(lower=ends[0].value, upper=ends[1].value, status=worst)


@cache
def answers_of(sign: MetalSign) -> tuple[str, ...]:
    """Answers that a reading in words can have.

    Parameters
    ----------
    sign : str
        Kind of reading: magnet, scrape, etch, surface, core, skin.

    Returns
    -------
    tuple of str
        The answers.

    Raises
    ------
    ParameterError
        If there is no such kind of reading.

    Examples
    --------
    >>> answers_of("magnet")
    ('attracted', 'not_attracted')
    """
    if sign not in get_args(MetalSign):
        allowed = f"one of {', '.join(get_args(MetalSign))}"
        raise ParameterError("reading", sign, allowed=allowed)
    start = f"copper.{sign}."
    return tuple(
        key.removeprefix(start)
        for key in package_table("metal_readings")
        if key.startswith(start)
    )


def probability_of_answer(metal: str, sign: MetalSign, answer: str) -> float:
    """Probability of an answer for one kind of strand; judgement throughout.

    Parameters
    ----------
    metal : str
        As in `metal_names`.
    sign : str
        Kind of reading.
    answer : str
        One of `answers_of`.

    Returns
    -------
    float
        Between 0 and 1; the answers of one kind of reading add up to one.

    Raises
    ------
    ParameterError
        If there is no such reading or answer.

    Examples
    --------
    >>> probability_of_answer("silver", "surface", "silver")
    0.96
    """
    answers = answers_of(sign)
    if answer not in answers:
        raise ParameterError(sign, answer, allowed=f"one of {', '.join(answers)}")
    return package_table("metal_readings")[f"{metal}.{sign}.{answer}"].value
