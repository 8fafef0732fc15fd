"""The act of rendering one synthetic section, and its output."""

import json
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt
from scipy import ndimage

from strandproof.micrograph.render.crystals import Crystals
from strandproof.micrograph.render.grains import grain_labels
from strandproof.micrograph.render.hardships import told
from strandproof.micrograph.render.lettering import MarkedPicture, burn_scale_bar
from strandproof.micrograph.render.noise import stream
from strandproof.micrograph.render.outline import StrandMap, strand_map
from strandproof.micrograph.render.parameters import SectionParameters
from strandproof.micrograph.render.picture import paint
from strandproof.micrograph.render.truth import (
    MeasuredIntercepts,
    label_changes,
    measure_intercepts,
)
from strandproof.micrograph.render.twins import TwinMap, draw_twins, no_twins

IntPlane = npt.NDArray[np.int32]
Mask = npt.NDArray[np.bool_]

_ORIGIN = "synthetic"
_STATEMENT = (
    "Synthetic picture: drawn by a program, it shows no real metal. "
    "Grains, twins and marks were drawn, not found."
)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class SyntheticSection:
    """A picture drawn by a program, with exact answers.

    Every metal pixel belongs to a grain: there are no boundary pixels without a
    grain, a boundary is a change of label. Twins are merged in `grain_labels`.

    Parameters
    ----------
    picture : ndarray of float32, shape (n_rows, n_cols, 3)
        The picture, 0 to 1; see `as_bytes` for 8 bits.
    strand_labels : ndarray of int32, shape (n_rows, n_cols)
        0 outside of metal, else the strand's number.
    grain_labels : ndarray of int32, shape (n_rows, n_cols)
        0 outside of metal, else the grain's number; no grain in two strands.
    twin_labels : ndarray of int32, shape (n_rows, n_cols)
        0 in the parent, else the lamella's number; no lamella in two grains.
    boundary : ndarray of bool, shape (n_rows, n_cols)
        Pixels with a 4-neighbour in another grain of the same strand. Where two
        strands touch there is a strand edge, not a grain boundary.
    twin_boundary : ndarray of bool, shape (n_rows, n_cols)
        Pixels with a 4-neighbour in the same grain but in another lamella.
    scratch : ndarray of bool, shape (n_rows, n_cols)
        Metal pixels on a scratch.
    slip_trace : ndarray of bool, shape (n_rows, n_cols)
        Metal pixels on a slip line.
    defect : ndarray of bool, shape (n_rows, n_cols)
        Metal pixels under pits, pores, comet tails, etch pits, inclusions or
        stains. The fine dots of the interior texture "pitted" are not among them.
    unreadable : ndarray of bool, shape (n_rows, n_cols)
        Metal pixels where a practised eye could not tell a boundary: saturated by
        glare, under opaque smears, or with nine tenths of their light out of
        focus. The labels below are kept.
    overlay : ndarray of bool, shape (n_rows, n_cols)
        Pixels under a burned-in scale bar; the labels below it are kept.
    um_per_px : float
        Pixel size [um].
    parameters : SectionParameters
        What the section was drawn from, the population's mean intercept among it.
    measured : MeasuredIntercepts
        Mean intercepts measured on the full label plane.
    seed : int
        Seed; the same seed and parameters give the same bytes.
    origin : str
        Always "synthetic".
    """

    picture: npt.NDArray[np.float32]
    strand_labels: IntPlane
    grain_labels: IntPlane
    twin_labels: IntPlane
    boundary: Mask
    twin_boundary: Mask
    scratch: Mask
    slip_trace: Mask
    defect: Mask
    unreadable: Mask
    overlay: Mask
    um_per_px: float
    parameters: SectionParameters
    measured: MeasuredIntercepts
    seed: int
    origin: str = _ORIGIN

    def as_bytes(self) -> npt.NDArray[np.uint8]:
        """Return the picture in 8 bits, rounded.

        Returns
        -------
        ndarray of uint8, shape (n_rows, n_cols, 3)
            0 (black) to 255 (full scale).
        """
        rounded: npt.NDArray[np.uint8] = np.rint(self.picture * np.float32(255)).astype(
            np.uint8
        )
        return rounded

    def metadata(self) -> dict[str, str]:
        """Return what a stored file must say about the picture.

        Returns
        -------
        dict of str to str
            "origin", "statement", "made_by", "seed", "um_per_px",
            "mean_intercept_um_population", "mean_intercept_um_on_labels" and
            "parameters" (JSON); a value that does not exist is "none".
        """
        requested = self.parameters.population.mean_intercept_um
        measured = self.measured.mean_um
        return {
            "origin": self.origin,
            "statement": _STATEMENT,
            "made_by": "strandproof.micrograph.render",
            "seed": str(self.seed),
            "um_per_px": repr(self.um_per_px),
            "mean_intercept_um_population": _text(requested),
            "mean_intercept_um_on_labels": _text(measured),
            "parameters": json.dumps(told(self.parameters), sort_keys=True),
        }


