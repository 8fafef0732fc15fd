"""Use cases that settle the size of a pixel and enter it as a calibration."""

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from strandproof.app.workflow.entering import Desk, Fields, read_original
from strandproof.errors import NoBarError, NoScaleInFileError
from strandproof.micrograph.calibration import (
    PixelCalibration,
    StageScale,
    calibration_from_bar,
    calibration_from_marks,
    calibration_from_rulings,
    find_scale_bar,
    fit_ruling,
)
from strandproof.quantity import Quantity, expanded_interval, format_quantity
from strandproof.records import FLAGS, Flag
from strandproof.records.entries import Calibration, Entry, MeasuredValue
from strandproof.records.entries.building import build_body
from strandproof.records.entries.numbers import measured_value, quantity_of
from strandproof.storage import Addition, read_picture, read_picture_scale


@dataclass(frozen=True, slots=True, kw_only=True)
class TypedScale:
    """A stage scale as a person describes it.

    Parameters
    ----------
    division_um : float
        Distance of neighbouring lines [um].
    certificate_um : float or None
        Standard uncertainty of the distance of two lines by its certificate [um].
    expected_um_per_px : float or None
        About what the pixel size should be [um].
    """

    division_um: float
    certificate_um: float | None = None
    expected_um_per_px: float | None = None

    @property
    def scale(self) -> StageScale:
        """The scale for computing."""
        return StageScale(
            division_um=self.division_um, certificate_um=self.certificate_um
        )


def calibrate_on_stage_scale(
    desk: Desk, fields: Fields, *, pictures: Sequence[Path], typed: TypedScale
) -> Entry:
    """Find the lines of a stage scale in pictures and enter the pixel size.

    Parameters
    ----------
    desk : Desk
        Folder and person.
    fields : mapping
        Fields of the record `Calibration` that a person types: id, made_at, ...
    pictures : sequence of Path
        Pictures of one scale, taken with the same settings; all are kept.
    typed : TypedScale
        What is known of the scale.

    Returns
    -------
    Entry
        The calibration as entered.
    """
    fits = [fit_ruling(read_picture(path).pixels) for path in pictures]
    found = calibration_from_rulings(
        fits, typed.scale, expected_um_per_px=typed.expected_um_per_px
    )
    return _enter(desk, fields, found, pictures)


def calibrate_by_marks(
    desk: Desk,
    fields: Fields,
    *,
    lengths_px: Sequence[float],
    divisions: int,
    typed: TypedScale,
    picture: Path | None = None,
) -> Entry:
    """Enter the pixel size from lengths that a person marked on a stage scale.

    Parameters
    ----------
    desk : Desk
        Folder and person.
    fields : mapping
        Fields of the record `Calibration` that a person types.
    lengths_px : sequence of float
        Marked lengths over the same number of divisions [px].
    divisions : int
        That number.
    typed : TypedScale
        What is known of the scale.
    picture : Path or None
        Picture that was marked; kept.

    Returns
    -------
    Entry
        The calibration as entered.
    """
    size = None
    if picture is not None:
        rows, columns = read_picture(picture).pixels.shape[:2]
        size = (columns, rows)
    found = calibration_from_marks(
        lengths_px,
        typed.scale,
        divisions=divisions,
        size_px=size,
        expected_um_per_px=typed.expected_um_per_px,
    )
    return _enter(desk, fields, found, () if picture is None else (picture,))


