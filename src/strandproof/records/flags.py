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
    FlagDefinition(
        "one_current_only",
        "All readings were taken at one current, so they do not show by how much it "
        "warmed the wire.",
        "Read at a second current, half or twice as high.",
    ),
    FlagDefinition(
        "scatter_not_shown",
        "No pair of readings was left over to show the scatter, so the interval "
        "leaves it out.",
        "Take several pairs at each current.",
    ),
    FlagDefinition(
        "few_readings",
        "Fewer than five pairs are left over to show the scatter; in simulated "
        "laboratories a 95 % interval of first order then covers 94 %, that of Monte "
        "Carlo 97 %.",
        "Take five pairs at each current.",
    ),
    FlagDefinition(
        "resistance_falls_with_current",
        "The resistance falls with the current by more than its uncertainty, and a "
        "wire does the opposite.",
        "Clean and tighten the contacts, wait longer between readings, check the "
        "ranges of the meters.",
    ),
    FlagDefinition(
        "not_straight_in_squared_current",
        "The resistances lie further off a straight line in the square of the "
        "current than the readings scatter.",
        "Wait for balance at each current, and look for a draught or a bad contact.",
    ),
    FlagDefinition(
        "leads_not_checked",
        "Leads and contacts were not checked.",
        "Read once by two wires, once with the potential leads changed over, once "
        "with the current off.",
    ),
    FlagDefinition(
        "two_wire_below_four_wire",
        "The two-wire resistance is below the four-wire one, which cannot be.",
        "Check which leads carry the current and which the potential.",
    ),
    FlagDefinition(
        "compliance_exceeded",
        "Leads, contacts and wire need more voltage than the source can give, so the "
        "current was lower than stated.",
        "Clean the contacts, shorten the leads or lower the current.",
    ),
    FlagDefinition(
        "swapped_leads_differ",
        "Changing over the potential leads changed more than the sign.",
        "Clean the potential contacts, and look for leakage between the leads.",
    ),
    FlagDefinition(
        "thermal_voltage_unsteady",
        "The voltage with the current off is not the one that reversal removed.",
        "Wait until the contacts have one temperature, and shield them from draught.",
    ),
    FlagDefinition(
        "lay_not_stated",
        "Several strands were measured and nobody said whether their length was "
        "taken along the strands; 2 % of lay makes the resistivity 4 % too high.",
        "Say that the strands were straight, or state the lay.",
    ),
    FlagDefinition(
        "indentation_distances_not_given",
        "The distance of an indentation to the edge or to its neighbour was not given, "
        "so nobody can see whether the rules of distance were kept.",
        "Measure both distances on the picture and enter them.",
    ),
    FlagDefinition(
        "unequal_diagonals",
        "The two diagonals of an indentation differ by more than 5 %.",
        "Level the specimen, look at the indenter, and state the difference.",
    ),
    FlagDefinition(
        "short_diagonal",
        "A diagonal is shorter than 20 um, so reading it brings most of the "
        "uncertainty and the hardness at so small a force may read high.",
        "Use a larger force where the strand allows it.",
    ),
    FlagDefinition(
        "no_reference_block",
        "No uncertainty from a hardness reference block was given, so the interval "
        "leaves the machine's error out.",
        "Indent a certified block on the same day at the same force.",
    ),
    FlagDefinition(
        "bubbles_not_excluded",
        "Nobody states that bubbles were removed; a bubble makes a density too low.",
        "Wet the strands with a drop of soap, pull a vacuum or tap, and weigh again.",
    ),
    FlagDefinition(
        "water_not_pure",
        "The density of the water was taken as that of pure water, and nobody states "
        "that it was distilled or demineralised.",
        "Use demineralised water, or weigh a piece of known density in it.",
    ),
    FlagDefinition(
        "surface_read_only",
        "A surface analysis reads the skin only; it says nothing about the core.",
        "Analyse a section, or measure density or resistivity.",
    ),
    FlagDefinition(
        "no_metal_fits",
        "None of the metals in the table fits the readings.",
        "Repeat the reading that fits worst; then think of another metal or a mix-up.",
    ),
    FlagDefinition(
        "few_fields_compared",
        "Too few fields were pictured before or after for a decision.",
        "Picture five fields or more before and after, eight if possible.",
    ),
    FlagDefinition(
        "not_polished_before_bending",
        "The surface was not polished before bending, or it was polished again after, "
        "so steps that bending made need not show.",
        "Polish, picture, bend, and picture the same surface without touching it.",
    ),
    FlagDefinition(
        "no_reference_wire",
        "No reference wire was read in the same bath, so the result leans on tabled "
        "values and on the temperature of the bath.",
        "Measure a copper wire of known value in the same bath, at the same time.",
    ),
    FlagDefinition(
        "residual_not_resolved",
        "The residual resistivity cannot be told from zero, so the residual ratio has "
        "a lower bound only.",
        "Use liquid helium, or a ratio with less uncertainty.",
    ),
    FlagDefinition(
        "cold_work_unknown",
        "Cold work was not stated; a hard strand has a residual ratio of 30 to 75 "
        "whatever its purity.",
        "Measure hardness, and anneal a part of the piece in a controlled way.",
    ),
    FlagDefinition(
        "nines_contradicted",
        "The certificate states more nines than its own list of impurities allows.",
        "Ask the issuer on which basis the nines count, and what is left out.",
    ),
    FlagDefinition(
        "nines_not_shown",
        "Detection limits or uncertainty are too coarse to show the nines stated.",
        "Ask for an analysis with limits that add up to less than the nines allow.",
    ),
    FlagDefinition(
        "sum_above_whole",
        "Copper as stated and the impurities listed add up to more than 100 %.",
        "Ask the issuer how the copper content was obtained.",
    ),
    FlagDefinition(
        "oxygen_contradicted",
        "The certificate states an oxygen-free grade and lists more oxygen than the "
        "grade allows.",
        "Ask the issuer, and have the oxygen of the finished strand tested.",
    ),
    FlagDefinition(
        "oxygen_not_reported",
        "The certificate states an oxygen-free grade and does not report oxygen.",
        "Ask for the oxygen content, or have the finished strand tested.",
    ),
    FlagDefinition(
        "thin_difference",
        "The purity is what is left after few elements; the rest was not looked for.",
        "Ask for a full scan, and for the gases apart.",
    ),
    FlagDefinition(
        "elements_not_reported",
        "Elements that matter for copper have neither a number nor a limit.",
        "Ask for them; an element that was not measured is not zero.",
    ),
    FlagDefinition(
        "certificate_uncertainty_assumed",
        "The certificate states no uncertainty for some numbers, so a relative "
        "standard uncertainty of 10 % was taken (judgement).",
        "Ask the issuer for the uncertainty of each element.",
    ),
    FlagDefinition(
        "effect_on_resistivity_unknown",
        "The effect of some listed elements on the resistivity is not in the tables, "
        "so they are left out of the prediction.",
        "Add their specific resistivity with its source.",
    ),
    FlagDefinition(
        "oxygen_evidence_disagrees",
        "Section, hydrogen test and gas analysis do not fit together.",
        "Check that they are of the same metal, and have them repeated.",
    ),
    FlagDefinition(
        "resolution_not_given",
        "Nobody measured how wide the picture blurs an edge, so two pixels were taken; "
        "a lens may blur more.",
        "Measure the width of a straight edge from 10 % to 90 % of its step, and give "
        "it.",
    ),
    FlagDefinition(
        "faces_cut_by_frame",
        "The frame of the picture cuts strands, which were left out of count and area.",
        "Take a picture that shows the whole section.",
    ),
    FlagDefinition(
        "face_not_round",
        "A face is far from round: two strands in contact, a flattened strand, or an "
        "oblique cut.",
        "Look at the face; part strands that touch by an edit, or measure by hand.",
    ),
    FlagDefinition(
        "one_direction_read",
        "A strand's diameter was read in one direction, so an oval shape would not "
        "show.",
        "Read it in two directions at right angles or more.",
    ),
    FlagDefinition(
        "few_layer_readings",
        "A layer was read at fewer than four places, so an uneven layer hardly shows.",
        "Read it at eight places round the section.",
    ),
    FlagDefinition(
        "layer_near_resolution",
        "The layer is thinner than five widths of a blurred edge, so where its edges "
        "were placed brings most of the uncertainty.",
        "Take the picture with a finer resolution, for example by electron microscope.",
    ),
    FlagDefinition(
        "oblique_cut",
        "The section may be tilted by enough to make the layer look 2 % thicker or "
        "more; a correction with its bound was applied.",
        "Mount the strand square, and grind until the face is round.",
    ),
    FlagDefinition(
        "uneven_layer",
        "The thickest reading of the layer is more than twice the thinnest.",
        "State the smallest and the largest thickness beside the mean.",
    ),
    FlagDefinition(
        "heated_in_our_hands",
        "A piece was warmer than the limit of the handling ledger after it was taken "
        "in, so its grains may have been made by the handling.",
        "Treat the bent single-crystal control alike, or repeat the step without heat.",
    ),
    FlagDefinition(
        "heat_not_recorded",
        "Something was done to a piece that may have warmed it, and nobody recorded "
        "how warm it became.",
        "Measure the temperature on a dummy, or treat a control alike.",
    ),
    FlagDefinition(
        "strained_in_our_hands",
        "A piece was bent or pulled beyond the limit of the handling ledger after it "
        "was taken in.",
        "Treat a straight and a bent control alike and compare before and after.",
    ),
    FlagDefinition(
        "strain_not_judged",
        "A piece was bent or pulled after it was taken in, and the case does not hold "
        "the figures to judge by how much.",
        "Enter radius or pull and the diameter of the strand.",
    ),
    FlagDefinition(
        "preparation_not_logged",
        "How a counted section was prepared is not in the case, so damage by "
        "preparation cannot be told from structure.",
        "Enter its preparation log with an as-polished picture and two etch steps.",
    ),
    FlagDefinition(
        "preparation_incomplete",
        "The preparation log of a counted section lacks pictures that would tell "
        "damage from structure.",
        "Add the as-polished picture and a picture of each etch step.",
    ),
)

FLAGS: Mapping[str, FlagDefinition] = MappingProxyType(
    {definition.name: definition for definition in _DEFINITIONS}
)