def _text(value: float | None) -> str:
    return "none" if value is None else repr(float(value))


def render_section(
    parameters: SectionParameters, *, seed: int | np.random.Generator
) -> SyntheticSection:
    """Draw one synthetic section with exact labels.

    Each step (strands, grains, twins, shades, scratches, noise ...) has a stream
    of random numbers of its own. Two sections with the same seed, population and
    layout have the same grains, however they are etched or photographed.

    Parameters
    ----------
    parameters : SectionParameters
        What to draw.
    seed : int or numpy.random.Generator
        Seed, 0 or above; from a generator one seed is drawn.

    Returns
    -------
    SyntheticSection
        Picture, labels and masks.

    Notes
    -----
    Same seed, same parameters and same library versions on one kind of machine
    give the same bytes. Other versions of the array libraries may round the
    last bit of a float in another way.

    Examples
    --------
    >>> from strandproof.micrograph.render import GrainPopulation
    >>> population = GrainPopulation(family="equiaxed", mean_intercept_um=20)
    >>> section = render_section(
    ...     SectionParameters(population=population, shape=(128, 128)), seed=1
    ... )
    >>> section.origin, section.picture.shape
    ('synthetic', (128, 128, 3))
    """
    if isinstance(seed, np.random.Generator):
        seed = int(seed.integers(2**62))
    layout, um_per_px = parameters.layout, parameters.um_per_px
    strands = strand_map(
        parameters.shape, layout, um_per_px=um_per_px, generator=stream(seed, "strands")
    )
    grains = _all_grains(strands, parameters, seed)
    twins = _twins(grains, parameters, seed)
    crystals = Crystals.of(grains, twins.labels, twins.sets, strands.labels)
    painting = paint(crystals, strands, parameters, seed)
    finished = _with_bar(painting.picture, parameters)
    return SyntheticSection(
        picture=finished.picture,
        strand_labels=strands.labels,
        grain_labels=grains,
        twin_labels=twins.labels,
        boundary=label_changes(grains, strands.labels),
        twin_boundary=label_changes(twins.labels, grains),
        scratch=painting.scratch,
        slip_trace=painting.slip_trace,
        defect=painting.defect,
        unreadable=painting.unreadable,
        overlay=finished.region,
        um_per_px=um_per_px,
        parameters=parameters,
        measured=measure_intercepts(
            grains,
            strands.labels,
            um_per_px=um_per_px,
            population=parameters.population,
        ),
        seed=seed,
    )


def _all_grains(
    strands: StrandMap, parameters: SectionParameters, seed: int
) -> IntPlane:
    """Grains of all strands, numbered through; each strand has its own."""
    generator = stream(seed, "grains")
    grains = np.zeros(parameters.shape, np.int32)
    n_grains = 0
    for number, window in enumerate(ndimage.find_objects(strands.labels), start=1):
        metal = strands.labels[window] == number
        labels = grain_labels(
            metal,
            parameters.population,
            um_per_px=parameters.um_per_px,
            generator=generator,
        )
        grains[window][metal] = labels[metal] + n_grains
        n_grains += int(labels.max())
    return grains


def _twins(grains: IntPlane, parameters: SectionParameters, seed: int) -> TwinMap:
    habit = parameters.population.twins
    if habit is None:
        return no_twins(grains.shape)
    return draw_twins(grains, habit, stream(seed, "twins"))


def _with_bar(
    picture: npt.NDArray[np.float32], parameters: SectionParameters
) -> MarkedPicture:
    if parameters.scale_bar is None:
        return MarkedPicture(picture, np.zeros(parameters.shape, np.bool_))
    return burn_scale_bar(
        picture, um_per_px=parameters.um_per_px, bar=parameters.scale_bar
    )
