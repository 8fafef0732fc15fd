"""Three principal planes of one structure taken together."""

from strandproof.errors import ParameterError
from strandproof.grainsize.relations import (
    GrainSizeRelations,
    intercept_g,
    require_positive,
)
from strandproof.records.structure_findings import ThreePlanes


def three_planes(
    longitudinal_per_mm: float,
    transverse_per_mm: float,
    planar_per_mm: float,
    *,
    along_over_across: float | None = None,
    relations: GrainSizeRelations | None = None,
) -> ThreePlanes:
    """Mean intercept of a non-equiaxed structure from three planes.

    Parameters
    ----------
    longitudinal_per_mm, transverse_per_mm, planar_per_mm : float
        Boundaries per length of line on each plane, all directions of the plane
        together [1/mm]; above 0.
    along_over_across : float, optional
        Mean intercept along over across the axis, on the longitudinal plane.
    relations : GrainSizeRelations, optional
        Constants; None takes the package's ``"e112"`` form.

    Returns
    -------
    ThreePlanes
        Geometric mean, its inverse, G, and the anisotropy index.

    Raises
    ------
    ParameterError
        If a number is not a finite number above 0.

    Notes
    -----
    P = (P_l P_t P_p)^(1/3), l = 1/P, AI = l(0 deg)/l(90 deg) on the longitudinal
    plane: ASTM E112 section 16, from memory.

    Examples
    --------
    >>> found = three_planes(12.0, 30.0, 20.0)
    >>> round(found.per_mm, 2), round(found.mean_intercept_um, 2)
    (19.31, 51.79)
    """
    planes = {
        "longitudinal_per_mm": longitudinal_per_mm,
        "transverse_per_mm": transverse_per_mm,
        "planar_per_mm": planar_per_mm,
    }
    for name, given in planes.items():
        require_positive(name, given)
    if along_over_across is not None:
        require_positive("along_over_across", along_over_across)
    per_mm = (longitudinal_per_mm * transverse_per_mm * planar_per_mm) ** (1.0 / 3.0)
    mean_um = 1000.0 / per_mm
    g = intercept_g(mean_um / 1000.0, relations=relations)
    shape = "Anisotropy index not measured."
    if along_over_across is not None:
        shape = f"Anisotropy index {along_over_across:.2f}."
    return ThreePlanes(
        longitudinal_per_mm=longitudinal_per_mm,
        transverse_per_mm=transverse_per_mm,
        planar_per_mm=planar_per_mm,
        per_mm=per_mm,
        mean_intercept_um=mean_um,
        g=g,
        anisotropy_index=along_over_across,
        sentence=(
            f"Three planes: {longitudinal_per_mm:g}, {transverse_per_mm:g} and "
            f"{planar_per_mm:g} per mm; geometric mean {per_mm:.2f} per mm, mean "
            f"intercept {mean_um:.2f} um, G {g:.2f}. {shape}"
        ),
    )


def three_plane_grains_per_mm2(
    longitudinal: float, transverse: float, planar: float
) -> float:
    """Grains per area of three planes taken together.

    Parameters
    ----------
    longitudinal, transverse, planar : float
        Grains per area on each plane [1/mm^2]; above 0.

    Returns
    -------
    float
        Their geometric mean [1/mm^2]; its G is `planimetric_g` of it.

    Raises
    ------
    ParameterError
        If a number is not a finite number above 0.

    Notes
    -----
    N_A = (N_Al N_At N_Ap)^(1/3), ASTM E112 section 16, from memory.

    Examples
    --------
    >>> round(three_plane_grains_per_mm2(124.0, 248.0, 496.0), 6)
    248.0
    """
    for name, given in (
        ("longitudinal", longitudinal),
        ("transverse", transverse),
        ("planar", planar),
    ):
        require_positive(name, given)
    return float((longitudinal * transverse * planar) ** (1.0 / 3.0))


def anisotropy_index(along_um: float, across_um: float) -> float:
    """Mean intercept along the axis over that across it.

    Parameters
    ----------
    along_um, across_um : float
        Mean lineal intercepts on the longitudinal plane, in one unit; above 0.

    Returns
    -------
    float
        1 for equiaxed grains.

    Raises
    ------
    ParameterError
        If a length is not above 0.

    Examples
    --------
    >>> anisotropy_index(50.0, 20.0)
    2.5
    """
    if not (along_um > 0 and across_um > 0):
        raise ParameterError(
            "along_um and across_um",
            (along_um, across_um),
            allowed="two lengths above 0",
        )
    return along_um / across_um
