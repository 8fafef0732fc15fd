"""What a section shows of size: strand faces, flat tape, thickness of a layer."""

from dataclasses import dataclass
from math import isfinite
from typing import Literal

from strandproof.errors import ParameterError
from strandproof.quantity import Interval, Quantity
from strandproof.records.flags import Flag

SectionMethod = Literal["picture", "readings"]


@dataclass(frozen=True, slots=True, kw_only=True)
class EdgeKnowledge:
    """How sharply a picture shows an edge, and how large its pixels are.

    Parameters
    ----------
    pixel_size : Quantity
        Pixel size [um], with its standard uncertainty.
    resolution_um : float or None
        Width over which an edge is blurred, from 10 % to 90 % of its step or the
        resolution of objective and camera [um]; None where nobody measured it.

    Raises
    ------
    ParameterError
        If a number is not above zero, or the unit is not um.
    """

    pixel_size: Quantity
    resolution_um: float | None = None

    def __post_init__(self) -> None:
        if self.pixel_size.unit != "um" or not self.pixel_size.value > 0:
            raise ParameterError(
                "pixel_size",
                (self.pixel_size.value, self.pixel_size.unit),
                allowed="a size above zero in um",
            )
        resolution = self.resolution_um
        if resolution is not None and not (isfinite(resolution) and resolution > 0):
            raise ParameterError("resolution_um", resolution, allowed="above zero")

    @property
    def blur_um(self) -> float:
        """Width of an edge [um]: the resolution, two pixels at least."""
        return max(self.resolution_um or 0.0, 2.0 * self.pixel_size.value)


@dataclass(frozen=True, slots=True, kw_only=True)
class StrandFace:
    """One strand's face on a section.

    Parameters
    ----------
    number : int
        Number of the strand.
    area : Quantity
        Metal area [um^2].
    mean_diameter : Quantity
        Mean of the diameters in several directions [um].
    smallest_um, largest_um : float
        Smallest and largest of them [um].
    ovality : float or None
        Largest less smallest over the mean; None with one direction only.
    directions : int
        Directions measured.
    """

    number: int
    area: Quantity
    mean_diameter: Quantity
    smallest_um: float
    largest_um: float
    ovality: float | None
    directions: int


@dataclass(frozen=True, slots=True, kw_only=True)
class SectionGeometry:
    """Number, size and area of the strands on a section.

    Parameters
    ----------
    method : {"picture", "readings"}
        Measured on labels of a picture, or entered by hand.
    strands : int
        Strands that the area is of.
    faces : tuple of StrandFace
        The faces measured.
    cut_faces : int
        Faces left out because the frame of the picture cuts them.
    total_area : Quantity
        Metal area of all strands [mm^2].
    mean_diameter : Quantity
        Mean diameter of the strands [um].
    flags : tuple of Flag
        What a reader has to know.
    """

    method: SectionMethod
    strands: int
    faces: tuple[StrandFace, ...]
    cut_faces: int
    total_area: Quantity
    mean_diameter: Quantity
    flags: tuple[Flag, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class TapeSection:
    """A flat tape on a section across it.

    Parameters
    ----------
    thickness : Quantity
        Mean thickness away from the two ends [um].
    smallest_um, largest_um : float
        Smallest and largest thickness at one place [um].
    places : int
        Places along the width that were measured.
    width : Quantity
        Width from end to end [um].
    area : Quantity
        Metal area, ends included [mm^2].
    flags : tuple of Flag
        What a reader has to know.
    """

    thickness: Quantity
    smallest_um: float
    largest_um: float
    places: int
    width: Quantity
    area: Quantity
    flags: tuple[Flag, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class LayerReadings:
    """Thickness of a layer read at several places round a section.

    Parameters
    ----------
    readings_um : tuple of float
        Readings [um]; two or more, above zero.
    resolution_um : float
        Width over which the picture blurs an edge [um].
    scale_uncertainty_percent : float
        Standard uncertainty of the pixel size [%].
    diameters_um : tuple of float or None
        Smallest and largest outer diameter of the same section [um], to correct for
        an oblique cut; None where the tilt is given instead or nothing is known.
    largest_tilt_deg : float
        Largest tilt of the section from square across [deg], from 0 to 60; used
        where no diameters are given.

    Raises
    ------
    ParameterError
        If a number is out of range.
    """

    readings_um: tuple[float, ...]
    resolution_um: float
    scale_uncertainty_percent: float = 0.0
    diameters_um: tuple[float, float] | None = None
    largest_tilt_deg: float = 0.0

    def __post_init__(self) -> None:
        if len(self.readings_um) < 2 or not all(
            isfinite(each) and each > 0 for each in self.readings_um
        ):
            raise ParameterError(
                "readings_um",
                self.readings_um,
                allowed="two or more readings above zero, in um",
                remedy="Read the layer at several places round the section.",
            )
        if not (isfinite(self.resolution_um) and self.resolution_um > 0):
            raise ParameterError(
                "resolution_um", self.resolution_um, allowed="above zero"
            )
        if not 0 <= self.scale_uncertainty_percent < 100:
            raise ParameterError(
                "scale_uncertainty_percent",
                self.scale_uncertainty_percent,
                allowed="from 0 to below 100",
            )
        if not 0 <= self.largest_tilt_deg <= 60:
            raise ParameterError(
                "largest_tilt_deg", self.largest_tilt_deg, allowed="from 0 to 60"
            )
        if self.diameters_um is not None and not (
            0.5 * self.diameters_um[1] <= self.diameters_um[0] <= self.diameters_um[1]
        ):
            raise ParameterError(
                "diameters_um",
                self.diameters_um,
                allowed="smallest and largest diameter, the smallest at least half",
            )


@dataclass(frozen=True, slots=True, kw_only=True)
class LayerThickness:
    """Thickness of a layer on a section.

    Parameters
    ----------
    thickness : Quantity
        Mean thickness round the section [um], with budget.
    interval : Interval
        Its 95 % interval.
    coverage_factor : float
        Factor from the standard uncertainty to half the interval.
    smallest_um, largest_um : float
        Smallest and largest reading, uncorrected [um].
    readings : int
        Readings.
    oblique_factor : float
        Factor from the mean reading to the thickness, 1 for a square cut.
    flags : tuple of Flag
        What a reader has to know.
    """

    thickness: Quantity
    interval: Interval
    coverage_factor: float
    smallest_um: float
    largest_um: float
    readings: int
    oblique_factor: float
    flags: tuple[Flag, ...]
