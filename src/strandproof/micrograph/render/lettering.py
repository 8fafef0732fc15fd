"""Letters, scale bar and the mark SYNTHETIC, drawn on the face of a picture."""

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from strandproof.errors import ParameterError
from strandproof.micrograph.render.appearance import BAR_CORNERS, BarCorner, ScaleBar
from strandproof.micrograph.render.population import require_one_of

Mask = npt.NDArray[np.bool_]

# Seven rows of five columns a letter, drawn for this project.
_LETTERS = {
    "0": ".###. #...# #..## #.#.# ##..# #...# .###.",
    "1": "..#.. .##.. ..#.. ..#.. ..#.. ..#.. .###.",
    "2": ".###. #...# ....# ...#. ..#.. .#... #####",
    "3": "##### ...#. ..#.. ...#. ....# #...# .###.",
    "4": "...#. ..##. .#.#. #..#. ##### ...#. ...#.",
    "5": "##### #.... ####. ....# ....# #...# .###.",
    "6": "..##. .#... #.... ####. #...# #...# .###.",
    "7": "##### ....# ...#. ..#.. .#... .#... .#...",
    "8": ".###. #...# #...# .###. #...# #...# .###.",
    "9": ".###. #...# #...# .#### ....# ...#. .##..",
    ".": "..... ..... ..... ..... ..... .##.. .##..",
    "C": ".###. #...# #.... #.... #.... #...# .###.",
    "E": "##### #.... #.... ####. #.... #.... #####",
    "H": "#...# #...# #...# ##### #...# #...# #...#",
    "I": ".###. ..#.. ..#.. ..#.. ..#.. ..#.. .###.",
    "N": "#...# ##..# ##..# #.#.# #..## #..## #...#",
    "S": ".#### #.... #.... .###. ....# ....# ####.",
    "T": "##### ..#.. ..#.. ..#.. ..#.. ..#.. ..#..",
    "Y": "#...# #...# .#.#. ..#.. ..#.. ..#.. ..#..",
    "m": "..... ..... ##.#. #.#.# #.#.# #.#.# #.#.#",
    "u": "..... ..... #...# #...# #...# #..## .##.#",
    " ": "..... ..... ..... ..... ..... ..... .....",
}


@dataclass(frozen=True, slots=True, eq=False)
class MarkedPicture:
    """A picture with something drawn on its face.

    Parameters
    ----------
    picture : ndarray of float32, shape (n_rows, n_cols, 3)
        The picture, 0 to 1.
    region : ndarray of bool, shape (n_rows, n_cols)
        Pixels covered, to be left out of every measurement.
    """

    picture: npt.NDArray[np.float32]
    region: Mask


def letter_mask(text: str, size: int) -> Mask:
    """Pixels of a line of text, each dot of the letters `size` pixels wide.

    Raises
    ------
    ParameterError
        If a letter is not in the table.
    """
    unknown = sorted(set(text) - set(_LETTERS))
    if unknown:
        raise ParameterError(
            "text", text, allowed="the letters " + " ".join(sorted(_LETTERS))
        )
    columns: list[Mask] = []
    for letter in text:
        rows = _LETTERS[letter].split()
        columns.append(np.array([[dot == "#" for dot in row] for row in rows]))
        columns.append(np.zeros((7, 1), np.bool_))
    dots = np.concatenate(columns[:-1], axis=1)
    return np.repeat(np.repeat(dots, size, axis=0), size, axis=1)


def mark_synthetic(
    picture: npt.NDArray[np.float32], *, corner: BarCorner = "top-left"
) -> MarkedPicture:
    """Write SYNTHETIC on the face of a picture, white on a black box.

    Parameters
    ----------
    picture : ndarray of float32, shape (n_rows, n_cols, 3)
        Picture, 0 to 1; at least 69 pixels wide and 17 high.
    corner : {"top-left", "top-right", "bottom-left", "bottom-right"}
        Where to write.

    Returns
    -------
    MarkedPicture
        The marked picture and the region covered.

    Raises
    ------
    ParameterError
        If the corner is unknown or the picture too small for legible letters.

    Examples
    --------
    >>> import numpy as np
    >>> marked = mark_synthetic(np.full((60, 200, 3), 0.5, np.float32))
    >>> int(marked.region[:3, :3].all()), marked.picture[0, 0].tolist()
    (1, [0.0, 0.0, 0.0])
    """
    size = max(1, round(min(picture.shape[:2]) / 360))
    text = letter_mask("SYNTHETIC", size)
    return _stamp(picture, _framed(text, 4 * size), corner)


