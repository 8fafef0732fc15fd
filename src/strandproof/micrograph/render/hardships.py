"""What makes a section hard to read, beyond etch and polish: records.

Every default is "none": a section drawn without these records is the same to the
byte as before they were added. The ranges are judgement.
"""

from dataclasses import dataclass, fields, is_dataclass
from typing import Any, ClassVar

from strandproof.micrograph.render.population import require_within


class Ranged:
    """A record whose numbers must lie within `RANGES`."""

    __slots__ = ()
    RANGES: ClassVar[dict[str, tuple[float, float]]] = {}

    def __post_init__(self) -> None:
        check_ranges(self, self.RANGES)


def check_ranges(record: object, ranges: dict[str, tuple[float, float]]) -> None:
    """Raise unless each named number of a record lies within its range.

    Raises
    ------
    ParameterError
        If one does not.
    """
    for name, (low, high) in ranges.items():
        require_within(name, getattr(record, name), low, high)


def told(record: Any) -> dict[str, object]:  # noqa: ANN401 (any record of parameters)
    """Return a record's fields as plain values, for the metadata of a picture.

    A field marked "silent" is left out while it has its default: a section drawn
    without it says what it said before the field existed.
    """
    said: dict[str, object] = {}
    for item in fields(record):
        value = getattr(record, item.name)
        if item.metadata.get("silent") and value == _default(item):
            continue
        said[item.name] = told(value) if is_dataclass(value) else value
    return said


def _default(item: Any) -> object:  # noqa: ANN401 (dataclasses.Field is not generic here)
    return item.default_factory() if callable(item.default_factory) else item.default


@dataclass(frozen=True, slots=True, kw_only=True)
class Deformation(Ranged):
    """Bands with clear edges, and hard slip lines. None of them is a boundary.

    Parameters
    ----------
    bands : float
        Step of brightness and hue in wavy bands that end inside of the crystal,
        0 (none) to 1 (as weak grain contrast).
    band_spacing_px : float
        Mean distance between bands of a crystal [px], 15 to 500.
    band_edge_px : float
        Greatest width of a band's edge [px], 1 to 20; the least is 1.5.
    band_hue : float
        Hue of the bands as a share of their step, 0 to 1.
    kinks : float
        Strength of narrow bands between two straight parallel lines, 0 to 1.
    banded_fraction : float
        Share of the crystals with bands, and with kinks, 0 to 1.
    slip_crowding : float
        Density of the slip lines in `Etch.slip_traces`, in ordinary ones, 1 to 6.
    slip_darkness : float
        Darkness of the darkest slip line, 0.1 to 0.95.
    slip_persistence : float
        Least share of a slip line's strength along its length, 0 to 1; 1 draws
        it from one side of the crystal to the other.

    Raises
    ------
    ParameterError
        If a value lies outside of its range.
    """

    bands: float = 0.0
    band_spacing_px: float = 90.0
    band_edge_px: float = 6.0
    band_hue: float = 0.3
    kinks: float = 0.0
    banded_fraction: float = 0.7
    slip_crowding: float = 1.0
    slip_darkness: float = 0.6
    slip_persistence: float = 0.0

    RANGES: ClassVar[dict[str, tuple[float, float]]] = {
        "bands": (0, 1),
        "band_spacing_px": (15, 500),
        "band_edge_px": (1, 20),
        "band_hue": (0, 1),
        "kinks": (0, 1),
        "banded_fraction": (0, 1),
        "slip_crowding": (1, 6),
        "slip_darkness": (0.1, 0.95),
        "slip_persistence": (0, 1),
    }

    def draws_bands(self) -> bool:
        """Return whether there are bands or kinks to draw."""
        return self.bands > 0 or self.kinks > 0


@dataclass(frozen=True, slots=True, kw_only=True)
class Dots(Ranged):
    """Round pits all over the metal, larger than those of the texture "pitted".

    Parameters
    ----------
    coverage : float
        Share of the metal under pits where they are evenly spread, 0 to 0.3.
    radius_px : float
        Radius of a typical pit [px], 0.8 to 6.
    rim : float
        Rim of a pit, -1 (dark) over 0 (none) to 1 (bright).
    clustering : float
        How unevenly pits lie, 0 (everywhere) to 1 (in clusters).

    Raises
    ------
    ParameterError
        If a value lies outside of its range.
    """

    coverage: float = 0.0
    radius_px: float = 1.5
    rim: float = 0.0
    clustering: float = 0.0

    RANGES: ClassVar[dict[str, tuple[float, float]]] = {
        "coverage": (0, 0.3),
        "radius_px": (0.8, 6),
        "rim": (-1, 1),
        "clustering": (0, 1),
    }


