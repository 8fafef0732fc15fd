"""Everything that a synthetic section is drawn from, but the seed."""

from dataclasses import dataclass, field

from strandproof.micrograph.render.appearance import (
    Camera,
    Etch,
    Preparation,
    ScaleBar,
)
from strandproof.micrograph.render.population import (
    GrainPopulation,
    StrandLayout,
    require_within,
)


@dataclass(frozen=True, slots=True, kw_only=True)
class SectionParameters:
    """Everything that a synthetic section is drawn from, but the seed.

    Parameters
    ----------
    population : GrainPopulation
        The grains.
    layout : StrandLayout
        The strands.
    etch : Etch
        What the etch shows.
    preparation : Preparation
        Traces of preparation.
    camera : Camera
        Microscope and camera.
    scale_bar : ScaleBar or None
        A burned-in bar; None for none.
    shape : tuple of int
        Rows and columns, each 64 to 16384.
    um_per_px : float
        Pixel size [um], 0.001 to 1000.

    Raises
    ------
    ParameterError
        If shape or pixel size lie outside of their ranges.

    Examples
    --------
    >>> population = GrainPopulation(family="equiaxed", mean_intercept_um=8.4)
    >>> SectionParameters(population=population, um_per_px=0.1726).shape
    (1024, 1024)
    """

    population: GrainPopulation
    layout: StrandLayout = field(default_factory=StrandLayout)
    etch: Etch = field(default_factory=Etch)
    preparation: Preparation = field(default_factory=Preparation)
    camera: Camera = field(default_factory=Camera)
    scale_bar: ScaleBar | None = None
    shape: tuple[int, int] = (1024, 1024)
    um_per_px: float = 1.0

    def __post_init__(self) -> None:
        require_within("um_per_px", self.um_per_px, 0.001, 1000)
        for name, size in zip(("shape[0]", "shape[1]"), self.shape, strict=True):
            require_within(name, size, 64, 16384)
