"""The ledger in sentences."""

from strandproof.physical.handling.flags import HandlingFlag
from strandproof.physical.handling.ledger import LedgerRow


def flag_lines(flag: HandlingFlag) -> tuple[str, ...]:
    """Say a flag with everything that stands beside it.

    Parameters
    ----------
    flag : HandlingFlag
        The flag.

    Returns
    -------
    tuple of str
        Sentences.
    """
    lines = [f"{flag.name}. {flag.sentence}"]
    if flag.corrected_at_entry is not None:
        lines.append(
            f"Entry {flag.corrected_at_entry} says otherwise; the flag was raised at "
            f"entry {flag.raised_at_entry} and stands until answered."
        )
    if flag.controls_named:
        lines.append(f"Answered by {', '.join(flag.controls_named)}.")
    for each in flag.answers:
        rests = f" Rests on {', '.join(each.evidence)}." if each.evidence else ""
        lines.append(f"Answered by {each.answered_by}: {each.answer}.{rests}")
    return tuple(lines if not flag.open else [*lines, "Open."])


def row_line(row: LedgerRow) -> str:
    """Say what one specimen saw.

    Parameters
    ----------
    row : LedgerRow
        Its row.

    Returns
    -------
    str
        A line.
    """
    if not row.events:
        return f"{row.specimen}: nothing recorded."
    if row.highest_temperature_c is None:
        heat = "temperature not recorded"
    else:
        heat = f"at most {row.highest_temperature_c:g} °C"
    flags = ", ".join(each.name for each in row.flags)
    told = f" Flags: {flags}." if flags else ""
    return f"{row.specimen}: {heat}; {'; '.join(row.events)}.{told}"
