"""Range of purity that a residual resistivity allows, and when it cannot tell."""

from strandproof.electrical.residual.boundaries import most_by_boundaries_nohm_m
from strandproof.electrical.residual.prediction import state_terms
from strandproof.quantity import Quantity, expanded_interval
from strandproof.records.electrical import (
    ElementBound,
    MetalState,
    NinesVerdict,
    PurityBound,
    ResidualTerm,
)
from strandproof.tables import (
    ImpurityResistivity,
    impurity_resistivities,
    package_table,
    table_value,
)

_ONE_SIDED = 0.90  # both ends of this two-sided interval are one-sided 95 % bounds
_PPM_PER_POHM = 1e3  # nohm m over pohm m per ppm
_WEAK = ("Ag", "Cd", "Zn")  # hardly scatter, and common in copper
_NINES = {4: 100.0, 5: 10.0, 6: 1.0, 7: 0.1}
_WORDS = {4: "four", 5: "five", 6: "six", 7: "seven"}


def purity_from_residual(residual: Quantity, state: MetalState) -> PurityBound:
    """Bound the impurities by a residual resistivity.

    Only what is dissolved shows. Silver hardly scatters; oxygen beyond about
    2 ppm is oxide, and precipitated iron, phosphorus or sulphur shows ten to fifty
    times less. So an upper bound holds for dissolved impurities, and no reading
    confirms a number of nines.

    Parameters
    ----------
    residual : Quantity
        Residual resistivity [nohm m], for example from `residual_from_cold_ratio`.
    state : MetalState
        What else is known of the piece. It lowers the lower bound only: the upper
        one lays all of the residual resistivity on impurities. Without intercept
        and diameter there is no lower bound.

    Returns
    -------
    PurityBound
        Per element, in total, for four to seven nines, and a sentence.

    Notes
    -----
    rho_0 = sum k_i c_i + boundaries + surface + cold work >= k_i c_i, so
    c_i <= rho_0/k_i. Upper bounds take the upper 95 % bound of rho_0 and the lowest
    k_i of the sources; the lower bound of the total takes the lower bound of rho_0
    less the most that the rest can add, and the highest k of all elements.
    """
    others = state_terms(state)
    bounds = expanded_interval(residual, _ONE_SIDED)
    least = _least_left(bounds.lower or 0.0, state, others)
    most = max(0.0, bounds.upper or 0.0)
    known = impurity_resistivities()
    weakest = min(known.values(), key=lambda one: one.dissolved_low)
    strongest = max(known.values(), key=lambda one: one.dissolved_high)
    strong = [one for one in known.values() if one.symbol not in _WEAK]
    total = (
        _PPM_PER_POHM * least / strongest.dissolved_high,
        _PPM_PER_POHM * most / weakest.dissolved_low,
    )
    middle = residual.value - sum(one.best for one in others)
    nines = _nines(total[0])
    return PurityBound(
        state=state,
        other_terms=others,
        left_for_impurities_nohm_m=(least, most),
        dissolved_total_ppm=total,
        least_harmful=weakest.symbol,
        most_harmful=strongest.symbol,
        without_silver_at_most_ppm=_PPM_PER_POHM
        * most
        / min(one.dissolved_low for one in strong),
        elements=tuple(_bound(one, middle, most) for one in known.values()),
        nines=nines,
        sentence=_sentence(total, nines, others, state),
    )


def _least_left(
    lower_nohm_m: float, state: MetalState, others: tuple[ResidualTerm, ...]
) -> float:
    # It needs the most that everything else can add, by the widest model.
    if state.mean_intercept_um is None or state.strand_mm is None:
        return 0.0
    boundaries = most_by_boundaries_nohm_m(state.mean_intercept_um)
    rest = sum(one.upper for one in others if not _is_boundary(one))
    return max(0.0, lower_nohm_m - boundaries - rest)


def _bound(one: ImpurityResistivity, middle: float, most: float) -> ElementBound:
    return ElementBound(
        symbol=one.symbol,
        if_all_ppm=_PPM_PER_POHM * middle / one.dissolved if middle > 0 else None,
        at_most_ppm=_PPM_PER_POHM * most / one.dissolved_low,
        solubility_ppm=one.solubility,
    )


def _nines(least_ppm: float) -> tuple[NinesVerdict, ...]:
    return tuple(
        NinesVerdict(
            nines=count,
            allowed_ppm=allowed,
            verdict="contradicted" if least_ppm > allowed else "cannot tell",
        )
        for count, allowed in _NINES.items()
    )


def _sentence(
    total: tuple[float, float],
    nines: tuple[NinesVerdict, ...],
    others: tuple[ResidualTerm, ...],
    state: MetalState,
) -> str:
    contradicted = [one.nines for one in nines if one.verdict == "contradicted"]
    caps = _caps(others)
    allowed = (
        f"The reading allows {_ppm(total[0])} to {_ppm(total[1])} ppm of dissolved "
        "impurities (all of the most harmful, all silver)."
    )
    blind = (
        "Silver, oxide, and whatever is precipitated hardly show, so no ratio "
        "confirms a number of nines."
    )
    if contradicted:
        least = min(contradicted)
        head = (
            f"Contradicts {_WORDS[least]} nines or more, all impurities counted, if "
            f"the stated {_stated(state)} hold and no anneal spoiled the piece."
        )
    else:
        head = "Cannot tell the purity: no number of nines is contradicted."
    return " ".join(part for part in (head, caps, allowed, blind) if part)


def _stated(state: MetalState) -> str:
    return f"intercept, diameter and work ({state.work})"


def _caps(others: tuple[ResidualTerm, ...]) -> str:
    from_grains = [
        f"{one.name} alone cap the ratio near {_cap(one.upper)}-{_cap(one.lower)}"
        for one in others
        if _is_boundary(one)
    ]
    from_surface = [
        f"the {one.name} near {_cap(one.upper)}"
        for one in others
        if one.name.startswith("surface")
    ]
    parts = from_grains + from_surface
    if not parts:
        return ""
    text = ", ".join(parts)
    return f"{text[0].upper()}{text[1:]}."


def _is_boundary(term: ResidualTerm) -> bool:
    return term.name.startswith("boundaries")


def _cap(added_nohm_m: float) -> str:
    # By 15.43 nohm m at 0 degC, as caps are stated throughout.
    thermal = table_value(
        package_table("conductor_standards"), "pure_copper.resistivity_0c"
    )
    return f"{float(f'{thermal / added_nohm_m:.2g}'):g}"


def _ppm(content: float) -> str:
    return f"{float(f'{content:.2g}'):g}"
