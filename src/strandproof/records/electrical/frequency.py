"""A wire or bundle of strands at frequency: what it is made of, what it does."""

from dataclasses import dataclass
from math import isfinite
from typing import Literal

from strandproof.errors import ParameterError
from strandproof.quantity import Quantity

StrandContact = Literal["insulated", "touching"]
"""Enamelled strands in transposed twist, or bare strands in contact."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ConductingMetal:
    """What a metal is to a current that alternates.

    Parameters
    ----------
    name : str
        Name in words.
    resistivity_ohm_m : float
        Volume resistivity at the wire's temperature [ohm m]; above zero.
    relative_permeability : float
        Relative permeability, taken as constant and without loss [1]; 1 or more.

    Raises
    ------
    ParameterError
        If a number is out of range.
    """

    name: str
    resistivity_ohm_m: float
    relative_permeability: float = 1.0

    def __post_init__(self) -> None:
        if not (isfinite(self.resistivity_ohm_m) and self.resistivity_ohm_m > 0):
            raise ParameterError(
                "resistivity_ohm_m", self.resistivity_ohm_m, allowed="above zero"
            )
        if not (
            isfinite(self.relative_permeability) and self.relative_permeability >= 1
        ):
            raise ParameterError(
                "relative_permeability", self.relative_permeability, allowed="1 or more"
            )


@dataclass(frozen=True, slots=True, kw_only=True)
class WireLayer:
    """A layer of even thickness on a round wire.

    Parameters
    ----------
    metal : ConductingMetal
        Its metal.
    thickness_um : float
        Thickness [um]; above zero.

    Raises
    ------
    ParameterError
        If the thickness is not above zero.
    """

    metal: ConductingMetal
    thickness_um: float

    def __post_init__(self) -> None:
        if not (isfinite(self.thickness_um) and self.thickness_um > 0):
            raise ParameterError(
                "thickness_um", self.thickness_um, allowed="above zero"
            )


@dataclass(frozen=True, slots=True, kw_only=True)
class RoundWire:
    """A round wire, bare or with layers.

    Parameters
    ----------
    diameter_mm : float
        Outer diameter of the metal, layers included [mm]; above zero, up to 100.
    core : ConductingMetal
        Metal of the core.
    layers : tuple of WireLayer
        Layers from the core outwards; empty for a bare wire.

    Raises
    ------
    ParameterError
        If the diameter is out of range or the layers leave no core.
    """

    diameter_mm: float
    core: ConductingMetal
    layers: tuple[WireLayer, ...] = ()

    def __post_init__(self) -> None:
        if not 0 < self.diameter_mm <= 100:
            raise ParameterError(
                "diameter_mm", self.diameter_mm, allowed="above 0 and up to 100 mm"
            )
        if not self.core_radius_m > 1e-9 * self.radius_m:
            raise ParameterError(
                "layers",
                [layer.thickness_um for layer in self.layers],
                allowed="thicknesses that leave a core, in um",
            )

    @property
    def radius_m(self) -> float:
        """Outer radius [m]."""
        return 0.5e-3 * self.diameter_mm

    @property
    def core_radius_m(self) -> float:
        """Radius under all layers [m]."""
        return self.radius_m - 1e-6 * sum(layer.thickness_um for layer in self.layers)


@dataclass(frozen=True, slots=True, kw_only=True)
class StrandBundle:
    """One round wire, or several alike in parallel in one round bundle.

    Parameters
    ----------
    wire : RoundWire
        One strand.
    strands : int
        Strands; 1 or more.
    contact : {"insulated", "touching"}
        Insulated strands that all change places along the cable, or bare strands
        in contact, taken as one wire of the bundle's diameter.
    diameter_mm : float or None
        Diameter of the bundle over the metal of the outermost strands [mm]; None
        packs the strands as densely as round strands lie, without insulation.
    lay_length_mm : float or None
        Length of cable for one turn of the outer strands [mm]; None for straight.

    Raises
    ------
    ParameterError
        If there is no strand, or a length is not above zero.
    """

    wire: RoundWire
    strands: int = 1
    contact: StrandContact = "insulated"
    diameter_mm: float | None = None
    lay_length_mm: float | None = None

    def __post_init__(self) -> None:
        if not 1 <= self.strands <= 5000:
            raise ParameterError("strands", self.strands, allowed="from 1 to 5000")
        for name in ("diameter_mm", "lay_length_mm"):
            value = getattr(self, name)
            if value is not None and not (isfinite(value) and value > 0):
                raise ParameterError(name, value, allowed="above zero, in mm")
        if self.contact == "touching" and self.wire.layers:
            raise ParameterError(
                "contact",
                self.contact,
                allowed="'touching' for bare strands of one metal only",
                remedy="For plated strands that touch no formula is offered: give "
                "them as insulated (too low) and as one solid wire (too high).",
            )


@dataclass(frozen=True, slots=True, kw_only=True)
class FrequencyPoint:
    """A conductor at one frequency, per metre of cable.

    Parameters
    ----------
    frequency_hz : float
        Frequency [Hz].
    resistance_ohm_per_m : float
        Resistance [ohm/m].
    ratio : float
        It over the resistance at direct current, 1 or more [1].
    proximity_share : float
        What the field of the other strands adds to `ratio`; 0 for one wire [1].
    internal_inductance_nh_per_m : float or None
        Inductance of the field inside of the metal [nH/m]; None for a bundle.
    skin_depth_mm : float
        Skin depth of the core's metal [mm].
    """

    frequency_hz: float
    resistance_ohm_per_m: float
    ratio: float
    proximity_share: float
    internal_inductance_nh_per_m: float | None
    skin_depth_mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class FrequencyResponse:
    """A conductor over a range of frequencies.

    Parameters
    ----------
    bundle : StrandBundle
        What it is.
    model : str
        How it was computed, and what that leaves out.
    dc_resistance_ohm_per_m : float
        Resistance at direct current, lay included [ohm/m].
    bundle_diameter_mm : float
        Diameter of the bundle over metal that was used [mm].
    lay_factor : float
        Length of a strand over that of the cable [1].
    points : tuple of FrequencyPoint
        Rising in frequency.
    audio : FrequencyPoint
        The same at 20 kHz.
    audio_ratio : Quantity
        Resistance at 20 kHz over that at direct current, with what the
        uncertainties of diameter and resistivity make of it [1].
    """

    bundle: StrandBundle
    model: str
    dc_resistance_ohm_per_m: float
    bundle_diameter_mm: float
    lay_factor: float
    points: tuple[FrequencyPoint, ...]
    audio: FrequencyPoint
    audio_ratio: Quantity
