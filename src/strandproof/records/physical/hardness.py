"""Vickers hardness: indentations, what a machine adds, the result."""

from dataclasses import dataclass
from typing import Literal

from strandproof.quantity import Input, Interval, Quantity
from strandproof.records.flags import Flag

CopperState = Literal["annealed", "between", "worked", "undetermined"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Indentation:
    """One Vickers indentation as it was read.

    Parameters
    ----------
    first_diagonal_um, second_diagonal_um : float
        The two diagonals [um]; above zero.
    edge_um : float or None
        Least distance from its centre to the edge of the metal [um]; None where
        it was not measured.
    next_um : float or None
        Distance from its centre to that of the nearest other indentation [um];
        None where it was not measured.
    """

    first_diagonal_um: float
    second_diagonal_um: float
    edge_um: float | None = None
    next_um: float | None = None

    @property
    def mean_diagonal_um(self) -> float:
        """Mean of the two diagonals [um]."""
        return 0.5 * (self.first_diagonal_um + self.second_diagonal_um)


@dataclass(frozen=True, slots=True, kw_only=True)
class HardnessMeasurement:
    """All indentations of one specimen at one force.

    Parameters
    ----------
    indentations : tuple of Indentation
        One or more; their scatter needs two.
    force : Input
        Test force [N].
    diagonal_error : Input
        Error of reading a diagonal that all indentations share (scale, focus,
        reader), estimate zero [um].
    block : Input or None
        Factor from a reference block, estimate 1 [1], with its uncertainty; None
        where no block was indented.
    wire_diameter_um : float or None
        Diameter of a round wire indented on a section across it [um].
    thickness_um : float or None
        Metal under the indentation [um].
    """

    indentations: tuple[Indentation, ...]
    force: Input
    diagonal_error: Input
    block: Input | None = None
    wire_diameter_um: float | None = None
    thickness_um: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class HardnessResult:
    """Hardness of one specimen.

    Parameters
    ----------
    values_hv : tuple of float
        Hardness of each indentation [HV].
    hardness : Quantity
        Mean hardness [HV], with budget.
    interval : Interval
        95 % interval.
    coverage_factor : float
        Factor from the standard uncertainty to half the interval.
    state : {"annealed", "between", "worked", "undetermined"}
        Where the interval lies against the ranges of copper; undetermined where
        it reaches across an end of one.
    sentence : str
        The finding in words.
    flags : tuple of Flag
        What a reader has to know.
    """

    values_hv: tuple[float, ...]
    hardness: Quantity
    interval: Interval
    coverage_factor: float
    state: CopperState
    sentence: str
    flags: tuple[Flag, ...]
