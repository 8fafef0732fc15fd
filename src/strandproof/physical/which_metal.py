"""Which metal fits: likelihoods of readings per kind of strand, and a ranking."""

from collections.abc import Mapping
from dataclasses import dataclass
from math import log, log10, pi, sqrt
from typing import cast

import numpy as np
from scipy import stats

from strandproof.errors import ParameterError
from strandproof.physical.metals import (
    PROPERTY_UNITS,
    metal_in_words,
    metal_names,
    probability_of_answer,
    property_range,
)
from strandproof.physical.rules import rule
from strandproof.quantity import Quantity
from strandproof.records import Flag
from strandproof.records.physical import (
    Contribution,
    MetalFit,
    MetalProperty,
    MetalRanking,
    MetalReadings,
    MetalSign,
)

_SKIN_ONLY = (
    "A surface analysis reads the skin only. It cannot tell a silver strand from "
    "silver-plated copper; density, resistivity or a section can."
)
_ETCH = (
    "How a strand etches does not identify a metal; it was given the same weight for "
    "each, so it changes nothing."
)
_ASSUMED = (
    "Readings are multiplied as if they were independent for a given metal; "
    "probabilities of answers in words are judgement. The ratio is no probability of a "
    "metal, and only the kinds in the table are compared."
)


def rank_metals(readings: MetalReadings) -> MetalRanking:
    """Rank kinds of strand by how well they fit all readings.

    A number is held against each kind's range by a normal curve whose variance is that
    of the reading plus that of an even spread over the range; an answer in words by a
    judged probability. A number may be a plain blunder with a chance of 0.01, and then
    speaks as much for one kind as for the best; so no number is worth more than a
    hundred against a rival, and no answer in words more than its table allows.

    Parameters
    ----------
    readings : MetalReadings
        Numbers and answers; one or more.

    Returns
    -------
    MetalRanking
        Every kind with its contributions, best first; whether any fits.

    Raises
    ------
    ParameterError
        If there is no reading, a unit or an answer is unknown, a number has no
        uncertainty, or mass resistivity stands beside one of its two factors.

    Notes
    -----
    L_i = (1 - e) N_i + e max_j N_j with N_i = N(x; m_i, u^2 + w_i^2/12) for a number (m
    middle and w width of the kind's range, e = 0.01). A kind fits where the
    chi-squared probability of its distances is above 0.01 and no answer has a
    probability of 0.03 or less.

    Examples
    --------
    >>> ranking = rank_metals(MetalReadings(
    ...     measured={"density": Quantity(3.6, "g/cm3", 0.05)},
    ...     seen={"surface": "copper"},
    ... ))
    >>> ranking.fits[0].metal, ranking.not_told_apart
    ('clad_aluminium', ('clad_aluminium',))
    """
    _require_readings(readings)
    fits = _fits({name: _contributions(name, readings) for name in metal_names()})
    fitting = [fit for fit in fits if fit.fits]
    apart = _not_told_apart(fitting)
    return MetalRanking(
        fits=fits,
        not_told_apart=apart,
        sentences=(_sentence(fits, apart), *_limits(readings), _ASSUMED),
        flags=_flags(readings, apart),
    )


def _require_readings(readings: MetalReadings) -> None:
    if not readings.measured and not readings.seen:
        raise ParameterError(
            "readings", "none", allowed="one or more numbers or answers"
        )
    for what, quantity in readings.measured.items():
        if quantity.unit != PROPERTY_UNITS.get(what):
            raise ParameterError(
                what, quantity.unit, allowed=f"a number in {PROPERTY_UNITS.get(what)}"
            )
        if not quantity.standard_uncertainty > 0 or not quantity.value > 0:
            raise ParameterError(
                what,
                f"{quantity.value:g} with u {quantity.standard_uncertainty:g}",
                allowed="a number above zero with a standard uncertainty above zero",
            )
    _require_no_double_use(readings)


def _require_no_double_use(readings: MetalReadings) -> None:
    measured = readings.measured
    if "mass_resistivity" in measured and {"density", "resistivity"} & set(measured):
        raise ParameterError(
            "mass_resistivity",
            measured["mass_resistivity"].value,
            allowed="either mass resistivity, or density and resistivity",
            remedy="It is their product; giving both would count a reading twice.",
        )


@dataclass(frozen=True, slots=True)
class _Heard:
    """One reading for one kind of strand, before kinds are compared."""

    reading: str
    log_likelihood: float
    distance: float | None
    probability: float | None
    status: str


def _contributions(metal: str, readings: MetalReadings) -> list[_Heard]:
    numbers = [_of_number(metal, *item) for item in readings.measured.items()]
    answers = [_of_answer(metal, *item) for item in readings.seen.items()]
    return numbers + answers


