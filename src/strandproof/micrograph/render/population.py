"""What grains and which strands a synthetic section shows: parameter records."""

from dataclasses import dataclass, field
from math import isfinite
from typing import Literal, get_args

from strandproof.errors import ParameterError

GrainFamily = Literal["equiaxed", "twinned", "drawn", "bamboo", "bimodal", "single"]
StrandArrangement = Literal["field", "round", "long", "tape", "bundle"]

GRAIN_FAMILIES: tuple[GrainFamily, ...] = get_args(GrainFamily)
STRAND_ARRANGEMENTS: tuple[StrandArrangement, ...] = get_args(StrandArrangement)


def require_within(name: str, given: float, low: float, high: float) -> None:
    """Raise unless `given` is a finite number from `low` to `high`.

    Raises
    ------
    ParameterError
        If it is not.
    """
    if not (isfinite(given) and low <= given <= high):
        raise ParameterError(
            name, given, allowed=f"a number from {low:g} to {high:g}, ends included"
        )


def require_one_of(name: str, given: str, allowed: tuple[str, ...]) -> None:
    """Raise unless `given` is one of the words allowed.

    Raises
    ------
    ParameterError
        If it is not.
    """
    if given not in allowed:
        raise ParameterError(name, given, allowed="one of " + ", ".join(allowed))


@dataclass(frozen=True, slots=True, kw_only=True)
class TwinHabit:
    """Annealing twins: straight, parallel-sided lamellae inside of grains.

    Parameters
    ----------
    grain_fraction : float
        Share of the grains large enough for it that carry twins, 0 to 1.
    mean_lamellae : float
        Mean number of lamellae in a grain that carries twins, 1 to 6.
    thickness_fraction : tuple of float
        Least and greatest thickness of a lamella as a share of the grain's
        extent across the lamellae, each 0.02 to 0.6.
    ending_fraction : float
        Share of the lamellae that end inside of the grain, 0 to 1.
    corner_fraction : float
        Share of the twinned grains with a cut corner: a twin with one straight
        side that reaches to the grain's edge, 0 to 1.
    crossing_fraction : float
        Share of the twinned grains with a second set of lamellae in another
        direction, which stop at the first set, 0 to 1.
    stepped_fraction : float
        Share of the thicker lamellae with a step in one side, 0 to 1.
    shaped_end_fraction : float
        Share of the ends inside of grains that taper, are lens-shaped, stepped or
        blunt; the others are cut at a slant, 0 to 1.
    thin_fraction : float
        Share of the lamellae drawn 2 to 4 px thin, 0 to 1.

    Raises
    ------
    ParameterError
        If a value lies outside of its range.
    """

    grain_fraction: float = 0.55
    mean_lamellae: float = 1.8
    thickness_fraction: tuple[float, float] = (0.06, 0.35)
    ending_fraction: float = 0.2
    corner_fraction: float = 0.2
    crossing_fraction: float = 0.12
    stepped_fraction: float = field(default=0.15, metadata={"silent": True})
    shaped_end_fraction: float = field(default=0.0, metadata={"silent": True})
    thin_fraction: float = field(default=0.0, metadata={"silent": True})

    def __post_init__(self) -> None:
        require_within("mean_lamellae", self.mean_lamellae, 1, 6)
        for name in (
            "grain_fraction",
            "ending_fraction",
            "corner_fraction",
            "crossing_fraction",
            "stepped_fraction",
            "shaped_end_fraction",
            "thin_fraction",
        ):
            require_within(name, getattr(self, name), 0, 1)
        low, high = self.thickness_fraction
        require_within("thickness_fraction[0]", low, 0.02, 0.6)
        require_within("thickness_fraction[1]", high, low, 0.6)


