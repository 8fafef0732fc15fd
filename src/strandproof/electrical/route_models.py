"""The three ways from a resistance to a resistivity, as measurement models.

All have one form: a conductivity ratio n = standard/(R g), where g is the geometry
that turns a resistance into a resistivity and the standard is the resistivity at
100 % IACS, then the correction to 20 degC.
"""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from math import pi
from operator import itemgetter
from typing import TypeAlias

from strandproof.electrical.copper_standard import (
    CopperStandard,
    package_copper_standard,
)
from strandproof.electrical.given_inputs import (
    GivenInputs,
    Kind,
    given_inputs,
)
from strandproof.electrical.lay_stated import require_lay
from strandproof.electrical.series_model import series_model
from strandproof.electrical.temperature import (
    fixed_coefficient,
    required_temperature,
)
from strandproof.errors import MissingMeasurementError, ParameterError
from strandproof.quantity import Input, ModelNumber, normal_input
from strandproof.records.electrical import (
    CoefficientRule,
    ResistanceMeasurement,
    ResistivityRoute,
)

Values: TypeAlias = Mapping[str, ModelNumber]


@dataclass(frozen=True, slots=True, kw_only=True)
class RouteModel:
    """One route: its geometry, its standard, and the inputs it needs.

    Parameters
    ----------
    route : {"mass", "density", "diameter"}
        Which route.
    standard_resistivity : float
        Resistivity at 100 % IACS, in `unit`.
    unit : str
        Unit of the resistivity.
    geometry : callable
        Factor from resistance [ohm] to resistivity, from values in base units.
    given : GivenInputs
        Inputs with the temperature and its coefficient.
    resistance : callable
        Resistance at the wire's temperature [ohm], from values in base units.
    """

    route: ResistivityRoute
    standard_resistivity: float
    unit: str
    geometry: Callable[[Values], ModelNumber]
    given: GivenInputs
    resistance: Callable[[Values], ModelNumber]

    def results(self, values: Values, rule: CoefficientRule) -> dict[str, ModelNumber]:
        """Return resistance at 20 degC, resistivity and per cent IACS.

        Parameters
        ----------
        values : mapping of str to number
            Inputs in base units.
        rule : {"fixed", "scaled"}
            Rule of the temperature coefficient.

        Returns
        -------
        dict of str to number
            ``"resistance_at_20c"`` [ohm], ``"resistivity"``, ``"percent_iacs"``.

        Notes
        -----
        Fixed: n = n_0 (1 + alpha (T - 20)). Scaled: the coefficient is alpha n, so
        that n = n_0 (1 + alpha n (T - 20)), which solves to
        n = n_0/(1 - alpha n_0 (T - 20)); n_0 is the ratio at the wire's
        temperature.
        """
        resistance = self.resistance(values)
        warm = self.standard_resistivity / (resistance * self.geometry(values))
        warmth = values["coefficient"] * (values["temperature"] - 20.0)
        factor = 1.0 + warmth if rule == "fixed" else 1.0 / (1.0 - warmth * warm)
        ratio = warm * factor
        return {
            "resistance_at_20c": resistance / factor,
            "resistivity": self.standard_resistivity / ratio,
            "percent_iacs": 100.0 * ratio,
        }


def mass_route(
    measurement: ResistanceMeasurement, *, standard: CopperStandard | None = None
) -> RouteModel:
    """Route by mass and length: no density and no diameter enter.

    Parameters
    ----------
    measurement : ResistanceMeasurement
        With a mass.
    standard : CopperStandard, optional
        Constants; None takes the package's.

    Returns
    -------
    RouteModel
        Geometry m/(L1 L2); one length that enters twice where no specimen length
        is given.

    Raises
    ------
    MissingMeasurementError
        If temperature, mass, or the lay of a twisted core is missing.
    """
    standard = standard or package_copper_standard()

    def geometry(values: Values) -> ModelNumber:
        return _mass_per_length(values) / _gauge_length(values)

    electrical, resistance = _electrical(measurement, standard)
    return RouteModel(
        route="mass",
        standard_resistivity=standard.mass_resistivity_ohm_g_per_m2,
        unit="ohm g/m^2",
        geometry=geometry,
        resistance=resistance,
        given=given_inputs(**electrical, **_weighed(measurement)),
    )


