"""How a synthetic section was etched, prepared and photographed: records."""

from dataclasses import dataclass, field
from typing import Literal, get_args

from strandproof.micrograph.render.population import require_one_of, require_within

InteriorTexture = Literal["plain", "pitted", "mottled"]
BarCorner = Literal["bottom-right", "bottom-left", "top-right", "top-left"]

INTERIOR_TEXTURES: tuple[InteriorTexture, ...] = get_args(InteriorTexture)
BAR_CORNERS: tuple[BarCorner, ...] = get_args(BarCorner)


def _check_ranges(record: object, ranges: dict[str, tuple[float, float]]) -> None:
    for name, (low, high) in ranges.items():
        require_within(name, getattr(record, name), low, high)


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

    def __post_init__(self) -> None:
        _check_ranges(
            self,
            {
                "width_px": (1, 15),
                "depth": (0, 1),
                "spread": (0, 1),
                "faint_fraction": (0, 0.9),
                "gap_fraction": (0, 0.7),
                "twin_share": (0, 1),
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

    def __post_init__(self) -> None:
        require_one_of("interior", self.interior, INTERIOR_TEXTURES)
        _check_ranges(
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
        Holes of 3 to 14 px radius with a light rim, 0 to 200.
    stain_fraction : float
        Share of the area under stains, 0 to 0.5.
    edge_rounding_px : float
        Width of the rounded, darker rim of a strand [px], 0.5 to 40.
    resin_brightness : float
        Brightness of the mount beside the metal, 0 to 0.5.

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

    def __post_init__(self) -> None:
        _check_ranges(
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
                "resin_brightness": (0, 0.5),
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
        _check_ranges(
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

    Raises
    ------
    ParameterError
        If the corner is none of these.
    """

    corner: BarCorner = "bottom-right"
    with_text: bool = True

    def __post_init__(self) -> None:
        require_one_of("corner", self.corner, BAR_CORNERS)
