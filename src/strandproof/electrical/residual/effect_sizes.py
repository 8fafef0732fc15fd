"""How large each effect is, before anything is measured."""

from collections.abc import Callable
from typing import Literal

from strandproof.electrical.copper_standard import package_copper_standard
from strandproof.electrical.planning import planned_measurement
from strandproof.electrical.residual.boundaries import (
    TABLE,
    added_by_reflection_nohm_m,
    boundary_term,
    reflections,
    surface_term,
)
from strandproof.electrical.residual.copper_fit import (
    HELIUM_K,
    NITROGEN_K,
    residual_of_ratio_nohm_m,
    resistivity_nohm_m,
)
from strandproof.electrical.residual.prediction import work_term
from strandproof.electrical.routes import conductivity_by_mass
from strandproof.errors import ParameterError
from strandproof.quantity import Input, expanded_uncertainty
from strandproof.records.electrical import (
    EffectSize,
    EffectSizes,
    MetalState,
    WorkState,
)
from strandproof.tables import (
    impurity_resistivities,
    package_table,
    table_value,
)

_TWO_SIDED = 1.96
_NINES_PPM = {"four": 100.0, "five": 10.0, "six": 1.0, "seven": 0.1}

Subject = Literal["boundaries", "surface", "purity", "cold work"]
Range = tuple[float, float]
# Added resistivity [nohm m], lower and upper, from the resistivity it is added to.
Added = Callable[[float], Range]


def effect_sizes(
    state: MetalState,
    *,
    interior_ratio: float | None = None,
    room_reachable_percent: float | None = None,
    ratio_percent: float | None = None,
) -> EffectSizes:
    """Sizes of boundaries, surface, purity and cold work at three temperatures.

    Each effect is added alone to a metal of a given residual ratio, so the sizes
    say what one change does; at 4.2 K they depend on that ratio most.

    Parameters
    ----------
    state : MetalState
        Intercept and diameter of the piece; the state of work is not used, since
        all are shown.
    interior_ratio : float, optional
        Residual ratio inside of the crystals (273 K over 4 K); None takes 430, a
        usual C10100 for cryogenics.
    room_reachable_percent : float, optional
        Expanded uncertainty that a conductivity will have [%], for example from
        `reachable_conductivity_percent`.
    ratio_percent : float, optional
        Standard uncertainty that a ratio will have [%].

    Returns
    -------
    EffectSizes
        Effects and, beside them, what can be reached.

    Raises
    ------
    ParameterError
        If a number is out of range.

    Notes
    -----
    At 293.15 K in percent of 1/58 ohm mm2/m, as everywhere; at 77.35 and 4.2 K in
    percent of the fit for the interior ratio.
    """
    table = package_table(TABLE)
    ratio = (
        table_value(table, "grade.ofe.typical")
        if interior_ratio is None
        else interior_ratio
    )
    interior = residual_of_ratio_nohm_m(ratio)
    for name, value in (
        ("room_reachable_percent", room_reachable_percent),
        ("ratio_percent", ratio_percent),
    ):
        if value is not None and not value > 0:
            raise ParameterError(name, value, allowed="a number above zero")
    return EffectSizes(
        state=state,
        interior_ratio=ratio,
        effects=(
            *_boundaries(state, interior),
            *_surface(state, interior),
            *_purity(interior),
            *_work(interior),
        ),
        room_reachable_percent=room_reachable_percent,
        ratio_reachable_percent=None
        if ratio_percent is None
        else _TWO_SIDED * ratio_percent,
    )


def reachable_conductivity_percent(
    *,
    mass: Input,
    gauge_length: Input,
    temperature: Input,
    resistance_uncertainty_percent: float,
) -> float:
    """Give the expanded uncertainty that a conductivity by mass will have.

    Parameters
    ----------
    mass, gauge_length, temperature : Input
        As they will be read, see `planned_measurement`.
    resistance_uncertainty_percent : float
        Standard uncertainty of the resistance [%].

    Returns
    -------
    float
        95 % half-width in percent of the conductivity.

    Raises
    ------
    UnitError
        If a unit does not fit.
    ParameterError
        If a number is zero, negative or out of range.
    """
    planned = planned_measurement(
        mass=mass,
        gauge_length=gauge_length,
        temperature=temperature,
        resistance_uncertainty_percent=resistance_uncertainty_percent,
    )
    iacs = conductivity_by_mass(planned).percent_iacs
    return 100.0 * expanded_uncertainty(iacs) / iacs.value


