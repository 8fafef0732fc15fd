"""Scale and origin of a picture from what its file says."""

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from math import isfinite
from xml.parsers import expat  # no entity is expanded, see _pixels_elements

from strandproof.errors import (
    NonSquarePixelsError,
    ParameterError,
    ScaleConflictError,
    UnitError,
)
from strandproof.quantity import Quantity
from strandproof.records import Flag
from strandproof.storage.picture_header import PixelSizeStatement

# Common practice, no source: a density above about 1000 pixels per inch is no
# print or screen setting any more, ...
LARGEST_PLAUSIBLE_UM = 25.0
# ... unless it is a step of flatbed and film scanners, which tells the scale of
# the paper and not that of the metal.
SCANNER_STEPS_PER_INCH = (1200, 1600, 2400, 3200, 4000, 4800, 6400, 9600, 12800, 19200)
SYNTHETIC_KEY = "Synthetic"
SQUARE_WITHIN = 0.001
AGREE_WITHIN = 0.01

# Units of length of the OME data model (from memory), in micrometres.
_OME_UNITS_UM = {
    "m": 1e6,
    "dm": 1e5,
    "cm": 1e4,
    "mm": 1e3,
    "\N{MICRO SIGN}m": 1.0,
    "\N{GREEK SMALL LETTER MU}m": 1.0,
    "um": 1.0,
    "nm": 1e-3,
    "pm": 1e-6,
    "\N{LATIN CAPITAL LETTER A WITH RING ABOVE}": 1e-4,
    "\N{ANGSTROM SIGN}": 1e-4,
    "in": 25_400.0,
    "mil": 25.4,
}
_SYNTHETIC = re.compile(
    r"\s*synthetic(\s+(picture|image|micrograph|section)\b|\s*$)", re.IGNORECASE
)


@dataclass(frozen=True, slots=True)
class PixelSizeFromFile:
    """The pixel size that a file states, with no word on how it was calibrated.

    Parameters
    ----------
    value_um : float
        Side of one square pixel on the specimen [um], above 0.
    source : str
        Where it came from, in words.
    """

    value_um: float
    source: str


def ome_statements(
    description: str,
) -> tuple[tuple[PixelSizeStatement, ...], tuple[str, ...]]:
    """Read the physical pixel size of OME-XML.

    Parameters
    ----------
    description : str
        Image description of the first page; anything but OME-XML gives nothing.

    Returns
    -------
    statements : tuple of PixelSizeStatement
        One, or none.
    notes : tuple of str
        Why nothing was used where something was there.

    Notes
    -----
    Attributes ``PhysicalSizeX``, ``PhysicalSizeY`` and their units of the
    ``Pixels`` element; the unit is micrometre where none is given (OME data
    model 2016-06; from memory).
    """
    if "<OME" not in description:
        return (), ()
    elements = _pixels_elements(description)
    found = {size for e in elements if (size := _physical_size(e)) is not None}
    if not elements:
        return (), ("The OME-XML block is damaged and was not used.",)
    if len(found) > 1:
        note = "OME-XML describes images of different pixel sizes; none was used."
        return (), (note,)
    return tuple(
        PixelSizeStatement(
            x=x, y=y, absolute=True, physical=True, source="OME-XML PhysicalSizeX"
        )
        for x, y in found
    ), ()


def pixel_size_from_file(
    path: str, statements: Sequence[PixelSizeStatement]
) -> tuple[PixelSizeFromFile | None, tuple[Flag, ...]]:
    """Choose the pixel size among what the file says.

    Parameters
    ----------
    path : str
        The file, for messages.
    statements : sequence of PixelSizeStatement
        What the file says, most trusted first.

    Returns
    -------
    size : PixelSizeFromFile or None
        None where nothing can pass for the scale of a micrograph.
    flags : tuple of Flag
        ``resolution_tag_ignored`` where an entry was there but was not used.

    Raises
    ------
    NonSquarePixelsError
        If width and height differ by more than 0.1 % in any statement.
    """
    for statement in statements:
        _refuse_oblong(path, statement)
    absolute = [s for s in statements if s.absolute]
    usable = [s for s in absolute if s.physical or _looks_like_a_scale(s)]
    contradicted = usable and not usable[0].physical and not _agree(usable)
    if not usable or contradicted:
        reason = "two entries disagree: " if contradicted else ""
        detail = reason + "; ".join(_density_words(s) for s in absolute)
        return None, (Flag("resolution_tag_ignored", detail),) if absolute else ()
    return PixelSizeFromFile(usable[0].x, usable[0].source), ()


