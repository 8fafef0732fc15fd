"""Words typed on the command line, turned into numbers, moments and places."""

import re
from datetime import UTC, datetime
from pathlib import Path

import typer

from strandproof.records.electrical import MeterRange, ParallelConductor

_LENGTHS_UM = {"um": 1.0, "µm": 1.0, "μm": 1.0, "nm": 1e-3, "mm": 1e3}
_METER = re.compile(
    r"(?:(?P<name>[^:]+):)?(?P<reading>[\d.]+)%"
    r"(?:\+(?P<range>[\d.]+)%@(?P<full>[\d.]+)\s*(?P<unit>[mu]?(?:V|A|ohm)))?"
    r"(?:\+(?P<counts>[\d.]+)\*(?P<digit>[\d.]+)\s*(?P<other>[mu]?(?:V|A|ohm)))?"
    r"(?P<normal>,95%)?"
)
_NUMBER = re.compile(r"[+-]?(\d+\.?\d*|\.\d+)([eE][+-]?\d+)?")


def number(text: str | float) -> float:
    """Read a decimal number.

    Parameters
    ----------
    text : str or float
        As typed; a default of an option comes as it is.

    Returns
    -------
    float
        The number.

    Raises
    ------
    typer.BadParameter
        If it is no number, or has a decimal comma.
    """
    if isinstance(text, float):
        return text
    if re.fullmatch(r"[+-]?\d+,\d+", text):
        dotted = text.replace(",", ".")
        message = f"{text} has a decimal comma; write {dotted} with a decimal point."
        raise typer.BadParameter(message)
    if not _NUMBER.fullmatch(text):
        message = f"{text!r} is no number; write it like 0.1726."
        raise typer.BadParameter(message)
    return float(text)


def length_um(text: str | float) -> float:
    """Read a length above zero; without a unit it is in micrometres.

    Parameters
    ----------
    text : str or float
        For example ``0.1726``, ``172.6nm`` or ``0.0002 mm``; a default of an option
        comes as it is.

    Returns
    -------
    float
        Length [um].

    Raises
    ------
    typer.BadParameter
        If it is no length above zero, or the unit is none of um, nm, mm.
    """
    if isinstance(text, float):
        return text
    found = re.fullmatch(r"([0-9.,eE+-]*[0-9.])\s*([^\d\s.,+-]*)", text.strip())
    amount, unit = found.groups() if found else (text, "")
    if unit and unit not in _LENGTHS_UM:
        message = f"the unit {unit!r} is not a length that fits; use um, nm or mm."
        raise typer.BadParameter(message)
    value = number(amount) * _LENGTHS_UM.get(unit, 1.0)
    if value <= 0:
        message = f"{text} is not above zero; a length must be."
        raise typer.BadParameter(message)
    return value


def moment(text: str) -> datetime:
    """Read a date, or date and time with its offset from UTC.

    Parameters
    ----------
    text : str
        ISO 8601, for example ``2031-03-03T19:12Z`` or ``2031-03-03``.

    Returns
    -------
    datetime
        In UTC; a date alone is its noon.

    Raises
    ------
    typer.BadParameter
        If it is no moment, or a time without its offset.
    """
    try:
        if re.fullmatch(r"\d{4}-\d{2}-\d{2}", text):
            return datetime.fromisoformat(f"{text}T12:00+00:00")
        found = datetime.fromisoformat(text)
    except ValueError:
        message = f"{text!r} is no date; write it like 2031-03-03T19:12Z or 2031-03-03."
        raise typer.BadParameter(message) from None
    if found.tzinfo is None:
        message = f"{text} lacks its time zone; end it with Z for UTC, or +02:00."
        raise typer.BadParameter(message)
    return found.astimezone(UTC)


def field_and_file(text: str) -> tuple[str, Path]:
    """Read ``field=path``.

    Parameters
    ----------
    text : str
        As typed.

    Returns
    -------
    field : str
        Name of a field.
    path : Path
        File for it.

    Raises
    ------
    typer.BadParameter
        If the equals sign or a side of it is missing.
    """
    name, equals, path = text.partition("=")
    if not (name and equals and path):
        message = f"{text!r} is not of the form field=path."
        raise typer.BadParameter(message)
    return name, Path(path)


