"""The use case that draws the looks and lays them beside the user's picture."""

from collections.abc import Callable
from dataclasses import dataclass, replace
from pathlib import Path

import numpy as np
import numpy.typing as npt

from strandproof.app.workflow.expected_looks.recipes import Look, looks
from strandproof.app.workflow.expected_looks.scene import Direction, Scene
from strandproof.app.workflow.new_folder import make_new_folder
from strandproof.errors import NoScaleError
from strandproof.micrograph.render import (
    SyntheticSection,
    mark_synthetic,
    render_section,
)
from strandproof.quantity import Quantity
from strandproof.report import MicrographPicture
from strandproof.report.looks import LookPanel, LooksSheet, expected_looks_html
from strandproof.storage import (
    SYNTHETIC_KEY,
    DecodedPicture,
    encode_png,
    preview_jpeg,
    read_picture,
    write_output_file,
)
from strandproof.weighing import bench_tests, predictions, usual_hypotheses

Progress = Callable[[float, str], None]
Pixels = npt.NDArray[np.float32]

DEFAULT_INTERCEPT_UM = 10.0
"""Mean intercept of annealed grains where the user gives none [um]; judgement."""

_PREVIEW_SIDE_PX = 900
_SECTION_WORDS = {"longitudinal": "long section", "transverse": "transverse section"}
_TESTS = {
    "longitudinal": "etched_section.long",
    "transverse": "etched_section.transverse",
}
_ALIKE = 0.02  # channels that differ by less are one grey


@dataclass(frozen=True, slots=True, kw_only=True)
class LooksAsked:
    """What the user says of the picture.

    Parameters
    ----------
    pixel_size : Quantity or None
        Pixel size [um]; None takes the file's own, if it states one.
    direction : {"longitudinal", "transverse"}
        Direction of the section.
    strand_um : float or None
        Width of the strand [um]; None draws metal from edge to edge.
    axis_deg : float
        Direction of the strand in the picture [deg], -90 to 90.
    mean_intercept_um : float or None
        Mean lineal intercept to draw annealed grains with [um]; None assumes one.
    seed : int
        Seed of the drawings.
    """

    pixel_size: Quantity | None = None
    direction: Direction = "longitudinal"
    strand_um: float | None = None
    axis_deg: float = 0.0
    mean_intercept_um: float | None = None
    seed: int = 1


@dataclass(frozen=True, slots=True)
class WrittenLooks:
    """Where the looks lie.

    Parameters
    ----------
    sheet : Path
        The page with all of them beside the user's picture.
    pictures : tuple of (str, Path)
        Hypotheses and full-size picture of each look that was drawn.
    not_drawn : tuple of (str, str)
        Hypotheses without a look of their own, and why.
    """

    sheet: Path
    pictures: tuple[tuple[str, Path], ...]
    not_drawn: tuple[tuple[str, str], ...]


def draw_expected_looks(
    picture: Path, folder: Path, asked: LooksAsked, *, progress: Progress | None = None
) -> WrittenLooks:
    """Draw what each usual hypothesis would look like, at the scale of a picture.

    Parameters
    ----------
    picture : Path
        The user's picture; only read.
    folder : Path
        New or empty folder.
    asked : LooksAsked
        Scale, section, strand.
    progress : callable or None
        Called with a fraction and words.

    Returns
    -------
    WrittenLooks
        The sheet, the pictures, and what was not drawn.
    """
    decoded = read_picture(picture, um_per_px=asked.pixel_size)
    scene = _scene(picture.name, decoded, asked)
    make_new_folder(folder)
    report = progress or (lambda _fraction, _words: None)
    every = looks(scene)
    panels: list[LookPanel] = []
    written: list[tuple[str, Path]] = []
    for number, look in enumerate(every):
        name = ", ".join(look.labels)
        report(number / len(every), name)
        if look.parameters is not None:
            section = render_section(look.parameters, seed=asked.seed)
            drawing = mark_synthetic(section.picture).picture
            written.append((name, _write(folder, name, section, drawing)))
            panels.append(_panel(_with_what_is_seen(look, section), scene, drawing))
        else:
            panels.append(_panel(look, scene, None))
    page = folder / "sheet.html"
    sheet = _sheet(picture.name, decoded, scene, asked, tuple(panels))
    write_output_file(page, expected_looks_html(sheet).encode("utf-8"))
    report(1.0, "done")
    return WrittenLooks(page, tuple(written), _without_picture(every))


