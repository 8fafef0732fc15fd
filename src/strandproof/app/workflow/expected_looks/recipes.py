"""How the usual hypotheses are drawn, and which of them have no look of their own.

What is drawn follows the predictions of the tables (judgement); how it is drawn
(elongation, twins, etch) is judgement of this project too.
"""

from collections.abc import Callable
from dataclasses import dataclass, replace
from math import sqrt

from strandproof.app.workflow.expected_looks.scene import Scene
from strandproof.micrograph.render import (
    Camera,
    Etch,
    GrainPopulation,
    Groove,
    Preparation,
    SectionParameters,
    StrandLayout,
    TwinHabit,
)

_ELONGATION = 10.0  # of grains drawn out along the strand, judgement
_THINNEST_PX = 3.0
_WIDTHS_TO_A_WALL = 2.0  # "boundaries cross the strand every few widths"


@dataclass(frozen=True, slots=True, kw_only=True)
class Look:
    """A look that one or several hypotheses share, or none.

    Parameters
    ----------
    labels : tuple of str
        The hypotheses.
    parameters : SectionParameters or None
        How it is drawn; None where there is nothing of its own to draw.
    words : tuple of str
        What is drawn and what it cannot tell, or why nothing is drawn.
    """

    labels: tuple[str, ...]
    parameters: SectionParameters | None
    words: tuple[str, ...]


def looks(scene: Scene) -> tuple[Look, ...]:
    """Give the look of every usual hypothesis, X1 to X8.

    Parameters
    ----------
    scene : Scene
        What has to be matched.

    Returns
    -------
    tuple of Look
        Those that are drawn first, then those that have no look of their own.
    """
    recipes: tuple[Callable[[Scene], Look], ...] = (
        _one_crystal,
        _drawn_out,
        _annealed,
        _bamboo,
    )
    every = (*(recipe(scene) for recipe in recipes), _ANOTHER_METAL, _ANOTHER_MAKER)
    return tuple(sorted(every, key=lambda look: look.parameters is None))


_ANOTHER_METAL = Look(
    labels=("X6",),
    parameters=None,
    words=(
        (
            "No look of its own: it depends on which metal and how it is joined, and "
            "an etch does not identify a metal."
        ),
        (
            "A layer or a core shows on a section as polished; an analysis on the "
            "section (EDS or XRF) says what it is."
        ),
    ),
)
_ANOTHER_MAKER = Look(
    labels=("X7",),
    parameters=None,
    words=(
        "No look of its own: a piece of another maker can look like any of the others.",
        "Purchase, lot marks and custody speak to it, not a micrograph.",
    ),
)

_WITHOUT_WIDTH = Look(
    labels=("X8",),
    parameters=None,
    words=(
        (
            "Not drawn: grains as wide as the strand need the width of the strand. "
            "Give it, and the look is drawn."
        ),
    ),
)


def _one_crystal(scene: Scene) -> Look:
    length = "no picture shows more than its own length"
    if scene.direction == "transverse":
        length = "a face without a boundary says nothing between X1 and X8"
    return Look(
        labels=("X1",),
        parameters=_section(
            scene,
            GrainPopulation(family="single", mean_intercept_um=None),
            Etch(),
        ),
        words=(
            "Drawn: no grain boundary.",
            f"It cannot tell how far that goes: {length}.",
        ),
    )


def _drawn_out(scene: Scene) -> Look:
    mean_px = scene.mean_intercept_um / scene.um_per_px
    elongation = max(1.5, min(_ELONGATION, (mean_px / _THINNEST_PX) ** 2))
    thickness_um = scene.mean_intercept_um / sqrt(elongation)
    along = scene.direction == "longitudinal"
    population = GrainPopulation(
        family="drawn",
        mean_intercept_um=scene.mean_intercept_um if along else thickness_um,
        elongation=elongation if along else 1.2,
        direction_deg=scene.axis_deg,
        waviness=0.06,
    )
    shape = (
        f"grains drawn out along the strand, {elongation:.2g} times as long as thick"
    )
    if not along:
        shape = f"the cut ends of drawn-out grains, {thickness_um:.2g} µm across"
    return Look(
        labels=("X2",),
        parameters=_section(
            scene,
            population,
            _etch(thickness_um / scene.um_per_px, deformation_bands=0.5),
        ),
        words=(
            f"Drawn: {shape}, with marks of strain.",
            (
                "Its cells may be too fine for light: then it can look like X1, and "
                "only diffraction tells."
            ),
        ),
    )


def _annealed(scene: Scene) -> Look:
    population = GrainPopulation(
        family="twinned",
        mean_intercept_um=scene.mean_intercept_um,
        twins=TwinHabit(),
    )
    etch = _etch(scene.mean_intercept_um / scene.um_per_px)
    return Look(
        labels=("X3", "X4", "X5"),
        parameters=_section(scene, population, etch),
        words=(
            (
                f"Drawn: grains of {scene.mean_intercept_um:.3g} µm mean intercept "
                "with annealing twins (straight, parallel sides inside of grains)."
            ),
            (
                "These three look alike: nothing on an etched section tells X3 from "
                "X4, and X5 differs by oxide dots that show as polished, before "
                "etching; they are not drawn here."
            ),
        ),
    )


def _bamboo(scene: Scene) -> Look:
    if scene.strand_um is None:
        return _WITHOUT_WIDTH
    if scene.direction == "transverse":
        return replace(
            _one_crystal(scene),
            labels=("X8",),
            words=(
                "Drawn: one grain fills the face.",
                (
                    "That is the look of X1 too: a face without a boundary says "
                    "nothing between X1 and X8. Look at a long section."
                ),
            ),
        )
    apart = _WIDTHS_TO_A_WALL * scene.strand_um
    population = GrainPopulation(
        family="bamboo", mean_intercept_um=apart, direction_deg=scene.axis_deg
    )
    return Look(
        labels=("X8",),
        parameters=_section(scene, population, _etch(apart / scene.um_per_px)),
        words=(
            (
                f"Drawn: boundaries across the whole strand, {apart:.3g} µm apart in "
                "the mean (two widths, judgement)."
            ),
            (
                "One picture may hold none of them and then looks like X1: count "
                "along the strand."
            ),
        ),
    )


def _etch(thinnest_px: float, *, deformation_bands: float = 0.0) -> Etch:
    # Lines wider than a third of the grains would bury them.
    width_px = max(1.0, min(2.2, 0.33 * thinnest_px))
    return Etch(
        grey_contrast=0.14,
        # Every line is shown: a drawing of what to look for hides none.
        groove=Groove(
            width_px=width_px, depth=0.6, spread=0.2, faint_fraction=0, gap_fraction=0
        ),
        deformation_bands=deformation_bands,
    )


def _section(
    scene: Scene, population: GrainPopulation, etch: Etch
) -> SectionParameters:
    layout = StrandLayout()
    if scene.strand_um is not None:
        layout = StrandLayout(
            arrangement="long" if scene.direction == "longitudinal" else "round",
            width_um=scene.strand_um,
            axis_deg=scene.axis_deg,
        )
    return SectionParameters(
        population=population,
        layout=layout,
        etch=etch,
        preparation=Preparation(scratches_per_mpx=0),
        camera=Camera(colour=scene.colour),
        shape=scene.shape,
        um_per_px=scene.um_per_px,
    )
