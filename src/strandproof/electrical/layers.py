"""What a metal layer is worth in a strand whose outer diameter is given."""

from math import pi

from strandproof.electrical.copper_standard import Metal, metal
from strandproof.electrical.given_inputs import GivenInputs, given_inputs
from strandproof.electrical.route_models import Values
from strandproof.errors import ParameterError
from strandproof.quantity import Input, ModelNumber, propagate_several
from strandproof.records.electrical import LayerEffect

_UNITS = {
    "strand_area": "mm^2",
    "core_diameter": "mm",
    "core_area": "mm^2",
    "volume_percent": "%",
    "mass_percent": "%",
    "resistance_change_percent": "%",
}


def layer_effect(
    strand_diameter: Input,
    thickness: Input,
    *,
    layer: str = "tin",
    core: str = "copper",
    strands: int = 1,
) -> LayerEffect:
    """Share of a layer in volume, mass and resistance of round strands.

    Assumes an even layer on a round core, current along the strand in both, and
    handbook values for the metals (those of tin are from memory; an alloy or an
    intermetallic skin differs). The uncertainty covers the two lengths only.

    Parameters
    ----------
    strand_diameter : Input
        Outer diameter, layer included [mm or um].
    thickness : Input
        Thickness of the layer [um or mm]; below half the diameter.
    layer, core : str
        Metals, as in `metal`.
    strands : int
        Strands; 1 or more.

    Returns
    -------
    LayerEffect
        Areas and shares, with uncertainty from the two lengths.

    Raises
    ------
    UnitError
        If a unit does not fit.
    ParameterError
        If a number is zero or negative, the layer fills the strand, there is no
        strand, or a metal is not known.

    Notes
    -----
    With q = (1 - 2 t/D)^2 the core's share of the area: volume 1 - q; mass
    (1 - q) d_layer/((1 - q) d_layer + q d_core); resistance against a strand
    wholly of the core's metal 1/(q + (1 - q) rho_core/rho_layer) - 1.

    Examples
    --------
    >>> from strandproof.quantity import normal_input
    >>> drain = layer_effect(
    ...     normal_input("strand diameter", 0.12, 0.0005, unit="mm"),
    ...     normal_input("tin thickness", 1.9, 0.15, unit="um"),
    ...     strands=7,
    ... )
    >>> round(drain.resistance_change_percent.value, 1)
    5.6
    """
    given = given_inputs(
        strand_diameter=("length", strand_diameter), thickness=("length", thickness)
    )
    _require_core(given, strands)
    metals = metal(core), metal(layer)

    def results(values: Values) -> dict[str, ModelNumber]:
        return _results(values, metals, strands)

    quantities = propagate_several(
        given.model(results), given.inputs, units=_UNITS
    ).quantities
    return LayerEffect(layer=layer, **quantities)


def _results(
    values: Values, metals: tuple[Metal, Metal], strands: int
) -> dict[str, ModelNumber]:
    core, layer = metals
    diameter_mm = 1e3 * values["strand_diameter"]
    core_mm = diameter_mm - 2e3 * values["thickness"]
    inner = (core_mm / diameter_mm) * (core_mm / diameter_mm)
    outer = 1.0 - inner
    mass_outer = outer * layer.density_g_per_cm3
    mass_inner = inner * core.density_g_per_cm3
    relative = inner + outer * core.resistivity_ohm_m / layer.resistivity_ohm_m
    return {
        "strand_area": 0.25 * pi * strands * diameter_mm * diameter_mm,
        "core_diameter": core_mm,
        "core_area": 0.25 * pi * strands * core_mm * core_mm,
        "volume_percent": 100.0 * outer,
        "mass_percent": 100.0 * mass_outer / (mass_outer + mass_inner),
        "resistance_change_percent": 100.0 * (1.0 / relative - 1.0),
    }


def _require_core(given: GivenInputs, strands: int) -> None:
    if strands < 1:
        raise ParameterError("strands", strands, allowed="1 or more")
    lengths = given.estimates()
    if not 2.0 * lengths["thickness"] < lengths["strand_diameter"]:
        raise ParameterError(
            "thickness",
            lengths["thickness"],
            allowed="below half the strand's diameter [m]",
        )
