"""Use cases that measure one picture, with or without a case."""

import json
from collections.abc import Callable
from dataclasses import dataclass, replace
from importlib.metadata import version
from pathlib import Path
from typing import Any

from strandproof.errors import NoScaleError
from strandproof.grainsize import measure, measurement_as_plain_data
from strandproof.micrograph import overlay, segment
from strandproof.micrograph.edits import Edit, edits_as_plain_data
from strandproof.quantity import Quantity
from strandproof.records import FLAGS, LabelledStructure
from strandproof.records.entries.numbers import measured_value
from strandproof.records.measurement import Estimate, StructureMeasurement
from strandproof.report import value_in_words
from strandproof.storage import (
    DecodedPicture,
    read_picture,
    write_labels,
    write_output_file,
    write_overlay,
)

Progress = Callable[[float, str], None]

_LIBRARIES = ("numpy", "scipy", "scikit-image", "pyvips", "GTC")
_SEGMENTING_SHARE = 0.8


@dataclass(frozen=True, slots=True, eq=False)
class PictureMeasurement:
    """A measured picture: what was read, what was found, what was counted.

    Parameters
    ----------
    name : str
        Name of the file.
    picture : DecodedPicture
        The pixels and what the file says.
    structure : LabelledStructure
        Strands and grains found.
    measurement : StructureMeasurement
        Counts, intercepts, bounds.
    edits : tuple of Edit
        What a person changed in the structure, in order.
    without_edits : StructureMeasurement or None
        The measurement without these edits; None where there are none.
    """

    name: str
    picture: DecodedPicture
    structure: LabelledStructure
    measurement: StructureMeasurement
    edits: tuple[Edit, ...] = ()
    without_edits: StructureMeasurement | None = None


def measure_picture(
    path: Path,
    *,
    pixel_size: Quantity | None = None,
    in_pixels: bool = False,
    page: int | None = None,
    allow_large: bool = False,
    progress: Progress | None = None,
) -> PictureMeasurement:
    """Measure one picture.

    Parameters
    ----------
    path : Path
        The picture.
    pixel_size : Quantity or None
        Pixel size [um]; None takes the file's own, if it states one.
    in_pixels : bool
        Count without any scale: pixel lengths only, no G, flagged.
    page : int or None
        Page, for files with several.
    allow_large : bool
        Unpack although the size guard would refuse.
    progress : callable or None
        Called with a fraction and words; may raise to cancel.

    Returns
    -------
    PictureMeasurement
        Everything found.

    Raises
    ------
    NoScaleError
        If there is no pixel size and counting in pixels was not asked for.
    """
    picture = read_picture(
        path, page=page, um_per_px=pixel_size, allow_large=allow_large
    )
    scale = None if in_pixels else pixel_size or _scale_of_file(picture)
    if scale is None and not in_pixels:
        raise NoScaleError(path.name)
    report = progress or _silent
    structure = segment(
        picture.pixels,
        valid=picture.valid,
        progress=lambda done, words: report(_SEGMENTING_SHARE * done, words),
    )
    report(_SEGMENTING_SHARE, "counting")
    measurement = measure(structure, pixel_size=scale)
    measurement = with_picture_flags(measurement, picture)
    report(1.0, "done")
    return PictureMeasurement(path.name, picture, structure, measurement)


def with_picture_flags(
    measurement: StructureMeasurement, picture: DecodedPicture
) -> StructureMeasurement:
    """Put the flags of a picture before those of its measurement.

    Parameters
    ----------
    measurement : StructureMeasurement
        What was counted.
    picture : DecodedPicture
        What it was counted on.

    Returns
    -------
    StructureMeasurement
        With both kinds of flags, each once.
    """
    flags = tuple(dict.fromkeys(picture.flags + measurement.flags))
    return replace(measurement, flags=flags)


def measurement_document(result: PictureMeasurement) -> dict[str, Any]:
    """Give a measurement as plain data, every number with its unit.

    Parameters
    ----------
    result : PictureMeasurement
        A measured picture.

    Returns
    -------
    dict
        JSON data: the file, versions, the measurement, the edits by hand and the
        measurement without them (None where there are none).
    """
    picture, without = result.picture, result.without_edits
    rows, columns = picture.pixels.shape[:2]
    return {
        **measurement_as_plain_data(result.measurement),
        **edits_as_plain_data(result.edits),
        "without_edits": without and measurement_as_plain_data(without),
        "file": {
            "name": result.name,
            "sha256": picture.sha256,
            "format": picture.file_format,
            "bit_depth": picture.bit_depth,
            "page": picture.page,
            "width_px": columns,
            "height_px": rows,
            "orientation_applied": picture.orientation_applied,
            "notes": list(picture.notes),
        },
        "versions": {name: version(name) for name in ("strandproof", *_LIBRARIES)},
    }