def calibrate_from_metadata(
    desk: Desk,
    fields: Fields,
    *,
    picture: Path,
    uncertainty_um: float | None = None,
    page: int | None = None,
) -> Entry:
    """Enter the pixel size that a picture's file states, flagged as such.

    Parameters
    ----------
    desk : Desk
        Folder and person.
    fields : mapping
        Fields of the record `Calibration` that a person types.
    picture : Path
        The picture; kept.
    uncertainty_um : float or None
        Standard uncertainty as the person judges it [um]; None leaves it unstated.
    page : int or None
        Page, for files with several.

    Returns
    -------
    Entry
        The calibration as entered.

    Raises
    ------
    NoScaleInFileError
        If the file states nothing that can pass for a microscope's scale.
    """
    stated = read_picture_scale(picture, page=page)
    if stated.offered is None:
        raise NoScaleInFileError(picture.name, stated.not_offered)
    doubt = uncertainty_um or 0.0
    found = PixelCalibration(
        pixel_size=Quantity(stated.offered.value_um, "um", doubt),
        readings_um=(),
        method=f"as the picture's file states ({stated.offered.source})",
        width_px=stated.width_px,
        height_px=stated.height_px,
        flags=stated.flags,
    )
    return _enter(desk, fields, found, (picture,))


def calibrate_on_bar(
    desk: Desk, fields: Fields, *, picture: Path, length_um: float
) -> Entry:
    """Enter the pixel size by a bar burned into a picture, flagged as such.

    Parameters
    ----------
    desk : Desk
        Folder and person.
    fields : mapping
        Fields of the record `Calibration` that a person types.
    picture : Path
        Picture with the bar; kept.
    length_um : float
        Length that the person reads beside the bar [um].

    Returns
    -------
    Entry
        The calibration as entered.

    Raises
    ------
    NoBarError
        If no bar is found.
    """
    bar = find_scale_bar(read_picture(picture).pixels)
    if bar is None:
        raise NoBarError(picture.name)
    found = calibration_from_bar(bar, length_um=length_um)
    return _enter(desk, fields, found, (picture,))


def calibration_in_words(calibration: Calibration) -> str:
    """Say what a calibration holds and what it rests on.

    Parameters
    ----------
    calibration : Calibration
        As entered.

    Returns
    -------
    str
        A few lines for people.
    """
    size = calibration.pixel_size
    lines = [
        f"Pixel size: {format_quantity(quantity_of(size), ascii_only=True)}",
        f"Method: {calibration.method}",
    ]
    if size.lower is not None and size.upper is not None:
        lines.insert(1, f"95 % interval: {size.lower:.5g} to {size.upper:.5g} um")
    if calibration.picture_width_px is not None:
        lines.append(
            f"Holds for pictures of {calibration.picture_width_px} x "
            f"{calibration.picture_height_px} pixels, taken with the same settings."
        )
    lines += [
        f"Keep in mind: {FLAGS[name].meaning} {FLAGS[name].remedy}"
        for name in calibration.flags
    ]
    return "\n".join(lines)


def _enter(
    desk: Desk, fields: Fields, found: PixelCalibration, pictures: Sequence[Path]
) -> Entry:
    originals = tuple(map(read_original, pictures))
    hashes = [original.sha256 for original in originals]
    typed: dict[str, Any] = dict(fields)
    method = "; ".join(part for part in (found.method, typed.pop("method", "")) if part)
    body = build_body(
        "calibration",
        {
            **typed,
            "pixel_size": _measured(found.pixel_size),
            "method": method,
            "readings_um": found.readings_um,
            "picture_sha256": hashes[0] if hashes else None,
            "more_pictures_sha256": tuple(hashes[1:]),
            "picture_width_px": found.width_px,
            "picture_height_px": found.height_px,
            "flags": tuple(dict.fromkeys(flag.name for flag in _flags(found))),
        },
    )
    return desk.add(Addition(body, originals))[0]


def _measured(size: Quantity) -> MeasuredValue:
    if size.standard_uncertainty == 0:
        return MeasuredValue(value=size.value, unit=size.unit)
    return measured_value(size, expanded_interval(size))


def _flags(found: PixelCalibration) -> tuple[Flag, ...]:
    if found.pixel_size.standard_uncertainty > 0:
        return found.flags
    return (*found.flags, Flag("pixel_size_without_uncertainty"))
