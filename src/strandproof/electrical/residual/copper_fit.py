"""Resistivity of copper against temperature and residual ratio, by two models."""

from dataclasses import dataclass
from functools import cache

import numpy as np
from scipy.integrate import quad

from strandproof.errors import ParameterError
from strandproof.quantity import ModelNumber, exp
from strandproof.tables import package_table, table_value

TABLE = "copper_resistivity"
ICE_K, ROOM_K, NITROGEN_K, HELIUM_K = 273.15, 293.15, 77.35, 4.2
_COLDEST_K, _HOTTEST_K = 1.0, 500.0


@dataclass(frozen=True, slots=True, kw_only=True)
class CopperFit:
    """Parameters of the fit, in ohm metre and kelvin.

    Parameters
    ----------
    p1, p2, p3, p4, p5, p6, p7 : float
        As in `phonon_resistivity_nohm_m` and `deviation_nohm_m`.
    residual_scale_nohm_m : float
        Residual resistivity times the residual ratio [nohm m].
    """

    p1: float
    p2: float
    p3: float
    p4: float
    p5: float
    p6: float
    p7: float
    residual_scale_nohm_m: float


@cache
def package_copper_fit() -> CopperFit:
    """Parameters of the table that ships with the package.

    Returns
    -------
    CopperFit
        The parameters.

    Examples
    --------
    >>> package_copper_fit().p7
    0.4531
    """
    table = package_table(TABLE)
    return CopperFit(
        **{f"p{k}": table_value(table, f"nist.p{k}") for k in range(1, 8)},
        residual_scale_nohm_m=table_value(table, "nist.residual_scale"),
    )


def phonon_resistivity_nohm_m(temperature_k: ModelNumber) -> ModelNumber:
    """Part of the resistivity that the lattice's vibration brings.

    Good to about half a percent near room temperature, where it is 0.5 % below
    the recommended values; meant for 4 to 300 K.

    Parameters
    ----------
    temperature_k : float, ndarray or uncertain number
        Temperature [K]; above zero.

    Returns
    -------
    float, ndarray or uncertain number
        Resistivity of perfect copper [nohm m].

    Notes
    -----
    P1 T^P2/(1 + P1 P3 T^(P2 - P4) exp(-(P5/T)^P6)).

    References
    ----------
    NIST Monograph 177 and NBSIR 84-3007, through transcriptions.

    Examples
    --------
    >>> round(phonon_resistivity_nohm_m(293.15), 2)
    16.7
    """
    fit = package_copper_fit()
    power = temperature_k**fit.p2
    softened = temperature_k ** (fit.p2 - fit.p4)
    frozen = exp(-((fit.p5 / temperature_k) ** fit.p6))
    return 1e9 * fit.p1 * power / (1.0 + fit.p1 * fit.p3 * softened * frozen)


def deviation_nohm_m(
    phonon_nohm_m: ModelNumber,
    residual_nohm_m: ModelNumber,
    factor: ModelNumber | None = None,
) -> ModelNumber:
    """Resistivity beyond the sum of phonon part and residual part.

    Parameters
    ----------
    phonon_nohm_m, residual_nohm_m : float, ndarray or uncertain number
        The two parts [nohm m]; their sum is above zero.
    factor : float, ndarray or uncertain number, optional
        P7; None takes the fit's.

    Returns
    -------
    float, ndarray or uncertain number
        The deviation from Matthiessen's rule [nohm m].

    Notes
    -----
    P7 rho_i rho_0/(rho_i + rho_0).
    """
    p7 = package_copper_fit().p7 if factor is None else factor
    return p7 * phonon_nohm_m * residual_nohm_m / (phonon_nohm_m + residual_nohm_m)


def resistivity_nohm_m(
    temperature_k: ModelNumber, residual_nohm_m: ModelNumber
) -> ModelNumber:
    """Resistivity of copper at a temperature, by the fit.

    Parameters
    ----------
    temperature_k : float, ndarray or uncertain number
        Temperature [K], from 1 to 500; above 300 K prefer the recommended values.
    residual_nohm_m : float, ndarray or uncertain number
        Residual resistivity [nohm m]; zero or above.

    Returns
    -------
    float, ndarray or uncertain number
        Resistivity [nohm m].

    Raises
    ------
    ParameterError
        If a plain temperature is out of range or a plain residual negative.

    Examples
    --------
    >>> round(resistivity_nohm_m(77.35, residual_of_ratio_nohm_m(100.0)), 2)
    2.08
    """
    if isinstance(temperature_k, float | int):
        require_temperature(temperature_k)
    if isinstance(residual_nohm_m, float | int) and residual_nohm_m < 0:
        raise ParameterError(
            "residual_nohm_m", residual_nohm_m, allowed="zero or above"
        )
    phonon = phonon_resistivity_nohm_m(temperature_k)
    return phonon + residual_nohm_m + deviation_nohm_m(phonon, residual_nohm_m)


