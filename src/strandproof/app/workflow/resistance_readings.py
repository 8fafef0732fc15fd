"""Readings of a resistance as somebody typed them or as a table holds them."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path

from strandproof.app.workflow.table_columns import (
    column_numbers,
    column_texts,
    column_unit,
    known_table,
    required_numbers,
)
from strandproof.electrical import (
    lay_factor,
    meter_uncertainty,
    wire_temperature,
)
from strandproof.electrical.given_inputs import (
    Kind,
    factor_to_base_unit,
    input_of_quantity,
)
from strandproof.errors import MissingMeasurementError, ParameterError
from strandproof.quantity import Input, normal_input
from strandproof.records.cell_tables import CellTable, ColumnMapping
from strandproof.records.electrical import (
    ConductorForm,
    FourWireSeries,
    LeadChecks,
    MeterRange,
    ParallelConductor,
    ResistanceMeasurement,
    ReversalPair,
    SeriesReading,
)

_ROLES: Mapping[str, Sequence[str]] = {
    "current": ("i", "amperes"),
    "forward": ("u+", "v+", "r+", "voltage forward", "resistance forward"),
    "reverse": ("u-", "v-", "r-", "reversed", "voltage reversed", "voltage reverse"),
    "time": ("t", "seconds"),
    "meter_range": ("meter range", "range"),
    "current_range": ("current range",),
}
_VOLTS, _OHMS = ("V", "mV", "uV"), ("ohm", "mohm", "uohm")


@dataclass(frozen=True, slots=True, kw_only=True)
class Lay:
    """Lay of a core as typed: a factor, or pitch and diameter of the helix.

    Parameters
    ----------
    factor, pitch_mm, helix_mm : tuple of float or None
        Value and standard uncertainty; the factor, or both of the others.
    """

    factor: tuple[float, float] | None = None
    pitch_mm: tuple[float, float] | None = None
    helix_mm: tuple[float, float] | None = None


_NO_LAY = Lay()


@dataclass(frozen=True, slots=True, kw_only=True)
class TypedReadings:
    """Readings as typed: values with their standard uncertainties.

    Parameters
    ----------
    ohm : tuple of float, FourWireSeries or None
        Value and standard uncertainty, or raw readings.
    celsius, metres, milligrams, millimetres : tuple of float or None
        Value and standard uncertainty; None where it was not read.
    gradient_k, contact_k : float
        Half the spread of temperature along the wire, and by how much the sensor
        may differ from the wire [K].
    strands : int
        Strands in parallel, for the route by diameter.
    conductors : sequence of ParallelConductor
        Everything that the current ran through.
    form : {"straight", "stranded", "twisted"} or None
        How the conductor lay when its length was taken.
    lay : Lay
        Lay of a stranded or twisted core.
    checks : LeadChecks or None
        Readings to check leads and contacts; None where none was taken.
    """

    ohm: tuple[float, float] | FourWireSeries | None
    celsius: tuple[float, float] | None
    metres: tuple[float, float]
    gradient_k: float = 0.0
    contact_k: float = 0.0
    milligrams: tuple[float, float] | None = None
    millimetres: tuple[float, float] | None = None
    strands: int = 1
    conductors: Sequence[ParallelConductor] = ()
    form: ConductorForm | None = None
    lay: Lay = _NO_LAY
    checks: LeadChecks | None = None


def resistance_measurement(readings: TypedReadings) -> ResistanceMeasurement:
    """Give typed readings their names and units.

    Parameters
    ----------
    readings : TypedReadings
        Values and standard uncertainties.

    Returns
    -------
    ResistanceMeasurement
        For the evaluation.

    Raises
    ------
    MissingMeasurementError
        If no resistance was given.
    """
    return ResistanceMeasurement(
        resistance=_resistance(readings),
        temperature=_temperature(readings),
        gauge_length=normal_input("length", *readings.metres, unit="m"),
        mass=_optional("mass", readings.milligrams, "mg"),
        form=readings.form,
        lay_factor=_lay_factor(readings.lay),
    )


def by_specification(ohm: float, meter: MeterRange) -> tuple[float, float]:
    """Give a resistance with the standard uncertainty of the meter that read it.

    Parameters
    ----------
    ohm : float
        The reading [ohm].
    meter : MeterRange
        An ohmmeter's range.

    Returns
    -------
    tuple of float
        Value and standard uncertainty [ohm].

    Raises
    ------
    ParameterError
        If the reading is beyond the range.
    UnitError
        If the meter reads no resistance.
    """
    factor = factor_to_base_unit("resistance", meter.unit)
    found = meter_uncertainty(ohm / factor, meter)
    return ohm, factor * found.standard_uncertainty


def typed_series(
    pairs: Sequence[tuple[float, float, float]],
    *,
    unit: str,
    current_unit: str,
    meter: Sequence[MeterRange],
    ammeter: Sequence[MeterRange],
) -> FourWireSeries:
    """Make a series of pairs that were typed.

    Parameters
    ----------
    pairs : sequence of tuple of float
        Current, forward and reversed reading.
    unit, current_unit : str
        Units of readings and currents.
    meter, ammeter : sequence of MeterRange
        Ranges of the meters.

    Returns
    -------
    FourWireSeries
        The series.

    Raises
    ------
    ParameterError
        If the unit is neither of voltage nor of resistance, or meters are missing.
    """
    return FourWireSeries(
        pairs=tuple(
            ReversalPair(current=current, forward=forward, reverse=reverse)
            for current, forward, reverse in pairs
        ),
        reads=_reads(unit),
        unit=unit,
        current_unit=current_unit,
        meter=_meters(meter, unit),
        ammeter=tuple(ammeter) if unit in _OHMS else _meters(ammeter, current_unit),
    )


def series_of_table(
    path: Path,
    *,
    columns: Mapping[str, str],
    meter: Sequence[MeterRange],
    ammeter: Sequence[MeterRange],
    sheet: str | None = None,
) -> FourWireSeries:
    """Make a series of a table of readings, CSV or XLSX.

    Parameters
    ----------
    path : Path
        The table: current, forward and reversed reading in each row, units in the
        headers; time and names of ranges where wanted.
    columns : mapping of str to str
        Header by role, for those that do not say it themselves; remembered.
    meter, ammeter : sequence of MeterRange
        Ranges of the meters.
    sheet : str or None
        Sheet of an XLSX file.

    Returns
    -------
    FourWireSeries
        The series.

    Raises
    ------
    ParameterError
        If a column or its unit is missing.
    TableRowError
        If a cell is no number.
    """
    table, mapping = known_table(
        path,
        roles=_ROLES,
        required=("current", "forward", "reverse"),
        named=columns,
        sheet=sheet,
    )
    unit = column_unit(table, mapping, "forward", allowed=(*_VOLTS, *_OHMS))
    current_unit = column_unit(table, mapping, "current", allowed=("A", "mA"))
    return FourWireSeries(
        pairs=_pairs_of_table(table, mapping, unit),
        reads=_reads(unit),
        unit=unit,
        current_unit=current_unit,
        meter=_meters(meter, unit),
        ammeter=tuple(ammeter) if unit in _OHMS else _meters(ammeter, current_unit),
    )


def _pairs_of_table(
    table: CellTable, mapping: ColumnMapping, unit: str
) -> tuple[ReversalPair, ...]:
    """Take the pairs, the reversed readings in the unit of the forward ones."""
    back = column_unit(
        table, mapping, "reverse", allowed=_VOLTS if unit in _VOLTS else _OHMS
    )
    kind: Kind = "voltage" if unit in _VOLTS else "resistance"
    factor = factor_to_base_unit(kind, back) / factor_to_base_unit(kind, unit)
    in_minutes = "time" in mapping.headers and (
        column_unit(table, mapping, "time", allowed=("s", "min")) == "min"
    )
    second = 60.0 if in_minutes else 1.0
    rows = zip(
        required_numbers(table, mapping, "current"),
        required_numbers(table, mapping, "forward"),
        required_numbers(table, mapping, "reverse"),
        column_numbers(table, mapping, "time"),
        column_texts(table, mapping, "meter_range"),
        column_texts(table, mapping, "current_range"),
        strict=True,
    )
    return tuple(
        ReversalPair(
            current=current,
            forward=forward,
            reverse=factor * reverse,
            seconds=None if time is None else second * time,
            meter_range=meter_range,
            current_range=current_range,
        )
        for current, forward, reverse, time, meter_range, current_range in rows
    )


def _reads(unit: str) -> SeriesReading:
    if unit in _VOLTS:
        return "voltage"
    if unit in _OHMS:
        return "resistance"
    raise ParameterError("unit", unit, allowed=", ".join((*_VOLTS, *_OHMS)))


def _meters(given: Sequence[MeterRange], unit: str) -> tuple[MeterRange, ...]:
    # Without a specification the budget says so: an input without uncertainty.
    return tuple(given) or (MeterRange(name=f"meter in {unit}", unit=unit),)


def _resistance(readings: TypedReadings) -> Input | FourWireSeries:
    if readings.ohm is None:
        raise MissingMeasurementError(
            "The resistance",
            reason="Without it there is nothing to judge.",
            remedy="Give --ohm, --pair for raw readings, or --readings for a table.",
        )
    if isinstance(readings.ohm, FourWireSeries):
        return readings.ohm
    return normal_input("resistance", *readings.ohm, unit="ohm")


def _temperature(readings: TypedReadings) -> Input | None:
    sensor = _optional("temperature of the wire", readings.celsius, "degC")
    if sensor is None:
        return None
    return wire_temperature(
        sensor, gradient_k=readings.gradient_k, contact_k=readings.contact_k
    )


def _lay_factor(lay: Lay) -> Input | None:
    if lay.factor is not None:
        if lay.pitch_mm is not None or lay.helix_mm is not None:
            raise ParameterError(
                "lay", "factor and pitch", allowed="a factor, or pitch and diameter"
            )
        return normal_input("lay factor", *lay.factor, unit="1")
    if lay.pitch_mm is None and lay.helix_mm is None:
        return None
    if lay.pitch_mm is None or lay.helix_mm is None:
        raise MissingMeasurementError(
            "Pitch or diameter of the lay",
            reason="Both make the lay factor.",
            remedy="Give --pitch-mm and --helix-mm, or the measured --lay-factor.",
        )
    found = lay_factor(
        normal_input("pitch of the lay", *lay.pitch_mm, unit="mm"),
        normal_input("diameter of the lay", *lay.helix_mm, unit="mm"),
    )
    return input_of_quantity(found, name="lay factor")


def _optional(
    name: str, reading: tuple[float, float] | None, unit: str
) -> Input | None:
    return None if reading is None else normal_input(name, *reading, unit=unit)
