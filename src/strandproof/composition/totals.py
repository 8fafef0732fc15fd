"""Total of impurities of a certificate, with elements below their detection limits."""

from collections.abc import Sequence
from dataclasses import dataclass
from math import fsum, sqrt

from strandproof.composition.nines import purity_in_words
from strandproof.quantity import Interval, coverage_factor
from strandproof.records.composition import Basis, Certificate, ElementContent
from strandproof.tables import package_table, table_value

GASES = ("H", "C", "N", "O", "S")
"""Elements that a purity on metals basis usually leaves out."""

ONE_SIDED = 0.95
# 1.645 would give 95 % where every stated uncertainty is right; 2 still does where
# they are a sixth too small, as they may be on a certificate (judgement).
_BOUND_FACTOR = 2.0


@dataclass(frozen=True, slots=True, kw_only=True)
class LimitTreatment:
    """Total under one assumption on the elements below their limits.

    Parameters
    ----------
    name : str
        ``"uniform"`` or ``"triangular"``.
    assumption : str
        What is assumed of an element below its limit, in words.
    expected_ppm : float
        Expected total [ppm by mass].
    interval : Interval
        95 % interval of the total [ppm by mass], lower end not below zero.
    """

    name: str
    assumption: str
    expected_ppm: float
    interval: Interval


@dataclass(frozen=True, slots=True, kw_only=True)
class ImpurityTotal:
    """Total of the listed impurities on one basis.

    Parameters
    ----------
    basis : Basis
        What was counted.
    detected_ppm : float
        Sum of the elements that have a number [ppm by mass].
    limits_ppm : float
        Sum of the detection limits of those below them [ppm by mass].
    standard_uncertainty : float
        Of `detected_ppm` [ppm by mass].
    bound : Interval
        Upper bound of the listed total, one-sided 95 % [ppm by mass]: every element
        below its limit is taken at the limit.
    treatments : tuple of LimitTreatment
        The total under two assumptions; equal where nothing is below a limit.
    elements : tuple of str
        Elements counted.
    left_out : tuple of str
        Elements listed and not counted on this basis.
    uncertainty_assumed : bool
        True where an element's uncertainty is this project's rule.
    """

    basis: Basis
    detected_ppm: float
    limits_ppm: float
    standard_uncertainty: float
    bound: Interval
    treatments: tuple[LimitTreatment, ...]
    elements: tuple[str, ...]
    left_out: tuple[str, ...]
    uncertainty_assumed: bool

    @property
    def lowest_ppm(self) -> float:
        """Hard lower end: every element below its limit is absent [ppm by mass]."""
        return self.detected_ppm

    @property
    def highest_ppm(self) -> float:
        """Hard upper end: each lies at its limit; numbers as stated [ppm by mass]."""
        return self.detected_ppm + self.limits_ppm

    @property
    def bound_ppm(self) -> float:
        """The one-sided bound [ppm by mass]."""
        return self.bound.upper or 0.0

    @property
    def sentence(self) -> str:
        """What the listed elements leave, in words."""
        scope = BASIS_WORDS[self.basis]
        return (
            f"{scope}: {len(self.elements)} elements, at most {self.bound_ppm:.3g} ppm "
            f"(95 %, one-sided), so the listed elements leave "
            f"{purity_in_words(min(self.bound_ppm, 1e6))} or more; an element that is "
            "not listed is not zero."
        )


BASIS_WORDS = {
    Basis.METALS_ONLY: f"Metals only, without {', '.join(GASES)}",
    Basis.GASES_IN: "Everything listed, gases in",
    Basis.BY_DIFFERENCE: "By difference, 100 % less everything listed",
    Basis.NOT_STATED: "Basis not stated, everything listed",
}
"""What each basis counts, in words."""


