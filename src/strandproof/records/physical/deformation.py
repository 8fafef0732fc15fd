"""Slip traces on pictures, and what comparing before and after decides."""

from dataclasses import dataclass
from typing import Literal

from strandproof.quantity import Interval
from strandproof.records.flags import Flag

DeformationVerdict = Literal["changed", "not changed", "cannot tell"]
Objection = Literal["bending", "heat", "preparation"]


@dataclass(frozen=True, slots=True, kw_only=True)
class SlipTraceField:
    """Straight fine lines found on one picture.

    Parameters
    ----------
    name : str
        Picture it comes from.
    lines_per_mm : float
        Length of line per area, which for parallel lines is the number crossed per
        mm at right angles to them [1/mm].
    directions_deg : tuple of float
        Middles of direction classes, from the picture's +x towards +y upwards [deg].
    lines_per_mm_by_direction : tuple of float
        Part of `lines_per_mm` in each class [1/mm].
    main_direction_deg : float or None
        Mean direction, 0 up to 180 [deg]; None without a line.
    alignment : float
        Length of the mean vector of the doubled directions: 1 for parallel lines, 0
        for all directions alike.
    area_mm2 : float
        Metal looked at [mm2].
    """

    name: str
    lines_per_mm: float
    directions_deg: tuple[float, ...]
    lines_per_mm_by_direction: tuple[float, ...]
    main_direction_deg: float | None
    alignment: float
    area_mm2: float


@dataclass(frozen=True, slots=True, kw_only=True)
class HandlingFacts:
    """What was done to the strand between the two sets of pictures.

    Parameters
    ----------
    handling : str
        In words, for example ``"bent ten times round 5 mm"``.
    polished_before : bool or None
        Whether the surface was polished before it; None: nothing is said.
    touched_after : bool or None
        Whether the surface was polished or etched again after it; None: nothing is
        said.
    objection : {"bending", "heat", "preparation"}
        Objection that the comparison is meant to answer.
    """

    handling: str
    polished_before: bool | None
    touched_after: bool | None
    objection: Objection


@dataclass(frozen=True, slots=True, kw_only=True)
class DeformationComparison:
    """Whether handling changed the slip traces of a strand.

    Parameters
    ----------
    before, after : tuple of SlipTraceField
        The fields compared.
    facts : HandlingFacts
        What was done between.
    difference : Interval or None
        Difference of the mean lines per mm, after less before [1/mm]; None with
        fewer than two fields on a side.
    density_probability, direction_probability : float or None
        Chance of a difference at least as large if nothing changed, by permutation of
        the fields; None where too few fields allow none.
    change_that_matters : float
        Change of the lines per mm that counts [1/mm].
    error_rate : float
        Stated chance of a wrong word.
    verdict : {"changed", "not changed", "cannot tell"}
        The decision.
    sentences : tuple of str
        The decision, its reason, the objection it answers and the one it does not.
    flags : tuple of Flag
        What a reader has to know.
    """

    before: tuple[SlipTraceField, ...]
    after: tuple[SlipTraceField, ...]
    facts: HandlingFacts
    difference: Interval | None
    density_probability: float | None
    direction_probability: float | None
    change_that_matters: float
    error_rate: float
    verdict: DeformationVerdict
    sentences: tuple[str, ...]
    flags: tuple[Flag, ...]
