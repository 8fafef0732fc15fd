"""Pictures that are resized copies: found by content, and by their number of pixels."""

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt
from scipy import ndimage
from skimage.transform import resize_local_mean

from strandproof.errors import ParameterError
from strandproof.micrograph.calibration.scale import FloatArray, grey_plane
from strandproof.quantity import Quantity

SAME_CONTENT_FROM = 0.9
SAME_PROPORTIONS_WITHIN = 0.01
AGREE_WITHIN = 0.01
_SMALL_SIDE_PX = 128
_COARSE_PX = 6.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Resizing:
    """Two pixel counts of what is, or may be, one picture.

    Parameters
    ----------
    known_px : tuple of int
        Columns and rows of the picture that the pixel size was made for.
    given_px : tuple of int
        Columns and rows of the picture now given.
    pixel_size : Quantity
        Pixel size of the known one [um].
    """

    known_px: tuple[int, int]
    given_px: tuple[int, int]
    pixel_size: Quantity

    @property
    def pixel_size_given(self) -> Quantity:
        """Pixel size of the one now given, if it shows the same field [um]."""
        return resized_pixel_size(
            self.pixel_size, from_width=self.known_px[0], to_width=self.given_px[0]
        )

    @property
    def question(self) -> str:
        """What to ask, in one line.

        Examples
        --------
        >>> Resizing(
        ...     known_px=(2736, 1824),
        ...     given_px=(1368, 912),
        ...     pixel_size=Quantity(0.1726, "um", 0.0004),
        ... ).question
        '2736 -> 1368 pixels: pixel size would be 0.3452 um. Use original?'
        """
        size = self.pixel_size_given.value
        return (
            f"{self.known_px[0]} -> {self.given_px[0]} pixels: pixel size would be "
            f"{size:.4g} um. Use original?"
        )

    def agrees_with(self, pixel_size: Quantity) -> bool:
        """Tell whether a pixel size fits the picture now given.

        Parameters
        ----------
        pixel_size : Quantity
            Pixel size that is to hold for it [um].

        Returns
        -------
        bool
            True within the larger of 1 % and two standard uncertainties.
        """
        right = self.pixel_size_given
        allowed = max(AGREE_WITHIN * right.value, 2 * pixel_size.standard_uncertainty)
        return abs(pixel_size.value - right.value) <= allowed


def resized_pixel_size(
    pixel_size: Quantity, *, from_width: int, to_width: int
) -> Quantity:
    """Pixel size of a copy that shows the same field with another number of pixels.

    Parameters
    ----------
    pixel_size : Quantity
        Pixel size of the original [um].
    from_width, to_width : int
        Columns of original and copy [px]; above 0.

    Returns
    -------
    Quantity
        Pixel size of the copy, with the same relative uncertainty [um].

    Raises
    ------
    ParameterError
        If a width is not above zero.

    Notes
    -----
    Field width = columns x pixel size stays the same.
    """
    for name, width in (("from_width", from_width), ("to_width", to_width)):
        if width < 1:
            raise ParameterError(name, width, allowed="1 pixel or more")
    factor = from_width / to_width
    return Quantity(
        pixel_size.value * factor,
        pixel_size.unit,
        pixel_size.standard_uncertainty * factor,
        degrees_of_freedom=pixel_size.degrees_of_freedom,
    )


def same_proportions(first_px: tuple[int, int], second_px: tuple[int, int]) -> bool:
    """Tell whether two sizes can be copies of one field, uncropped.

    Parameters
    ----------
    first_px, second_px : tuple of int
        Columns and rows [px].

    Returns
    -------
    bool
        True when width over height agrees within 1 %, or within one pixel.
    """
    expected = second_px[0] * first_px[1] / first_px[0]
    allowed = max(1.0, SAME_PROPORTIONS_WITHIN * second_px[1])
    return abs(second_px[1] - expected) <= allowed


def likeness(
    first: npt.NDArray[np.floating], second: npt.NDArray[np.floating]
) -> float:
    """How alike two pictures are, whatever their number of pixels.

    Crops, turned and mirrored copies, and copies with letters over a large part are
    not recognised.

    Parameters
    ----------
    first, second : ndarray of shape (n_rows, n_cols) or (n_rows, n_cols, n_channels)
        Grey or colour values.

    Returns
    -------
    float
        -1 to 1; from 0.9 on they show the same field. 0 for other proportions and for
        pictures without any detail.

    Notes
    -----
    Correlation of both pictures averaged over areas down to 128 px on the longer
    side, less their parts coarser than about 6 px there (uneven light is alike in
    all pictures of a microscope).
    """
    sizes = [(plane.shape[1], plane.shape[0]) for plane in (first, second)]
    if not same_proportions(*sizes):
        return 0.0
    columns, rows = sizes[0]
    smaller = min(max(size) for size in sizes)
    share = min(_SMALL_SIDE_PX, smaller) / max(columns, rows)
    shape = (max(1, round(rows * share)), max(1, round(columns * share)))
    one, two = (_detail(grey_plane(plane), shape) for plane in (first, second))
    product = float(np.sqrt(np.sum(one**2) * np.sum(two**2)))
    return float(np.sum(one * two)) / product if product > 0 else 0.0


def _detail(plane: FloatArray, shape: tuple[int, int]) -> FloatArray:
    small = np.asarray(resize_local_mean(plane, shape), dtype=np.float64)
    return np.asarray(small - ndimage.gaussian_filter(small, _COARSE_PX))
