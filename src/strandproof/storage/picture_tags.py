"""Reading the tag directories of TIFF and EXIF, with every offset checked.

Own code and not a library's, because this runs before the size guard and on
damaged files: it must neither guess, nor log, nor fail with a stranger's error.
"""

import struct
from collections.abc import Mapping
from dataclasses import dataclass
from math import isfinite

from strandproof.errors import UnreadablePictureError

MOST_DIRECTORIES = 65_536

# Bytes of one value of each field type, and its struct code where it is a number
# (TIFF 6.0 section 2 and the BigTIFF extension; numbers from memory).
_TYPES: Mapping[int, tuple[int, str]] = {
    1: (1, "B"),
    2: (1, "s"),
    3: (2, "H"),
    4: (4, "I"),
    5: (8, "II"),
    6: (1, "b"),
    7: (1, "s"),
    8: (2, "h"),
    9: (4, "i"),
    10: (8, "ii"),
    11: (4, "f"),
    12: (8, "d"),
    13: (4, "I"),
    16: (8, "Q"),
    17: (8, "q"),
    18: (8, "Q"),
}


@dataclass(frozen=True, slots=True)
class Tag:
    """One entry of a directory, its values still in the file."""

    field_type: int
    count: int
    offset: int


@dataclass(frozen=True, slots=True, eq=False)
class Directory:
    """One tag directory (IFD) of a block of tags.

    Parameters
    ----------
    block : TagBlock
        The bytes that the tags point into.
    tags : mapping of int to Tag
        Entries by tag number.
    end : int
        Where its last entry ends and the pointer to the next directory stands.
    """

    block: "TagBlock"
    tags: Mapping[int, Tag]
    end: int

    def numbers(self, number: int) -> tuple[float, ...]:
        """Values of a tag as numbers, rationals divided; empty if absent.

        Parameters
        ----------
        number : int
            The tag.

        Returns
        -------
        tuple of int or float
            The values; a rational with denominator 0 becomes 0.

        Raises
        ------
        UnreadablePictureError
            If the values lie beyond the end of the file.
        """
        tag = self.tags.get(number)
        if tag is None or tag.field_type not in _TYPES:
            return ()
        code = _TYPES[tag.field_type][1]
        if code == "s":
            return tuple(self.raw(number))
        order, data = self.block.byte_order, self.raw(number)
        values = struct.unpack(f"{order}{tag.count * len(code)}{code[0]}", data)
        if len(code) == 1:
            return values
        pairs = zip(values[::2], values[1::2], strict=True)
        return tuple(top / bottom if bottom else 0.0 for top, bottom in pairs)

    def integer(self, number: int, default: int) -> int:
        """First value of a tag as an integer.

        Parameters
        ----------
        number : int
            The tag.
        default : int
            Returned where the tag is absent or empty.

        Returns
        -------
        int
            The value.
        """
        values = self.numbers(number)
        return int(values[0]) if values and isfinite(values[0]) else default

    def raw(self, number: int) -> bytes:
        """Bytes of a tag as they stand in the file; empty if absent.

        Parameters
        ----------
        number : int
            The tag.

        Returns
        -------
        bytes
            The bytes.

        Raises
        ------
        UnreadablePictureError
            If they lie beyond the end of the file.
        """
        tag = self.tags.get(number)
        if tag is None or tag.field_type not in _TYPES:
            return b""
        size = _TYPES[tag.field_type][0] * tag.count
        return self.block.slice(tag.offset, size, f"tag {number}")

    def text(self, number: int) -> str:
        """Words of a tag up to the first zero byte; empty if absent.

        Parameters
        ----------
        number : int
            The tag.

        Returns
        -------
        str
            The words; bytes that are not UTF-8 are read as Latin-1.
        """
        raw = self.raw(number).split(b"\0", 1)[0]
        try:
            return raw.decode("utf-8")
        except UnicodeDecodeError:
            return raw.decode("latin-1")


