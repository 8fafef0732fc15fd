"""The renderer of synthetic metallographic sections with exact labels.

Here live the parameter records (which grains, which strands, how etched, prepared
and photographed), the drawing of the geometry and of the picture, exact answers
to both (labels, masks, mean intercepts) and the mark that says SYNTHETIC. It may
import `quantity`, `records` and `errors` and the array libraries; it decodes and
writes no files. Nothing drawn here is evidence about any metal.
"""

from strandproof.micrograph.render.appearance import (
    BAR_BOXES,
    BAR_CORNERS,
    INTERIOR_TEXTURES,
    BarBox,
    BarCorner,
    Camera,
    Etch,
    Groove,
    InteriorTexture,
    Preparation,
    ScaleBar,
)
from strandproof.micrograph.render.hardships import (
    Deformation,
    Dots,
    Resin,
    Unreadable,
    Wear,
)
from strandproof.micrograph.render.lettering import (
    MarkedPicture,
    burn_scale_bar,
    mark_synthetic,
)
from strandproof.micrograph.render.parameters import SectionParameters
from strandproof.micrograph.render.population import (
    GRAIN_FAMILIES,
    STRAND_ARRANGEMENTS,
    GrainFamily,
    GrainPopulation,
    StrandArrangement,
    StrandLayout,
    TwinHabit,
)
from strandproof.micrograph.render.ranges import SAMPLING_RANGES, SamplingRange
from strandproof.micrograph.render.sampler import random_section_parameters
from strandproof.micrograph.render.section import SyntheticSection, render_section
from strandproof.micrograph.render.truth import MeasuredIntercepts, measure_intercepts

__all__ = [
    "BAR_BOXES",
    "BAR_CORNERS",
    "GRAIN_FAMILIES",
    "INTERIOR_TEXTURES",
    "SAMPLING_RANGES",
    "STRAND_ARRANGEMENTS",
    "BarBox",
    "BarCorner",
    "Camera",
    "Deformation",
    "Dots",
    "Etch",
    "GrainFamily",
    "GrainPopulation",
    "Groove",
    "InteriorTexture",
    "MarkedPicture",
    "MeasuredIntercepts",
    "Preparation",
    "Resin",
    "SamplingRange",
    "ScaleBar",
    "SectionParameters",
    "StrandArrangement",
    "StrandLayout",
    "SyntheticSection",
    "TwinHabit",
    "Unreadable",
    "Wear",
    "burn_scale_bar",
    "mark_synthetic",
    "measure_intercepts",
    "random_section_parameters",
    "render_section",
]
