"""Faults of picture files: unreadable, not of a kind we read, not to be trusted."""

from strandproof.errors._base import StrandproofError


class PictureError(StrandproofError):
    """Parent of every fault found while a picture is read."""


class UnreadablePictureError(PictureError, OSError):
    """A picture file that cannot be opened, is cut short or is damaged.

    Parameters
    ----------
    path : str
        The file, as the caller named it.
    found : str
        What was found, as a clause.
    remedy : str
        What to do, as a sentence.
    """

    def __init__(
        self,
        path: str,
        found: str,
        *,
        remedy: str = "Copy the file again from where it came from, or ask for "
        "the original.",
    ) -> None:
        super().__init__(
            f"{path} cannot be read: {found}. Readable are whole PNG, JPEG and "
            f"TIFF files. {remedy}"
        )
        self.path = path
        self.found = found


class UnsupportedPictureError(PictureError, ValueError):
    """A file that is whole, but of a kind that is not measured on.

    Parameters
    ----------
    path : str
        The file, as the caller named it.
    found : str
        What the file holds.
    allowed : str
        What is read, in words.
    remedy : str
        What to do, as a sentence.
    """

    def __init__(
        self,
        path: str,
        found: str,
        *,
        allowed: str = "PNG, JPEG and TIFF",
        remedy: str = "Save the picture as PNG or TIFF.",
    ) -> None:
        super().__init__(f"{path} holds {found}; read are {allowed}. {remedy}")
        self.path = path
        self.found = found


class PageChoiceError(PictureError, ValueError):
    """A file of several pages without a choice, or a page that is not there.

    Parameters
    ----------
    path : str
        The file, as the caller named it.
    n_pages : int
        Number of pages in the file.
    given : int or None
        The page asked for; None when none was.
    """

    def __init__(self, path: str, *, n_pages: int, given: int | None) -> None:
        asked = "no page was chosen" if given is None else f"page {given} was asked for"
        plural = "page" if n_pages == 1 else "pages"
        choice = "--page 1" if n_pages == 1 else f"--page 1..{n_pages}"
        super().__init__(
            f"{path} holds {n_pages} {plural} and {asked}. Which page is to be "
            f"measured? Give it with {choice}."
        )
        self.path = path
        self.n_pages = n_pages
        self.given = given


class ExpansionError(PictureError, ValueError):
    """A file that would unpack to far more than an honest picture holds.

    Parameters
    ----------
    path : str
        The file, as the caller named it.
    found : str
        The size found, with its figures, as a clause.
    limit : str
        The limit, with its figures, in words.
    """

    def __init__(self, path: str, *, found: str, limit: str) -> None:
        super().__init__(
            f"{path} was not unpacked: {found}; the limit is {limit}. If the file "
            "is known and the machine has the memory, read it with allow_large "
            "(--allow-large); otherwise cut out the part to be measured."
        )
        self.path = path


class PictureTooSmallError(PictureError, ValueError):
    """A picture with too few rows or columns for anything to be measured.

    Parameters
    ----------
    path : str
        The file, as the caller named it.
    n_rows, n_columns : int
        Size of the picture [px].
    smallest : int
        Rows and columns needed at least [px].
    """

    def __init__(
        self, path: str, *, n_rows: int, n_columns: int, smallest: int
    ) -> None:
        super().__init__(
            f"{path} is {n_columns} pixels wide and {n_rows} high; at least "
            f"{smallest} in each direction are needed to show a structure. Give "
            "the original picture, not an icon or a single line."
        )
        self.path = path


class NonSquarePixelsError(PictureError, ValueError):
    """Pixels that the file says are wider than high, or the other way round.

    Parameters
    ----------
    path : str
        The file, as the caller named it.
    source : str
        Where the file says so.
    x, y : float
        Width and height of a pixel, in `unit`.
    unit : str
        ``"um"``, or words for a bare proportion.
    """

    def __init__(
        self, path: str, *, source: str, x: float, y: float, unit: str
    ) -> None:
        super().__init__(
            f"{path} has pixels that are not square: {source} says {x:.6g} across "
            f"and {y:.6g} down ({unit}), which differ by more than 0.1 %, so that "
            "one pixel size would be wrong in one direction. Take the picture with "
            "square pixels or resample the original to square pixels; if the "
            "entry is wrong, save the picture again without it and give the pixel "
            "size."
        )
        self.path = path
        self.x = x
        self.y = y


class ScaleConflictError(PictureError, ValueError):
    """A given pixel size that contradicts the one in the file.

    Parameters
    ----------
    path : str
        The file, as the caller named it.
    given_um, in_file_um : float
        Pixel size as given and as the file says [um].
    source : str
        Where the file says so.
    allowed_um : float
        Largest difference that is let through [um].
    """

    def __init__(
        self,
        path: str,
        *,
        given_um: float,
        in_file_um: float,
        source: str,
        allowed_um: float,
    ) -> None:
        super().__init__(
            f"For {path} a pixel size of {given_um:.6g} um was given, but the file "
            f"says {in_file_um:.6g} um ({source}); allowed is a difference of "
            f"{allowed_um:.3g} um (the larger of 1 % and two standard "
            "uncertainties). Check objective, binning and any resizing against a "
            "stage-scale picture; then leave the given size out, or save the "
            "picture again without the wrong entry."
        )
        self.path = path
        self.given_um = given_um
        self.in_file_um = in_file_um


class OutputExistsError(StrandproofError, FileExistsError):
    """A place to write to that holds something which must not be replaced.

    Parameters
    ----------
    path : str
        The file that was to be written.
    what : str
        What is there already.
    remedy : str
        What to do, as a sentence.
    """

    def __init__(self, path: str, *, what: str, remedy: str) -> None:
        super().__init__(f"{path} was not written: {what}. {remedy}")
        self.path = path
