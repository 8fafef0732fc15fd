"""The demo's micrographs: drawn by a program, and marked so on their face."""

from strandproof.micrograph.render import (
    Camera,
    Etch,
    GrainPopulation,
    Groove,
    Preparation,
    SectionParameters,
    StrandLayout,
    TwinHabit,
    mark_synthetic,
    render_section,
)
from strandproof.storage import SYNTHETIC_KEY, encode_png

PIXEL_SIZE_UM = 0.1726
"""Pixel size of the micrographs of case H7 [um]."""
ROD_PIXEL_SIZE_UM = 5.0
"""Pixel size of the micrographs of case H0 [um]."""

_STRAND_UM = 80.0
_ROD_UM = 1000.0
_ETCH = Etch(grey_contrast=0.14, groove=Groove(width_px=2.2, depth=0.6))
_OVER_ETCHED = Etch(
    grey_contrast=0.05,
    groove=Groove(width_px=11, depth=0.75, spread=0.9),
    interior="pitted",
    interior_strength=1.0,
    etch_pits_per_mpx=2500,
)


def long_section(mean_intercept_um: float, *, seed: int) -> bytes:
    """Draw a field on the long section of an annealed strand.

    Parameters
    ----------
    mean_intercept_um : float
        Mean lineal intercept of the population [um].
    seed : int
        Seed.

    Returns
    -------
    bytes
        PNG of 800 by 560 px that says synthetic.
    """
    layout = StrandLayout(arrangement="long", width_um=_STRAND_UM)
    parameters = SectionParameters(
        population=_annealed(mean_intercept_um),
        layout=layout,
        etch=_ETCH,
        um_per_px=PIXEL_SIZE_UM,
        shape=(560, 800),
    )
    return _png(parameters, seed)


def round_face(
    mean_intercept_um: float, *, seed: int, over_etched: bool = False
) -> bytes:
    """Draw the whole round face of an annealed strand.

    Parameters
    ----------
    mean_intercept_um : float
        Mean lineal intercept of the population [um].
    seed : int
        Seed.
    over_etched : bool
        Draw a face that nobody can read.

    Returns
    -------
    bytes
        PNG of 560 by 560 px that says synthetic.
    """
    parameters = SectionParameters(
        population=_annealed(mean_intercept_um),
        layout=StrandLayout(arrangement="round", width_um=_STRAND_UM),
        etch=_OVER_ETCHED if over_etched else _ETCH,
        um_per_px=PIXEL_SIZE_UM,
        shape=(560, 560),
    )
    return _png(parameters, seed)


def single_crystal(*, seed: int, bent: bool = False) -> bytes:
    """Draw a control: the long section of one crystal, scratched or bent.

    Parameters
    ----------
    seed : int
        Seed.
    bent : bool
        Draw the slip traces of bending too.

    Returns
    -------
    bytes
        PNG of 800 by 560 px that says synthetic.
    """
    parameters = SectionParameters(
        population=GrainPopulation(family="single", mean_intercept_um=None),
        layout=StrandLayout(arrangement="long", width_um=_STRAND_UM),
        etch=Etch(slip_traces=0.25 if bent else 0.0, groove=Groove(depth=0.6)),
        preparation=Preparation(scratches_per_mpx=3),
        um_per_px=PIXEL_SIZE_UM,
        shape=(560, 800),
    )
    return _png(parameters, seed)


def preparation(*, seed: int) -> tuple[bytes, bytes, bytes]:
    """Draw the mount as polished, after the first and after the second etch step.

    Parameters
    ----------
    seed : int
        Seed.

    Returns
    -------
    tuple of bytes
        Three PNG of 320 by 200 px that say synthetic.
    """
    etches = (
        Etch(grey_contrast=0.0, groove=Groove(depth=0.0)),
        Etch(grey_contrast=0.05, groove=Groove(width_px=1.6, depth=0.35)),
        _ETCH,
    )
    drawn = [
        _png(
            SectionParameters(
                population=_annealed(8.4),
                layout=StrandLayout(arrangement="long", width_um=_STRAND_UM),
                etch=etch,
                um_per_px=0.5,
                shape=(200, 320),
            ),
            seed,
        )
        for etch in etches
    ]
    return drawn[0], drawn[1], drawn[2]


def rod_section(*, seed: int) -> bytes:
    """Draw one of eight fields on the long sections of case H0's rod, one crystal.

    With scratches, as polished rods have them.

    Parameters
    ----------
    seed : int
        Seed.

    Returns
    -------
    bytes
        PNG of 900 by 240 px that shows 4.5 mm of rod and says synthetic.
    """
    parameters = SectionParameters(
        population=GrainPopulation(family="single", mean_intercept_um=None),
        layout=StrandLayout(arrangement="long", width_um=_ROD_UM),
        etch=Etch(groove=Groove(depth=0.6)),
        preparation=Preparation(scratches_per_mpx=25),
        camera=Camera(blur_px=0.9),
        um_per_px=ROD_PIXEL_SIZE_UM,
        shape=(240, 900),
    )
    return _png(parameters, seed)


def rod_control(*, seed: int) -> bytes:
    """Draw the soft-copper control beside case H0's rod.

    Parameters
    ----------
    seed : int
        Seed.

    Returns
    -------
    bytes
        PNG of 400 by 240 px that says synthetic.
    """
    parameters = SectionParameters(
        population=_annealed(100.0),
        layout=StrandLayout(arrangement="long", width_um=_ROD_UM),
        etch=_ETCH,
        um_per_px=ROD_PIXEL_SIZE_UM,
        shape=(240, 400),
    )
    return _png(parameters, seed)


def _annealed(mean_intercept_um: float) -> GrainPopulation:
    return GrainPopulation(
        family="twinned", mean_intercept_um=mean_intercept_um, twins=TwinHabit()
    )


def _png(parameters: SectionParameters, seed: int) -> bytes:
    section = render_section(parameters, seed=seed)
    marked = mark_synthetic(section.picture)
    words = {SYNTHETIC_KEY: "yes", **section.metadata()}
    return encode_png(marked.picture, text=words)
