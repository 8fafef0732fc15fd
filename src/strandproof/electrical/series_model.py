"""A series of four-wire readings as a measurement model.

The resistance at zero current is a weighted sum of the resistances at each current,
R0 = sum a_i R_i, whose weights are those of a straight line in I^2. In this form the
errors of the meters, common to all readings on a range, enter where they act.
"""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from functools import cached_property
from math import fsum, inf, sqrt

import numpy as np
import numpy.typing as npt

from strandproof.electrical.given_inputs import Kind, factor_to_base_unit
from strandproof.electrical.meters import (
    meter_errors,
    range_named,
    require_on_scale,
)
from strandproof.errors import ParameterError
from strandproof.quantity import Input, ModelNumber
from strandproof.records.electrical import FourWireSeries, MeterRange, ReversalPair

FloatArray = npt.NDArray[np.float64]
_SAME_CURRENT = 0.01  # currents within a hundredth count as one setting


@dataclass(frozen=True, slots=True, kw_only=True)
class CurrentGroup:
    """The pairs at one current and on one range of each meter, in base units.

    Parameters
    ----------
    current_a : float
        Mean current [A].
    resistances_ohm, thermal_voltages_v : tuple of float
        One for each pair.
    seconds : tuple of float or None
        Time of each pair.
    meter, ammeter : str
        Symbols of the ranges; the latter empty for an ohmmeter.
    digit_v : float
        Last digit of the meter [V].
    """

    current_a: float
    resistances_ohm: tuple[float, ...]
    thermal_voltages_v: tuple[float, ...]
    seconds: tuple[float | None, ...]
    meter: str
    ammeter: str
    digit_v: float

    @property
    def mean_ohm(self) -> float:
        """Mean resistance of the pairs [ohm]."""
        return fsum(self.resistances_ohm) / len(self.resistances_ohm)


