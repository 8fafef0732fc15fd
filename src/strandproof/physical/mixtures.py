"""Strands of several metals side by side: the rule of mixtures."""

from collections.abc import Mapping
from math import fsum, isclose

from strandproof.errors import ParameterError, UnknownTableError
from strandproof.records.physical import Mixture
from strandproof.tables import package_table

_IACS_NOHM_M = 1e3 / 58.0  # resistivity of 100 % IACS at 20 degC, by definition


def mixture(volume_shares: Mapping[str, float]) -> Mixture:
    """Density and resistivity of metals that run side by side along a strand.

    Assumes that the current runs along the layers and that no alloy formed between
    them. A real clad wire differs by the working of its core.

    Parameters
    ----------
    volume_shares : mapping of str to float
        Share of each constituent by volume, from 0 to 1, one in all: copper, silver,
        aluminium, tin, nickel, steel.

    Returns
    -------
    Mixture
        Density, resistivity along the strand, conductivity, shares by mass.

    Raises
    ------
    ParameterError
        If a share is negative or they do not add up to one.
    UnknownTableError
        If a constituent is not in the table.

    Notes
    -----
    density = sum f_i d_i; 1/rho = sum f_i/rho_i (parallel conductors).

    Examples
    --------
    >>> clad = mixture({"copper": 0.10, "aluminium": 0.90})
    >>> round(clad.density_g_per_cm3, 2), round(clad.percent_iacs, 1)
    (3.32, 65.4)
    """
    _require_shares(volume_shares)
    masses = {
        metal: share * _constituent(metal, "density")
        for metal, share in volume_shares.items()
    }
    density = fsum(masses.values())
    conductance = fsum(
        share / _constituent(metal, "resistivity")
        for metal, share in volume_shares.items()
    )
    return Mixture(
        density_g_per_cm3=density,
        resistivity_nohm_m=1.0 / conductance,
        percent_iacs=100.0 * _IACS_NOHM_M * conductance,
        mass_percent={metal: 100.0 * mass / density for metal, mass in masses.items()},
    )


def skin_volume_share(diameter_um: float, thickness_um: float) -> float:
    """Share by volume of an even layer on a round strand.

    Parameters
    ----------
    diameter_um : float
        Outer diameter, layer included [um]; above zero.
    thickness_um : float
        Thickness of the layer [um]; 0 to half the diameter.

    Returns
    -------
    float
        From 0 to 1.

    Raises
    ------
    ParameterError
        If a length is out of range.

    Notes
    -----
    1 - (1 - 2 t/D)^2.

    Examples
    --------
    >>> round(skin_volume_share(100.0, 1.0), 4)
    0.0396
    """
    if not 0 <= thickness_um <= 0.5 * diameter_um or not diameter_um > 0:
        raise ParameterError(
            "thickness_um",
            thickness_um,
            allowed="from 0 to half of a diameter above zero",
        )
    return 1.0 - (1.0 - 2.0 * thickness_um / diameter_um) ** 2


def per_metre(mixed: Mixture, area_mm2: float) -> tuple[float, float]:
    """Mass and resistance per metre of an area of a mixture.

    Parameters
    ----------
    mixed : Mixture
        From `mixture`, or with values of a standard.
    area_mm2 : float
        Area of metal [mm2]; above zero.

    Returns
    -------
    mass : float
        Mass per metre [g/m].
    resistance : float
        Resistance per metre at 20 degC [mohm/m].

    Raises
    ------
    ParameterError
        If the area is not above zero.
    """
    if not area_mm2 > 0:
        raise ParameterError("area_mm2", area_mm2, allowed="a number above zero")
    return mixed.density_g_per_cm3 * area_mm2, mixed.resistivity_nohm_m / area_mm2


def _require_shares(shares: Mapping[str, float]) -> None:
    total = fsum(shares.values())
    if any(share < 0 for share in shares.values()) or not isclose(total, 1.0):
        raise ParameterError(
            "volume_shares",
            dict(shares),
            allowed="shares of zero or above that add up to one",
        )


def _constituent(metal: str, what: str) -> float:
    table = package_table("metal_properties")
    key = f"constituent.{metal}.{what}"
    if key not in table:
        known = sorted(
            name.split(".")[1]
            for name in table
            if name.endswith(f".{what}") and name.startswith("constituent.")
        )
        raise UnknownTableError("constituent", metal, known=", ".join(known))
    return table[key].value
