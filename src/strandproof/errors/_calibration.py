"""Faults of a calibration: scales that cannot be read, pictures that were resized."""

from strandproof.errors._base import StrandproofError


class CalibrationError(StrandproofError):
    """Parent of every fault found while the size of a pixel is settled."""


class TooFewDivisionsError(CalibrationError, ValueError):
    """A picture of a stage scale that shows too few evenly spaced lines.

    Parameters
    ----------
    found : int
        Lines found.
    needed : int
        Lines needed at least.
    """

    def __init__(self, found: int, *, needed: int) -> None:
        super().__init__(
            f"{found} lines of a scale were found in the picture; at least {needed} "
            "evenly spaced ones are needed. Take the picture so that the ruling "
            "crosses the field, in focus, without letters or dust over it; or mark "
            "a length by hand."
        )
        self.found = found


class UnevenSpacingError(CalibrationError, ValueError):
    """Lines of a scale that do not follow one spacing.

    Parameters
    ----------
    found : str
        What was found, with its figures, as a clause.
    allowed : str
        What is let through, in words.
    """

    def __init__(self, found: str, *, allowed: str) -> None:
        super().__init__(
            f"The lines of the scale are not evenly spaced: {found}; allowed is "
            f"{allowed}. Check for distortion of the optics, dust, or a scale with "
            "two rulings; cut out the part with one ruling, or mark a length by hand."
        )


class UnresolvedDivisionsError(CalibrationError, ValueError):
    """Lines of a scale that stand too close for the pixels, or not where expected.

    Parameters
    ----------
    found : str
        What was found, with its figures, as a clause.
    allowed : str
        What is let through, in words.
    """

    def __init__(self, found: str, *, allowed: str) -> None:
        super().__init__(
            f"{found}; allowed is {allowed}. Lines closer than the pixels can show "
            "make a false pattern of another spacing. Use a coarser scale or a "
            "higher magnification, and check the length of one division and the "
            "pixel size expected."
        )


class ResizedPictureError(CalibrationError, ValueError):
    """A picture whose pixel count does not fit the calibration that is to hold for it.

    Parameters
    ----------
    found : str
        What was found, as whole sentences.
    remedy : str
        What to do, as whole sentences.
    """

    def __init__(self, found: str, *, remedy: str) -> None:
        super().__init__(f"{found} Nothing was entered. {remedy}")
        self.found = found


class NoScaleInFileError(CalibrationError, LookupError):
    """A picture file that states nothing that can pass for a microscope's scale.

    Parameters
    ----------
    name : str
        Name of the file.
    reasons : tuple of str
        What was there and why it is not offered, one sentence each.
    """

    def __init__(self, name: str, reasons: tuple[str, ...]) -> None:
        told = " ".join(reasons) or "The file states no size of a pixel."
        super().__init__(
            f"No scale can be taken from {name}. {told} Allowed are OME-XML physical "
            "sizes, and resolutions that no printer, screen or scanner uses. Take a "
            "picture of a stage scale with the same settings."
        )
        self.reasons = reasons


class NoBarError(CalibrationError, LookupError):
    """A picture in which no burned-in scale bar could be found.

    Parameters
    ----------
    name : str
        Name of the file.
    """

    def __init__(self, name: str) -> None:
        super().__init__(
            f"No scale bar was found in {name}: allowed is one straight, level bar "
            "of plain white or black, at least a thirtieth of the picture wide. Mark "
            "its two ends by hand, or calibrate on a stage scale."
        )
