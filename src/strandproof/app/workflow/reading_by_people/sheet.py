"""The picture with its test lines, for a reader's eyes."""

from base64 import b64encode
from html import escape
from pathlib import Path

from strandproof.app.workflow.entering import open_case
from strandproof.app.workflow.reading_by_people.files import GivenTestLines
from strandproof.app.workflow.reading_by_people.state import placed_line
from strandproof.grainsize.marks import CircularTestLine, PlacedLine, StraightTestLine
from strandproof.records.entries import Micrograph
from strandproof.storage import (
    original_file,
    preview_png,
    read_picture,
    write_output_file,
)

_TICK_EVERY_PX = 50
_LONGEST_SIDE_PX = 4096
# Lines keep their width when a browser enlarges the sheet, so they hide no boundary.
_STYLE = """
.line { fill: none; stroke: #fff; stroke-width: 2.6px; stroke-opacity: 0.55;
        vector-effect: non-scaling-stroke; }
.core { stroke: #000; stroke-width: 0.9px; stroke-opacity: 1; }
text { font-family: sans-serif; fill: #000; stroke: #fff; stroke-opacity: 0.8;
       paint-order: stroke; }
"""


def write_reading_sheet(folder: Path, given: GivenTestLines, path: Path) -> None:
    """Write the picture with its test lines as one SVG file for a reader.

    Parameters
    ----------
    folder : Path
        Folder of the case.
    given : GivenTestLines
        The lines.
    path : Path
        New file; an earlier one is never replaced.
    """
    state = open_case(folder)
    shown = next(
        each
        for each in state.records(Micrograph)
        if (each.file_sha256, each.page) == (given.picture_sha256, given.page)
    )
    original = original_file(folder, state, given.picture_sha256)
    picture = read_picture(original, page=given.page)
    png = preview_png(picture.pixels, max_side=_LONGEST_SIDE_PX)
    text = reading_sheet(given, png, synthetic=shown.synthetic)
    write_output_file(path, text.encode("utf-8"), source=original)


def reading_sheet(given: GivenTestLines, png: bytes, *, synthetic: bool) -> str:
    """Draw test lines over a picture, with their numbers and a tick every 50 px.

    Parameters
    ----------
    given : GivenTestLines
        The lines.
    png : bytes
        The picture, reduced or not; the lines keep to the pixels of the original.
    synthetic : bool
        Whether a program drew the picture; then the sheet says so.

    Returns
    -------
    str
        SVG without any outside reference.
    """
    width, height = given.width_px, given.height_px
    size = max(8.0, 0.016 * max(width, height))
    band = 2.2 * size
    name = " ".join(filter(None, (given.code, "test lines")))
    caption = (
        f"{name}. Tick every {_TICK_EVERY_PX} px; place of a mark along its line "
        "from tick 0."
    )
    if synthetic:
        caption = f"SYNTHETIC picture, no real metal. {caption}"
    drawn = "\n".join(
        _drawn(placed_line(line), size, (width, height)) for line in given.lines
    )
    return f"""<svg xmlns="http://www.w3.org/2000/svg" role="img"
 viewBox="-0.5 -0.5 {width} {height + band:.1f}" width="{width}">
<title>{escape(name)}</title>
<desc>{escape(caption)}</desc>
<style>{_STYLE}</style>
<rect x="-0.5" y="-0.5" width="{width}" height="{height + band:.1f}" fill="#fff"/>
<image x="-0.5" y="-0.5" width="{width}" height="{height}" preserveAspectRatio="none"
 href="data:image/png;base64,{b64encode(png).decode("ascii")}"/>
{drawn}
<text x="{0.4 * size:.1f}" y="{height + 1.4 * size:.1f}" font-size="{size:.1f}"
 stroke="none">{escape(caption)}</text>
</svg>
"""


def _drawn(line: PlacedLine, size: float, frame: tuple[int, int]) -> str:
    shape = _shape(line)
    parts = [f'<{shape} class="line"/>', f'<{shape} class="line core"/>']
    for along in range(0, int(line.length_px) + 1, _TICK_EVERY_PX):
        start, end = _tick(line, along, 0.5 * size)
        ends = " ".join(
            f'{name}="{value:.1f}"'
            for name, value in zip(
                ("x1", "y1", "x2", "y2"), (*start, *end), strict=True
            )
        )
        parts += [f'<line {ends} class="line"/>', f'<line {ends} class="line core"/>']
        if along % (2 * _TICK_EVERY_PX) == 0:
            parts.append(_label(line, along, size, frame))
    return "\n".join(parts)


def _shape(line: PlacedLine) -> str:
    if isinstance(line, StraightTestLine):
        (x1, y1), (x2, y2) = line.start_px, line.end_px
        return f'line x1="{x1}" y1="{y1}" x2="{x2}" y2="{y2}"'
    x, y = line.centre_px
    return f'circle cx="{x}" cy="{y}" r="{line.radius_px}"'


def _tick(
    line: PlacedLine, along: float, half: float
) -> tuple[tuple[float, float], tuple[float, float]]:
    x, y = line.position_px(along)
    across, down = _normal(line, along)
    return (
        (x - half * across, y - half * down),
        (x + half * across, y + half * down),
    )


def _normal(line: PlacedLine, along: float) -> tuple[float, float]:
    """Give the unit vector across a line; on a circle it points inwards."""
    x, y = line.position_px(along)
    if isinstance(line, CircularTestLine):
        return (
            (line.centre_px[0] - x) / line.radius_px,
            (line.centre_px[1] - y) / line.radius_px,
        )
    (x1, y1), (x2, y2) = line.start_px, line.end_px
    return (y1 - y2) / line.length_px, (x2 - x1) / line.length_px


def _label(line: PlacedLine, along: int, size: float, frame: tuple[int, int]) -> str:
    x, y = line.position_px(along)
    across, down = _normal(line, along)
    text = f"line {line.number}: 0" if along == 0 else f"{line.number}: {along}"
    # Kept inside of the picture: lines begin and end on its frame.
    x = min(max(x + 1.1 * size * across + 0.2 * size, 0.0), frame[0] - 4 * size)
    y = min(max(y + 1.1 * size * down + 0.3 * size, size), frame[1] - 0.3 * size)
    return (
        f'<text x="{x:.1f}" y="{y:.1f}" font-size="{0.75 * size:.1f}" '
        f'stroke-width="{0.18 * size:.1f}">{text}</text>'
    )