@dataclass(frozen=True, kw_only=True)
class SeriesModel:
    """Groups of pairs, the straight line through them, and the inputs.

    Parameters
    ----------
    series : FourWireSeries
        The readings.
    groups : tuple of CurrentGroup
        The lowest current first.
    ranges : mapping of str to MeterRange
        Ranges by their symbol.
    """

    series: FourWireSeries
    groups: tuple[CurrentGroup, ...]
    ranges: Mapping[str, MeterRange]

    @property
    def extrapolated(self) -> bool:
        """Whether there are two currents or more."""
        low, high = self.groups[0].current_a, self.groups[-1].current_a
        return high > low * (1 + _SAME_CURRENT)

    @cached_property
    def _solution(self) -> tuple[FloatArray, FloatArray]:
        """Weights of the intercept and of the slope, one for each group."""
        currents = np.array([each.current_a for each in self.groups])
        counts = np.array([len(each.resistances_ohm) for each in self.groups])
        weights = counts * currents**2
        if not self.extrapolated:
            return weights / weights.sum(), np.zeros_like(weights)
        # Weighted least squares on I^2, in closed form.
        x = currents**2
        middle = (weights * x).sum() / weights.sum()
        spread = (weights * (x - middle) ** 2).sum()
        slope = weights * (x - middle) / spread
        return weights / weights.sum() - middle * slope, slope

    @property
    def intercept_weights(self) -> FloatArray:
        """Weights whose sum of resistances is that at zero current, by group."""
        return self._solution[0]

    @property
    def slope_weights(self) -> FloatArray:
        """Weights whose sum of resistances is the slope in I^2, by group [1/A2]."""
        return self._solution[1]

    @property
    def spare_pairs(self) -> int:
        """Pairs beyond those that the line needs."""
        pairs = sum(len(each.resistances_ohm) for each in self.groups)
        return pairs - (2 if self.extrapolated else 1)

    @cached_property
    def scatter_v(self) -> float | None:
        """Standard deviation of half the difference of a pair about the line [V]."""
        if self.spare_pairs < 1:
            return None
        means = np.array([each.mean_ohm for each in self.groups])
        start, slope = self.intercept_weights @ means, self.slope_weights @ means
        squares = fsum(
            (each.current_a * (ohm - start - slope * each.current_a**2)) ** 2
            for each in self.groups
            for ohm in each.resistances_ohm
        )
        return sqrt(squares / self.spare_pairs)

    def scatter_ohm(self, weights: FloatArray) -> float:
        """Return the uncertainty from scatter of a weighted sum [ohm]."""
        own = self.scatter_v or 0.0
        return sqrt(
            fsum(
                (weight * own / each.current_a) ** 2 / len(each.resistances_ohm)
                for weight, each in zip(weights, self.groups, strict=True)
            )
        )

    def digit_ohm(self, weights: FloatArray) -> float:
        """Return the uncertainty from the last digit of a weighted sum [ohm].

        Half the difference of two rounded readings; the same digit rounds the same
        way each time, so it does not average over the pairs of one current.
        """
        return sqrt(
            fsum(
                (weight * each.digit_v / each.current_a) ** 2 / 24.0
                for weight, each in zip(weights, self.groups, strict=True)
            )
        )

    def inputs(self, weights: FloatArray) -> dict[str, tuple[Kind, Input]]:
        """Give the inputs of a weighted sum of resistances, by symbol.

        Parameters
        ----------
        weights : ndarray of shape (n_groups,)
            Weight of each group's resistance.

        Returns
        -------
        dict of str to tuple of str and Input
            Kind and input: errors of each range, scatter, last digit.
        """
        given: dict[str, tuple[Kind, Input]] = {}
        for symbol, meter in self.ranges.items():
            given |= {
                name: ("error", one)
                for name, one in meter_errors(meter, prefix=symbol).items()
                if one.standard_uncertainty > 0 or name.endswith("_gain")
            }
        scatter = self.scatter_ohm(weights)
        # With no pair to spare it stays, without uncertainty, for all to see.
        if scatter > 0 or self.spare_pairs < 1:
            given["scatter"] = ("error", self._scatter_input(scatter))
        digit = self.digit_ohm(weights)
        if digit > 0:
            given["digit"] = ("error", _zero("last digit of the meter", digit))
        return given

    def weighted(
        self, weights: FloatArray
    ) -> Callable[[Mapping[str, ModelNumber]], ModelNumber]:
        """Give the model of a weighted sum of resistances.

        Parameters
        ----------
        weights : ndarray of shape (n_groups,)
            Weight of each group's resistance.

        Returns
        -------
        callable
            From values in base units to the sum [ohm].
        """

        def total(values: Mapping[str, ModelNumber]) -> ModelNumber:
            found: ModelNumber = sum(
                values[name] for name in ("scatter", "digit") if name in values
            )
            for weight, group in zip(weights, self.groups, strict=True):
                found = found + float(weight) * self._resistance(group, values)
            return found

        return total

    def _scatter_input(self, ohm: float) -> Input:
        freedom = float(self.spare_pairs) if self.spare_pairs > 0 else inf
        return Input(
            name="scatter of the readings",
            estimate=0.0,
            unit="ohm",
            standard_uncertainty=ohm,
            degrees_of_freedom=freedom,
            distribution="normal" if freedom == inf else "student",
        )

    @staticmethod
    def _resistance(
        group: CurrentGroup, values: Mapping[str, ModelNumber]
    ) -> ModelNumber:
        read = group.mean_ohm * (1.0 + values[f"{group.meter}_gain"])
        fixed = f"{group.meter}_fixed"
        if not group.ammeter:
            return read + values[fixed] if fixed in values else read
        # The fixed part is taken to keep its sign with the reading's: a data sheet
        # does not say how much of it is an offset, which reversal would take out.
        voltage = read * group.current_a
        if fixed in values:
            voltage = voltage + values[fixed]
        current = group.current_a * (1.0 + values[f"{group.ammeter}_gain"])
        if f"{group.ammeter}_fixed" in values:
            current = current + values[f"{group.ammeter}_fixed"]
        return voltage / current