def given_pixel_size(given: Quantity | float) -> Quantity:
    """Bring a pixel size as a caller gives it into one form.

    Parameters
    ----------
    given : Quantity or float
        Side of a pixel; a bare number is in micrometres.

    Returns
    -------
    Quantity
        The same, above 0, with the unit ``"um"``.

    Raises
    ------
    UnitError
        If the unit is not micrometre (per pixel).
    ParameterError
        If the value is not above 0.
    """
    size = given if isinstance(given, Quantity) else Quantity(float(given), "um")
    if size.unit not in {"um", "um/px"}:
        raise UnitError(size.unit, expected="um")
    if size.value <= 0:
        raise ParameterError(
            "um_per_px", size.value, allowed="a pixel size above 0 micrometres"
        )
    return size


def refuse_contradiction(path: str, given: Quantity, found: PixelSizeFromFile) -> None:
    """Refuse a given pixel size that contradicts the file's.

    Parameters
    ----------
    path : str
        The file, for messages.
    given : Quantity
        As the caller gave it [um].
    found : PixelSizeFromFile
        As the file says.

    Raises
    ------
    ScaleConflictError
        If they differ by more than the larger of 1 % of the given size and two
        combined standard uncertainties. Files state no uncertainty, so that the
        combined one is the caller's.
    """
    allowed = max(AGREE_WITHIN * given.value, 2 * given.standard_uncertainty)
    if abs(given.value - found.value_um) > allowed:
        raise ScaleConflictError(
            path,
            given_um=given.value,
            in_file_um=found.value_um,
            source=found.source,
            allowed_um=allowed,
        )


def synthetic_mark(words: Mapping[str, str]) -> str | None:
    """Find the mark of a picture that was drawn by a program.

    Parameters
    ----------
    words : mapping of str to str
        Words found in the file.

    Returns
    -------
    str or None
        The words that say so. An entry called "Synthetic" counts, and one that
        begins with "synthetic picture" (image, micrograph, section); a mere
        mention, as of a synthetic resin, does not.
    """
    for key, text in words.items():
        if key.casefold() == SYNTHETIC_KEY.casefold() or _SYNTHETIC.match(text):
            return f"{key}: {text[:80]}"
    return None


def _refuse_oblong(path: str, statement: PixelSizeStatement) -> None:
    if abs(statement.x - statement.y) > SQUARE_WITHIN * max(statement.x, statement.y):
        raise NonSquarePixelsError(
            path,
            source=statement.source,
            x=statement.x,
            y=statement.y,
            unit="um" if statement.absolute else "proportion, no unit",
        )


def _looks_like_a_scale(statement: PixelSizeStatement) -> bool:
    if statement.x >= LARGEST_PLAUSIBLE_UM:
        return False
    per_inch = 25_400.0 / statement.x
    return not any(
        abs(per_inch - step) < 1e-3 * step for step in SCANNER_STEPS_PER_INCH
    )


def _agree(statements: Sequence[PixelSizeStatement]) -> bool:
    sizes = [s.x for s in statements]
    return max(sizes) - min(sizes) <= AGREE_WITHIN * max(sizes)


def _density_words(statement: PixelSizeStatement) -> str:
    return (
        f"{statement.source}: {25_400.0 / statement.x:.6g} pixels per inch, "
        f"{statement.x:.6g} um per pixel"
    )


def _physical_size(attributes: Mapping[str, str]) -> tuple[float, float] | None:
    x = _length_um(attributes, "PhysicalSizeX")
    y = _length_um(attributes, "PhysicalSizeY")
    if x is None:
        return None
    return x, x if y is None else y


def _length_um(attributes: Mapping[str, str], name: str) -> float | None:
    unit = _OME_UNITS_UM.get(attributes.get(f"{name}Unit", "um"))
    try:
        value = float(attributes.get(name, "nan"))
    except ValueError:
        return None
    if unit is None or not isfinite(value) or value <= 0:
        return None
    return value * unit


def _pixels_elements(text: str) -> list[dict[str, str]]:
    """Attributes of every Pixels element; empty where the XML is damaged."""
    found: list[dict[str, str]] = []

    def start(name: str, attributes: dict[str, str]) -> None:
        if name.rpartition(":")[2] == "Pixels":
            found.append(attributes)

    def refuse_entity(*_args: object) -> None:
        raise ValueError("entity declaration")

    parser = expat.ParserCreate()
    parser.StartElementHandler = start
    # Entities could unpack without bound; honest OME-XML declares none.
    parser.EntityDeclHandler = refuse_entity
    try:
        parser.Parse(text, True)  # noqa: FBT003  (positional in expat's interface)
    except (expat.ExpatError, ValueError):
        return []
    return found
