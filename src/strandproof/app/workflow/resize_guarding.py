"""The resize guard: no micrograph enters with the pixel size of another pixel count."""

from collections.abc import Iterator
from itertools import combinations
from pathlib import Path

from strandproof.errors import ResizedPictureError
from strandproof.micrograph.calibration import (
    SAME_CONTENT_FROM,
    Resizing,
    likeness,
    same_proportions,
)
from strandproof.records.case_state import CaseState
from strandproof.records.entries import Calibration, Micrograph
from strandproof.records.entries.numbers import quantity_of
from strandproof.storage import (
    DecodedPicture,
    original_file,
    read_case,
    read_picture,
)

Size = tuple[int, int]


def refuse_resized(
    folder: Path,
    state: CaseState,
    picture: DecodedPicture,
    *,
    calibration: str | None,
    cropped: bool = False,
) -> None:
    """Refuse a picture whose pixel count does not fit its calibration.

    A picture without calibration passes: it is shown, and not measured.

    Parameters
    ----------
    folder : Path
        Folder of the case.
    state : CaseState
        What stands in the case.
    picture : DecodedPicture
        The picture that is to be entered.
    calibration : str or None
        Short name of the calibration that is to hold for it.
    cropped : bool
        True when a person says that it was cut from a whole frame, its pixels
        unchanged.

    Raises
    ------
    ResizedPictureError
        If it has another number of pixels than the pictures that the calibration was
        made in, or is a copy of a micrograph of the case at another size, and the
        pixel size does not follow.
    """
    if calibration is None:
        return
    rows, columns = picture.pixels.shape[:2]
    size = (columns, rows)
    record = state.record(Calibration, calibration)
    _refuse_other_frame(record, size, cropped=cropped)
    pixel_size = quantity_of(record.pixel_size)
    for other, known in _calibrated(state):
        found = Resizing(
            known_px=(other.width_px, other.height_px),
            given_px=size,
            pixel_size=quantity_of(known.pixel_size),
        )
        if not found.agrees_with(pixel_size) and _is_copy(
            folder, state, other, picture
        ):
            told = (
                f"This picture shows the same field as micrograph {other.id}, with "
                f"another number of pixels. {found.question}"
            )
            raise ResizedPictureError(
                told,
                remedy="Enter the picture as it left the camera. If that is this one, "
                f"micrograph {other.id} is the copy: correct it.",
            )


def resized_copies(folder: Path) -> tuple[str, ...]:
    """Look through a case for resized copies measured with a pixel size not theirs.

    The self-test of the guard: entries can also be made from a file of fields, which
    passes it by.

    Parameters
    ----------
    folder : Path
        Folder of the case.

    Returns
    -------
    tuple of str
        One sentence for each pair found; empty when there is none.
    """
    state = read_case(folder).state
    found = []
    for (one, known), (two, given) in combinations(_calibrated(state), 2):
        pair = Resizing(
            known_px=(one.width_px, one.height_px),
            given_px=(two.width_px, two.height_px),
            pixel_size=quantity_of(known.pixel_size),
        )
        if pair.known_px == pair.given_px or pair.agrees_with(
            quantity_of(given.pixel_size)
        ):
            continue
        if _is_copy(folder, state, one, _read(folder, state, two)):
            found.append(
                f"Micrographs {one.id} and {two.id} show the same field, "
                f"{one.width_px} and {two.width_px} pixels wide, but are given pixels "
                f"of {known.pixel_size.value:.4g} um and {given.pixel_size.value:.4g} "
                f"um: every length on one of them is wrong by a factor of "
                f"{_factor(pair, given):.3g}."
            )
    return tuple(found)


def _refuse_other_frame(record: Calibration, size: Size, *, cropped: bool) -> None:
    """Refuse a picture of another size than the calibration was made at.

    Raises
    ------
    ResizedPictureError
        If the sizes differ and no crop is claimed, or the crop is larger.
    """
    if record.picture_width_px is None or record.picture_height_px is None:
        return
    known = (record.picture_width_px, record.picture_height_px)
    if known == size or (cropped and size[0] <= known[0] and size[1] <= known[1]):
        return
    found = Resizing(
        known_px=known, given_px=size, pixel_size=quantity_of(record.pixel_size)
    )
    told = (
        f"Calibration {record.id} was made in pictures of {known[0]} x {known[1]} "
        f"pixels; this one has {size[0]} x {size[1]}."
    )
    if same_proportions(known, size):
        told = f"{told} {found.question}"
    raise ResizedPictureError(
        told,
        remedy="Enter the picture as it left the camera, or calibrate at this size. "
        "If it was cut out of a whole frame and its pixels were not changed, say so "
        "with --cropped.",
    )


def _calibrated(state: CaseState) -> Iterator[tuple[Micrograph, Calibration]]:
    for micrograph in state.records(Micrograph):
        if micrograph.calibration is not None:
            yield micrograph, state.record(Calibration, micrograph.calibration)


def _is_copy(
    folder: Path, state: CaseState, other: Micrograph, picture: DecodedPicture
) -> bool:
    """Tell whether a picture is a micrograph of the case at another size."""
    rows, columns = picture.pixels.shape[:2]
    sizes = (other.width_px, other.height_px), (columns, rows)
    if sizes[0] == sizes[1] or not same_proportions(*sizes):
        return False
    known = _read(folder, state, other)
    return likeness(known.pixels, picture.pixels) >= SAME_CONTENT_FROM


def _read(folder: Path, state: CaseState, micrograph: Micrograph) -> DecodedPicture:
    path = original_file(folder, state, micrograph.file_sha256)
    return read_picture(path, page=micrograph.page)


def _factor(pair: Resizing, given: Calibration) -> float:
    ratio = pair.pixel_size_given.value / given.pixel_size.value
    return max(ratio, 1 / ratio)
