"""The use case that applies a person's edits to a measured picture."""

import json
from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path

from strandproof.app.workflow.entering import read_original
from strandproof.app.workflow.measuring import PictureMeasurement, with_picture_flags
from strandproof.errors import ParameterError
from strandproof.grainsize import measure
from strandproof.micrograph.edits import Edit, edits_from_plain_data, with_edits


def read_edits(path: Path) -> tuple[Edit, ...]:
    """Read edits from a JSON file.

    Parameters
    ----------
    path : Path
        The file: ``{"edits": [{"kind": ..., "points_px": [[row, column], ...]}]}``.

    Returns
    -------
    tuple of Edit
        In the order of the file.

    Raises
    ------
    ParameterError
        If it is no JSON, or holds something else.
    """
    try:
        data = json.loads(read_original(path).content)
    except ValueError as error:
        raise ParameterError(
            "file of edits", path.name, allowed=f"a JSON file ({error})"
        ) from None
    return edits_from_plain_data(data)


def measured_with_edits(
    result: PictureMeasurement, edits: Sequence[Edit]
) -> PictureMeasurement:
    """Measure a picture again with a person's edits on top of what was found.

    Parameters
    ----------
    result : PictureMeasurement
        A measured picture without edits.
    edits : sequence of Edit
        The edits, in order; none gives the result back.

    Returns
    -------
    PictureMeasurement
        Measured with the edits; the numbers without them are kept beside.
    """
    if not edits:
        return result
    structure = with_edits(result.structure, edits)
    measurement = measure(structure, pixel_size=result.measurement.pixel_size)
    return replace(
        result,
        structure=structure,
        measurement=with_picture_flags(measurement, result.picture),
        edits=tuple(edits),
        without_edits=result.measurement,
    )
