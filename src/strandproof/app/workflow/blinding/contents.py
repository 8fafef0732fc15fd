"""What lies in a hand-out: coded pictures, test lines, rules, a list with its seal."""

import csv
import hashlib
import io
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Annotated

import numpy as np
from pydantic import Field, ValidationError

from strandproof.app.workflow.reading_by_people.files import (
    GivenTestLines,
    lines_for_reader,
)
from strandproof.app.workflow.reading_by_people.sheet import reading_sheet
from strandproof.errors import (
    InvalidEntryError,
    ParameterError,
    SealMismatchError,
)
from strandproof.records.entries.bodies import FrozenModel, Sha256, Text, UtcTime
from strandproof.records.entries.building import faults_in_words
from strandproof.storage import (
    SYNTHETIC_KEY,
    DecodedPicture,
    canonical_json,
    encode_png,
    preview_png,
    read_bundle,
)

CONTENTS = "hand-out.json"
SEAL = "SEAL.txt"
FIRST = "READ-ME-FIRST.txt"
RETURN_TABLE = "readings.csv"
RETURN_COLUMNS = (
    *("seal", "picture", "verdict", "reason"),
    *("line", "along_px", "column_px", "row_px", "feature", "direction_deg", "meets"),
)
"""Columns of the table in which readings may come back."""

_FORMAT = "hand-out 1"
_LONGEST_SHEET_PX = 4096
_EIGHT_BITS, _SIXTEEN_BITS = 8, 16

_INSTRUCTIONS = """\
PICTURES TO READ

You get pictures under codes. Nobody has told you which piece is which; please do not
try to find out. The order is by chance. Read them in the order given below.

1. For each picture say one of
       boundaries     you see boundaries of grains
       none_resolved  you see none that this picture resolves
       not_readable   it cannot be read; say why
{marking}\
{next}. Features of a mark: boundary, twin, scratch, slip_trace, strand_edge, uncertain.
   When in doubt, uncertain.
{after}. Fill in readings.csv, one row for each mark; a picture without marks keeps its
   one row. Leave the column "seal" as it is. Or let the program ask you:
       strandproof read-hand-out THIS-FOLDER --picture CODE --out my-readings.json
{last}. Send the file back. What you sent stays as you sent it; nothing is shown to you
   before that.

Rules for counting:
{rules}

Order of reading:
{order}
"""
_MARKING = """\
2. Mark on the test lines. sheets/ shows each picture with its lines; the place of a
   mark is its distance along the line in pixels (a tick every 50), or its column and
   row. lines/ holds the lines as numbers.
"""
FIXED_WORDS = f"{_INSTRUCTIONS} {_MARKING} SYNTHETIC Synthetic"
"""Words that every hand-out says."""


class OutPicture(FrozenModel):
    """A picture as the list of contents names it."""

    name: Text
    """Code and running number."""
    file: Text
    """Its file."""
    width_px: Annotated[int, Field(ge=1)]
    """Columns [px]."""
    height_px: Annotated[int, Field(ge=1)]
    """Rows [px]."""
    pixel_size_um: Annotated[float, Field(gt=0)] | None = None
    """Size of a pixel [um]; none: not known."""
    pixel_size_u_um: Annotated[float, Field(ge=0)] | None = None
    """Its standard uncertainty [um]."""
    synthetic: bool = False
    """True when a program drew it; then it shows no real metal."""


class HandOutContents(FrozenModel):
    """The list of contents; its SHA-256 is the seal."""

    format: Text = _FORMAT
    """Kind and version of this file."""
    hand_out: Text
    """Short name of the hand-out."""
    reader: Text
    """Who is to read."""
    made_at: UtcTime
    """When it was made up."""
    counting_rules: tuple[Text, ...] = ()
    """Rules for counting."""
    pictures: Annotated[tuple[OutPicture, ...], Field(min_length=1)]
    """In the order of reading."""
    files: dict[str, Sha256]
    """Every other file with its SHA-256."""