def _of_number(metal: str, what: MetalProperty, quantity: Quantity) -> _Heard:
    expected = property_range(metal, what)
    deviation = sqrt(quantity.standard_uncertainty**2 + expected.deviation**2)
    distance = (quantity.value - expected.middle) / deviation
    return _Heard(
        reading=what,
        log_likelihood=-0.5 * distance**2 - log(deviation * sqrt(2.0 * pi)),
        distance=distance,
        probability=None,
        status=expected.status,
    )


def _of_answer(metal: str, sign: MetalSign, answer: str) -> _Heard:
    probability = probability_of_answer(metal, sign, answer)
    return _Heard(
        reading=sign,
        log_likelihood=log(probability),
        distance=None,
        probability=probability,
        status="judgement",
    )


def _fits(table: Mapping[str, list[_Heard]]) -> tuple[MetalFit, ...]:
    highest = [
        max(one.log_likelihood for one in column)
        for column in zip(*table.values(), strict=True)
    ]
    scaled = {
        metal: tuple(map(_against_the_best, row, highest))
        for metal, row in table.items()
    }
    sums = {metal: sum(one.log10_ratio for one in row) for metal, row in scaled.items()}
    best = max(sums.values())
    order = sorted(scaled, key=lambda metal: -sums[metal])
    return tuple(_fit(metal, scaled[metal], sums[metal] - best) for metal in order)


def _against_the_best(heard: _Heard, highest: float) -> Contribution:
    ratio = heard.log_likelihood - highest
    if heard.probability is None:
        blunder = rule("metal.blunder")
        # In logarithms: a number far off would underflow otherwise.
        ratio = float(np.logaddexp(log(1.0 - blunder) + ratio, log(blunder)))
    return Contribution(
        reading=heard.reading,
        log10_ratio=min(0.0, ratio / log(10.0)),
        distance=heard.distance,
        probability=heard.probability,
        status=heard.status,
    )


def _fit(metal: str, row: tuple[Contribution, ...], log10_ratio: float) -> MetalFit:
    distances = [one.distance for one in row if one.distance is not None]
    misfit = (
        float(stats.chi2.sf(sum(z * z for z in distances), len(distances)))
        if distances
        else None
    )
    unlikely = tuple(
        one.reading
        for one in row
        if one.probability is not None and one.probability <= rule("metal.unlikely")
    )
    return MetalFit(
        metal=metal,
        log10_ratio=log10_ratio,
        misfit_probability=misfit,
        unlikely_answers=unlikely,
        fits=not unlikely and (misfit is None or misfit > rule("metal.misfit")),
        contributions=row,
    )


def _not_told_apart(fitting: list[MetalFit]) -> tuple[str, ...]:
    if not fitting:
        return ()
    edge = fitting[0].log10_ratio - log10(rule("metal.inseparable"))
    return tuple(fit.metal for fit in fitting if fit.log10_ratio >= edge)


def _sentence(fits: tuple[MetalFit, ...], apart: tuple[str, ...]) -> str:
    if not apart:
        return "None of these metals fits the readings."
    best = next(fit for fit in fits if fit.metal == apart[0])
    if len(apart) > 1:
        names = " or ".join(metal_in_words(name) for name in apart)
        return f"These readings fit {names} and do not tell them apart."
    rival = next((fit for fit in fits if fit.metal != best.metal), best)
    ratio = 10.0 ** (best.log10_ratio - rival.log10_ratio)
    return (
        f"These readings fit {metal_in_words(best.metal)}, about {_rounded(ratio)} "
        f"times better than {metal_in_words(rival.metal)}, the nearest other."
    )


def _rounded(ratio: float) -> str:
    return f"{float(f'{ratio:.1g}'):,.0f}".replace(",", " ")


def _limits(readings: MetalReadings) -> tuple[str, ...]:
    limits = []
    if "surface" in readings.seen:
        limits.append(_SKIN_ONLY)
    if "etch" in readings.seen:
        limits.append(_ETCH)
    return tuple(limits)


def _flags(readings: MetalReadings, apart: tuple[str, ...]) -> tuple[Flag, ...]:
    flags = []
    into_the_core = {"density", "resistivity", "mass_resistivity"} & set(
        cast("dict[str, Quantity]", readings.measured)
    ) or {"core", "scrape"} & set(cast("dict[str, str]", readings.seen))
    if "surface" in readings.seen and not into_the_core:
        flags.append(Flag("surface_read_only"))
    if not apart:
        flags.append(Flag("no_metal_fits"))
    return tuple(flags)
