"""Writing a map of orientations as the table that `read_orientation_table` reads."""

from io import StringIO

import numpy as np

from strandproof.records.orientation import AngleMeaning, OrientationTable

_HEADER = "x_um,y_um,phi1_deg,Phi_deg,phi2_deg"
_BLOCK = 100_000


def angle_remark(meaning: AngleMeaning) -> str:
    """Give the remark by which a table says how its angles are meant.

    Parameters
    ----------
    meaning : {"passive", "active"}
        How they are meant.

    Returns
    -------
    str
        The remark, without the sign that begins its line.
    """
    return f"Bunge angles, {meaning}."


def encode_orientation_table(table: OrientationTable) -> bytes:
    """Turn a map into a CSV file.

    Parameters
    ----------
    table : OrientationTable
        The map.

    Returns
    -------
    bytes
        Remark lines, header, one line for each point: places to 0.1 nm, angles
        to 0.001 deg; angles are empty where a point was not indexed. How they
        are meant stands in a remark line, see `angle_remark`.
    """
    text = StringIO()
    remarks = (*table.notes, angle_remark(table.meaning))
    text.writelines(f"# {note}\n" for note in remarks)
    text.write(f"{_HEADER}\n")
    degrees = np.rad2deg(table.angles_rad)
    for start in range(0, len(degrees), _BLOCK):
        part = slice(start, start + _BLOCK)
        for x, y, (first, tilt, second) in zip(
            table.x_um[part].tolist(),
            table.y_um[part].tolist(),
            degrees[part].tolist(),
            strict=True,
        ):
            indexed = tilt == tilt  # noqa: PLR0124 - only NaN differs from itself
            angles = f"{first:.3f},{tilt:.3f},{second:.3f}" if indexed else ",,"
            text.write(f"{x:.4f},{y:.4f},{angles}\n")
    return text.getvalue().encode("utf-8")
