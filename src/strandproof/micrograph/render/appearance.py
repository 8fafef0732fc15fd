"""How a synthetic section was etched, prepared and photographed: records."""

from dataclasses import dataclass, field
from typing import Literal, get_args

from strandproof.micrograph.render.hardships import (
    Deformation,
    Dots,
    Resin,
    Unreadable,
    Wear,
    check_ranges,
)
from strandproof.micrograph.render.population import require_one_of, require_within

InteriorTexture = Literal["plain", "pitted", "mottled"]
BarCorner = Literal["bottom-right", "bottom-left", "top-right", "top-left"]
BarBox = Literal["black", "white"]

# A field with this mark is not told in the metadata while it has its default.
_SILENT = {"silent": True}

INTERIOR_TEXTURES: tuple[InteriorTexture, ...] = get_args(InteriorTexture)
BAR_CORNERS: tuple[BarCorner, ...] = get_args(BarCorner)
BAR_BOXES: tuple[BarBox, ...] = get_args(BarBox)


@dataclass(frozen=True, slots=True, kw_only=True)
class Groove:
    """The etched line at a grain boundary.

    Parameters
    ----------
    width_px : float
        Width at half depth of an ordinary boundary [px], 1 to 15.
    depth : float
        Darkness of the line, 0 (no groove) to 1 (black).
    spread : float
        Scatter of depth and width between boundaries, 0 (all alike) to 1.
    faint_fraction : float
        Share of the boundaries that the etch hardly shows, 0 to 0.9.
    gap_fraction : float
        Share of the length of a line that is interrupted, 0 to 0.7.
    twin_share : float
        Depth of the line at a twin's side as a share of `depth`, 0 to 1.
    hollow : float
        How far the middle of a wide line is light again, 0 to 1.
    one_sided : float
        How far a line is dark on one side only, 0 to 1.
    beaded : float
        How far a line is a row of pits, 0 to 1.
    offset_px : float
        Greatest distance of a line from its change of label [px], 0 to 1.

    Raises
    ------
    ParameterError
        If a value lies outside of its range.
    """

    width_px: float = 2.0
    depth: float = 0.6
    spread: float = 0.5
    faint_fraction: float = 0.1
    gap_fraction: float = 0.05
    twin_share: float = 0.5
    hollow: float = field(default=0.0, metadata=_SILENT)
    one_sided: float = field(default=0.0, metadata=_SILENT)
    beaded: float = field(default=0.0, metadata=_SILENT)
    offset_px: float = field(default=0.0, metadata=_SILENT)

    def __post_init__(self) -> None:
        check_ranges(
            self,
            {
                "width_px": (1, 15),
                "depth": (0, 1),
                "spread": (0, 1),
                "faint_fraction": (0, 0.9),
                "gap_fraction": (0, 0.7),
                "twin_share": (0, 1),
                "hollow": (0, 1),
                "one_sided": (0, 1),
                "beaded": (0, 1),
                "offset_px": (0, 1),
            },
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class Etch:
    """What the etch made of the polished metal.

    Parameters
    ----------
    grey_contrast : float
        Scatter of brightness between crystals, 0 to 0.6.
    hue_contrast : float
        Share of a colour film's hue in each crystal, 0 (plain copper) to 1
        (tinted or polarised).
    hue_spread : float
        Range of the film colours between crystals, 0 (one) to 1 (all).
    twin_contrast : float
        Difference between twin and parent as a share of that between grains,
        0 to 1.5.
    groove : Groove
        Line at the boundaries.
    interior : {"plain", "pitted", "mottled"}
        Texture inside of grains.
    interior_strength : float
        Strength of that texture, 0 to 1.
    relief : float
        Steps between grains seen as a light and a dark side, 0 to 1.
    slip_traces : float
        Strength of the straight, parallel slip lines in each crystal, 0 to 1.
    deformation_bands : float
        Strength of the broad soft bands in each crystal, 0 to 1.
    etch_pits_per_mpx : float
        Crystallographic etch pits in 10^6 px of metal, 0 to 3000.
    relief_softness_px : float
        Width added to the steps between grains by long polishing [px], 0 to 10.
    film_unevenness : float
        Hue scatter of a film within a crystal, in steps of the ring of seven
        tints, 0 to 1.
    soft_transition_px : float
        Width over which brightness and hue pass from crystal to crystal [px], 0
        (a sharp step) to 8.
    deformation : Deformation
        Bands with clear edges, hard slip lines.
    dots : Dots
        Round pits all over.

    Raises
    ------
    ParameterError
        If a value lies outside of its range.
    """

    grey_contrast: float = 0.15
    hue_contrast: float = 0.0
    hue_spread: float = 0.5
    twin_contrast: float = 0.9
    groove: Groove = field(default_factory=Groove)
    interior: InteriorTexture = "plain"
    interior_strength: float = 0.4
    relief: float = 0.2
    slip_traces: float = 0.0
    deformation_bands: float = 0.0
    etch_pits_per_mpx: float = 0.0
    relief_softness_px: float = field(default=0.0, metadata=_SILENT)
    film_unevenness: float = field(default=0.22, metadata=_SILENT)
    soft_transition_px: float = field(default=0.0, metadata=_SILENT)
    deformation: Deformation = field(default_factory=Deformation, metadata=_SILENT)
    dots: Dots = field(default_factory=Dots, metadata=_SILENT)

    def __post_init__(self) -> None:
        require_one_of("interior", self.interior, INTERIOR_TEXTURES)
        check_ranges(
            self,
            {
                "grey_contrast": (0, 0.6),
                "hue_contrast": (0, 1),
                "hue_spread": (0, 1),
                "twin_contrast": (0, 1.5),
                "interior_strength": (0, 1),
                "relief": (0, 1),
                "slip_traces": (0, 1),
                "deformation_bands": (0, 1),
                "etch_pits_per_mpx": (0, 3000),
                "relief_softness_px": (0, 10),
                "film_unevenness": (0, 1),
                "soft_transition_px": (0, 8),
            },
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class Preparation:
    """Traces of cutting, polishing, rinsing and mounting.

    Densities are means for 10^6 px of picture; the number drawn is Poisson.

    Parameters
    ----------
    scratches_per_mpx : float
        Scratches, 0 to 400.
    scratch_depth : float
        Darkness of a typical scratch, 0 to 1.
    scratch_scatter_deg : float
        Scatter of the scratches about their common direction [deg], 0 to 90.
    comet_tails_per_mpx : float
        Pits with a tail in the polishing direction, 0 to 200.
    pits_per_mpx : float
        Dark round spots of 1 to 5 px, 0 to 2000.
    pores_per_mpx : float
        Holes of 3 to 14 px radius with a rim, 0 to 200.
    stain_fraction : float
        Share of the area under stains, 0 to 0.5.
    edge_rounding_px : float
        Width of the rounded, darker rim of a strand [px], 0.5 to 40.
    resin_brightness : float
        Brightness of the mount beside the metal, 0 to 0.95.
    pore_rim : float
        Rim of the pores, -3 (dark) over 0 (none) and 1 (light) to 3.
    wear : Wear
        Hard traces of grinding and polishing.
    unreadable : Unreadable
        Patches in which nothing can be told.
    resin : Resin
        What the mount shows.

    Raises
    ------
    ParameterError
        If a value lies outside of its range.
    """

    scratches_per_mpx: float = 4.0
    scratch_depth: float = 0.25
    scratch_scatter_deg: float = 25.0
    comet_tails_per_mpx: float = 0.0
    pits_per_mpx: float = 25.0
    pores_per_mpx: float = 0.0
    stain_fraction: float = 0.0
    edge_rounding_px: float = 4.0
    resin_brightness: float = 0.08
    pore_rim: float = field(default=1.0, metadata=_SILENT)
    wear: Wear = field(default_factory=Wear, metadata=_SILENT)
    unreadable: Unreadable = field(default_factory=Unreadable, metadata=_SILENT)
    resin: Resin = field(default_factory=Resin, metadata=_SILENT)

    def __post_init__(self) -> None:
        check_ranges(
            self,
            {
                "scratches_per_mpx": (0, 400),
                "scratch_depth": (0, 1),
                "scratch_scatter_deg": (0, 90),
                "comet_tails_per_mpx": (0, 200),
                "pits_per_mpx": (0, 2000),
                "pores_per_mpx": (0, 200),
                "stain_fraction": (0, 0.5),
                "edge_rounding_px": (0.5, 40),
                "resin_brightness": (0, 0.95),
                "pore_rim": (-3, 3),
            },
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class Camera:
    """Microscope and camera.

    Parameters
    ----------
    colour : bool
        True for a colour picture; False for grey (three equal planes).
    exposure : float
        Brightness of the average polished metal, 0.3 to 1.2 of full scale.
    blur_px : float
        Standard deviation of the blur [px], 0 to 6.
    sharpening : float
        Strength of the camera's edge sharpening, 0 to 2.
    light_gradient : float
        Change of brightness from side to side, 0 to 0.6.
    vignetting : float
        Loss of brightness in the corners, 0 to 0.7.
    shot_noise : float
        Relative noise at full brightness, grows as the root of light, 0 to 0.1.
    read_noise : float
        Noise in the dark as a share of full scale, 0 to 0.1.
    jpeg_quality : int or None
        5 to 100 for the losses of block-cosine compression; None for none.

    Raises
    ------
    ParameterError
        If a value lies outside of its range.
    """

    colour: bool = True
    exposure: float = 0.72
    blur_px: float = 0.7
    sharpening: float = 0.0
    light_gradient: float = 0.06
    vignetting: float = 0.06
    shot_noise: float = 0.012
    read_noise: float = 0.006
    jpeg_quality: int | None = None

    def __post_init__(self) -> None:
        check_ranges(
            self,
            {
                "exposure": (0.3, 1.2),
                "blur_px": (0, 6),
                "sharpening": (0, 2),
                "light_gradient": (0, 0.6),
                "vignetting": (0, 0.7),
                "shot_noise": (0, 0.1),
                "read_noise": (0, 0.1),
            },
        )
        if self.jpeg_quality is not None:
            require_within("jpeg_quality", self.jpeg_quality, 5, 100)


@dataclass(frozen=True, slots=True, kw_only=True)
class ScaleBar:
    """A scale bar burned into the picture.

    Parameters
    ----------
    corner : {"bottom-right", "bottom-left", "top-right", "top-left"}
        Where it stands.
    with_text : bool
        True to letter the length beside it.
    box : {"black", "white"}
        The filled box that bar and letters stand in; they have the other colour.
    padding : float
        Width of the box around bar and letters, in ordinary ones, 0.5 to 8.
    inset_px : int
        Distance of the box from the edges of the picture [px], 0 to 200; less
        where the picture is too small for it.

    Raises
    ------
    ParameterError
        If corner or box are none of these, or a number is outside of its range.
    """

    corner: BarCorner = "bottom-right"
    with_text: bool = True
    box: BarBox = field(default="black", metadata=_SILENT)
    padding: float = field(default=1.0, metadata=_SILENT)
    inset_px: int = field(default=0, metadata=_SILENT)

    def __post_init__(self) -> None:
        require_one_of("corner", self.corner, BAR_CORNERS)
        require_one_of("box", self.box, BAR_BOXES)
        check_ranges(self, {"padding": (0.5, 8), "inset_px": (0, 200)})
