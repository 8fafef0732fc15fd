"""From which heat and strain on a piece is doubted, and what would answer the doubt."""

from collections.abc import Mapping
from dataclasses import dataclass
from math import pi

from strandproof.errors import ParameterError
from strandproof.tables import TableRow, package_table, table_value

ALIKE = "treat the bent single-crystal control alike"
"""The control that answers heat: a strained crystal is the first to recrystallise."""

_INSTEAD = (
    ("mount", "mount cold"),
    ("saw", "cut cold, slowly and with coolant"),
    ("cut", "cut cold, slowly and with coolant"),
    ("strip", "strip without heat"),
    ("solder", "take the piece away from the solder"),
)


@dataclass(frozen=True, slots=True, kw_only=True)
class HandlingRules:
    """Limits of the ledger, see ``tables/data/handling_rules.csv`` for their sources.

    Parameters
    ----------
    flag_above_c : float
        A piece that was warmer is flagged [deg C].
    drawn_pure_from_c : float
        Cold-drawn pure copper can recrystallise from here [deg C].
    bend_percent : float
        Surface strain of a bent strand from which it is flagged [%].
    pull_stress_mpa : float
        Stress from which a pull is flagged [MPa].
    """

    flag_above_c: float
    drawn_pure_from_c: float
    bend_percent: float
    pull_stress_mpa: float


@dataclass(frozen=True, slots=True, kw_only=True)
class RaisedDoubt:
    """A doubt about what handling did to the structure.

    Parameters
    ----------
    flag : str
        Name in the registry of flags.
    finding : str
        What may have happened, without a full stop.
    remedy : str
        What would answer it, without a full stop.
    """

    flag: str
    finding: str
    remedy: str


def handling_rules(table: Mapping[str, TableRow] | None = None) -> HandlingRules:
    """Read the limits of the ledger.

    Parameters
    ----------
    table : Mapping from str to TableRow, optional
        Rules; None takes the package's table ``handling_rules``.

    Returns
    -------
    HandlingRules
        The limits.

    Examples
    --------
    >>> handling_rules().flag_above_c
    80.0
    """
    rows = package_table("handling_rules") if table is None else table
    return HandlingRules(
        flag_above_c=table_value(rows, "heat.flag_above"),
        drawn_pure_from_c=table_value(rows, "heat.drawn_pure_from"),
        bend_percent=table_value(rows, "strain.bend_percent"),
        pull_stress_mpa=table_value(rows, "strain.pull_stress"),
    )


def doubts_about_heat(
    event: str, temperature_c: float | None, *, rules: HandlingRules | None = None
) -> tuple[RaisedDoubt, ...]:
    """Say what a highest temperature gives reason to doubt.

    Goes by the temperature alone: no time-temperature curve of drawn pure copper was
    read, so no length of time excuses a warm piece.

    Parameters
    ----------
    event : str
        What was done, in words; decides what could be done instead.
    temperature_c : float or None
        Highest temperature of the piece [deg C]; None: nobody recorded it.
    rules : HandlingRules, optional
        None takes those of the package.

    Returns
    -------
    tuple of RaisedDoubt
        One or none.

    Notes
    -----
    Above 80 deg C (common practice, no source) a flag is raised. From about 150 deg C
    drawn C10100 wire begins to recrystallise (abstract of 2024); below, heavily worked
    copper of very high purity may (from memory).

    Examples
    --------
    >>> doubt = doubts_about_heat("hot mount", 180)[0]
    >>> print(f"{doubt.finding}; {doubt.remedy}")  # doctest: +NORMALIZE_WHITESPACE
    can recrystallise cold-drawn pure copper; treat the bent single-crystal control
    alike, or mount cold
    """
    limits = handling_rules() if rules is None else rules
    remedy = f"{ALIKE}, or {_instead(event)}"
    if temperature_c is None:
        return (
            RaisedDoubt(
                flag="heat_not_recorded",
                finding="the highest temperature of the piece is not recorded",
                remedy=f"measure it on a dummy, {remedy}",
            ),
        )
    if temperature_c <= limits.flag_above_c:
        return ()
    metal = (
        "cold-drawn pure copper"
        if temperature_c >= limits.drawn_pure_from_c
        else "heavily drawn copper of very high purity"
    )
    return (
        RaisedDoubt(
            flag="heated_in_our_hands",
            finding=f"can recrystallise {metal}",
            remedy=remedy,
        ),
    )