def conductor(text: str) -> ParallelConductor:
    """Read a conductor as ``name:strands:metal`` or ``name:strands:metal:layer``.

    Parameters
    ----------
    text : str
        For example ``core:76:copper`` or ``drain:7:copper:tin``.

    Returns
    -------
    ParallelConductor
        The conductor.

    Raises
    ------
    typer.BadParameter
        If it has another form.
    """
    name, *rest = text.split(":")
    if len(rest) not in {2, 3} or not rest[0].isdigit():
        message = f"{text!r} is not of the form name:strands:metal[:layer]."
        raise typer.BadParameter(message)
    layer = rest[2] if len(rest) == 3 else ""
    return ParallelConductor(
        name=name, strands=int(rest[0]), metal=rest[1], layer=layer
    )


def meter_range(text: str) -> MeterRange:
    """Read a meter's specification, "reading + range".

    Parameters
    ----------
    text : str
        ``0.01%+0.005%@1V`` (per cent of reading, per cent of a range of 1 V),
        ``0.5%+3*0.001V`` (three counts of a last digit of 1 mV), or all three;
        ``name:`` in front where there are several ranges; ``,95%`` behind where the
        data sheet states limits of 95 %.

    Returns
    -------
    MeterRange
        The range.

    Raises
    ------
    typer.BadParameter
        If it has another form.
    """
    found = _METER.fullmatch(text.strip())
    written = () if found is None else found.group("unit", "other")
    units = {unit for unit in written if unit}
    if found is None or len(units) != 1:
        message = (
            f"{text!r} is no specification in one unit; write it like "
            "0.01%+0.005%@1V (per cent "
            "of reading, per cent of range), 0.5%+3*0.001V (counts of a digit), or "
            "0.01%+0.005%@1V+1*0.00001V."
        )
        raise typer.BadParameter(message)
    unit = units.pop()
    kind = {"V": "voltmeter", "A": "ammeter", "m": "ohmmeter"}[unit[-1]]
    return MeterRange(
        name=found["name"] or kind,
        unit=unit,
        percent_of_reading=number(found["reading"]),
        percent_of_range=number(found["range"] or "0"),
        full_scale=number(found["full"] or "0"),
        counts=number(found["counts"] or "0"),
        digit=number(found["digit"] or "0"),
        shape="normal" if found["normal"] else "rectangular",
    )


def reading_pair(text: str) -> tuple[float, float, float]:
    """Read ``current,forward,reversed``.

    Parameters
    ----------
    text : str
        Three numbers, for example ``100,172.985,-172.983``.

    Returns
    -------
    tuple of float
        Current, forward and reversed reading.

    Raises
    ------
    typer.BadParameter
        If it has another form.
    """
    parts = text.split(",")
    if len(parts) != 3:
        message = f"{text!r} is not of the form current,forward,reversed."
        raise typer.BadParameter(message)
    current, forward, reverse = (number(part.strip()) for part in parts)
    return current, forward, reverse


def named_column(text: str) -> tuple[str, str]:
    """Read ``role=header`` of a table.

    Parameters
    ----------
    text : str
        For example ``forward=U+ (mV)``.

    Returns
    -------
    role, header : str
        What the column is, and its header.

    Raises
    ------
    typer.BadParameter
        If the equals sign or a side of it is missing.
    """
    role, equals, header = text.partition("=")
    if not (role and equals and header):
        message = f"{text!r} is not of the form role=header."
        raise typer.BadParameter(message)
    return role.strip(), header.strip()


def labelled_numbers(text: str) -> tuple[str, tuple[float, ...]]:
    """Read ``name:number,number,...``.

    Parameters
    ----------
    text : str
        For example ``core 1:19,1.0,0.849,0.1805``.

    Returns
    -------
    name : str
        The name.
    numbers : tuple of float
        The numbers.

    Raises
    ------
    typer.BadParameter
        If the colon or a side of it is missing, or one is no number.
    """
    name, colon, numbers = text.partition(":")
    if not (name and colon and numbers):
        message = f"{text!r} is not of the form name:number,number."
        raise typer.BadParameter(message)
    return name.strip(), tuple(number(part.strip()) for part in numbers.split(","))