def series_model(series: FourWireSeries) -> SeriesModel:
    """Group the pairs of a series by current and range.

    Parameters
    ----------
    series : FourWireSeries
        The readings.

    Returns
    -------
    SeriesModel
        Ready for propagation.

    Raises
    ------
    UnitError
        If a unit does not fit.
    ParameterError
        If a current or a resistance is not above zero, a reading is beyond its
        range, or a range is not known.
    """
    symbols = {
        (kind, one.name): f"{kind}_{number}"
        for kind, ranges in (("meter", series.meter), ("ammeter", series.ammeter))
        for number, one in enumerate(ranges)
    }
    members: list[list[tuple[ReversalPair, str, str]]] = []
    for pair in sorted(series.pairs, key=lambda each: each.current):
        meter = range_named(pair.meter_range, series.meter)
        _require_pair(series, pair, meter)
        place = (symbols["meter", meter.name], _ammeter(series, pair, symbols))
        last = members[-1][0] if members else None
        if last is not None and _alike(last, pair, place):
            members[-1].append((pair, *place))
        else:
            members.append([(pair, *place)])
    by_symbol = {
        symbols[kind, one.name]: one
        for kind, ranges in (("meter", series.meter), ("ammeter", series.ammeter))
        for one in ranges
    }
    used = {symbol for each in members for symbol in each[0][1:] if symbol}
    return SeriesModel(
        series=series,
        groups=tuple(_group(series, each, by_symbol) for each in members),
        ranges={symbol: by_symbol[symbol] for symbol in by_symbol if symbol in used},
    )


def _alike(
    first: tuple[ReversalPair, str, str], pair: ReversalPair, place: tuple[str, str]
) -> bool:
    near = pair.current <= first[0].current * (1 + _SAME_CURRENT)
    return near and first[1:] == place


def _ammeter(
    series: FourWireSeries, pair: ReversalPair, symbols: Mapping[tuple[str, str], str]
) -> str:
    if not series.ammeter:
        return ""
    used = range_named(pair.current_range, series.ammeter)
    require_on_scale(pair.current, used, series.current_unit)
    return symbols["ammeter", used.name]


def _group(
    series: FourWireSeries,
    members: list[tuple[ReversalPair, str, str]],
    ranges: Mapping[str, MeterRange],
) -> CurrentGroup:
    pairs = [each[0] for each in members]
    ampere = factor_to_base_unit("current", series.current_unit)
    current = ampere * fsum(each.current for each in pairs) / len(pairs)
    found = [_reduced(series, each) for each in pairs]
    meter = ranges[members[0][1]]
    kind: Kind = "voltage" if series.reads == "voltage" else "resistance"
    digit = factor_to_base_unit(kind, meter.unit) * meter.digit
    return CurrentGroup(
        current_a=current,
        resistances_ohm=tuple(each[0] for each in found),
        thermal_voltages_v=tuple(each[1] for each in found),
        seconds=tuple(each.seconds for each in pairs),
        meter=members[0][1],
        ammeter=members[0][2],
        digit_v=digit if kind == "voltage" else digit * current,
    )


def _reduced(series: FourWireSeries, pair: ReversalPair) -> tuple[float, float]:
    """Give resistance [ohm] and thermal voltage [V] of one pair."""
    current = factor_to_base_unit("current", series.current_unit) * pair.current
    if series.reads == "voltage":
        volt = factor_to_base_unit("voltage", series.unit)
        half = 0.5 * volt * (pair.forward - pair.reverse)
        return half / current, 0.5 * volt * (pair.forward + pair.reverse)
    ohm = factor_to_base_unit("resistance", series.unit)
    mean = 0.5 * ohm * (pair.forward + pair.reverse)
    return mean, 0.5 * ohm * (pair.forward - pair.reverse) * current


def _require_pair(
    series: FourWireSeries, pair: ReversalPair, meter: MeterRange
) -> None:
    if not pair.current > 0:
        raise ParameterError("current", pair.current, allowed="above zero")
    if not _reduced(series, pair)[0] > 0:
        raise ParameterError(
            "forward, reverse",
            (pair.forward, pair.reverse),
            allowed="readings whose resistance is above zero",
            remedy="Give a reversed voltage with its sign, a resistance without.",
        )
    require_on_scale(max(abs(pair.forward), abs(pair.reverse)), meter, series.unit)


def _zero(name: str, ohm: float) -> Input:
    return Input(name=name, estimate=0.0, unit="ohm", standard_uncertainty=ohm)
