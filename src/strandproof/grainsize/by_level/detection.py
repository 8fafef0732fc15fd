"""Boundaries missed and lines taken for boundaries, from known pieces like this one.

A reader or a program that is shown pieces whose boundaries are known gives two
rates: which share of the boundaries it finds, and how many lines it takes for
boundaries. Both change a mean intercept by one factor; how surely that factor is
known joins the interval.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from math import fsum, sqrt

from strandproof.errors import ParameterError
from strandproof.quantity import Interval, binomial_interval, poisson_interval


@dataclass(frozen=True, slots=True, kw_only=True)
class KnownPiece:
    """Crossings of test lines on one piece whose boundaries are known.

    Parameters
    ----------
    name : str
        The piece.
    family : str
        Kind of structure, preparation and picture that it stands for.
    shown : int
        Boundaries that the test lines cross in truth; 1 or more.
    found : int
        Those of them that were found; at most `shown`.
    false : int
        Crossings reported where there is no boundary (scratches, twins, slip
        traces); zero or above.

    Raises
    ------
    ParameterError
        If a count is outside of its range.
    """

    name: str
    family: str
    shown: int
    found: int
    false: int

    def __post_init__(self) -> None:
        if self.shown < 1:
            raise ParameterError(
                "shown",
                self.shown,
                allowed="1 or more",
                remedy="A piece without boundaries tells of false ones only: use it "
                "for the error rate of the verdict, not for a mean intercept.",
            )
        if not 0 <= self.found <= self.shown:
            raise ParameterError(
                "found", self.found, allowed=f"0 to the {self.shown} shown"
            )
        if self.false < 0:
            raise ParameterError("false", self.false, allowed="zero or above")

    @property
    def reported(self) -> int:
        """Crossings reported, right or wrong."""
        return self.found + self.false


@dataclass(frozen=True, slots=True, kw_only=True)
class DetectionRates:
    """What known pieces of one family say of a way of finding boundaries.

    Parameters
    ----------
    family : str
        The family.
    pieces : tuple of KnownPiece
        The pieces, all of that family; two or more.

    Raises
    ------
    ParameterError
        If there are fewer than two pieces, a piece is of another family, or
        nothing was reported on any of them.
    """

    family: str
    pieces: tuple[KnownPiece, ...]

    def __post_init__(self) -> None:
        if len(self.pieces) < 2:
            raise ParameterError(
                "pieces",
                f"{len(self.pieces)} piece(s)",
                allowed="two known pieces or more",
                remedy="One piece does not show how much pieces differ; read another.",
            )
        others = {piece.family for piece in self.pieces} - {self.family}
        if others:
            raise ParameterError(
                "pieces",
                ", ".join(sorted(others)),
                allowed=f"pieces of the family {self.family!r} only",
            )
        if not any(piece.reported for piece in self.pieces):
            raise ParameterError(
                "pieces",
                "no boundary reported on any piece",
                allowed="pieces on which boundaries were reported",
                remedy="A method that finds nothing on known pieces gives no size.",
            )

    @property
    def shown(self) -> int:
        """Boundaries shown on all pieces."""
        return sum(piece.shown for piece in self.pieces)

    @property
    def found(self) -> int:
        """Boundaries found on all pieces."""
        return sum(piece.found for piece in self.pieces)

    @property
    def false(self) -> int:
        """Crossings reported on all pieces where there is no boundary."""
        return sum(piece.false for piece in self.pieces)

    def missed_share95(self) -> Interval:
        """Exact limits of the share of boundaries missed (Clopper-Pearson).

        Assumes that boundaries are missed independently of each other and alike
        in all pieces; where pieces differ, trust the scatter in `correction`.

        Returns
        -------
        Interval
            95 % limits, unit ``"1"``.
        """
        return binomial_interval(self.shown - self.found, self.shown)

    def false_per_boundary95(self) -> Interval:
        """Exact limits of false crossings per boundary shown (Garwood).

        Assumes independent events, as `missed_share95`.

        Returns
        -------
        Interval
            95 % limits, unit ``"1"``.
        """
        return poisson_interval(self.false, exposure=float(self.shown), unit="1")

    def correction(self, *, fields: float = 1) -> "DetectionCorrection":
        """Factor that turns a mean intercept as found into the true one.

        Assumes pieces of the field's own kind and, about, of its number of
        boundaries, read in the same way and not used to tune that way.

        Parameters
        ----------
        fields : float
            1 where all fields share a cause (one etch, one mount, one reader), the
            safe choice; their number where their deviations from the pieces'
            common rates are independent; `inf` where moreover the sampling
            interval comes from the scatter between these fields, which then
            holds their deviations already.

        Returns
        -------
        DetectionCorrection
            Factor, its relative standard uncertainty, degrees of freedom.

        Raises
        ------
        ParameterError
            If `fields` is below 1.

        Notes
        -----
        c = sum(reported) / sum(shown). With the distance of each piece from this,
        d_k = (reported_k - c shown_k) / (c mean(shown)), the relative scatter of
        pieces is s^2 = sum(d_k^2) / (K - 1), counting scatter included, and
        u(c)/c = s sqrt(1/K + 1/fields): the rates are known from K pieces, and the
        field is a new draw (ratio estimator and prediction of a new value, both
        from memory; K - 1 degrees of freedom). s is never taken below what the
        counts alone scatter by, sqrt(found missed / shown + false) / (c shown) of
        one mean piece (binomial and Poisson variances).
        """
        if not fields >= 1:
            raise ParameterError("fields", fields, allowed="1 or more")
        return _correction(self, fields)


@dataclass(frozen=True, slots=True, kw_only=True)
class DetectionCorrection:
    """Factor of a mean intercept for boundaries missed and falsely reported.

    Parameters
    ----------
    factor : float
        True mean intercept over the one found: reported / shown of the pieces.
    relative_standard_uncertainty : float
        Standard uncertainty of the factor over the factor.
    degrees_of_freedom : int
        Pieces less 1.
    family : str
        Family of the pieces.
    pieces : int
        How many.
    """

    factor: float
    relative_standard_uncertainty: float
    degrees_of_freedom: int
    family: str
    pieces: int


def matched_crossings(
    shown: Sequence[float], reported: Sequence[float], *, tolerance: float
) -> tuple[int, int]:
    """Count crossings of one test line that were found, and false ones.

    Parameters
    ----------
    shown : sequence of float
        Places along the line where it crosses a boundary in truth.
    reported : sequence of float
        Places where a crossing was reported, in the same unit.
    tolerance : float
        Greatest distance at which both are taken for one; zero or above.

    Returns
    -------
    found, false : int
        Shown ones that were reported, each report used once; reports left over.

    Raises
    ------
    ParameterError
        If the tolerance is negative.

    Notes
    -----
    Going along the line, the first two within reach of each other are a pair. On
    a line with one tolerance no other pairing gives more pairs.

    Examples
    --------
    >>> matched_crossings((10.0, 20.0, 30.0), (10.5, 24.0, 29.0), tolerance=2.0)
    (2, 1)
    """
    if not tolerance >= 0:
        raise ParameterError("tolerance", tolerance, allowed="zero or above")
    true_places, places = sorted(shown), sorted(reported)
    found = first = second = 0
    while first < len(true_places) and second < len(places):
        distance = places[second] - true_places[first]
        found += abs(distance) <= tolerance
        # Whatever lies behind can be reached by nothing that comes later.
        first += distance >= -tolerance
        second += distance <= tolerance
    return found, len(places) - found


def rates_by_family(pieces: Sequence[KnownPiece]) -> tuple[DetectionRates, ...]:
    """Sort known pieces by their family.

    Parameters
    ----------
    pieces : sequence of KnownPiece
        Two or more of each family.

    Returns
    -------
    tuple of DetectionRates
        One for each family, in the order of first mention. Families are never
        pooled: a rate from bright annealed wire says nothing of drawn wire.
    """
    return tuple(
        DetectionRates(
            family=family,
            pieces=tuple(piece for piece in pieces if piece.family == family),
        )
        for family in dict.fromkeys(piece.family for piece in pieces)
    )


def _correction(rates: DetectionRates, fields: float) -> DetectionCorrection:
    number, mean_shown = len(rates.pieces), rates.shown / len(rates.pieces)
    factor = (rates.found + rates.false) / rates.shown
    deviations = [
        (piece.reported - factor * piece.shown) / (factor * mean_shown)
        for piece in rates.pieces
    ]
    between = fsum(each**2 for each in deviations) / (number - 1)
    missed = rates.shown - rates.found
    counted = rates.found * missed / rates.shown + rates.false
    by_counts = counted / number / (factor * mean_shown) ** 2
    scatter = sqrt(max(between, by_counts))
    return DetectionCorrection(
        factor=factor,
        relative_standard_uncertainty=scatter * sqrt(1 / number + 1 / fields),
        degrees_of_freedom=number - 1,
        family=rates.family,
        pieces=number,
    )
