"""What the known pieces are: twelve kinds of synthetic section, easy and nasty.

Every kind is drawn at one scale, on one strand of one width, so that only the metal and
its preparation differ. What was drawn is known; how hard it is to read is judgement.
"""

from dataclasses import dataclass, field
from types import MappingProxyType
from typing import Literal

from strandproof.micrograph.render import (
    Camera,
    Etch,
    GrainPopulation,
    Groove,
    Preparation,
    ScaleBar,
    SectionParameters,
    StrandLayout,
    TwinHabit,
)

Structure = Literal["single_crystal", "polycrystal", "not_readable"]

UM_PER_PX = 0.2
"""Pixel size of every known piece [um]."""
STRAND_UM = 80.0
"""Width of every strand [um]."""
SHAPE = (540, 800)
"""Rows and columns of every picture [px]."""

_LIGHT = Groove(width_px=2.2, depth=0.6)
_CLEAN = Preparation(scratches_per_mpx=0, pits_per_mpx=10)
_ONE_CRYSTAL = GrainPopulation(family="single", mean_intercept_um=None)


@dataclass(frozen=True, slots=True, kw_only=True)
class PieceKind:
    """A kind of known piece and how it is drawn.

    Parameters
    ----------
    name : str
        What it is, for the list of answers.
    structure : {"single_crystal", "polycrystal", "not_readable"}
        Which error a reader can make on it; "not_readable" informs neither.
    population : GrainPopulation
        The grains.
    etch : Etch
        What the etch shows.
    preparation : Preparation
        Traces of preparation.
    camera : Camera
        Microscope and camera.
    """

    name: str
    structure: Structure
    population: GrainPopulation
    etch: Etch = field(default_factory=Etch)
    preparation: Preparation = _CLEAN
    camera: Camera = field(default_factory=Camera)

    def parameters(self) -> SectionParameters:
        """Give everything that the renderer needs but the seed.

        Returns
        -------
        SectionParameters
            A long section with a scale bar.
        """
        return SectionParameters(
            population=self.population,
            layout=StrandLayout(arrangement="long", width_um=STRAND_UM),
            etch=self.etch,
            preparation=self.preparation,
            camera=self.camera,
            scale_bar=ScaleBar(),
            shape=SHAPE,
            um_per_px=UM_PER_PX,
        )


def _grains(
    mean_intercept_um: float, *, twins: TwinHabit | None = None
) -> GrainPopulation:
    return GrainPopulation(
        family="equiaxed" if twins is None else "twinned",
        mean_intercept_um=mean_intercept_um,
        twins=twins,
    )


_POLYCRYSTALS = (
    PieceKind(
        name="grains under scratches",
        structure="polycrystal",
        population=_grains(10.0),
        etch=Etch(grey_contrast=0.1, groove=_LIGHT),
        preparation=Preparation(scratches_per_mpx=60, scratch_depth=0.4),
    ),
    PieceKind(
        name="grains with annealing twins",
        structure="polycrystal",
        population=_grains(16.0, twins=TwinHabit(grain_fraction=0.75)),
        etch=Etch(grey_contrast=0.14, groove=_LIGHT),
    ),
    PieceKind(
        name="grains, faintly etched",
        structure="polycrystal",
        population=_grains(20.0),
        etch=Etch(
            grey_contrast=0.02,
            relief=0.05,
            groove=Groove(
                width_px=1.6, depth=0.3, faint_fraction=0.5, gap_fraction=0.2
            ),
        ),
    ),
    PieceKind(
        name="grains drawn out along the strand",
        structure="polycrystal",
        population=GrainPopulation(
            family="drawn", mean_intercept_um=9.0, elongation=8.0, waviness=0.05
        ),
        etch=Etch(
            grey_contrast=0.08,
            groove=Groove(width_px=1.8, depth=0.5),
            deformation_bands=0.4,
        ),
    ),
    PieceKind(
        name="few grains, as wide as the strand",
        structure="polycrystal",
        population=GrainPopulation(family="bamboo", mean_intercept_um=70.0),
        etch=Etch(grey_contrast=0.05, groove=Groove(width_px=2.0, depth=0.45)),
        preparation=Preparation(scratches_per_mpx=20, scratch_depth=0.3),
    ),
)

_SINGLE_CRYSTALS = (
    PieceKind(
        name="one crystal, clean",
        structure="single_crystal",
        population=_ONE_CRYSTAL,
        preparation=Preparation(scratches_per_mpx=0, pits_per_mpx=40),
    ),
    PieceKind(
        name="one crystal, scratched in one direction",
        structure="single_crystal",
        population=_ONE_CRYSTAL,
        preparation=Preparation(
            scratches_per_mpx=90, scratch_depth=0.45, scratch_scatter_deg=4
        ),
    ),
    PieceKind(
        name="one crystal, scratched in all directions",
        structure="single_crystal",
        population=_ONE_CRYSTAL,
        preparation=Preparation(
            scratches_per_mpx=110, scratch_depth=0.5, scratch_scatter_deg=80
        ),
    ),
    PieceKind(
        name="one crystal with slip traces",
        structure="single_crystal",
        population=_ONE_CRYSTAL,
        etch=Etch(slip_traces=0.6, deformation_bands=0.3),
    ),
    PieceKind(
        name="one crystal, slip traces under scratches",
        structure="single_crystal",
        population=_ONE_CRYSTAL,
        etch=Etch(slip_traces=0.35, interior="mottled"),
        preparation=Preparation(
            scratches_per_mpx=50, scratch_depth=0.4, scratch_scatter_deg=30
        ),
    ),
    PieceKind(
        name="one crystal, stained and pitted",
        structure="single_crystal",
        population=_ONE_CRYSTAL,
        etch=Etch(interior="mottled", etch_pits_per_mpx=250),
        preparation=Preparation(
            scratches_per_mpx=0,
            comet_tails_per_mpx=25,
            pits_per_mpx=200,
            stain_fraction=0.2,
        ),
    ),
)

_OVER_ETCHED = PieceKind(
    name="over-etched until nothing can be read",
    structure="not_readable",
    population=_grains(3.5),
    etch=Etch(
        grey_contrast=0.04,
        groove=Groove(width_px=15, depth=0.75, spread=0.9),
        interior="pitted",
        interior_strength=1.0,
        etch_pits_per_mpx=3000,
    ),
    preparation=Preparation(scratches_per_mpx=0, stain_fraction=0.25),
    camera=Camera(blur_px=1.6),
)

PIECE_KINDS: MappingProxyType[str, PieceKind] = MappingProxyType(
    {kind.name: kind for kind in (*_POLYCRYSTALS, *_SINGLE_CRYSTALS, _OVER_ETCHED)}
)
"""The kinds by name: five polycrystals, six single crystals, one unreadable."""
