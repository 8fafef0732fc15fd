"""What a length of section seen can say of the spacing of boundaries."""

from dataclasses import dataclass
from math import isfinite, log1p

from strandproof.errors import ParameterError
from strandproof.quantity import (
    Interval,
    poisson_upper_limit,
    probability_of_at_least,
    reciprocal_interval,
)
from strandproof.weighing.wording import plain_digits, short_digits

_MM_PER_M = 1000.0


@dataclass(frozen=True, slots=True, kw_only=True)
class NoBoundaryBound:
    """What may be said when no boundary was resolved over a length.

    Parameters
    ----------
    seen_length_mm : float
        Length of section seen [mm].
    rate : Interval
        Boundaries per length, upper limit only [1/mm].
    spacing : Interval
        Mean crystal length, lower limit only [mm].
    needed_m : tuple of (float, float)
        Mean crystal length to speak of [m], and length that has to be seen
        without a boundary for it [m].
    sentence : str
        All of it in words.
    """

    seen_length_mm: float
    rate: Interval
    spacing: Interval
    needed_m: tuple[tuple[float, float], ...]
    sentence: str


def no_boundary_bound(
    seen_length_mm: float,
    *,
    speak_of_m: float = 1.0,
    claimed_m: float | None = None,
    claimed_by: str = "the claim",
    confidence: float = 0.95,
) -> NoBoundaryBound:
    """Bound on boundaries per length when none was resolved.

    Assumes a method able to show the boundaries (a control in the same mount
    showed its own) and boundaries that fall independently along the length.
    "None resolved over this length" never becomes "none".

    Parameters
    ----------
    seen_length_mm : float
        Length of section along the strand that was seen [mm]; above 0.
    speak_of_m : float
        A mean crystal length somebody would like to speak of [m]; above 0.
    claimed_m : float or None
        The length claimed [m]; above 0.
    claimed_by : str
        Where it is claimed, for the sentence, for example ``"the tag"``.
    confidence : float
        One-sided, between 0 and 1.

    Returns
    -------
    NoBoundaryBound
        Rate, spacing, lengths needed, sentence.

    Raises
    ------
    ParameterError
        If a length is not above 0 or the confidence is outside of (0, 1).

    Notes
    -----
    rate <= -ln(1 - C) / L, which is 2.996 / L at 95 %; mean spacing >= L / 2.996.
    To speak of a mean spacing X: none resolved over 2.996 X.

    Examples
    --------
    >>> bound = no_boundary_bound(36, claimed_m=100, claimed_by="the tag")
    >>> print(bound.sentence)  # doctest: +NORMALIZE_WHITESPACE
    No boundary resolved over 36 mm: at most 0.083 per mm; mean crystal at least
    12.0 mm (95 %). To speak of 1 m you need about 3 m seen; of the tag's 100 m,
    about 300 m.
    """
    rate = poisson_upper_limit(
        0, exposure=seen_length_mm, unit="1/mm", confidence=confidence
    )
    spacings = [speak_of_m] if claimed_m is None else [speak_of_m, claimed_m]
    needed = tuple((_length(each), -log1p(-confidence) * each) for each in spacings)
    spacing = reciprocal_interval(rate, unit="mm")
    asked = f"To speak of {short_digits(speak_of_m, 4)} m you need about "
    said = [f"{asked}{short_digits(needed[0][1])} m seen"]
    if claimed_m is not None:
        length = f"{claimed_by}'s {short_digits(claimed_m, 4)} m"
        said.append(f"of {length}, about {short_digits(needed[1][1])} m")
    return NoBoundaryBound(
        seen_length_mm=seen_length_mm,
        rate=rate,
        spacing=spacing,
        needed_m=needed,
        sentence=f"{_bound_words(seen_length_mm, rate, spacing)} {'; '.join(said)}.",
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class EventChances:
    """Chance of meeting breaks in a length, if they are as rare as claimed.

    Parameters
    ----------
    expected : float
        Mean number of events in the length seen.
    at_least_one : float
        Chance of one event or more.
    at_least_two_independent : float
        Chance of two events or more, for events shown to be independent.
    sentence : str
        Both, and when each applies.
    """

    expected: float
    at_least_one: float
    at_least_two_independent: float
    sentence: str


def event_chances(seen_length_mm: float, *, mean_spacing_m: float) -> EventChances:
    """Chance of breaks in a length if they are as far apart as claimed.

    Counts events, not boundaries: a stray crystal makes two boundaries and is
    one event.

    Parameters
    ----------
    seen_length_mm : float
        Length of section seen [mm]; above 0.
    mean_spacing_m : float
        Mean distance of events as claimed [m]; above 0.

    Returns
    -------
    EventChances
        Both chances and a sentence.

    Raises
    ------
    ParameterError
        If a length is not a finite number above 0.

    Notes
    -----
    Poisson with mean m = L / X: 1 - exp(-m) and 1 - exp(-m) (1 + m). The second
    holds only where the events are shown to be independent: far apart, in
    strands that share no length of rod.

    Examples
    --------
    >>> chances = event_chances(90, mean_spacing_m=100)
    >>> f"{chances.at_least_one:.2e}", f"{chances.at_least_two_independent:.2e}"
    ('9.00e-04', '4.05e-07')
    """
    expected = _length(seen_length_mm) / (_length(mean_spacing_m) * _MM_PER_M)
    one = probability_of_at_least(1, expected=expected)
    two = probability_of_at_least(2, expected=expected)
    return EventChances(
        expected=expected,
        at_least_one=one,
        at_least_two_independent=two,
        sentence=(
            f"If events lie {short_digits(mean_spacing_m, 4)} m apart in the mean, the "
            f"chance of at least one in {short_digits(seen_length_mm, 4)} mm is "
            f"{one:.1e}; two boundaries close together are one event. The chance of "
            f"two is {two:.2e}, and applies only to events shown to be independent."
        ),
    )


def _length(given: float) -> float:
    if not isfinite(given) or given <= 0:
        raise ParameterError("length", given, allowed="a finite number above 0")
    return given


def _bound_words(seen_length_mm: float, rate: Interval, spacing: Interval) -> str:
    per_mm, least = rate.upper or 0.0, spacing.lower or 0.0
    return (
        f"No boundary resolved over {short_digits(seen_length_mm, 4)} mm: at most "
        f"{plain_digits(per_mm, 2)} per mm; mean crystal at least "
        f"{plain_digits(least, 3)} mm ({short_digits(100 * rate.confidence, 3)} %)."
    )
