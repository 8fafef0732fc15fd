"""Per cent IACS against resistivity and conductivity, plain numbers at 20 degC."""

from math import isfinite

from strandproof.electrical.copper_standard import package_copper_standard
from strandproof.errors import ParameterError


def conductivity_ms_per_m(percent_iacs: float) -> float:
    """Conductivity from per cent IACS.

    Parameters
    ----------
    percent_iacs : float
        Conductivity [% IACS]; above 0.

    Returns
    -------
    float
        Conductivity [MS/m].

    Raises
    ------
    ParameterError
        If it is not a finite number above 0.

    Examples
    --------
    >>> round(conductivity_ms_per_m(101.0), 2)
    58.58
    """
    _require_positive("percent_iacs", percent_iacs)
    return percent_iacs / 100.0 * package_copper_standard().conductivity_ms_per_m


def volume_resistivity_ohm_m(percent_iacs: float) -> float:
    """Volume resistivity from per cent IACS.

    Parameters
    ----------
    percent_iacs : float
        Conductivity [% IACS]; above 0.

    Returns
    -------
    float
        Volume resistivity [ohm m].

    Raises
    ------
    ParameterError
        If it is not a finite number above 0.

    Notes
    -----
    1/58 ohm mm2/m at 100 %, unrounded.

    Examples
    --------
    >>> round(1e8 * volume_resistivity_ohm_m(100.0), 4)
    1.7241
    """
    _require_positive("percent_iacs", percent_iacs)
    return package_copper_standard().volume_resistivity_ohm_m * 100.0 / percent_iacs


def mass_resistivity_ohm_g_per_m2(percent_iacs: float) -> float:
    """Mass resistivity from per cent IACS.

    Parameters
    ----------
    percent_iacs : float
        Conductivity [% IACS]; above 0.

    Returns
    -------
    float
        Mass resistivity [ohm g/m2].

    Raises
    ------
    ParameterError
        If it is not a finite number above 0.

    Notes
    -----
    0.15328 at 100 %, a rounding of 8.89/58; 0.0027 % above the unrounded value.

    Examples
    --------
    >>> round(mass_resistivity_ohm_g_per_m2(101.0), 5)
    0.15176
    """
    _require_positive("percent_iacs", percent_iacs)
    standard = package_copper_standard()
    return standard.mass_resistivity_ohm_g_per_m2 * 100.0 / percent_iacs


def percent_iacs_of_volume_resistivity(resistivity_ohm_m: float) -> float:
    """Per cent IACS from a volume resistivity at 20 degC.

    Parameters
    ----------
    resistivity_ohm_m : float
        Volume resistivity [ohm m]; above 0.

    Returns
    -------
    float
        Conductivity [% IACS].

    Raises
    ------
    ParameterError
        If it is not a finite number above 0.

    Examples
    --------
    >>> round(percent_iacs_of_volume_resistivity(16.78e-9), 2)
    102.75
    """
    _require_positive("resistivity_ohm_m", resistivity_ohm_m)
    return (
        100.0 * package_copper_standard().volume_resistivity_ohm_m / resistivity_ohm_m
    )


def percent_iacs_of_mass_resistivity(resistivity_ohm_g_per_m2: float) -> float:
    """Per cent IACS from a mass resistivity at 20 degC.

    Parameters
    ----------
    resistivity_ohm_g_per_m2 : float
        Mass resistivity [ohm g/m2]; above 0.

    Returns
    -------
    float
        Conductivity [% IACS]; means copper only if the metal is copper, since
        a light metal reads high.

    Raises
    ------
    ParameterError
        If it is not a finite number above 0.

    Examples
    --------
    >>> round(percent_iacs_of_mass_resistivity(0.151874), 2)
    100.93
    """
    _require_positive("resistivity_ohm_g_per_m2", resistivity_ohm_g_per_m2)
    standard = package_copper_standard()
    return 100.0 * standard.mass_resistivity_ohm_g_per_m2 / resistivity_ohm_g_per_m2


def _require_positive(parameter: str, given: float) -> None:
    if not (isfinite(given) and given > 0):
        raise ParameterError(parameter, given, allowed="a finite number above 0")