def _boundaries(state: MetalState, interior: float) -> tuple[EffectSize, ...]:
    distance = state.mean_intercept_um
    if distance is None:
        return ()
    crossed, area = boundary_term(distance), boundary_term(distance, reading="per_area")
    low, high = reflections()

    def reflected(resistivity: float) -> Range:
        lower, upper = (
            added_by_reflection_nohm_m(
                distance, interior_nohm_m=resistivity, reflection=one
            )
            for one in (low, high)
        )
        return lower, upper

    where = f"boundaries every {distance:g} µm"
    return (
        _effect(
            ("boundaries", f"{where}, per boundary crossed", crossed.basis),
            _constant(crossed.lower, crossed.upper),
            interior,
        ),
        _effect(
            ("boundaries", f"{where}, same number per area", area.basis),
            _constant(area.lower, area.upper),
            interior,
        ),
        _effect(
            (
                "boundaries",
                f"{where}, Mayadas-Shatzkes",
                f"reflection {low:g} to {high:g} (fits of films); from memory",
            ),
            reflected,
            interior,
        ),
    )


def _surface(state: MetalState, interior: float) -> tuple[EffectSize, ...]:
    if state.strand_mm is None:
        return ()
    term = surface_term(state.strand_mm)
    found = _effect(
        ("surface", term.name, term.basis), _constant(term.lower, term.upper), interior
    )
    return (found,)


def _purity(interior: float) -> tuple[EffectSize, ...]:
    known = impurity_resistivities()
    table = package_table(TABLE)
    ofe = tuple(
        residual_of_ratio_nohm_m(table_value(table, f"grade.ofe.{which}"))
        for which in ("best", "typical")
    )
    rows = [
        _effect(
            (
                "purity",
                "C10100, recrystallised, against none",
                "residual ratio 1300 to 430 (abstract read)",
            ),
            _constant(ofe[0], ofe[1]),
            interior,
        )
    ]
    silver, phosphorus = known["Ag"].dissolved, known["P"].dissolved
    for word, ppm in _NINES_PPM.items():
        name = f"{word} nines ({ppm:g} ppm dissolved) against none"
        basis = "all silver to all phosphorus; from memory"
        ends = _constant(1e-3 * ppm * silver, 1e-3 * ppm * phosphorus)
        rows.append(_effect(("purity", name, basis), ends, interior))
    return tuple(rows)


def _work(interior: float) -> tuple[EffectSize, ...]:
    states: tuple[WorkState, ...] = ("bent", "hard")
    words = {"bent": "bent a few per cent", "hard": "hard drawn"}
    modelled = tuple(
        _effect(
            ("cold work", f"{words[one]} against annealed", work_term(one).basis),
            _constant(work_term(one).lower, work_term(one).upper),
            interior,
        )
        for one in states
    )
    table = package_table(TABLE)
    measured = tuple(
        0.01 * table_value(table, f"hard_drawn.{end}") * _standard_nohm_m()
        for end in ("lower", "upper")
    )
    basis = "resistances of hard and annealed wire, 1910 and 1927 (read)"
    return (
        *modelled,
        _effect(
            ("cold work", "hard drawn against annealed, measured", basis),
            _constant(measured[0], measured[1]),
            interior,
        ),
    )


def _standard_nohm_m() -> float:
    return 1e9 * package_copper_standard().volume_resistivity_ohm_m


def _constant(lower: float, upper: float) -> Added:
    return lambda _resistivity: (lower, upper)


def _effect(
    told: tuple[Subject, str, str], added: Added, interior: float
) -> EffectSize:
    subject, name, basis = told
    standard = _standard_nohm_m()
    nitrogen, helium = (
        float(resistivity_nohm_m(at, interior)) for at in (NITROGEN_K, HELIUM_K)
    )
    return EffectSize(
        subject=subject,
        name=name,
        basis=basis,
        room_percent=_percent(added(standard), standard),
        nitrogen_percent=_percent(added(nitrogen), nitrogen),
        helium_percent=_percent(added(helium), helium),
        ratio_cap=_cap(added),
    )


def _percent(added: Range, of: float) -> Range:
    return 100.0 * added[0] / of, 100.0 * added[1] / of


def _cap(added: Added) -> tuple[float, float | None]:
    # Nearly perfect crystals, so that only the effect limits the ratio.
    thermal = table_value(
        package_table("conductor_standards"), "pure_copper.resistivity_0c"
    )
    lower, upper = added(thermal)
    return thermal / upper, thermal / lower if lower > 0 else None
