"""What a drawing has to match of the user's picture."""

from dataclasses import dataclass
from typing import Literal

from strandproof.errors import ParameterError

Direction = Literal["longitudinal", "transverse"]

FEWEST_PX = 4.0
"""Least mean intercept that can be drawn [px]."""
_FEWEST_SIDE = 80  # room for the mark SYNTHETIC and a little metal
_MOST_PIXELS = 30_000_000


@dataclass(frozen=True, slots=True, kw_only=True)
class Scene:
    """What the user's picture shows, as far as a drawing has to match it.

    Parameters
    ----------
    shape : tuple of int
        Rows and columns [px].
    um_per_px : float
        Pixel size [um].
    direction : {"longitudinal", "transverse"}
        Direction of the section.
    strand_um : float or None
        Width of the strand [um]; None draws metal from edge to edge.
    axis_deg : float
        Direction of the strand in the picture [deg], anticlockwise from the rows.
    mean_intercept_um : float
        Mean lineal intercept that annealed grains are drawn with [um].
    colour : bool
        False for a grey picture.

    Raises
    ------
    ParameterError
        If the grains would be too fine to be drawn, or the picture is too small or too
        large.
    """

    shape: tuple[int, int]
    um_per_px: float
    direction: Direction
    strand_um: float | None
    axis_deg: float
    mean_intercept_um: float
    colour: bool

    def __post_init__(self) -> None:
        finest = FEWEST_PX * self.um_per_px
        if not self.mean_intercept_um >= finest:
            raise ParameterError(
                "mean_intercept_um",
                self.mean_intercept_um,
                allowed=f"at least {finest:.3g}, which is {FEWEST_PX:g} pixels of this "
                "picture",
                remedy="Finer grains would not be resolved at this scale, in a drawing "
                "or in metal.",
            )
        rows, columns = self.shape
        if min(rows, columns) < _FEWEST_SIDE or rows * columns > _MOST_PIXELS:
            raise ParameterError(
                "size of the picture",
                self.shape,
                allowed=f"{_FEWEST_SIDE} pixels or more each way, at most "
                f"{_MOST_PIXELS / 1e6:g} million pixels",
                remedy="Cut out the part to be compared, at its own scale.",
            )