def bend_strain_percent(diameter_mm: float, bend_radius_mm: float) -> float:
    """Greatest strain in a strand bent round a radius.

    Parameters
    ----------
    diameter_mm : float
        Diameter of the strand [mm]; above 0.
    bend_radius_mm : float
        Radius at the inner side of the bend [mm]; above 0.

    Returns
    -------
    float
        Strain at the outer surface [%].

    Raises
    ------
    ParameterError
        If one is not above 0.

    Notes
    -----
    d / (2 r + d), the neutral line through the middle of the strand (elementary
    bending; from memory).

    Examples
    --------
    >>> round(bend_strain_percent(0.08, 5.0), 2)
    0.79
    """
    _require_positive("diameter_mm", diameter_mm)
    _require_positive("bend_radius_mm", bend_radius_mm)
    return 100 * diameter_mm / (2 * bend_radius_mm + diameter_mm)


def pull_stress_mpa(diameter_mm: float, pull_n: float) -> float:
    """Stress in a round strand under a pull.

    Parameters
    ----------
    diameter_mm : float
        Diameter of the strand [mm]; above 0.
    pull_n : float
        Pull [N]; above 0.

    Returns
    -------
    float
        Stress [MPa].

    Raises
    ------
    ParameterError
        If one is not above 0.

    Notes
    -----
    F / (pi d^2 / 4); 1 N/mm2 = 1 MPa.

    Examples
    --------
    >>> round(pull_stress_mpa(0.08, 0.05), 2)
    9.95
    """
    _require_positive("diameter_mm", diameter_mm)
    _require_positive("pull_n", pull_n)
    return pull_n / (pi * diameter_mm**2 / 4)


def doubts_about_strain(
    diameters_mm: tuple[float | None, ...],
    *,
    bend_radius_mm: float | None = None,
    pull_n: float | None = None,
    in_words: str = "",
    rules: HandlingRules | None = None,
) -> tuple[RaisedDoubt, ...]:
    """Say what bending or pulling gives reason to doubt.

    Parameters
    ----------
    diameters_mm : tuple of float or None
        Diameters of the strands handled [mm]; None where the case does not say.
    bend_radius_mm : float or None
        Smallest radius at the inner side [mm].
    pull_n : float or None
        Greatest pull [N].
    in_words : str
        What was noted in words alone.
    rules : HandlingRules, optional
        None takes those of the package.

    Returns
    -------
    tuple of RaisedDoubt
        Empty where nothing was strained, or too little.
    """
    limits = handling_rules() if rules is None else rules
    if bend_radius_mm is None and pull_n is None:
        return (_not_judged("no radius or pull in figures"),) if in_words else ()
    known = [each for each in diameters_mm if each is not None]
    if not known or len(known) < len(diameters_mm):
        return (_not_judged("the diameter of a strand is not in the case"),)
    found: list[RaisedDoubt] = []
    if bend_radius_mm is not None:
        strain = bend_strain_percent(max(known), bend_radius_mm)
        if strain >= limits.bend_percent:
            found.append(_strained(f"strained its surface by {strain:.2g} %"))
    if pull_n is not None:
        stress = pull_stress_mpa(min(known), pull_n)
        if stress >= limits.pull_stress_mpa:
            found.append(_strained(f"pulled it with {stress:.2g} MPa"))
    return tuple(found)


def _strained(what: str) -> RaisedDoubt:
    return RaisedDoubt(
        flag="strained_in_our_hands",
        finding=f"{what}: slip lines, and new grains once it is warmed",
        remedy=(
            "treat a straight and a bent piece of the known single crystal alike, and "
            "compare before and after"
        ),
    )


def _not_judged(why: str) -> RaisedDoubt:
    return RaisedDoubt(
        flag="strain_not_judged",
        finding=f"bent or pulled, and {why}",
        remedy="enter radius or pull and the diameter of the strand, or treat a "
        "control alike",
    )


def _instead(event: str) -> str:
    words = event.casefold()
    return next((do for word, do in _INSTEAD if word in words), "do it without heat")


def _require_positive(name: str, value: float) -> None:
    if not value > 0:
        raise ParameterError(name, value, allowed="above 0")