def burn_scale_bar(
    picture: npt.NDArray[np.float32], *, um_per_px: float, bar: ScaleBar
) -> MarkedPicture:
    """Burn a scale bar of a round length (1, 2 or 5 by a power of ten) [um].

    Parameters
    ----------
    picture : ndarray of float32, shape (n_rows, n_cols, 3)
        Picture, 0 to 1.
    um_per_px : float
        Pixel size [um].
    bar : ScaleBar
        Corner and lettering.

    Returns
    -------
    MarkedPicture
        The picture with the bar and the region covered.

    Raises
    ------
    ParameterError
        If the picture is too small for a bar.
    """
    width = picture.shape[1]
    length_um = bar_length_um(0.25 * width * um_per_px)
    size = max(1, round(min(picture.shape[:2]) / 400))
    line = np.ones((2 * size, max(3, round(length_um / um_per_px))), np.bool_)
    drawing = line
    if bar.with_text:
        drawing = _stacked(line, letter_mask(f"{length_um:g} um", size), 3 * size)
    margins = _margins(drawing.shape, picture.shape, 4 * size, bar)
    return _stamp(
        picture,
        np.pad(drawing, [(margin, margin) for margin in margins]),
        bar.corner,
        inset_px=bar.inset_px,
        white_box=bar.box == "white",
    )


def _margins(
    drawing: tuple[int, ...], picture: tuple[int, ...], usual: int, bar: ScaleBar
) -> list[int]:
    """Rows and columns of box around bar and letters, fewer in a small picture."""
    wanted = max(1, round(usual * bar.padding))
    return [
        min(wanted, max(usual, (side - length) // 2))
        for side, length in zip(picture[:2], drawing, strict=True)
    ]


def bar_length_um(longest_um: float) -> float:
    """Return the longest of 1, 2, 5 times a power of ten that is not above a length.

    Examples
    --------
    >>> bar_length_um(44.2)
    20.0
    """
    power = 10.0 ** np.floor(np.log10(longest_um))
    return float(max(step for step in (1, 2, 5) if step * power <= longest_um) * power)


def _stacked(line: Mask, text: Mask, gap: int) -> Mask:
    width = max(line.shape[1], text.shape[1])
    rows = []
    for part in (line, np.zeros((gap, 1), np.bool_), text):
        left = (width - part.shape[1]) // 2
        rows.append(np.pad(part, ((0, 0), (left, width - part.shape[1] - left))))
    return np.concatenate(rows)


def _framed(drawing: Mask, margin: int) -> Mask:
    return np.pad(drawing, margin)


def _stamp(
    picture: npt.NDArray[np.float32],
    drawing: Mask,
    corner: BarCorner,
    *,
    inset_px: int = 0,
    white_box: bool = False,
) -> MarkedPicture:
    require_one_of("corner", corner, BAR_CORNERS)
    n_rows, n_cols = picture.shape[:2]
    height, width = drawing.shape
    if height > n_rows or width > n_cols:
        raise ParameterError(
            "picture",
            picture.shape,
            allowed=f"at least {height} rows and {width} columns for the lettering",
        )
    down, right = min(inset_px, n_rows - height), min(inset_px, n_cols - width)
    top = down if corner.startswith("top") else n_rows - height - down
    left = right if corner.endswith("left") else n_cols - width - right
    window = (slice(top, top + height), slice(left, left + width))
    marked = picture.copy()
    marked[window] = (drawing != white_box)[..., None]
    region = np.zeros((n_rows, n_cols), np.bool_)
    region[window] = True
    return MarkedPicture(marked, region)
