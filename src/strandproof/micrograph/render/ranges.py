"""Ranges that random parameters are drawn from."""

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

import numpy as np


@dataclass(frozen=True, slots=True)
class SamplingRange:
    """Range that a parameter is drawn from.

    Parameters
    ----------
    low, high : float
        Ends.
    logarithmic : bool
        True if the logarithm is uniform, False if the value is.
    """

    low: float
    high: float
    logarithmic: bool = False

    def draw(self, generator: np.random.Generator) -> float:
        """Draw one value.

        Parameters
        ----------
        generator : numpy.random.Generator
            Source of chance.

        Returns
        -------
        float
            A value within the range.
        """
        if self.logarithmic:
            return float(np.exp(generator.uniform(np.log(self.low), np.log(self.high))))
        return float(generator.uniform(self.low, self.high))


# One row a parameter; docs/synthetic-sections.md prints this table and a test
# compares the two. Lengths in px are of the picture's pixels.
SAMPLING_RANGES: Mapping[str, SamplingRange] = MappingProxyType(
    {
        "um_per_px": SamplingRange(0.08, 2.0, logarithmic=True),
        "size_spread": SamplingRange(0.05, 0.5),
        "waviness": SamplingRange(0.02, 0.2),
        "equiaxed intercept, px": SamplingRange(9, 150, logarithmic=True),
        "equiaxed elongation": SamplingRange(1.0, 2.2),
        "bimodal intercept, px": SamplingRange(14, 90, logarithmic=True),
        "fine_fraction": SamplingRange(0.15, 0.75),
        "fine_ratio": SamplingRange(2.5, 6.0),
        "drawn thickness, px": SamplingRange(3, 22, logarithmic=True),
        "drawn elongation": SamplingRange(3, 40, logarithmic=True),
        "elongation on round faces": SamplingRange(1.0, 1.6),
        "bamboo intercept, px": SamplingRange(60, 500, logarithmic=True),
        "twinned grain_fraction": SamplingRange(0.25, 0.85),
        "mean_lamellae": SamplingRange(1.0, 3.0),
        "round width, share of short side": SamplingRange(0.5, 1.3),
        "long width, share of short side": SamplingRange(0.3, 0.9),
        "tape width, share of short side": SamplingRange(0.7, 1.4),
        "tape thickness, share of width": SamplingRange(0.12, 0.6),
        "bundle width, share of short side": SamplingRange(0.16, 0.45),
        "touching_fraction": SamplingRange(0.0, 1.0),
        "gap_fraction": SamplingRange(0.03, 0.35, logarithmic=True),
        "roughness": SamplingRange(0.001, 0.012, logarithmic=True),
        "groove width_px": SamplingRange(1.0, 4.0, logarithmic=True),
        "over-etched groove width_px": SamplingRange(4.0, 15.0, logarithmic=True),
        "groove depth": SamplingRange(0.15, 0.9),
        "groove spread": SamplingRange(0.1, 1.0),
        "faint_fraction": SamplingRange(0.0, 0.3),
        "under-etched faint_fraction": SamplingRange(0.3, 0.8),
        "gap_fraction of grooves": SamplingRange(0.0, 0.25),
        "twin_share": SamplingRange(0.1, 0.9),
        "grey_contrast, grooves": SamplingRange(0.0, 0.12),
        "grey_contrast, facets": SamplingRange(0.1, 0.4),
        "hue_contrast, film": SamplingRange(0.3, 1.0),
        "hue_spread": SamplingRange(0.2, 1.0),
        "twin_contrast": SamplingRange(0.4, 1.3),
        "interior_strength": SamplingRange(0.1, 1.0),
        "relief": SamplingRange(0.0, 0.7),
        "slip_traces": SamplingRange(0.15, 0.9),
        "deformation_bands": SamplingRange(0.2, 1.0),
        "etch_pits_per_mpx": SamplingRange(30, 1500, logarithmic=True),
        "scratches_per_mpx": SamplingRange(1, 120, logarithmic=True),
        "scratch_depth": SamplingRange(0.06, 0.6),
        "scratch_scatter_deg": SamplingRange(1, 80, logarithmic=True),
        "comet_tails_per_mpx": SamplingRange(2, 80, logarithmic=True),
        "pits_per_mpx": SamplingRange(2, 600, logarithmic=True),
        "pores_per_mpx": SamplingRange(1, 60, logarithmic=True),
        "stain_fraction": SamplingRange(0.03, 0.35),
        "edge_rounding_px": SamplingRange(1.0, 20.0, logarithmic=True),
        "resin_brightness": SamplingRange(0.03, 0.3, logarithmic=True),
        "exposure": SamplingRange(0.5, 0.95),
        "blur_px": SamplingRange(0.3, 2.2, logarithmic=True),
        "sharpening": SamplingRange(0.3, 1.5),
        "light_gradient": SamplingRange(0.0, 0.35),
        "vignetting": SamplingRange(0.0, 0.4),
        "shot_noise": SamplingRange(0.003, 0.04, logarithmic=True),
        "read_noise": SamplingRange(0.001, 0.02, logarithmic=True),
        "jpeg_quality": SamplingRange(25, 97),
        "bands": SamplingRange(0.3, 1.0),
        "band_spacing_px": SamplingRange(20, 300, logarithmic=True),
        "band_edge_px": SamplingRange(1.5, 15, logarithmic=True),
        "band_hue": SamplingRange(0.0, 1.0),
        "kinks": SamplingRange(0.3, 1.0),
        "slip_crowding": SamplingRange(1.0, 4.0),
        "slip_darkness": SamplingRange(0.4, 0.9),
        "slip_persistence": SamplingRange(0.0, 1.0),
        "deep_scratches": SamplingRange(1, 25, logarithmic=True),
        "deep_scratch_depth": SamplingRange(0.3, 0.9),
        "deep_scratch_width_px": SamplingRange(1.0, 5.0, logarithmic=True),
        "deep_scratch_bow": SamplingRange(0.0, 0.06),
        "deep_scratch_flank": SamplingRange(0.0, 0.8),
        "fine_scratches": SamplingRange(0.04, 0.35),
        "fine_scratch_spacing_px": SamplingRange(3, 25, logarithmic=True),
        "stringers_per_mpx": SamplingRange(2, 40, logarithmic=True),
        "defocus_fraction": SamplingRange(0.03, 0.25),
        "defocus_blur_px": SamplingRange(4.0, 10.0),
        "glare_fraction": SamplingRange(0.02, 0.15),
        "smear_fraction": SamplingRange(0.02, 0.2),
        "dots coverage": SamplingRange(0.003, 0.06, logarithmic=True),
        "dots radius_px": SamplingRange(1.0, 4.0),
        "dots rim": SamplingRange(-1.0, 1.0),
        "dots clustering": SamplingRange(0.0, 1.0),
        "hollow": SamplingRange(0.4, 1.0),
        "one_sided": SamplingRange(0.4, 1.0),
        "beaded": SamplingRange(0.4, 1.0),
        "offset_px": SamplingRange(0.0, 1.0),
        "stepped_fraction": SamplingRange(0.0, 0.6),
        "shaped_end_fraction": SamplingRange(0.0, 1.0),
        "thin_fraction": SamplingRange(0.0, 0.5),
        "ending_fraction": SamplingRange(0.1, 0.6),
        "corner_fraction": SamplingRange(0.0, 0.5),
        "lines-only twin_contrast": SamplingRange(0.0, 0.1),
        "lines-only twin_share": SamplingRange(0.5, 1.0),
        "grey_contrast, hue only": SamplingRange(0.0, 0.03),
        "hue_contrast, hue only": SamplingRange(0.5, 1.0),
        "film_unevenness": SamplingRange(0.02, 0.22),
        "soft_transition_px": SamplingRange(1.0, 4.0),
        "resin fillers_per_mpx": SamplingRange(100, 3000, logarithmic=True),
        "resin halo": SamplingRange(-1.0, 1.0),
        "resin structure": SamplingRange(0.2, 1.0),
        "bright resin_brightness": SamplingRange(0.3, 0.9),
        "relief_softness_px": SamplingRange(1.0, 5.0),
        "pore_rim": SamplingRange(-2.0, 2.0),
        "bar padding": SamplingRange(0.5, 6.0),
        "bar inset_px": SamplingRange(0.0, 60.0),
    }
)