@dataclass(frozen=True, slots=True, kw_only=True)
class Wear(Ranged):
    """Hard traces of grinding and polishing.

    Parameters
    ----------
    deep_scratches : float
        Mean number of scratches across the whole picture, 0 to 60.
    deep_scratch_depth : float
        Darkness of the deepest, 0.1 to 0.95 (as dark as a boundary).
    deep_scratch_width_px : float
        Width of a typical one at half depth [px], 0.8 to 8.
    deep_scratch_directions : int
        Number of their directions, 1 to 3.
    deep_scratch_bow : float
        Bend: greatest height of the arc as a share of the length, 0 to 0.1.
    deep_scratch_flank : float
        Brightness of their raised edges, 0 to 1.
    fine_scratches : float
        Darkness of dense, fine, parallel polishing scratches, 0 to 0.6.
    fine_scratch_spacing_px : float
        Mean distance between these [px], 3 to 40.
    stringers_per_mpx : float
        Rows of inclusions in 10^6 px, all one way, 0 to 60.

    Raises
    ------
    ParameterError
        If a value lies outside of its range.
    """

    deep_scratches: float = 0.0
    deep_scratch_depth: float = 0.7
    deep_scratch_width_px: float = 2.0
    deep_scratch_directions: int = 1
    deep_scratch_bow: float = 0.02
    deep_scratch_flank: float = 0.4
    fine_scratches: float = 0.0
    fine_scratch_spacing_px: float = 8.0
    stringers_per_mpx: float = 0.0

    RANGES: ClassVar[dict[str, tuple[float, float]]] = {
        "deep_scratches": (0, 60),
        "deep_scratch_depth": (0.1, 0.95),
        "deep_scratch_width_px": (0.8, 8),
        "deep_scratch_directions": (1, 3),
        "deep_scratch_bow": (0, 0.1),
        "deep_scratch_flank": (0, 1),
        "fine_scratches": (0, 0.6),
        "fine_scratch_spacing_px": (3, 40),
        "stringers_per_mpx": (0, 60),
    }


@dataclass(frozen=True, slots=True, kw_only=True)
class Unreadable(Ranged):
    """Patches in which nobody could tell a boundary.

    Parameters
    ----------
    defocus_fraction, glare_fraction, smear_fraction : float
        Share of the picture out of focus, saturated by glare, and under opaque
        smears, each 0 to 0.6.
    defocus_blur_px : float
        Standard deviation of the blur out of focus [px], 3 to 16.

    Raises
    ------
    ParameterError
        If a value lies outside of its range.
    """

    defocus_fraction: float = 0.0
    glare_fraction: float = 0.0
    smear_fraction: float = 0.0
    defocus_blur_px: float = 6.0

    RANGES: ClassVar[dict[str, tuple[float, float]]] = {
        "defocus_fraction": (0, 0.6),
        "glare_fraction": (0, 0.6),
        "smear_fraction": (0, 0.6),
        "defocus_blur_px": (3, 16),
    }


@dataclass(frozen=True, slots=True, kw_only=True)
class Resin(Ranged):
    """What the mount beside the metal shows.

    Parameters
    ----------
    fillers_per_mpx : float
        Angular grains of a filler in 10^6 px, 0 to 4000.
    halo : float
        Line at the metal's edge, -1 (dark gap) over 0 to 1 (bright halo).
    structure : float
        Strength of dim lines and clouds seen in transparent resin, 0 to 1.

    Raises
    ------
    ParameterError
        If a value lies outside of its range.
    """

    fillers_per_mpx: float = 0.0
    halo: float = 0.0
    structure: float = 0.0

    RANGES: ClassVar[dict[str, tuple[float, float]]] = {
        "fillers_per_mpx": (0, 4000),
        "halo": (-1, 1),
        "structure": (0, 1),
    }