@dataclass(frozen=True, slots=True, eq=False)
class TagBlock:
    """Bytes that begin with a TIFF header, whole file or EXIF block.

    Parameters
    ----------
    path : str
        The file, for messages.
    data : bytes
        From the byte-order mark on.
    byte_order : str
        ``"<"`` or ``">"``.
    is_big : bool
        True for the 64-bit layout (BigTIFF).
    first_offset : int
        Where the first directory stands.
    """

    path: str
    data: bytes
    byte_order: str
    is_big: bool
    first_offset: int

    def slice(self, offset: int, size: int, what: str) -> bytes:
        """Cut bytes out, or say that the file is too short.

        Parameters
        ----------
        offset, size : int
            Where and how many bytes.
        what : str
            What is being read, for the message.

        Returns
        -------
        bytes
            Exactly `size` bytes.

        Raises
        ------
        UnreadablePictureError
            If they lie beyond the end.
        """
        if offset < 0 or offset + size > len(self.data):
            raise UnreadablePictureError(
                self.path,
                f"{what} should reach to byte {offset + size}, but only "
                f"{len(self.data)} bytes are there (cut short or damaged)",
            )
        return self.data[offset : offset + size]

    def directory(self, offset: int) -> Directory:
        """Read the directory at an offset.

        Parameters
        ----------
        offset : int
            Where it stands.

        Returns
        -------
        Directory
            Its tags; values stay in the file until asked for.
        """
        count_code, entry_size = ("Q", 20) if self.is_big else ("H", 12)
        head = struct.calcsize(f"<{count_code}")
        what = "the directory of a page"
        (count,) = struct.unpack(
            f"{self.byte_order}{count_code}", self.slice(offset, head, what)
        )
        body = self.slice(offset + head, count * entry_size, what)
        tags = {
            number: tag
            for k in range(count)
            for number, tag in [self._entry(body, k * entry_size, offset + head)]
        }
        return Directory(self, tags, offset + head + count * entry_size)

    def directories(self) -> tuple[Directory, ...]:
        """All directories in the order of the chain.

        Returns
        -------
        tuple of Directory
            At least one.

        Raises
        ------
        UnreadablePictureError
            If there is none, or the chain is endless.
        """
        found: dict[int, Directory] = {}
        offset = self.first_offset
        while offset:
            if offset in found or len(found) >= MOST_DIRECTORIES:
                raise UnreadablePictureError(
                    self.path, "its list of pages runs in a circle (damaged)"
                )
            found[offset] = self.directory(offset)
            offset = self._pointer(found[offset].end)
        if not found:
            raise UnreadablePictureError(self.path, "it holds no page (damaged)")
        return tuple(found.values())

    def _pointer(self, offset: int) -> int:
        code, size = ("Q", 8) if self.is_big else ("I", 4)
        raw = self.slice(offset, size, "the pointer to the next page")
        return int(struct.unpack(f"{self.byte_order}{code}", raw)[0])

    def _entry(self, body: bytes, start: int, body_offset: int) -> tuple[int, Tag]:
        layout, inline = ("HHQQ", 8) if self.is_big else ("HHII", 4)
        order = self.byte_order
        number, field_type, count, pointer = struct.unpack_from(
            f"{order}{layout}", body, start
        )
        size = _TYPES.get(field_type, (0, ""))[0] * count
        value_place = body_offset + start + struct.calcsize(f"<{layout}") - inline
        return number, Tag(
            field_type, count, value_place if size <= inline else pointer
        )


def tag_block(path: str, data: bytes) -> TagBlock:
    """Read the header of a TIFF file or an EXIF block.

    Parameters
    ----------
    path : str
        The file, for messages.
    data : bytes
        From the byte-order mark on.

    Returns
    -------
    TagBlock
        Ready to read directories from.

    Raises
    ------
    UnreadablePictureError
        If the header is cut short or no TIFF header.
    """
    order = {b"II": "<", b"MM": ">"}.get(data[:2])
    if order is None or len(data) < 8:
        raise UnreadablePictureError(path, "its TIFF header is cut short or damaged")
    (magic,) = struct.unpack_from(f"{order}H", data, 2)
    if magic == 42:
        (offset,) = struct.unpack_from(f"{order}I", data, 4)
        return TagBlock(path, data, order, is_big=False, first_offset=offset)
    if magic != 43 or len(data) < 16 or data[4:8] not in _BIG_MARKS:
        raise UnreadablePictureError(path, "its TIFF header is cut short or damaged")
    (offset,) = struct.unpack_from(f"{order}Q", data, 8)
    return TagBlock(path, data, order, is_big=True, first_offset=offset)


_BIG_MARKS = (b"\x08\0\0\0", b"\0\x08\0\0")
