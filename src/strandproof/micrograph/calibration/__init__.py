"""The size of a pixel: stage scales, marks by hand, burned-in bars, resized copies.

Imports `records`, `quantity` and `errors`, and array libraries; reads no file. Each
way ends in a `PixelCalibration`: a pixel size with its budget, readings and flags.
"""

from strandproof.micrograph.calibration.burned_in_bar import (
    BurnedInBar,
    calibration_from_bar,
    find_scale_bar,
)
from strandproof.micrograph.calibration.resize_guard import (
    SAME_CONTENT_FROM,
    Resizing,
    likeness,
    resized_pixel_size,
    same_proportions,
)
from strandproof.micrograph.calibration.scale import PixelCalibration, StageScale
from strandproof.micrograph.calibration.stage_scale import (
    RulingFit,
    calibration_from_rulings,
    fit_ruling,
)
from strandproof.micrograph.calibration.two_points import (
    calibration_from_marks,
    marked_length_px,
)

__all__ = [
    "SAME_CONTENT_FROM",
    "BurnedInBar",
    "PixelCalibration",
    "Resizing",
    "RulingFit",
    "StageScale",
    "calibration_from_bar",
    "calibration_from_marks",
    "calibration_from_rulings",
    "find_scale_bar",
    "fit_ruling",
    "likeness",
    "marked_length_px",
    "resized_pixel_size",
    "same_proportions",
]