def residual_of_ratio_nohm_m(ratio: float) -> float:
    """Residual resistivity of copper with a residual ratio, as the fit defines it.

    Parameters
    ----------
    ratio : float
        Resistivity at 273 K over that at 4 K; above 1, may be infinite.

    Returns
    -------
    float
        Residual resistivity [nohm m].

    Raises
    ------
    ParameterError
        If the ratio is not above 1.

    Notes
    -----
    15.53 nohm m/RRR. Some codes write 16.9, which is another definition of RRR.

    Examples
    --------
    >>> residual_of_ratio_nohm_m(100.0)
    0.1553
    """
    if not ratio > 1:
        raise ParameterError("ratio", ratio, allowed="a number above 1")
    return package_copper_fit().residual_scale_nohm_m / ratio


def ratio_over_residual(
    residual_nohm_m: float, *, temperature_k: float = ICE_K
) -> float | None:
    """Resistivity at a temperature over the residual one.

    Parameters
    ----------
    residual_nohm_m : float
        Residual resistivity [nohm m].
    temperature_k : float
        273.15 K or 293.15 K; both are called residual ratio, so say which.

    Returns
    -------
    float or None
        The ratio; None where the residual resistivity is not above zero.

    Examples
    --------
    >>> round(ratio_over_residual(0.1553)), round(
    ...     ratio_over_residual(0.1553, temperature_k=293.15)
    ... )
    (100, 109)
    """
    if not residual_nohm_m > 0:
        return None
    return float(resistivity_nohm_m(temperature_k, residual_nohm_m) / residual_nohm_m)


def bloch_gruneisen_nohm_m(
    temperature_k: float,
    *,
    residual_nohm_m: float = 0.0,
    theta_k: float | None = None,
    anchor_nohm_m: float | None = None,
) -> float:
    """Resistivity by the integral of Bloch and Gruneisen: the second model.

    No single theta fits at all temperatures; below 300 K the fit is closer.

    Parameters
    ----------
    temperature_k : float
        Temperature [K], from 1 to 500.
    residual_nohm_m : float
        Residual resistivity, simply added [nohm m].
    theta_k : float, optional
        Characteristic temperature [K]; None takes 343.
    anchor_nohm_m : float, optional
        Phonon part at 273.15 K that the integral is scaled to [nohm m]; None
        takes 15.41.

    Returns
    -------
    float
        Resistivity [nohm m].

    Raises
    ------
    ParameterError
        If the temperature is out of range.

    Notes
    -----
    rho_0 + A (T/theta)^5 times the integral from 0 to theta/T of
    x^5/((e^x - 1)(1 - e^-x)) dx.

    Examples
    --------
    >>> round(bloch_gruneisen_nohm_m(77.35), 2)
    1.88
    """
    require_temperature(temperature_k)
    table = package_table(TABLE)
    theta = theta_k or table_value(table, "bloch.theta")
    anchor = anchor_nohm_m or table_value(table, "bloch.anchor")
    scale = anchor / _bloch_shape(ICE_K / theta)
    return residual_nohm_m + scale * _bloch_shape(temperature_k / theta)


def require_temperature(temperature_k: float) -> None:
    """Raise unless a temperature lies where the models mean something.

    Parameters
    ----------
    temperature_k : float
        Temperature [K].

    Raises
    ------
    ParameterError
        If it does not lie between 1 and 500 K.
    """
    if not _COLDEST_K <= temperature_k <= _HOTTEST_K:
        raise ParameterError(
            "temperature_k",
            temperature_k,
            allowed=f"{_COLDEST_K:g} to {_HOTTEST_K:g} K",
            remedy="Add 273.15 to a temperature in degC.",
        )


def _bloch_shape(share_of_theta: float) -> float:
    # Beyond 60 the integrand is below 1e-17 of the whole.
    upper = min(1.0 / share_of_theta, 60.0)
    integral, _ = quad(_bloch_integrand, 0.0, upper)
    return float(share_of_theta**5 * integral)


def _bloch_integrand(x: float) -> float:
    # x^5/((e^x - 1)(1 - e^-x)) = x^5/(4 sinh^2(x/2)); tends to x^3 at zero.
    return float(0.25 * x**5 / np.sinh(0.5 * x) ** 2) if x > 0 else 0.0
