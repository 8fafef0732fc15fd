"""Parameter ranges that training never sees, kept for the benchmark.

A section is *reserved* when one of its parameters lies in its band below; training
leaves every such section out, and the benchmark draws sections of which every
parameter lies within its band.
"""

from collections.abc import Callable, Mapping
from dataclasses import replace
from types import MappingProxyType

import numpy as np

from strandproof.micrograph.render import SectionParameters

Band = tuple[float, float]

BANDS: Mapping[str, Band] = MappingProxyType(
    {
        "size_spread": (0.22, 0.27),
        "waviness": (0.08, 0.10),
        "groove spread": (0.48, 0.56),
        "interior_strength": (0.50, 0.58),
        "blur_px": (0.90, 1.05),
        "exposure": (0.70, 0.74),
    }
)

_READ: Mapping[str, Callable[[SectionParameters], float]] = MappingProxyType(
    {
        "size_spread": lambda drawn: drawn.population.size_spread,
        "waviness": lambda drawn: drawn.population.waviness,
        "groove spread": lambda drawn: drawn.etch.groove.spread,
        "interior_strength": lambda drawn: drawn.etch.interior_strength,
        "blur_px": lambda drawn: drawn.camera.blur_px,
        "exposure": lambda drawn: drawn.camera.exposure,
    }
)


def is_reserved(parameters: SectionParameters) -> bool:
    """Tell whether a parameter lies in a reserved band.

    Parameters
    ----------
    parameters : SectionParameters
        Parameters of a section.

    Returns
    -------
    bool
        True if training must leave the section out.
    """
    return any(
        low <= _READ[name](parameters) <= high for name, (low, high) in BANDS.items()
    )


def moved_into_bands(
    parameters: SectionParameters, generator: np.random.Generator
) -> SectionParameters:
    """Draw each reserved parameter anew within its band.

    Parameters
    ----------
    parameters : SectionParameters
        Any parameters.
    generator : numpy.random.Generator
        Source of chance.

    Returns
    -------
    SectionParameters
        The same, but every reserved parameter lies in its band.
    """
    drawn = {name: float(generator.uniform(*band)) for name, band in BANDS.items()}
    population, etch, camera = (
        parameters.population,
        parameters.etch,
        parameters.camera,
    )
    if population.family != "single":
        population = replace(
            population,
            size_spread=drawn["size_spread"],
            waviness=drawn["waviness"],
        )
    return replace(
        parameters,
        population=population,
        etch=replace(
            etch,
            interior_strength=drawn["interior_strength"],
            groove=replace(etch.groove, spread=drawn["groove spread"]),
        ),
        camera=replace(camera, blur_px=drawn["blur_px"], exposure=drawn["exposure"]),
    )
