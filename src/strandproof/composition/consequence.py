"""What an analysis means for resistivity and residual ratio, held against readings."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from math import fsum
from typing import Literal

from strandproof.errors import ParameterError
from strandproof.quantity import Quantity, expanded_interval
from strandproof.records.composition import Certificate, ElementContent
from strandproof.tables import (
    ImpurityResistivity,
    TableRow,
    impurity_resistivities,
    package_table,
    table_value,
)

Agreement = Literal["agrees", "above", "below"]

_PICO_PER_NANO = 1000.0
_IACS_NOHM_M = 1000.0  # from ohm mm2/m (= uohm m) to nohm m


@dataclass(frozen=True, slots=True, kw_only=True)
class Range:
    """Lowest, expected and highest value of a prediction.

    Parameters
    ----------
    lowest, expected, highest : float
        In the unit of the prediction; `highest` is infinite where nothing bounds it.
    """

    lowest: float
    expected: float
    highest: float


@dataclass(frozen=True, slots=True, kw_only=True)
class ElectricalConsequence:
    """What the listed elements add to the resistivity, and what follows.

    Parameters
    ----------
    residual_nohm_m : Range
        Residual resistivity [nohm m]. Lowest: all precipitated, nothing below a
        detection limit present. Expected: dissolved up to the solubility, half of
        each detection limit. Highest: all dissolved, each at its limit.
    percent_iacs : Range
        Conductivity at 20 degC [% IACS], annealed bulk metal, from the same ends and
        the accuracy of the resistivity of pure copper.
    residual_ratio : Range
        R(273.15 K) / R(4.2 K) of thick, annealed metal.
    shares : tuple of (str, float)
        Elements by expected share of the residual resistivity [nohm m], largest
        first.
    unknown : tuple of str
        Elements listed whose effect is not known here; they are not in the sums.
    statuses : tuple of str
        Statuses of the specific resistivities used.
    """

    residual_nohm_m: Range
    percent_iacs: Range
    residual_ratio: Range
    shares: tuple[tuple[str, float], ...]
    unknown: tuple[str, ...]
    statuses: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class HeldAgainst:
    """A measured value beside what the analysis predicts.

    Parameters
    ----------
    name : str
        ``"% IACS"`` or ``"residual ratio"``.
    measured : Quantity
        As measured.
    predicted : Range
        From the analysis.
    agreement : {"agrees", "above", "below"}
        The 95 % interval of the measurement against the predicted range.
    sentence : str
        What follows, and what does not.
    """

    name: str
    measured: Quantity
    predicted: Range
    agreement: Agreement
    sentence: str


def electrical_consequence(
    certificate: Certificate,
    *,
    elements: Mapping[str, ImpurityResistivity] | None = None,
) -> ElectricalConsequence:
    """Predict residual resistivity, conductivity and residual ratio from an analysis.

    Assumes dilute additions that sum (Matthiessen's rule), thick annealed metal
    without boundaries, surface or cold work; each of these lowers the residual ratio
    further. Elements that are not listed are not in it.

    Parameters
    ----------
    certificate : Certificate
        As entered.
    elements : Mapping from str to ImpurityResistivity, optional
        Specific resistivities by symbol; None takes the package's table, most of
        which is from memory.

    Returns
    -------
    ElectricalConsequence
        Ranges and shares.

    Notes
    -----
    rho_0 = sum k_i c_i; RRR = 1 + rho(273.15 K)/rho_0; % IACS = 100 * 17.241 nohm m /
    (rho(293.15 K) + rho_0).

    References
    ----------
    R. A. Matula, J. Phys. Chem. Ref. Data 8 (1979) 1147 (values second-hand).

    Examples
    --------
    >>> iron = ElementContent(symbol="Fe", state="value", ppm=1.0)
    >>> found = electrical_consequence(Certificate(item="rod", contents=(iron,)))
    >>> round(found.residual_ratio.expected)
    1457
    """
    table = impurity_resistivities() if elements is None else elements
    known = [one for one in certificate.measured if one.symbol in table]
    added = {one.symbol: _expected(one, table[one.symbol]) for one in known}
    residual = Range(
        lowest=_sum(known, lambda one: _least(one, table[one.symbol])),
        expected=fsum(added.values()) / _PICO_PER_NANO,
        highest=_sum(
            known, lambda one: (one.ppm or 0.0) * table[one.symbol].dissolved_high
        ),
    )
    return ElectricalConsequence(
        residual_nohm_m=residual,
        percent_iacs=_percent_iacs(residual),
        residual_ratio=_residual_ratio(residual),
        shares=tuple(
            (symbol, share / _PICO_PER_NANO)
            for symbol, share in sorted(added.items(), key=lambda item: -item[1])
        ),
        unknown=tuple(
            one.symbol for one in certificate.measured if one.symbol not in table
        ),
        statuses=tuple(sorted({table[one.symbol].status for one in known})),
    )


def held_against_conductivity(
    consequence: ElectricalConsequence, measured: Quantity
) -> HeldAgainst:
    """Hold a measured conductivity against what the analysis predicts.

    Parameters
    ----------
    consequence : ElectricalConsequence
        From `electrical_consequence`.
    measured : Quantity
        Conductivity [% IACS], with its standard uncertainty.

    Returns
    -------
    HeldAgainst
        Agreement and what follows.

    Raises
    ------
    ParameterError
        If the unit is not ``"% IACS"``.
    """
    _require_unit(measured, "% IACS")
    agreement = _agreement(measured, consequence.percent_iacs)
    return HeldAgainst(
        name="% IACS",
        measured=measured,
        predicted=consequence.percent_iacs,
        agreement=agreement,
        sentence=_CONDUCTIVITY_SENTENCES[agreement],
    )


def held_against_ratio(
    consequence: ElectricalConsequence, measured: Quantity
) -> HeldAgainst:
    """Hold a measured residual ratio against what the analysis predicts.

    Parameters
    ----------
    consequence : ElectricalConsequence
        From `electrical_consequence`.
    measured : Quantity
        R(273.15 K) / R(4.2 K), unit ``"1"``, with its standard uncertainty. A ratio
        from 293 K is to be divided by 1.087 first (16.78/15.43).

    Returns
    -------
    HeldAgainst
        Agreement and what follows.

    Raises
    ------
    ParameterError
        If the unit is not ``"1"``.
    """
    _require_unit(measured, "1")
    agreement = _agreement(measured, consequence.residual_ratio)
    return HeldAgainst(
        name="residual ratio",
        measured=measured,
        predicted=consequence.residual_ratio,
        agreement=agreement,
        sentence=_RATIO_SENTENCES[agreement],
    )


_CONDUCTIVITY_SENTENCES: Mapping[Agreement, str] = {
    "agrees": "The conductivity agrees with the analysis. That says little: at room "
    "temperature nearly every copper of 4N and above agrees with it.",
    "above": "The conductivity is above what the listed elements allow even when all "
    "of them are precipitated: check temperature, length and mass first; else the "
    "analysis is of another metal.",
    "below": "The conductivity is below what the listed elements explain in annealed "
    "metal: cold work (2 to 3 %), an element that is not listed, lay or temperature, "
    "or another metal than the one analysed. Alone it does not refute the analysis.",
}

_RATIO_SENTENCES: Mapping[Agreement, str] = {
    "agrees": "The residual ratio lies within what the analysis allows.",
    "above": "The residual ratio is above what the listed elements allow even when all "
    "of them are precipitated: the metal measured is purer than the paper, or it is "
    "another metal.",
    "below": "The residual ratio is below what the listed elements explain. Cold work, "
    "fine grains, a thin strand or elements that are not listed lower it as well, so "
    "this does not refute the analysis unless the specimen is thick and annealed.",
}


def _require_unit(measured: Quantity, unit: str) -> None:
    if measured.unit != unit:
        raise ParameterError("unit", measured.unit, allowed=repr(unit))


def _agreement(measured: Quantity, predicted: Range) -> Agreement:
    interval = expanded_interval(measured)
    if (interval.lower or 0.0) > predicted.highest:
        return "above"
    upper = measured.value if interval.upper is None else interval.upper
    return "below" if upper < predicted.lowest else "agrees"


def _sum(
    contents: list[ElementContent], addition: Callable[[ElementContent], float]
) -> float:
    """Sum in pohm m, given back in nohm m."""
    return fsum(addition(one) for one in contents) / _PICO_PER_NANO


def _least(content: ElementContent, element: ImpurityResistivity) -> float:
    present = content.ppm or 0.0 if content.state == "value" else 0.0
    return present * element.precipitated_low


def _expected(content: ElementContent, element: ImpurityResistivity) -> float:
    ppm = content.ppm or 0.0
    present = ppm if content.state == "value" else ppm / 2
    solubility = element.solubility
    dissolved = present if solubility is None else min(present, solubility)
    precipitated = (element.precipitated_low + element.precipitated_high) / 2
    return dissolved * element.dissolved + (present - dissolved) * precipitated


def _percent_iacs(residual: Range) -> Range:
    standards = package_table("conductor_standards")
    copper = package_table("copper_resistivity")
    ideal = _at_20_degrees(copper)
    spread = 2 * table_value(copper, "phonon.room.spread") / 100
    iacs = 100 * _IACS_NOHM_M * table_value(standards, "iacs.volume_resistivity")
    return Range(
        lowest=iacs / (ideal * (1 + spread) + residual.highest),
        expected=iacs / (ideal + residual.expected),
        highest=iacs / (ideal * (1 - spread) + residual.lowest),
    )


def _at_20_degrees(copper: Mapping[str, TableRow]) -> float:
    """Resistivity of pure copper at 293.15 K [nohm m]; the table gives 293 K."""
    slope = table_value(copper, "slope.near_20c")
    return table_value(copper, "matula.293k") + 0.15 * slope


def _residual_ratio(residual: Range) -> Range:
    ideal = table_value(package_table("copper_resistivity"), "matula.273_15k")
    return Range(
        lowest=_ratio(ideal, residual.highest),
        expected=_ratio(ideal, residual.expected),
        highest=_ratio(ideal, residual.lowest),
    )


def _ratio(ideal: float, residual: float) -> float:
    return 1 + ideal / residual if residual > 0 else float("inf")