def density_route(
    measurement: ResistanceMeasurement,
    *,
    density: Input | None = None,
    standard: CopperStandard | None = None,
) -> RouteModel:
    """Route by mass, length and density.

    Parameters
    ----------
    measurement : ResistanceMeasurement
        With a mass.
    density : Input, optional
        Density of the metal; None takes 8.89 g/cm3 with 0.4 %.
    standard : CopperStandard, optional
        Constants; None takes the package's.

    Returns
    -------
    RouteModel
        Geometry m/(L1 L2 d).

    Raises
    ------
    MissingMeasurementError
        If temperature, mass, or the lay of a twisted core is missing.
    """
    standard = standard or package_copper_standard()

    def geometry(values: Values) -> ModelNumber:
        area = _mass_per_length(values) / values["density"]
        return area / _gauge_length(values)

    electrical, resistance = _electrical(measurement, standard)
    return RouteModel(
        route="density",
        standard_resistivity=standard.volume_resistivity_ohm_m,
        unit="ohm m",
        geometry=geometry,
        resistance=resistance,
        given=given_inputs(
            **electrical,
            **_weighed(measurement),
            density=("density", density or standard_density(standard)),
        ),
    )


def diameter_route(
    measurement: ResistanceMeasurement,
    *,
    diameter: Input,
    strands: int,
    standard: CopperStandard | None = None,
) -> RouteModel:
    """Route by the diameter of round strands in parallel.

    Parameters
    ----------
    measurement : ResistanceMeasurement
        A mass is not used.
    diameter : Input
        Mean diameter of the metal of one strand; its uncertainty is taken as
        common to all strands.
    strands : int
        Strands in parallel; 1 or more.
    standard : CopperStandard, optional
        Constants; None takes the package's.

    Returns
    -------
    RouteModel
        Geometry n pi d^2/(4 L1).

    Raises
    ------
    MissingMeasurementError
        If the temperature, or the lay of a twisted core, is missing.
    ParameterError
        If there is no strand.
    """
    if strands < 1:
        raise ParameterError("strands", strands, allowed="1 or more")
    standard = standard or package_copper_standard()

    def geometry(values: Values) -> ModelNumber:
        area = 0.25 * pi * strands * values["diameter"] * values["diameter"]
        return area / _gauge_length(values)

    electrical, resistance = _electrical(measurement, standard)
    return RouteModel(
        route="diameter",
        standard_resistivity=standard.volume_resistivity_ohm_m,
        unit="ohm m",
        geometry=geometry,
        resistance=resistance,
        given=given_inputs(**electrical, diameter=("length", diameter)),
    )


def standard_density(standard: CopperStandard | None = None) -> Input:
    """Density of a copper strand where none was measured.

    Parameters
    ----------
    standard : CopperStandard, optional
        Constants; None takes the package's.

    Returns
    -------
    Input
        8.89 g/cm3 with a standard uncertainty of 0.4 % (judgement).

    Examples
    --------
    >>> round(standard_density().standard_uncertainty, 4)
    0.0356
    """
    standard = standard or package_copper_standard()
    density = standard.density_g_per_cm3
    return normal_input(
        "density",
        density,
        density * standard.density_spread_percent / 100.0,
        unit="g/cm^3",
    )


def _electrical(
    measurement: ResistanceMeasurement, standard: CopperStandard
) -> tuple[dict[str, tuple[Kind, Input]], Callable[[Values], ModelNumber]]:
    """Give what all routes share, and the resistance that follows from it."""
    require_lay(measurement.form, measurement.lay_factor)
    shared: dict[str, tuple[Kind, Input]] = {
        "temperature": (
            "temperature",
            required_temperature(measurement.temperature),
        ),
        "coefficient": ("coefficient", fixed_coefficient(standard)),
        "gauge_length": ("length", measurement.gauge_length),
    }
    if measurement.lay_factor is not None:
        shared["lay_factor"] = ("ratio", measurement.lay_factor)
    read = measurement.resistance
    if isinstance(read, Input):
        return {"resistance": ("resistance", read), **shared}, itemgetter("resistance")
    model = series_model(read)
    weights = model.intercept_weights
    return {**model.inputs(weights), **shared}, model.weighted(weights)


def _weighed(measurement: ResistanceMeasurement) -> dict[str, tuple[Kind, Input]]:
    if measurement.mass is None:
        raise MissingMeasurementError(
            "The mass of the strand",
            reason="Mass and length give the copper without a diameter.",
            remedy="Weigh a measured length of bare strand, or use the diameter "
            "route with its larger budget.",
        )
    weighed: dict[str, tuple[Kind, Input]] = {"mass": ("mass", measurement.mass)}
    if measurement.specimen_length is not None:
        weighed["specimen_length"] = ("length", measurement.specimen_length)
    return weighed


def _mass_per_length(values: Values) -> ModelNumber:
    return values["mass"] / values.get("specimen_length", _gauge_length(values))


def _gauge_length(values: Values) -> ModelNumber:
    """Length along the strand between the contacts [m]."""
    if "lay_factor" not in values:
        return values["gauge_length"]
    return values["gauge_length"] * values["lay_factor"]
