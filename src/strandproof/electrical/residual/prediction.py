"""Residual ratio predicted for a hypothesis about the metal."""

from collections.abc import Mapping
from typing import Literal

from strandproof.electrical.residual.boundaries import (
    TABLE,
    boundary_term,
    surface_term,
)
from strandproof.electrical.residual.copper_fit import (
    ICE_K,
    NITROGEN_K,
    ROOM_K,
    resistivity_nohm_m,
)
from strandproof.errors import ParameterError
from strandproof.records.electrical import (
    MetalState,
    ResidualPrediction,
    ResidualTerm,
    WorkState,
)
from strandproof.tables import (
    impurity_resistivities,
    package_table,
    table_value,
)

Solution = Literal["dissolved", "precipitated"]
_NOHM_PER_POHM = 1e-3


def predicted_residual(
    impurities_ppm: Mapping[str, float],
    state: MetalState,
    *,
    solution: Solution = "dissolved",
) -> ResidualPrediction:
    """Residual resistivity and ratios that a hypothesis predicts.

    Assumes that all parts add (Matthiessen). Where the mean intercept is None, one
    crystal is meant.

    Parameters
    ----------
    impurities_ppm : mapping of str to float
        Content by chemical symbol [ppm by mass]; each zero or above.
    state : MetalState
        Boundaries, strand, cold work.
    solution : {"dissolved", "precipitated"}
        State of the impurities; locked up in oxide or compounds they add ten to
        fifty times less.

    Returns
    -------
    ResidualPrediction
        Terms, sum and ratios, each as range and usual value.

    Raises
    ------
    ParameterError
        If an element is not in the table, a content is negative, or nothing at all
        is left to add, which no metal shows.

    Notes
    -----
    rho_0 = sum k_i c_i + boundaries + surface + dislocations; ratios by the fit.
    The ends of the sum add all lower or all upper ends.

    Examples
    --------
    >>> state = MetalState(mean_intercept_um=20.0, strand_mm=0.1, work="annealed")
    >>> found = predicted_residual({"Ni": 10.0}, state)
    >>> [round(ratio) for ratio in found.ratio_273]
    [392, 477, 820]
    """
    terms = (
        *impurity_terms(impurities_ppm, solution=solution),
        *state_terms(state),
    )
    total = (
        sum(term.lower for term in terms),
        sum(term.best for term in terms),
        sum(term.upper for term in terms),
    )
    if not total[0] > 0:
        raise ParameterError(
            "hypothesis",
            dict(impurities_ppm),
            allowed="one that leaves some residual resistivity",
            remedy="Give impurities, boundaries or the state of work.",
        )
    low, best, high = total
    return ResidualPrediction(
        terms=terms,
        residual_nohm_m=total,
        ratio_273=(_ratio(high, ICE_K), _ratio(best, ICE_K), _ratio(low, ICE_K)),
        ratio_293=(_ratio(high, ROOM_K), _ratio(best, ROOM_K), _ratio(low, ROOM_K)),
        nitrogen_ratio=(
            _nitrogen_ratio(high),
            _nitrogen_ratio(best),
            _nitrogen_ratio(low),
        ),
    )


def impurity_terms(
    impurities_ppm: Mapping[str, float], *, solution: Solution = "dissolved"
) -> tuple[ResidualTerm, ...]:
    """Residual resistivity that each impurity adds.

    Parameters
    ----------
    impurities_ppm : mapping of str to float
        Content by chemical symbol [ppm by mass].
    solution : {"dissolved", "precipitated"}
        State of the impurities.

    Returns
    -------
    tuple of ResidualTerm
        One for each, with the range of the sources.

    Raises
    ------
    ParameterError
        If an element is not in the table or a content is negative.

    Notes
    -----
    Specific resistivity times content; nearly all from memory.
    """
    known = impurity_resistivities()
    terms = []
    for symbol, ppm in impurities_ppm.items():
        if symbol not in known:
            raise ParameterError("element", symbol, allowed=", ".join(known))
        if not ppm >= 0:
            name = f"content of {symbol}"
            raise ParameterError(name, ppm, allowed="zero or above")
        one = known[symbol]
        low, high = (
            (one.dissolved_low, one.dissolved_high)
            if solution == "dissolved"
            else (one.precipitated_low, one.precipitated_high)
        )
        usual = one.dissolved if solution == "dissolved" else 0.5 * (low + high)
        best, lower, upper = (_NOHM_PER_POHM * ppm * k for k in (usual, low, high))
        terms.append(
            ResidualTerm(
                name=f"{ppm:g} ppm {symbol} {solution}",
                best=best,
                lower=lower,
                upper=upper,
                basis=f"{usual:g} pohm m per ppm by mass; {one.status}",
            )
        )
    return tuple(terms)


def state_terms(state: MetalState) -> tuple[ResidualTerm, ...]:
    """Residual resistivity of everything but the impurities.

    Parameters
    ----------
    state : MetalState
        Boundaries, strand, cold work.

    Returns
    -------
    tuple of ResidualTerm
        Boundaries and surface where they are given, and cold work.

    Raises
    ------
    ParameterError
        If a length is not above zero.
    """
    terms = [work_term(state.work)]
    if state.strand_mm is not None:
        terms.insert(0, surface_term(state.strand_mm))
    if state.mean_intercept_um is not None:
        terms.insert(0, boundary_term(state.mean_intercept_um))
    return tuple(terms)


def work_term(work: WorkState) -> ResidualTerm:
    """Residual resistivity that cold work adds.

    Parameters
    ----------
    work : {"annealed", "bent", "hard", "unknown"}
        State; unknown spans annealed to hard.

    Returns
    -------
    ResidualTerm
        Orders of magnitude.

    Notes
    -----
    k N with k 1 to 6e-25 ohm m3 (3e-25 within a factor of 2, abstract of Phys. Rev.
    B 32 (1985) 2149 read; 1e-25 from memory) and N 1e12, 1e14, 1e15 m^-2 (from
    memory).

    Examples
    --------
    >>> term = work_term("hard")
    >>> round(term.lower, 3), round(term.best, 3), round(term.upper, 3)
    (0.1, 0.3, 0.6)
    """
    table = package_table(TABLE)
    coefficient = "dislocation.coefficient"
    low, best, high = (
        1e9 * table_value(table, key)
        for key in (f"{coefficient}.lower", coefficient, f"{coefficient}.upper")
    )
    soft = table_value(table, "dislocation.density.annealed")
    if work == "unknown":
        hard = table_value(table, "dislocation.density.hard")
        return ResidualTerm(
            name="cold work, not known",
            best=best * soft,
            lower=low * soft,
            upper=high * hard,
            basis="1 to 6e-25 ohm m3 times 1e12 (annealed) to 1e15 (hard) per m2",
        )
    density = table_value(table, f"dislocation.density.{work}")
    return ResidualTerm(
        name=f"cold work: {work}",
        best=best * density,
        lower=low * density,
        upper=high * density,
        basis=f"1 to 6e-25 ohm m3 times {density:g} per m2",
    )


def _ratio(residual_nohm_m: float, temperature_k: float) -> float:
    return float(resistivity_nohm_m(temperature_k, residual_nohm_m) / residual_nohm_m)


def _nitrogen_ratio(residual_nohm_m: float) -> float:
    return float(
        resistivity_nohm_m(ROOM_K, residual_nohm_m)
        / resistivity_nohm_m(NITROGEN_K, residual_nohm_m)
    )