@dataclass(frozen=True, slots=True, kw_only=True)
class CodedPicture:
    """A picture on its way into a hand-out.

    Parameters
    ----------
    name : str
        Code and running number.
    decoded : DecodedPicture
        Its pixels.
    synthetic : bool
        True when a program drew it.
    pixel_size_um, pixel_size_u_um : float or None
        Size of a pixel and its standard uncertainty [um].
    lines : GivenTestLines or None
        Its test lines, in the pixels of the picture.
    """

    name: str
    decoded: DecodedPicture
    synthetic: bool
    pixel_size_um: float | None
    pixel_size_u_um: float | None
    lines: GivenTestLines | None


def coded_png(picture: CodedPicture) -> bytes:
    """Write the pixels of a picture anew, with nothing else in the file.

    No grey value is lost: samples of 1, 2, 4, 8 and 16 bits are written as they are,
    others spread over 16 bits, each its own value.

    Parameters
    ----------
    picture : CodedPicture
        The picture.

    Returns
    -------
    bytes
        PNG with pixels alone; a synthetic picture keeps the mark that it is one.

    Raises
    ------
    ParameterError
        If its samples have more than 16 bits.
    """
    bits = picture.decoded.bit_depth
    if bits > _SIXTEEN_BITS:
        raise ParameterError(
            "picture",
            f"{picture.name} with {bits} bits",
            allowed="up to 16 bits, which a PNG can hold without loss",
        )
    wide = bits > _EIGHT_BITS or bits not in {1, 2, 4, 8}
    most = 65535 if wide else 255
    values = np.rint(picture.decoded.pixels.astype(np.float64) * most)
    samples = values.astype(np.uint16 if wide else np.uint8)
    return encode_png(samples, text=_mark(picture))


def hand_out_files(
    label: str,
    reader: str,
    pictures: Sequence[CodedPicture],
    *,
    made_at: UtcTime,
    counting_rules: Sequence[str],
) -> dict[str, bytes]:
    """Make every file of a hand-out; the same input gives the same bytes.

    Parameters
    ----------
    label : str
        Short name of the hand-out.
    reader : str
        Who is to read.
    pictures : sequence of CodedPicture
        In the order of reading.
    made_at : datetime
        When it was made up.
    counting_rules : sequence of str
        Rules for counting.

    Returns
    -------
    dict of str to bytes
        Content by name, list of contents and seal included.
    """
    files: dict[str, bytes] = {}
    for picture in pictures:
        files |= _files_of(picture)
    contents = HandOutContents(
        hand_out=label,
        reader=reader,
        made_at=made_at,
        counting_rules=tuple(counting_rules),
        pictures=tuple(map(_listed, pictures)),
        files={
            name: hashlib.sha256(content).hexdigest() for name, content in files.items()
        },
    )
    listed = canonical_json(contents.model_dump(mode="json"))
    seal = hashlib.sha256(listed).hexdigest()
    return {
        **files,
        CONTENTS: listed,
        SEAL: _seal_text(seal).encode("utf-8"),
        FIRST: _instructions(contents, with_lines=_has_lines(pictures)).encode("utf-8"),
        RETURN_TABLE: _return_table(seal, pictures),
    }


