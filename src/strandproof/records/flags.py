"""The one registry of quality flags: name, meaning, remedy.

Code, JSON, report and manual all read from `FLAGS`, so that they cannot drift
apart. A name describes a condition of the material, never a judgement.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

from strandproof.errors import ParameterError


@dataclass(frozen=True, slots=True)
class FlagDefinition:
    """A condition of the material that a reader of the result must know.

    Parameters
    ----------
    name : str
        Short name, lower case with underscores.
    meaning : str
        What was found and what follows from it, one sentence.
    remedy : str
        What to do about it, one sentence.
    blocks_grain_size : bool
        True when no grain size may be stated while the flag stands.
    """

    name: str
    meaning: str
    remedy: str
    blocks_grain_size: bool = False


@dataclass(frozen=True, slots=True)
class Flag:
    """A flag raised on one result.

    Parameters
    ----------
    name : str
        Name of a definition in `FLAGS`.
    detail : str
        The figures behind it, for example ``"7.4 grains across"``.
    strand : int or None
        Number of the strand it concerns; None for the whole picture.

    Raises
    ------
    ParameterError
        If the registry does not know the name.
    """

    name: str
    detail: str = ""
    strand: int | None = None

    def __post_init__(self) -> None:
        if self.name not in FLAGS:
            raise ParameterError(
                "flag name", self.name, allowed="a name of the flag registry"
            )

    @property
    def definition(self) -> FlagDefinition:
        """The registry's entry for this flag."""
        return FLAGS[self.name]


