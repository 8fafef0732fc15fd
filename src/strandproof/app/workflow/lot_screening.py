"""The use case that accepts or holds a lot of cores."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from pathlib import Path

from strandproof.app.workflow.bench_findings import BenchFinding
from strandproof.app.workflow.table_columns import (
    column_numbers,
    column_texts,
    column_unit,
    known_table,
    required_numbers,
)
from strandproof.electrical import expected_core, metal, screen_lot
from strandproof.electrical.given_inputs import Kind, factor_to_base_unit
from strandproof.errors import ParameterError
from strandproof.quantity import Input, Quantity, normal_input
from strandproof.records.cell_tables import CellTable, ColumnMapping
from strandproof.records.electrical import (
    CoreReading,
    DecisionRule,
    LotResult,
    ScreeningLimits,
    ScreeningResult,
)
from strandproof.records.entries import ClaimKind, MeasurementResult
from strandproof.records.entries.numbers import measured_value

_DEFAULT_RULE = DecisionRule()
_ROLES: Mapping[str, Sequence[str]] = {
    "label": ("core", "piece", "name", "no", "no."),
    "strands": ("n", "count", "strand count"),
    "length": ("l",),
    "mass": ("m", "weight"),
    "resistance": ("r",),
    "temperature": ("t",),
    "diameter": ("d", "strand diameter"),
}
_NEEDED = ("length", "mass", "resistance")
_UNITS: Mapping[str, tuple[Kind, Sequence[str]]] = {
    "length": ("length", ("m", "mm")),
    "mass": ("mass", ("g", "mg")),
    "resistance": ("resistance", ("ohm", "mohm", "uohm")),
    "temperature": ("temperature", ("degC",)),
    "diameter": ("length", ("mm", "um")),
}


@dataclass(frozen=True, slots=True, kw_only=True)
class BenchUncertainties:
    """Standard uncertainties that all readings of a lot share, in base units.

    Parameters
    ----------
    metres, grams, percent_of_ohm, celsius, millimetres : float
        Of length [m], mass [g], resistance [%], temperature [degC], diameter [mm].
    """

    metres: float
    grams: float
    percent_of_ohm: float
    celsius: float
    millimetres: float = 0.001


@dataclass(frozen=True, slots=True, kw_only=True)
class LotDemand:
    """What a lot has to be.

    Parameters
    ----------
    strands : int
        Strands of a core.
    square_mm : float
        Nominal metal area of a core [mm2].
    tolerance_percent : float
        By how much mass may fall short of, and resistance exceed, what that area of
        copper has [%].
    least_diameter_mm : float or None
        Least diameter of a strand [mm].
    rule : DecisionRule
        Rule of every decision.
    """

    strands: int
    square_mm: float
    tolerance_percent: float
    least_diameter_mm: float | None = None
    rule: DecisionRule = field(default=_DEFAULT_RULE)


def lot_limits(demand: LotDemand) -> ScreeningLimits:
    """Give the limits that a demand means.

    Parameters
    ----------
    demand : LotDemand
        Strands, nominal area, tolerance.

    Returns
    -------
    ScreeningLimits
        From the mass and the resistance per metre of that area of copper.

    Raises
    ------
    ParameterError
        If area or tolerance is out of range.
    """
    tolerance = demand.tolerance_percent
    if not 0 <= tolerance < 100:
        raise ParameterError(
            "tolerance_percent", tolerance, allowed="from 0 to below 100"
        )
    copper = expected_core(Quantity(demand.square_mm, "mm^2"), metal("copper"))
    return ScreeningLimits(
        strands=demand.strands,
        least_mass_per_metre_g=copper.mass_per_metre.value * (1 - tolerance / 100),
        most_resistance_per_metre_mohm=copper.resistance_per_metre.value
        * (1 + tolerance / 100),
        least_diameter_mm=demand.least_diameter_mm,
    )


def screen_cores(cores: Sequence[CoreReading], demand: LotDemand) -> LotResult:
    """Accept or hold cores, typed or from a table.

    Parameters
    ----------
    cores : sequence of CoreReading
        The cores examined.
    demand : LotDemand
        What each has to be.

    Returns
    -------
    LotResult
        Each core and the lot.

    Raises
    ------
    MissingMeasurementError
        If a temperature is missing, or a diameter that is limited.
    ParameterError
        If a value is out of range.
    """
    return screen_lot(cores, limits=lot_limits(demand), rule=demand.rule)


def typed_core(
    label: str,
    numbers: Sequence[float],
    uncertainties: BenchUncertainties,
    *,
    celsius: float | None = None,
) -> CoreReading:
    """Make a core of numbers that were typed.

    Parameters
    ----------
    label : str
        Which core.
    numbers : sequence of float
        Strands, length [m], mass [g], resistance [ohm], and where measured
        temperature [degC] and diameter of a strand [mm].
    uncertainties : BenchUncertainties
        Of the readings.
    celsius : float or None
        Temperature where the numbers have none [degC].

    Returns
    -------
    CoreReading
        The core.

    Raises
    ------
    ParameterError
        If there are fewer than four numbers or more than six.
    """
    if not 4 <= len(numbers) <= 6:
        raise ParameterError(
            "core",
            list(numbers),
            allowed="strands, metres, grams, ohm, and where measured deg C and mm",
        )
    strands, metres, grams, ohm, *more = numbers
    read = {
        "length": metres,
        "mass": grams,
        "resistance": ohm,
        "temperature": more[0] if more else None,
        "diameter": 1e-3 * more[1] if len(more) == 2 else None,
    }
    return _core(
        label, _whole(strands), read, uncertainties=uncertainties, celsius=celsius
    )


def cores_of_table(
    path: Path,
    uncertainties: BenchUncertainties,
    *,
    celsius: float | None = None,
    columns: Mapping[str, str],
    sheet: str | None = None,
) -> tuple[CoreReading, ...]:
    """Read the cores of a table.

    Parameters
    ----------
    path : Path
        CSV or XLSX with the columns label, strands, length, mass, resistance, and
        temperature and diameter where they were measured; units in the headers.
    uncertainties : BenchUncertainties
        Of the readings.
    celsius : float or None
        Temperature where the table has none [degC].
    columns : mapping of str to str
        Header by role, for those that do not say it themselves; remembered.
    sheet : str or None
        Sheet of an XLSX file.

    Returns
    -------
    tuple of CoreReading
        One for each row.

    Raises
    ------
    ParameterError
        If a column is missing, or its header has no unit that fits.
    TableRowError
        If a cell is no number.
    """
    table, mapping = known_table(
        path,
        roles=_ROLES,
        required=("label", "strands", *_NEEDED),
        named=columns,
        sheet=sheet,
    )
    read = {role: _in_base_unit(table, mapping, role) for role in _UNITS}
    labels = column_texts(table, mapping, "label")
    strands = [_whole(one) for one in required_numbers(table, mapping, "strands")]
    return tuple(
        _core(
            label,
            count,
            {role: values[place] for role, values in read.items()},
            uncertainties=uncertainties,
            celsius=celsius,
        )
        for place, (label, count) in enumerate(zip(labels, strands, strict=True))
    )


def lot_finding(found: LotResult) -> BenchFinding:
    """Give a screening in the form that a case holds.

    Parameters
    ----------
    found : LotResult
        From `screen_cores`.

    Returns
    -------
    BenchFinding
        It bears on the build alone.
    """
    flags = {flag.name for core in found.cores for flag in core.flags}
    return BenchFinding(
        method="incoming cores: strand count, mass and resistance per metre",
        results=tuple(one for core in found.cores for one in _core_results(core)),
        bears_on=(ClaimKind.BUILD,),
        sentence=found.sentence,
        flags=tuple(sorted(flags)),
    )


def _in_base_unit(
    table: CellTable, mapping: ColumnMapping, role: str
) -> list[float | None]:
    if role not in mapping.headers:
        return [None] * len(table.rows)
    kind, allowed = _UNITS[role]
    factor = factor_to_base_unit(
        kind, column_unit(table, mapping, role, allowed=allowed)
    )
    take = required_numbers if role in _NEEDED else column_numbers
    return [None if one is None else factor * one for one in take(table, mapping, role)]


def _core_results(core: ScreeningResult) -> tuple[MeasurementResult, ...]:
    reasons = "; ".join(core.reasons) or "all decisions conform"
    return (
        MeasurementResult(
            name=f"mass_per_metre of {core.label}",
            value=measured_value(core.mass_per_metre.measured),
            words=f"{core.action}: {reasons}; {core.likeness}",
        ),
        MeasurementResult(
            name=f"resistance_per_metre of {core.label}",
            value=measured_value(core.resistance_per_metre.measured),
        ),
    )


def _core(
    label: str,
    strands: int,
    read: Mapping[str, float | None],
    *,
    uncertainties: BenchUncertainties,
    celsius: float | None,
) -> CoreReading:
    ohm = read["resistance"] or 0.0
    warm = read["temperature"] if read["temperature"] is not None else celsius
    diameter = read["diameter"]
    return CoreReading(
        label=label,
        strands=strands,
        length=normal_input(
            "length", read["length"] or 0.0, uncertainties.metres, unit="m"
        ),
        mass=normal_input("mass", read["mass"] or 0.0, uncertainties.grams, unit="g"),
        resistance=normal_input(
            "resistance", ohm, 0.01 * uncertainties.percent_of_ohm * ohm, unit="ohm"
        ),
        temperature=None
        if warm is None
        else normal_input("temperature", warm, uncertainties.celsius, unit="degC"),
        diameter=None
        if diameter is None
        else _diameter(1e3 * diameter, uncertainties.millimetres),
    )


def _whole(strands: float) -> int:
    if not strands.is_integer():
        raise ParameterError("strands", strands, allowed="a whole number")
    return int(strands)


def _diameter(millimetres: float, uncertainty: float) -> Input:
    return normal_input("diameter of a strand", millimetres, uncertainty, unit="mm")