def _write(folder: Path, name: str, section: SyntheticSection, drawing: Pixels) -> Path:
    path = folder / f"{name.replace(', ', '-')}-synthetic.png"
    words = {SYNTHETIC_KEY: "yes", "Hypotheses": name, **section.metadata()}
    png = encode_png(drawing, text=words, pixel_size_um=section.um_per_px)
    write_output_file(path, png)
    return path


def _with_what_is_seen(look: Look, section: SyntheticSection) -> Look:
    """Say so where a drawing of grains happens to hold no boundary."""
    has_grains = section.parameters.population.mean_intercept_um is not None
    if not has_grains or section.measured.crossings > 0:
        return look
    note = "In this drawing no boundary lies within the field: it is as wide as yours."
    return replace(look, words=(*look.words, note))


def _scene(name: str, decoded: DecodedPicture, asked: LooksAsked) -> Scene:
    """Take from the picture what the drawings have to match.

    Raises
    ------
    NoScaleError
        If nobody said how large a pixel is.
    """
    size = asked.pixel_size.value if asked.pixel_size else None
    if size is None and decoded.pixel_size is not None:
        size = decoded.pixel_size.value_um
    if size is None:
        raise NoScaleError(name)
    rows, columns = decoded.pixels.shape[:2]
    return Scene(
        shape=(rows, columns),
        um_per_px=size,
        direction=asked.direction,
        strand_um=asked.strand_um,
        axis_deg=asked.axis_deg,
        mean_intercept_um=asked.mean_intercept_um or DEFAULT_INTERCEPT_UM,
        colour=_is_coloured(decoded.pixels),
    )


def _is_coloured(pixels: Pixels) -> bool:
    if pixels.ndim == 2:
        return False
    return float(np.mean(np.ptp(pixels, axis=2))) > _ALIKE


def _copy(pixels: Pixels) -> MicrographPicture:
    rows, columns = pixels.shape[:2]
    jpeg = preview_jpeg(pixels, max_side=_PREVIEW_SIDE_PX)
    return MicrographPicture(jpeg, columns, rows)


def _panel(look: Look, scene: Scene, drawing: Pixels | None) -> LookPanel:
    usual = usual_hypotheses()
    shown = bench_tests()[_TESTS[scene.direction]].shows
    expected = dict.fromkeys(
        f"{each.statement}: {each.word}"
        + (f" ({each.because})" if each.because else "")
        for each in predictions()
        if each.observation in shown and each.hypothesis in look.labels
    )
    return LookPanel(
        labels=look.labels,
        statements=tuple(f"{each}: {usual[each].statement}" for each in look.labels),
        words=look.words,
        expected=tuple(expected),
        picture=None if drawing is None else _copy(drawing),
    )


def _sheet(
    name: str,
    decoded: DecodedPicture,
    scene: Scene,
    asked: LooksAsked,
    panels: tuple[LookPanel, ...],
) -> LooksSheet:
    whose = "given" if asked.mean_intercept_um else "assumed, since none was given"
    strand = (
        "Strand width not given: drawn as metal from edge to edge."
        if scene.strand_um is None
        else f"Strand width: {scene.strand_um:.4g} µm, given."
    )
    return LooksSheet(
        name=name,
        own=_copy(decoded.pixels),
        own_synthetic=any(flag.name == "synthetic" for flag in decoded.flags),
        um_per_px=scene.um_per_px,
        section=_SECTION_WORDS[scene.direction],
        assumed=(
            (
                f"Mean intercept of annealed grains: {scene.mean_intercept_um:.3g} µm, "
                f"{whose}. No explanation predicts a grain size."
            ),
            strand,
            (
                "Etch, light and camera are drawn plainly and not matched to yours: "
                "compare shapes, not tones."
            ),
            "What is expected of each explanation is judgement of the tables.",
        ),
        panels=panels,
    )


def _without_picture(every: tuple[Look, ...]) -> tuple[tuple[str, str], ...]:
    return tuple(
        (", ".join(look.labels), " ".join(look.words))
        for look in every
        if look.parameters is None
    )
