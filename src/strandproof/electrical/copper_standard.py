"""The annealed copper standard and the metals beside it, out of the tables."""

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache

from strandproof.errors import ParameterError
from strandproof.tables import TableRow, package_table, table_value

_TABLE = "conductor_standards"


@dataclass(frozen=True, slots=True, kw_only=True)
class CopperStandard:
    """Constants of the annealed copper standard and the band around it.

    Parameters
    ----------
    conductivity_ms_per_m : float
        Conductivity at 100 % IACS and 20 degC [MS/m].
    mass_resistivity_ohm_g_per_m2 : float
        Mass resistivity at 100 % IACS and 20 degC [ohm g/m2].
    temperature_coefficient_per_k : float
        Coefficient of resistance at constant mass, 20 degC, 100 % IACS [1/K].
    temperature_coefficient_spread_per_k : float
        Standard uncertainty given to it [1/K].
    density_g_per_cm3 : float
        Density at 20 degC [g/cm3].
    density_spread_percent : float
        Standard uncertainty given to the density of a strand [%].
    floor_percent_iacs, ceiling_percent_iacs : float
        Edges of the band in which copper is plausible [% IACS].
    distance_from_20c_k : float
        Distance from 20 degC beyond which a result is flagged [K].
    mass_share : float
        Share of the variance beyond which weighing is flagged, below 1.
    """

    conductivity_ms_per_m: float
    mass_resistivity_ohm_g_per_m2: float
    temperature_coefficient_per_k: float
    temperature_coefficient_spread_per_k: float
    density_g_per_cm3: float
    density_spread_percent: float
    floor_percent_iacs: float
    ceiling_percent_iacs: float
    distance_from_20c_k: float
    mass_share: float

    @property
    def volume_resistivity_ohm_m(self) -> float:
        """Volume resistivity at 100 % IACS and 20 degC [ohm m]."""
        return 1e-6 / self.conductivity_ms_per_m


@dataclass(frozen=True, slots=True, kw_only=True)
class Metal:
    """Density and resistivity of a metal at 20 degC.

    Parameters
    ----------
    name : str
        Name of the metal.
    density_g_per_cm3 : float
        Density [g/cm3].
    resistivity_ohm_m : float
        Volume resistivity [ohm m].
    """

    name: str
    density_g_per_cm3: float
    resistivity_ohm_m: float


def copper_standard_from_table(table: Mapping[str, TableRow]) -> CopperStandard:
    """Constants out of a table with the keys of ``conductor_standards``.

    Parameters
    ----------
    table : Mapping from str to TableRow
        The table.

    Returns
    -------
    CopperStandard
        The constants.
    """
    return CopperStandard(
        conductivity_ms_per_m=table_value(table, "iacs.conductivity"),
        mass_resistivity_ohm_g_per_m2=table_value(table, "iacs.mass_resistivity"),
        temperature_coefficient_per_k=table_value(
            table, "iacs.temperature_coefficient"
        ),
        temperature_coefficient_spread_per_k=table_value(
            table, "iacs.temperature_coefficient.spread"
        ),
        density_g_per_cm3=table_value(table, "iacs.density"),
        density_spread_percent=table_value(table, "iacs.density.spread"),
        floor_percent_iacs=table_value(table, "band.floor"),
        ceiling_percent_iacs=table_value(table, "band.ceiling"),
        distance_from_20c_k=table_value(table, "rule.distance_from_20c"),
        mass_share=table_value(table, "rule.mass_share"),
    )


@cache
def package_copper_standard() -> CopperStandard:
    """Constants of the table that ships with the package.

    Returns
    -------
    CopperStandard
        What every function of this package uses by default.

    Examples
    --------
    >>> package_copper_standard().mass_resistivity_ohm_g_per_m2
    0.15328
    """
    return copper_standard_from_table(package_table(_TABLE))


def metal(name: str) -> Metal:
    """Density and resistivity of a metal of the package's table.

    Parameters
    ----------
    name : str
        ``"copper"`` (the annealed standard), ``"tin"``, ``"silver"``,
        ``"clad_aluminium_10"`` or ``"clad_aluminium_15"``.

    Returns
    -------
    Metal
        Its values at 20 degC.

    Raises
    ------
    ParameterError
        If the table has no such metal.

    Examples
    --------
    >>> metal("tin").density_g_per_cm3
    7.3
    """
    if name == "copper":
        standard = package_copper_standard()
        return Metal(
            name=name,
            density_g_per_cm3=standard.density_g_per_cm3,
            resistivity_ohm_m=standard.volume_resistivity_ohm_m,
        )
    table = package_table(_TABLE)
    if name not in _metal_names(table):
        raise ParameterError(
            "metal",
            name,
            allowed="one of copper, " + ", ".join(_metal_names(table)),
        )
    return Metal(
        name=name,
        density_g_per_cm3=table_value(table, f"metal.{name}.density"),
        resistivity_ohm_m=1e-9 * table_value(table, f"metal.{name}.resistivity"),
    )


def _metal_names(table: Mapping[str, TableRow]) -> tuple[str, ...]:
    keys = (key.split(".") for key in table)
    return tuple(key[1] for key in keys if key[0] == "metal" and key[2] == "density")
