"""The use case that turns Vickers indentations into a hardness."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from strandproof.app.workflow.bench_findings import BenchFinding
from strandproof.app.workflow.budget_lines import (
    budget_in_words,
    flags_in_words,
    result_data,
)
from strandproof.app.workflow.table_columns import (
    column_numbers,
    column_unit,
    known_table,
    required_numbers,
)
from strandproof.errors import ParameterError
from strandproof.physical import (
    diagonal_error,
    largest_force_newton,
    vickers_result,
)
from strandproof.quantity import normal_input, rectangular_input
from strandproof.records.cell_tables import CellTable, ColumnMapping
from strandproof.records.entries import ClaimKind, MeasurementResult
from strandproof.records.entries.numbers import measured_value
from strandproof.records.physical import (
    HardnessMeasurement,
    HardnessResult,
    Indentation,
)

_ROLES = {
    "first": ("d1", "first", "first diagonal", "diagonal 1"),
    "second": ("d2", "second", "second diagonal", "diagonal 2"),
    "edge": ("edge", "distance to the edge", "to edge"),
    "next": ("next", "neighbour", "distance to the next", "to next"),
}
_UM_PER = {"um": 1.0, "mm": 1e3}
_GF_NEWTON = 9.80665e-3
_SOFT_HV = 50.0


@dataclass(frozen=True, slots=True, kw_only=True)
class TypedIndentations:
    """Indentations as typed, with what the machine adds.

    Parameters
    ----------
    indentations : sequence of Indentation
        From words or a table.
    gram_force : float
        Test force [gf].
    force_percent : float
        Half-width of the force [%].
    diagonal_um : float or None
        Half-width of the reading error that all diagonals share [um]; None takes 1.
    block_percent : float or None
        Standard uncertainty from a reference block [%]; None: no block.
    wire_um, thickness_um : float or None
        Diameter of the wire, metal under the indentation [um].
    """

    indentations: Sequence[Indentation]
    gram_force: float
    force_percent: float = 1.0
    diagonal_um: float | None = None
    block_percent: float | None = None
    wire_um: float | None = None
    thickness_um: float | None = None


def indentations_of_table(
    path: Path, *, columns: Mapping[str, str], sheet: str | None = None
) -> tuple[Indentation, ...]:
    """Read indentations from a table, CSV or XLSX.

    Parameters
    ----------
    path : Path
        One indentation a row: two diagonals, and where measured the distances to edge
        and next indentation; um or mm in the headers.
    columns : mapping of str to str
        Header by role, for those that do not say it themselves; remembered.
    sheet : str or None
        Sheet of an XLSX file.

    Returns
    -------
    tuple of Indentation
        One for each row.

    Raises
    ------
    ParameterError
        If a column or its unit is missing.
    TableRowError
        If a cell is no number.
    """
    table, mapping = known_table(
        path, roles=_ROLES, required=("first", "second"), named=columns, sheet=sheet
    )
    first, second = (
        [value * _factor(table, mapping, role) for value in values]
        for role in ("first", "second")
        for values in [required_numbers(table, mapping, role)]
    )
    edge, following = (_distances(table, mapping, role) for role in ("edge", "next"))
    return tuple(
        Indentation(
            first_diagonal_um=one, second_diagonal_um=two, edge_um=rim, next_um=beside
        )
        for one, two, rim, beside in zip(first, second, edge, following, strict=True)
    )


def _factor(table: CellTable, mapping: ColumnMapping, role: str) -> float:
    return _UM_PER[column_unit(table, mapping, role, allowed=tuple(_UM_PER))]


def _distances(
    table: CellTable, mapping: ColumnMapping, role: str
) -> list[float | None]:
    values = column_numbers(table, mapping, role)
    if role not in mapping.headers:
        return list(values)
    factor = _factor(table, mapping, role)
    return [None if value is None else value * factor for value in values]


def judge_hardness(typed: TypedIndentations) -> HardnessResult:
    """Turn typed indentations into a hardness.

    Parameters
    ----------
    typed : TypedIndentations
        Readings and what the machine adds.

    Returns
    -------
    HardnessResult
        Mean, interval, state.

    Raises
    ------
    IndentationGeometryError
        If an indentation lies where the rules of distance forbid.
    ParameterError
        If a number is out of range.
    """
    if typed.block_percent is not None and typed.block_percent < 0:
        raise ParameterError(
            "block_percent", typed.block_percent, allowed="zero or above"
        )
    return vickers_result(
        HardnessMeasurement(
            indentations=tuple(typed.indentations),
            force=rectangular_input(
                "test force",
                typed.gram_force,
                0.01 * typed.force_percent * typed.gram_force,
                unit="gf",
            ),
            diagonal_error=diagonal_error(typed.diagonal_um),
            block=None
            if typed.block_percent is None
            else normal_input(
                "reference block", 1.0, 0.01 * typed.block_percent, unit="1"
            ),
            wire_diameter_um=typed.wire_um,
            thickness_um=typed.thickness_um,
        )
    )


def force_advice(wire_um: float) -> str:
    """Say which force a wire can take at the centre of its section.

    Parameters
    ----------
    wire_um : float
        Diameter of the metal [um]; above zero.

    Returns
    -------
    str
        One sentence, for soft copper.

    Examples
    --------
    >>> force_advice(80.0)
    'A wire of 80 um takes at most 6.9 gf at its centre if it has 50 HV.'
    """
    largest = largest_force_newton(_SOFT_HV, wire_um) / _GF_NEWTON
    return (
        f"A wire of {wire_um:g} um takes at most {largest:.2g} gf at its centre if it "
        f"has {_SOFT_HV:g} HV."
    )


def hardness_in_words(result: HardnessResult) -> tuple[str, ...]:
    """Say what the indentations gave.

    Parameters
    ----------
    result : HardnessResult
        From `judge_hardness`.

    Returns
    -------
    tuple of str
        Lines for people.
    """
    values = ", ".join(f"{value:.1f}" for value in result.values_hv)
    return (
        result.sentence,
        f"Single values: {values} HV; coverage factor {result.coverage_factor:.2f}.",
        *budget_in_words(result.hardness),
        *flags_in_words(result.flags),
    )


def hardness_data(result: HardnessResult) -> dict[str, Any]:
    """Give what the indentations gave as plain data.

    Parameters
    ----------
    result : HardnessResult
        From `judge_hardness`.

    Returns
    -------
    dict
        JSON data.
    """
    return result_data(result, result.hardness)


def hardness_finding(result: HardnessResult) -> BenchFinding:
    """Give a hardness in the form that a case holds.

    Parameters
    ----------
    result : HardnessResult
        From `judge_hardness`.

    Returns
    -------
    BenchFinding
        Bears on the crystal state only: soft or worked.
    """
    return BenchFinding(
        method="Vickers hardness",
        results=(
            MeasurementResult(
                name="vickers_hardness",
                value=measured_value(result.hardness, result.interval),
                words=f"state: {result.state}",
            ),
        ),
        bears_on=(ClaimKind.CRYSTAL_STATE,),
        sentence=result.sentence,
        flags=tuple(dict.fromkeys(flag.name for flag in result.flags)),
    )