def read_hand_out(source: Path) -> tuple[HandOutContents, str, Mapping[str, bytes]]:
    """Read a hand-out and check that nothing in it was changed.

    Parameters
    ----------
    source : Path
        Folder or zip.

    Returns
    -------
    contents : HandOutContents
        Its list.
    seal : str
        SHA-256 of the list.
    files : mapping of str to bytes
        Content by name.

    Raises
    ------
    ParameterError
        If it is no hand-out.
    InvalidEntryError
        If its list has another form.
    SealMismatchError
        If a file is missing or was changed.
    """
    files = read_bundle(source)
    if CONTENTS not in files:
        raise ParameterError(
            "hand-out", str(source), allowed=f"a folder or zip with {CONTENTS}"
        )
    try:
        contents = HandOutContents.model_validate_json(files[CONTENTS])
    except ValidationError as error:
        raise InvalidEntryError("hand-out", faults_in_words(error)) from None
    for name, sha256 in contents.files.items():
        found = hashlib.sha256(files.get(name, b"")).hexdigest()
        if name not in files or found != sha256:
            what = f"The file {name} of the hand-out"
            gone = "nothing of that name" if name not in files else found
            remedy = "Ask for the hand-out again."
            raise SealMismatchError(what, expected=sha256, found=gone, remedy=remedy)
    return contents, hashlib.sha256(files[CONTENTS]).hexdigest(), files


def lines_file(name: str) -> str:
    """Give the name of the file of a picture's test lines.

    Parameters
    ----------
    name : str
        Code and running number.

    Returns
    -------
    str
        Name inside the hand-out.
    """
    return f"lines/{name}.json"


def _files_of(picture: CodedPicture) -> dict[str, bytes]:
    png = coded_png(picture)
    name = picture.name
    files = {_picture_file(name): png}
    if picture.lines is not None:
        sha256 = hashlib.sha256(png).hexdigest()
        # The original's hash, and the seed made of it, would name the picture.
        about = {"code": name, "picture_sha256": sha256, "page": 1}
        given = picture.lines.model_copy(
            update={**about, "seed": None, "directions_deg": ()}
        )
        shown = preview_png(
            picture.decoded.pixels, max_side=_LONGEST_SHEET_PX, text=_mark(picture)
        )
        sheet = reading_sheet(given, shown, synthetic=picture.synthetic)
        files[lines_file(name)] = lines_for_reader(given).encode("utf-8")
        files[f"sheets/{name}.svg"] = sheet.encode("utf-8")
    return files


def _listed(picture: CodedPicture) -> OutPicture:
    rows, columns = picture.decoded.pixels.shape[:2]
    return OutPicture(
        name=picture.name,
        file=_picture_file(picture.name),
        width_px=columns,
        height_px=rows,
        pixel_size_um=picture.pixel_size_um,
        pixel_size_u_um=picture.pixel_size_u_um,
        synthetic=picture.synthetic,
    )


def _picture_file(name: str) -> str:
    return f"pictures/{name}.png"


def _mark(picture: CodedPicture) -> dict[str, str]:
    return {SYNTHETIC_KEY: "yes"} if picture.synthetic else {}


def _has_lines(pictures: Sequence[CodedPicture]) -> bool:
    return any(picture.lines is not None for picture in pictures)


def _seal_text(seal: str) -> str:
    return (
        f"{seal}\n\n"
        f"This is the SHA-256 of {CONTENTS}, which names every picture and every file\n"
        "of lines with its own SHA-256. Any checksum program can compare them.\n"
    )


def _instructions(contents: HandOutContents, *, with_lines: bool) -> str:
    first = 3 if with_lines else 2
    rules = contents.counting_rules or ("none given",)
    drawn = any(each.synthetic for each in contents.pictures)
    text = _INSTRUCTIONS.format(
        marking=_MARKING if with_lines else "",
        next=first,
        after=first + 1,
        last=first + 2,
        rules="\n".join(f"- {rule}" for rule in rules),
        order="\n".join(f"- {each.name}" for each in contents.pictures),
    )
    mark = "\nSYNTHETIC pictures: a program drew them; they show no real metal.\n"
    return text + (mark if drawn else "")


def _return_table(seal: str, pictures: Sequence[CodedPicture]) -> bytes:
    table = io.StringIO()
    writer = csv.writer(table, lineterminator="\n")
    writer.writerow(RETURN_COLUMNS)
    blank = [""] * (len(RETURN_COLUMNS) - 2)
    writer.writerows([seal, picture.name, *blank] for picture in pictures)
    return table.getvalue().encode("utf-8")