_DEFINITIONS = (
    FlagDefinition(
        "no_scale",
        "No pixel size is known, so lengths are in pixels and no grain size "
        "number can be stated.",
        "Photograph a stage scale with the same settings, or give the pixel size.",
        blocks_grain_size=True,
    ),
    FlagDefinition(
        "twins_not_tested_on_real_copper",
        "Annealing twins are merged by a rule that was checked on synthetic "
        "pictures only.",
        "Have a person count boundaries and twins apart on the same field.",
    ),
    FlagDefinition(
        "few_grains",
        "Fewer than 50 grains lie in the measured area, so the count scatters widely.",
        "Measure more fields, or a larger field at lower magnification.",
    ),
    FlagDefinition(
        "few_grains_across",
        "Fewer than about ten grains lie across the strand, so an average grain "
        "size describes it poorly.",
        "Count boundaries along the length instead and state both directions.",
    ),
    FlagDefinition(
        "few_pixels_per_grain",
        "The mean intercept is shorter than 10 pixels, so small grains may be missed.",
        "Take the picture at higher magnification.",
    ),
    FlagDefinition(
        "axis_assumed",
        "No strand axis could be found in the picture; the picture's horizontal "
        "was taken as the axis.",
        "Give the direction of the strand axis, or show both strand edges.",
    ),
    FlagDefinition(
        "one_field",
        "The interval comes from places within one picture; it does not speak for "
        "the strand, the cable or the product.",
        "Measure several randomly placed fields of several strands and cables.",
    ),
    FlagDefinition(
        "low_contrast",
        "Boundaries stand out little from the noise of the picture.",
        "Improve etching, focus or light and take the picture again.",
    ),
    FlagDefinition(
        "blurred",
        "The sharpest edges in the picture are soft against its pixels or its smallest "
        "grains: out of focus, enlarged, or heavily smoothed.",
        "Take the picture again in focus and use the original file.",
    ),
    FlagDefinition(
        "resized",
        "The pixels were computed anew after the picture was taken (enlarged, shrunk "
        "or smoothed), so it shows less than its pixels promise and a stored pixel "
        "size may not hold.",
        "Use the original file.",
    ),
    FlagDefinition(
        "sharpened",
        "Dark lines have light seams at both sides, as edge sharpening makes them, "
        "so lines look stronger and wider than they are.",
        "Switch sharpening off in the camera, and use the original file.",
    ),
    FlagDefinition(
        "over_etched",
        "Grooves cover so much of the area that small grains and the place of the "
        "boundaries are lost in them.",
        "Polish again, etch less, and take a picture at each step.",
    ),
    FlagDefinition(
        "under_etched",
        "Many boundaries hardly show or end inside of grains, so grains may be missed.",
        "Etch a step further, or use a second etchant, and take the picture again.",
    ),
    FlagDefinition(
        "uneven_light",
        "The light falls off across the metal, so shades in one part cannot be "
        "compared with those in another.",
        "Centre the lamp and its stop, or divide by a picture of an even surface.",
    ),
    FlagDefinition(
        "saturated",
        "A notable share of the pixels is fully black or fully white.",
        "Lower the exposure or the contrast and take the picture again.",
    ),
    FlagDefinition(
        "no_metal",
        "No metal was found in the picture.",
        "Check that the picture shows a polished section.",
        blocks_grain_size=True,
    ),
    FlagDefinition(
        "no_boundary_found",
        "No closed boundary was found; that is no proof that there is none.",
        "Show a control in the same mount whose boundaries were made visible.",
    ),
    FlagDefinition(
        "elongated_grains",
        "Mean intercepts along and across differ by more than a factor of 1.5, so "
        "one mean value hides the shape.",
        "State both directions, and use longitudinal and transverse sections.",
    ),
    FlagDefinition(
        "synthetic",
        "The picture was drawn by a program; it shows no real metal.",
        "Use it for training and demonstration only.",
    ),
    FlagDefinition(
        "lossy_compression",
        "The picture was stored with lossy compression, now or earlier, which adds and "
        "removes fine lines.",
        "Ask for the original file.",
    ),
    FlagDefinition(
        "resolution_tag_ignored",
        "The file carries a resolution that looks like a print or screen setting "
        "and was not used as a scale.",
        "Give the pixel size from a stage-scale picture.",
    ),
    FlagDefinition(
        "pixel_size_without_uncertainty",
        "The pixel size was given without an uncertainty, so the interval leaves "
        "the calibration out.",
        "Calibrate on a stage scale, several times, and give the uncertainty.",
    ),
    FlagDefinition(
        "scale_not_certified",
        "No certificate of the stage scale was given, so the interval leaves the "
        "errors of the scale out.",
        "Give the uncertainty of the scale from its certificate.",
    ),
    FlagDefinition(
        "burned_in_bar",
        "The pixel size rests on a bar burned into a picture; nobody can see how it "
        "was calibrated, or whether the picture was resized afterwards.",
        "Photograph a stage scale with the same settings.",
    ),
    FlagDefinition(
        "scale_from_file_only",
        "The pixel size is what the picture's file states; it says nothing about how "
        "it was calibrated, and it may be the objective's nominal value.",
        "Photograph a stage scale with the same settings.",
    ),
    FlagDefinition(
        "above_copper_ceiling",
        "The conductivity is above 103.3 % IACS, where copper ends: probable error.",
        "Check the wire's temperature, its length, mass and diameter; by mass a "
        "light metal (clad aluminium) reads high too, so scrape a strand.",
    ),
    FlagDefinition(
        "below_copper_band",
        "The conductivity is below 95 % IACS: probable error, or another metal "
        "(clad cores are near 64 %).",
        "Check contacts, temperature, lay and strand count; scrape a strand, try a "
        "magnet, weigh a measured length.",
    ),
    FlagDefinition(
        "edge_of_copper_band",
        "The interval reaches across an edge of the band from 95 to 103.3 % IACS, "
        "so the value alone does not show on which side it lies.",
        "Lower the uncertainty before anything is concluded from the band.",
    ),
    FlagDefinition(
        "geometry_routes_disagree",
        "Resistivity by density and by diameter differ by more than the expanded "
        "uncertainty of their difference.",
        "Measure the diameter on a section, check the strand count and the lay, and "
        "state the mass route.",
    ),
    FlagDefinition(
        "second_opinion_differs",
        "The first-order interval and the Monte Carlo interval do not agree.",
        "State the Monte Carlo interval.",
    ),
    FlagDefinition(
        "incomplete_budget",
        "An input was given without uncertainty, so the interval leaves it out.",
        "Give every input an uncertainty.",
    ),
    FlagDefinition(
        "far_from_20_degrees",
        "The wire was more than 10 K away from 20 degC, so the result leans on the "
        "temperature coefficient.",
        "Measure near 20 degC, in a bath or after a wait.",
    ),
    FlagDefinition(
        "mass_dominates",
        "Weighing brings nearly all of the uncertainty.",
        "Weigh more strands over a greater length, or use a finer balance.",
    ),
    FlagDefinition(
        "coated_strands",
        "The strands carry a layer of another metal, so the conductivity is that of "
        "strand and layer together.",
        "State the layer's share, or strip it by a method that leaves the copper.",
    ),
    FlagDefinition(
        "self_heating",
        "The measuring current warmed the wire by more than the stated uncertainty "
        "of its temperature.",
        "Lower the current, or use the resistance at zero current.",
    ),
)

FLAGS: Mapping[str, FlagDefinition] = MappingProxyType(
    {definition.name: definition for definition in _DEFINITIONS}
)