def write_measurement(
    result: PictureMeasurement,
    *,
    source: Path,
    json_file: Path | None = None,
    labels_file: Path | None = None,
    overlay_file: Path | None = None,
) -> None:
    """Write what was found to files; the picture itself is never replaced.

    Parameters
    ----------
    result : PictureMeasurement
        A measured picture.
    source : Path
        The picture.
    json_file : Path or None
        For the numbers.
    labels_file : Path or None
        For the grain labels: PNG of 16 bit, or TIFF of 32 bit.
    overlay_file : Path or None
        For the picture with boundaries drawn on it.
    """
    if json_file is not None:
        text = json.dumps(
            measurement_document(result), indent=2, ensure_ascii=False, allow_nan=False
        )
        data = (text + "\n").encode("utf-8")
        write_output_file(json_file, data, source=source, overwrite=True)
    if labels_file is not None:
        labels = result.structure.grain_labels
        write_labels(labels_file, labels, source=source, overwrite=True)
    if overlay_file is not None:
        drawn = overlay(result.picture.pixels, result.structure)
        write_overlay(overlay_file, drawn, source=source, overwrite=True)


def pixel_size(um_per_px: float | None, uncertainty_um: float) -> Quantity | None:
    """Give a typed pixel size as a quantity.

    Parameters
    ----------
    um_per_px : float or None
        Pixel size [um]; None when none was typed.
    uncertainty_um : float
        Its standard uncertainty [um]; 0 when none was typed.

    Returns
    -------
    Quantity or None
        None when no pixel size was typed.
    """
    return None if um_per_px is None else Quantity(um_per_px, "um", uncertainty_um)


def measurement_in_words(result: PictureMeasurement) -> str:
    """Say the main numbers of a measurement.

    Parameters
    ----------
    result : PictureMeasurement
        A measured picture.

    Returns
    -------
    str
        A few lines for people.
    """
    found = result.measurement
    lines = [f"{result.name}: {len(found.strands)} piece(s) of metal"]
    for strand in found.strands:
        values = strand.values
        lines += [
            (
                f"Piece {strand.number} ({strand.shape}): {strand.verdict}. "
                f"{strand.verdict_reason}"
            ),
            f"  grains: {values.count.grains}, {values.count.cut} cut by the frame",
            f"  mean lineal intercept: {_words(values.intercepts.mean_intercept)}",
            (
                f"  G by intercepts: {_words(values.g_intercept)}; "
                f"planimetric: {_words(values.g_planimetric)}"
            ),
        ]
        if values.axial_crossings is not None:
            lines.append(f"  along the axis: {values.axial_crossings.sentence}")
    if result.without_edits is not None:
        lines.append(_edits_in_words(len(result.edits), found, result.without_edits))
    names = dict.fromkeys(flag.name for flag in found.flags)
    lines += [f"Keep in mind: {FLAGS[name].meaning}" for name in names]
    return "\n".join(lines)


def _edits_in_words(
    n_edits: int, found: StructureMeasurement, without: StructureMeasurement
) -> str:
    applied = "1 edit by hand was" if n_edits == 1 else f"{n_edits} edits by hand were"
    return (
        f"{applied} applied. With: {_whole_in_words(found)}. "
        f"Without: {_whole_in_words(without)}."
    )


def _whole_in_words(measurement: StructureMeasurement) -> str:
    values = measurement.picture
    if values is None:
        return "no metal measured"
    return (
        f"{values.count.grains} grain(s), mean lineal intercept "
        f"{_words(values.intercepts.mean_intercept)}"
    )


def _words(estimate: Estimate | None) -> str:
    if estimate is None:
        return "not stated"
    return value_in_words(measured_value(estimate.quantity, estimate.interval95))


def _scale_of_file(picture: DecodedPicture) -> Quantity | None:
    if picture.pixel_size is None:
        return None
    return Quantity(picture.pixel_size.value_um, "um")


def _silent(_fraction: float, _words: str) -> None:
    return None