def impurity_total(
    certificate: Certificate,
    *,
    basis: Basis,
    relative_uncertainty: float | None = None,
) -> ImpurityTotal:
    """Add up the impurities of a certificate on one basis.

    An element below its detection limit lies between zero and the limit; nothing else
    is known. The bound takes each at its limit and so holds whatever the truth is. Two
    assumptions show what is likelier: every content up to the limit alike (uniform),
    or falling from zero to the limit (triangular). It fails for an element that the
    laboratory did not look for: that one is not in the sum.

    Parameters
    ----------
    certificate : Certificate
        As entered.
    basis : Basis
        What is counted. Elements that the certificate counts as copper are left out
        on every basis.
    relative_uncertainty : float, optional
        Relative standard uncertainty of a number that has none stated, 0 or above;
        None takes the rule of the table ``composition_rules``.

    Returns
    -------
    ImpurityTotal
        Sum, bounds and treatments [ppm by mass].

    Notes
    -----
    Uniform: mean L/2, u = L/sqrt(12). Triangular with its mode at zero: mean L/3,
    u = L/sqrt(18). Bound: sum of numbers + 2 u + sum of limits; 2 in place of 1.645 is
    this project's judgement, for uncertainties that are stated a little too small.

    References
    ----------
    JCGM 100:2008, 4.3.7 to 4.3.9.

    Examples
    --------
    >>> one = ElementContent(symbol="Fe", state="value", ppm=3.0)
    >>> two = ElementContent(symbol="Ni", state="below", ppm=2.0)
    >>> paper = Certificate(item="rod", contents=(one, two))
    >>> total = impurity_total(paper, basis=Basis.METALS_ONLY)
    >>> total.lowest_ppm, total.highest_ppm
    (3.0, 5.0)
    """
    if relative_uncertainty is None:
        rules = package_table("composition_rules")
        relative_uncertainty = table_value(rules, "assumed_relative_uncertainty")
    skipped = {*certificate.copper_includes}
    skipped |= {*GASES} if basis is Basis.METALS_ONLY else set()
    counted = [one for one in certificate.measured if one.symbol not in skipped]
    detected = [one for one in counted if one.state == "value"]
    limits = [one.ppm or 0.0 for one in counted if one.state == "below"]
    total = fsum(one.ppm or 0.0 for one in detected)
    u = sqrt(fsum(_squared(one, relative_uncertainty) for one in detected))
    return ImpurityTotal(
        basis=basis,
        detected_ppm=total,
        limits_ppm=fsum(limits),
        standard_uncertainty=u,
        bound=_bound(total, u, limits),
        treatments=_treatments(total, u, limits),
        elements=tuple(one.symbol for one in counted),
        left_out=tuple(
            one.symbol for one in certificate.measured if one.symbol in skipped
        ),
        uncertainty_assumed=any(one.standard_uncertainty is None for one in detected),
    )


def _squared(content: ElementContent, relative: float) -> float:
    u = content.standard_uncertainty
    return (relative * (content.ppm or 0.0) if u is None else u) ** 2


def _bound(total: float, u: float, limits: Sequence[float]) -> Interval:
    return Interval(
        lower=None,
        upper=total + _BOUND_FACTOR * u + fsum(limits),
        unit="ppm",
        confidence=ONE_SIDED,
        method="sum of numbers, their uncertainty, and every element below its "
        "detection limit taken at the limit",
    )


def _treatments(
    total: float, u: float, limits: Sequence[float]
) -> tuple[LimitTreatment, ...]:
    squares = fsum(limit**2 for limit in limits)
    laws = (
        ("uniform", 2, 12, "every content up to the limit alike"),
        ("triangular", 3, 18, "contents near zero likelier, falling to the limit"),
    )
    factor = coverage_factor(0.95)
    found = []
    for name, mean_part, square_part, assumption in laws:
        expected = total + fsum(limits) / mean_part
        half = factor * sqrt(u**2 + squares / square_part)
        interval = Interval(
            lower=max(0.0, expected - half),
            upper=expected + half,
            unit="ppm",
            confidence=0.95,
            method=f"{name} below each detection limit, normal total",
        )
        found.append(
            LimitTreatment(
                name=name,
                assumption=assumption,
                expected_ppm=expected,
                interval=interval,
            )
        )
    return tuple(found)