@dataclass(frozen=True, slots=True, kw_only=True)
class GrainPopulation:
    """The population that the grains of a section are drawn from.

    Parameters
    ----------
    family : {"equiaxed", "twinned", "drawn", "bamboo", "bimodal", "single"}
        Kind of structure. "twinned" is "equiaxed" with annealing twins.
    mean_intercept_um : float or None
        Mean lineal intercept of the population, twins not counted [um]. For
        stretched grains it is the geometric mean of the intercepts along and
        across; for "bamboo" the one along the strand. None for "single".
    size_spread : float
        Standard deviation of ln(radius) of the grain nuclei, 0 to 0.5.
    elongation : float
        Mean intercept along divided by the one across, 1 to 60; 1 for "bamboo"
        and "single", where it means nothing.
    direction_deg : float
        Direction of elongation, or of the bamboo's axis [deg], from the
        picture's +x towards +y upwards, -90 to 90.
    waviness : float
        Size of the bends of the boundaries in grain spacings, 0 to 0.25.
    fine_fraction : float
        "bimodal" only: share of the area with fine grains, 0.05 to 0.95.
    fine_ratio : float
        "bimodal" only: coarse spacing divided by fine spacing, 2 to 8.
    twins : TwinHabit or None
        Twins; needed by "twinned", not allowed in "drawn" and "single" (drawn,
        unannealed copper and an as-cast crystal carry none).

    Raises
    ------
    ParameterError
        If a value lies outside of its range or does not fit the family.

    Examples
    --------
    >>> GrainPopulation(family="drawn", mean_intercept_um=2, elongation=8).elongation
    8
    """

    family: GrainFamily
    mean_intercept_um: float | None
    size_spread: float = 0.3
    elongation: float = 1.0
    direction_deg: float = 0.0
    waviness: float = 0.12
    fine_fraction: float = 0.4
    fine_ratio: float = 4.0
    twins: TwinHabit | None = None

    def __post_init__(self) -> None:
        require_one_of("family", self.family, GRAIN_FAMILIES)
        self._check_intercept()
        require_within("size_spread", self.size_spread, 0, 0.5)
        top = 1 if self.family in {"bamboo", "single"} else 60
        require_within("elongation", self.elongation, 1, top)
        require_within("direction_deg", self.direction_deg, -90, 90)
        require_within("waviness", self.waviness, 0, 0.25)
        require_within("fine_fraction", self.fine_fraction, 0.05, 0.95)
        require_within("fine_ratio", self.fine_ratio, 2, 8)
        self._check_twins()

    def _check_intercept(self) -> None:
        given = self.mean_intercept_um
        if (given is None) != (self.family == "single"):
            raise ParameterError(
                "mean_intercept_um",
                given,
                allowed="a length for all families but 'single', which takes None",
            )
        if given is not None:
            require_within("mean_intercept_um", given, 0.01, 1e5)

    def _check_twins(self) -> None:
        if self.family == "twinned" and self.twins is None:
            raise ParameterError(
                "twins", None, allowed="a TwinHabit for the family 'twinned'"
            )
        if self.family in {"drawn", "single"} and self.twins is not None:
            raise ParameterError(
                "twins", self.twins, allowed=f"None for the family {self.family!r}"
            )


@dataclass(frozen=True, slots=True, kw_only=True)
class StrandLayout:
    """Where in the picture the metal lies.

    Parameters
    ----------
    arrangement : {"field", "round", "long", "tape", "bundle"}
        "field": metal from edge to edge. "round": one round strand. "long": long
        sections with two edges, side by side. "tape": a rectangle with rounded
        corners. "bundle": several round strands, some touching.
    width_um : float or None
        Diameter of a round strand, width of a long section, long side of a tape
        [um]; None for "field".
    thickness_um : float or None
        Short side of a tape [um]; None otherwise.
    axis_deg : float
        Direction of the strand axis, or of the tape's long side [deg], from the
        picture's +x towards +y upwards, -90 to 90.
    count : int
        Number of strands, 1 to 60; more than 1 for "long" and "bundle" only.
    touching_fraction : float
        Share of the strands placed in contact with a neighbour, 0 to 1.
    gap_fraction : float
        Mean gap between strands that do not touch, in widths, 0 to 1.
    roughness : float
        Irregularity of the outline in widths, 0 to 0.05.
    corner_fraction : float
        Corner radius of a tape, in thicknesses, 0.02 to 0.5.

    Raises
    ------
    ParameterError
        If a value lies outside of its range or does not fit the arrangement.

    Examples
    --------
    >>> StrandLayout(arrangement="round", width_um=80).count
    1
    """

    arrangement: StrandArrangement = "field"
    width_um: float | None = None
    thickness_um: float | None = None
    axis_deg: float = 0.0
    count: int = 1
    touching_fraction: float = 0.5
    gap_fraction: float = 0.1
    roughness: float = 0.008
    corner_fraction: float = 0.3

    def __post_init__(self) -> None:
        require_one_of("arrangement", self.arrangement, STRAND_ARRANGEMENTS)
        self._check_size("width_um", needed=self.arrangement != "field")
        self._check_size("thickness_um", needed=self.arrangement == "tape")
        require_within("axis_deg", self.axis_deg, -90, 90)
        several = self.arrangement in {"long", "bundle"}
        require_within("count", self.count, 1, 60 if several else 1)
        require_within("touching_fraction", self.touching_fraction, 0, 1)
        require_within("gap_fraction", self.gap_fraction, 0, 1)
        require_within("roughness", self.roughness, 0, 0.05)
        require_within("corner_fraction", self.corner_fraction, 0.02, 0.5)

    def _check_size(self, name: str, *, needed: bool) -> None:
        given = getattr(self, name)
        if (given is not None) != needed:
            words = "a length" if needed else "None"
            raise ParameterError(
                name,
                given,
                allowed=f"{words} for the arrangement {self.arrangement!r}",
            )
        if given is not None:
            require_within(name, given, 0.01, 1e6)
