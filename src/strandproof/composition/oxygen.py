"""Oxygen from the oxide seen on a polished section, with an interval by field."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from math import exp, fsum, inf, isfinite, sqrt

from scipy.special import gammaincinv

from strandproof.errors import MissingMeasurementError, ParameterError
from strandproof.quantity import Interval, coverage_factor
from strandproof.tables import TableRow, package_table, table_value

_CONFIDENCE = 0.95
_TAIL = (1 - _CONFIDENCE) / 2
_LARGER_UNSEEN = 1.5


@dataclass(frozen=True, slots=True, kw_only=True)
class OxideField:
    """Oxide seen in one field of a polished section, before etching.

    Parameters
    ----------
    oxide : float
        Grid points on oxide, or area of oxide [um^2]; 0 or above.
    whole : float
        All grid points, or area of the field [um^2]; above 0.

    Raises
    ------
    ParameterError
        If the whole is not above 0, or the oxide is negative or more than the whole.
    """

    oxide: float
    whole: float

    def __post_init__(self) -> None:
        if not isfinite(self.whole) or self.whole <= 0:
            raise ParameterError("whole field", self.whole, allowed="above 0")
        if not isfinite(self.oxide) or not 0 <= self.oxide <= self.whole:
            raise ParameterError(
                "oxide", self.oxide, allowed=f"0 to {self.whole:g}, the whole field"
            )

    @property
    def fraction(self) -> float:
        """Area fraction of oxide in this field."""
        return self.oxide / self.whole


@dataclass(frozen=True, slots=True, kw_only=True)
class InclusionOxygen:
    """Oxide fraction of a section and the oxygen that it holds.

    Parameters
    ----------
    fields : int
        Number of fields.
    area_fraction : float
        Mean area fraction of oxide, taken as its volume fraction.
    fraction_interval : Interval
        95 % interval of it; its upper end is open where nothing bounds it.
    oxygen_ppm : float
        Oxygen held as cuprous oxide [ppm by mass].
    oxygen_interval : Interval
        95 % interval of it [ppm by mass].
    cannot_see : str
        What a section cannot see.
    """

    fields: int
    area_fraction: float
    fraction_interval: Interval
    oxygen_ppm: float
    oxygen_interval: Interval
    cannot_see: str


CANNOT_SEE = (
    "It cannot see oxygen in solution (about 2 ppm, from memory), oxide smaller than "
    "the microscope resolves, or oxide torn out in polishing; and what looks like "
    "oxide may be a pore, a sulphide or a stain. It is a value of the section looked "
    "at, not of the length of a wire."
)
"""What a polished section cannot see, in words."""


def oxygen_of_oxide_fraction(
    volume_fraction: float, *, rules: Mapping[str, TableRow] | None = None
) -> float:
    """Turn a volume fraction of cuprous oxide into oxygen by mass.

    Parameters
    ----------
    volume_fraction : float
        Volume fraction of Cu2O, 0 to 1.
    rules : Mapping from str to TableRow, optional
        Densities as in ``composition_rules``; None takes the package's table.

    Returns
    -------
    float
        Oxygen [ppm by mass].

    Raises
    ------
    ParameterError
        If the fraction is outside of 0 to 1.

    Notes
    -----
    w_O = V d_ox f / (V d_ox + (1 - V) d_Cu), with f = M_O / (2 M_Cu + M_O) = 0.1118,
    d_ox = 6.0 g/cm3 (from memory) and d_Cu = 8.96 g/cm3.

    Examples
    --------
    >>> round(oxygen_of_oxide_fraction(6.7e-5), 2)
    5.02
    """
    if not 0 <= volume_fraction <= 1:
        raise ParameterError("volume fraction", volume_fraction, allowed="0 to 1")
    table = package_table("composition_rules") if rules is None else rules
    oxide = volume_fraction * table_value(table, "cuprous_oxide.density")
    copper = (1 - volume_fraction) * table_value(table, "copper.density")
    return 1e6 * oxide * _oxygen_share() / (oxide + copper)


def inclusion_oxygen(
    fields: Sequence[OxideField],
    *,
    counted: str,
    largest_particle: float | None = None,
    rules: Mapping[str, TableRow] | None = None,
) -> InclusionOxygen:
    """Estimate the oxygen held as oxide from several fields of a polished section.

    Assumes fields at random places and oxide that is recognised as such. The area
    fraction of a random section is an unbiased estimate of the volume fraction. Oxide
    is rare and its particles are of unlike size, so the interval is not symmetric: it
    is the wider, at each end, of Student's t over the fields (its upper end on a
    logarithmic scale) and an interval for weighted counts. With strings of oxide along
    the drawing direction, several sections are needed, not more fields of one.

    Parameters
    ----------
    fields : sequence of OxideField
        Two or more, from different places, of about the same size.
    counted : str
        ``"points"`` of a grid, or ``"areas"`` [um^2].
    largest_particle : float, optional
        Area of the largest particle seen, or, where none was seen, of the largest
        that would be expected [um^2], above 0; only for ``"areas"``. Without it the
        field with most oxide is taken for one particle, which is safe and wide.
    rules : Mapping from str to TableRow, optional
        Densities as in ``composition_rules``; None takes the package's table.

    Returns
    -------
    InclusionOxygen
        Fraction, oxygen and their intervals.

    Raises
    ------
    MissingMeasurementError
        If there is one field only.
    ParameterError
        If `counted` or the particle area is not allowed, or points are no whole
        numbers.

    Notes
    -----
    Delesse (1847): area fraction = volume fraction, A_A = V_V; by points P_P = V_V.
    For a sum y of weighted counts with variance v and largest weight w, the ends are
    gamma quantiles of mean y and variance v, and of y + w and v + w^2 (Fay and Feuer,
    from memory); for plain counts this is the exact Poisson interval (Garwood). v is
    that of the fields; for points not less than y; for areas with a largest particle
    a not less than a y/2. w is 1 for points, else 1.5 times the largest particle or
    field: both factors are judgement, ``benchmarks/oxygen_coverage.py`` counts the
    coverage that they give.

    References
    ----------
    ASTM E562 (point counting) by name; its tables were not read. F. Garwood,
    Biometrika 28 (1936) 437. M. P. Fay, E. J. Feuer, Statistics in Medicine 16 (1997)
    791 (from memory).

    Examples
    --------
    >>> seen = [OxideField(oxide=k, whole=400) for k in (1, 0, 2, 1, 0, 1)]
    >>> found = inclusion_oxygen(seen, counted="points")
    >>> round(found.oxygen_ppm)
    156
    """
    _require(fields, counted, largest_particle)
    whole = fsum(one.whole for one in fields)
    fraction = fsum(one.oxide for one in fields) / whole
    lower, upper = _limits(fields, counted, largest_particle)
    lower, upper = lower / whole, None if upper is None else min(1.0, upper / whole)
    ends = [
        None if end is None else oxygen_of_oxide_fraction(end, rules=rules)
        for end in (lower, upper)
    ]
    method = (
        f"wider of Student t over {len(fields)} fields and gamma interval for "
        "weighted counts"
    )
    return InclusionOxygen(
        fields=len(fields),
        area_fraction=fraction,
        fraction_interval=Interval(
            lower=lower, upper=upper, unit="1", confidence=_CONFIDENCE, method=method
        ),
        oxygen_ppm=oxygen_of_oxide_fraction(fraction, rules=rules),
        oxygen_interval=Interval(
            lower=ends[0],
            upper=ends[1],
            unit="ppm",
            confidence=_CONFIDENCE,
            method=method,
        ),
        cannot_see=CANNOT_SEE,
    )


def _oxygen_share() -> float:
    masses = package_table("impurity_resistivity")
    oxygen = table_value(masses, "o.molar_mass")
    return oxygen / (2 * table_value(masses, "cu.molar_mass") + oxygen)


def _require(
    fields: Sequence[OxideField], counted: str, largest_particle: float | None
) -> None:
    if counted not in {"points", "areas"}:
        raise ParameterError("counted", counted, allowed="'points' or 'areas'")
    if len(fields) < 2:
        raise MissingMeasurementError(
            "A second field",
            reason="One field shows no scatter, so no interval can be stated.",
            remedy="Look at several fields at random places of the section.",
        )
    if largest_particle is not None and (
        counted == "points" or not 0 < largest_particle < inf
    ):
        raise ParameterError(
            "largest particle",
            largest_particle,
            allowed="above 0 um^2, with areas only",
        )
    if counted == "points" and any(
        part != int(part) for one in fields for part in (one.oxide, one.whole)
    ):
        raise ParameterError("points", "a fraction", allowed="whole numbers of points")


def _limits(
    fields: Sequence[OxideField], counted: str, largest_particle: float | None
) -> tuple[float, float | None]:
    """Give the ends for the sum of oxide over all fields; None where nothing bounds."""
    total = fsum(one.oxide for one in fields)
    variance = _variance_of_sum(fields)
    if counted == "points":
        # Points on one particle scatter more than chance, never less.
        variance, weight = max(variance, total), 1.0
    else:
        most = max(one.oxide for one in fields)
        largest = most if largest_particle is None else largest_particle
        # The largest particle seen is hardly the largest that there is.
        weight = _LARGER_UNSEEN * largest
    if largest_particle is not None:
        # Half of the largest stands for the mean weight of a particle's area.
        variance = max(variance, total * largest_particle / 2)
    if total == 0:
        return 0.0, _gamma_end(0.0, 0.0, weight) if weight else None
    if variance == 0:
        return total, total + weight
    half = _t_factor(fields) * sqrt(variance)
    lower = min(max(0.0, total - half), _gamma_quantile(total, variance, _TAIL))
    upper = max(total * exp(half / total), _gamma_end(total, variance, weight))
    return lower, upper


def _variance_of_sum(fields: Sequence[OxideField]) -> float:
    """Variance of the sum of oxide, from the scatter of fields about their share."""
    count = len(fields)
    whole = fsum(one.whole for one in fields)
    share = fsum(one.oxide for one in fields) / whole
    squares = fsum((one.oxide - share * one.whole) ** 2 for one in fields)
    return squares * count / (count - 1)


def _t_factor(fields: Sequence[OxideField]) -> float:
    return coverage_factor(_CONFIDENCE, degrees_of_freedom=len(fields) - 1)


def _gamma_quantile(mean: float, variance: float, share: float) -> float:
    return float(gammaincinv(mean**2 / variance, share)) * variance / mean


def _gamma_end(total: float, variance: float, weight: float) -> float:
    return _gamma_quantile(total + weight, variance + weight**2, 1 - _TAIL)
