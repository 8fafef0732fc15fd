"""Straight and circular test lines on a picture."""

from dataclasses import dataclass
from math import atan2, cos, degrees, hypot, isfinite, pi, sin

from strandproof.errors import ParameterError

Point = tuple[float, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class StraightTestLine:
    """A straight test line.

    Parameters
    ----------
    number : int
        Number of the line in the reading.
    start_px, end_px : tuple of float
        Column and row of the two ends [px]; the centre of the first pixel is
        (0, 0).

    Raises
    ------
    ParameterError
        If the line has no length.
    """

    number: int
    start_px: Point
    end_px: Point

    def __post_init__(self) -> None:
        if not (isfinite(self.length_px) and self.length_px > 0):
            name = f"test line {self.number}"
            raise ParameterError(
                name,
                (self.start_px, self.end_px),
                allowed="two ends at different places",
            )

    @property
    def length_px(self) -> float:
        """Length [px]."""
        return hypot(
            self.end_px[0] - self.start_px[0], self.end_px[1] - self.start_px[1]
        )

    @property
    def direction_deg(self) -> float:
        """Direction [deg], from right towards up, 0 or above and below 180."""
        across = self.end_px[0] - self.start_px[0]
        up = self.start_px[1] - self.end_px[1]
        return degrees(atan2(up, across)) % 180.0

    def position_px(self, along_px: float) -> Point:
        """Column and row of a place on the line.

        Parameters
        ----------
        along_px : float
            Distance from the start [px].

        Returns
        -------
        tuple of float
            Column and row [px].
        """
        share = along_px / self.length_px
        return (
            self.start_px[0] + share * (self.end_px[0] - self.start_px[0]),
            self.start_px[1] + share * (self.end_px[1] - self.start_px[1]),
        )

    def nearest_px(self, point_px: Point) -> float:
        """Distance along the line of the place nearest to a point.

        Parameters
        ----------
        point_px : tuple of float
            Column and row [px].

        Returns
        -------
        float
            Distance from the start [px], from 0 to the length.
        """
        across = self.end_px[0] - self.start_px[0]
        down = self.end_px[1] - self.start_px[1]
        projected = (point_px[0] - self.start_px[0]) * across
        projected += (point_px[1] - self.start_px[1]) * down
        return min(max(projected / self.length_px, 0.0), self.length_px)


@dataclass(frozen=True, slots=True, kw_only=True)
class CircularTestLine:
    """A test circle; it crosses boundaries of all directions alike and has no ends.

    Parameters
    ----------
    number : int
        Number of the circle in the reading.
    centre_px : tuple of float
        Column and row of the centre [px].
    radius_px : float
        Radius [px].

    Raises
    ------
    ParameterError
        If the radius is not above 0.
    """

    number: int
    centre_px: Point
    radius_px: float

    def __post_init__(self) -> None:
        if not (isfinite(self.radius_px) and self.radius_px > 0):
            name = f"radius of test circle {self.number}"
            raise ParameterError(
                name,
                self.radius_px,
                allowed="a length above 0 px",
            )

    @property
    def length_px(self) -> float:
        """Circumference [px]."""
        return 2.0 * pi * self.radius_px

    def position_px(self, along_px: float) -> Point:
        """Column and row of a place on the circle.

        Parameters
        ----------
        along_px : float
            Distance from the rightmost point, first going up [px].

        Returns
        -------
        tuple of float
            Column and row [px].
        """
        angle = along_px / self.radius_px
        return (
            self.centre_px[0] + self.radius_px * cos(angle),
            self.centre_px[1] - self.radius_px * sin(angle),
        )

    def nearest_px(self, point_px: Point) -> float:
        """Distance along the circle of the place nearest to a point.

        Parameters
        ----------
        point_px : tuple of float
            Column and row [px].

        Returns
        -------
        float
            Distance from the rightmost point, first going up [px].
        """
        right = point_px[0] - self.centre_px[0]
        up = self.centre_px[1] - point_px[1]
        return self.radius_px * (atan2(up, right) % (2.0 * pi))


PlacedLine = StraightTestLine | CircularTestLine
"""A test line of either form."""
