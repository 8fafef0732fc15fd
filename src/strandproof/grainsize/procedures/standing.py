"""When a mean grain size is not legitimate, said and measured as what it is."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from strandproof.errors import ParameterError
from strandproof.grainsize.procedures.digits import three_digits
from strandproof.grainsize.rules import counting_rules
from strandproof.records.measurement import CountingRules
from strandproof.records.structure_findings import (
    DuplexKind,
    MeanStanding,
    StandingCondition,
)
from strandproof.tables import package_table, table_value

ROUND_FACE = "A round face without a boundary says nothing between X1 and X8."
"""Why a face that looks like one crystal decides nothing: a crystal as long as
claimed (X1) and grains as wide as the strand (X8) look alike there."""

_DUPLEX_WORDS = {
    "isolated_coarse": "isolated coarse grains",
    "wide_range": "a wide range of sizes",
    "bimodal": "two sizes",
    "cross_section": "sizes that change from edge to middle",
    "necklace": "coarse grains ringed by fine ones",
    "banding": "bands of coarse and fine grains",
}


def grains_across_of(width_um: float, mean_intercept_um: float) -> float:
    """Width of a strand in mean intercepts.

    Parameters
    ----------
    width_um, mean_intercept_um : float
        Both in one unit; above 0.

    Returns
    -------
    float
        Grains across.

    Raises
    ------
    ParameterError
        If one of the two is not above 0.

    Examples
    --------
    >>> round(grains_across_of(50.0, 31.0), 1)
    1.6
    """
    if not (width_um > 0 and mean_intercept_um > 0):
        raise ParameterError(
            "width_um and mean_intercept_um",
            (width_um, mean_intercept_um),
            allowed="two lengths above 0",
        )
    return width_um / mean_intercept_um


@dataclass(frozen=True, slots=True, kw_only=True)
class SeenStructure:
    """What was seen of one piece of metal, as far as a mean depends on it.

    Parameters
    ----------
    boundary_seen : bool
        Whether any boundary was resolved.
    is_round_face : bool
        Whether the piece is a strand seen from its end.
    grains_across : float or None
        Width of the strand in mean intercepts; None where it has no width (a
        field) or no boundary.
    along_across : tuple of (float, float, str) or None
        Mean intercepts along and across with their unit, where an axis is known.
    equivalent_grains : float or None
        Whole grains the picture is worth.
    """

    boundary_seen: bool
    is_round_face: bool = False
    grains_across: float | None = None
    along_across: tuple[float, float, str] | None = None
    equivalent_grains: float | None = None


def mean_standing(
    seen: SeenStructure,
    *,
    duplex: Iterable[DuplexKind] = (),
    rules: CountingRules | None = None,
) -> MeanStanding:
    """Recognise the structures of which a mean says little or nothing.

    Parameters
    ----------
    seen : SeenStructure
        What was seen.
    duplex : iterable of DuplexKind
        Answers of `duplex_kinds`.
    rules : CountingRules, optional
        Thresholds; None takes `counting_rules`.

    Returns
    -------
    MeanStanding
        Conditions in words; a mean is forbidden below three grains across (a
        judgement), without a boundary, and for two sizes or bands.

    Examples
    --------
    >>> mean_standing(
    ...     SeenStructure(boundary_seen=True, grains_across=50 / 31)
    ... ).sentence  # doctest: +NORMALIZE_WHITESPACE
    '1.6 grains across: average grain size not meaningful; count boundaries along the
    length. A round face without a boundary says nothing between X1 and X8.'
    """
    limits = rules or counting_rules()
    conditions = (
        *_without_boundary(seen),
        *_across(seen.grains_across, limits),
        *_elongated(seen.along_across, limits),
        *_duplex(duplex),
    )
    if not any(condition.forbids_mean for condition in conditions):
        conditions = (*conditions, *_few(seen.equivalent_grains, limits))
    names = {condition.name for condition in conditions}
    said = " ".join(condition.sentence for condition in conditions)
    return MeanStanding(
        may_state_mean=not any(condition.forbids_mean for condition in conditions),
        needs_both_directions=bool(names & {"few_grains_across", "elongated"}),
        grains_across=seen.grains_across,
        conditions=conditions,
        sentence=said or "Nothing speaks against a mean grain size of this picture.",
    )


def _without_boundary(seen: SeenStructure) -> Iterator[StandingCondition]:
    if seen.boundary_seen:
        return
    if seen.is_round_face:
        yield StandingCondition(
            name="round_face", forbids_mean=True, sentence=ROUND_FACE
        )
        return
    yield StandingCondition(
        name="no_boundary",
        forbids_mean=True,
        sentence=(
            "No boundary was resolved by this method here: there is no grain size to "
            "state, only a bound on boundaries per length."
        ),
    )


def _across(across: float | None, rules: CountingRules) -> Iterator[StandingCondition]:
    if across is None or across >= rules.minimum_grains_across:
        return
    fewest = table_value(
        package_table("grain_size_rules"), "strand.fewest_grains_for_mean"
    )
    if across < fewest:
        yield StandingCondition(
            name="bamboo",
            forbids_mean=True,
            sentence=(
                f"{across:.1f} grains across: average grain size not meaningful; count "
                f"boundaries along the length. {ROUND_FACE}"
            ),
        )
        return
    yield StandingCondition(
        name="few_grains_across",
        forbids_mean=False,
        sentence=(
            f"About {across:.1f} grains across, fewer than about "
            f"{rules.minimum_grains_across:g}: flagged; state both directions."
        ),
    )


def _elongated(
    means: tuple[float, float, str] | None, rules: CountingRules
) -> Iterator[StandingCondition]:
    if means is None:
        return
    along, across, unit = means
    ratio, limit = along / across, rules.elongation_limit
    if 1.0 / limit <= ratio <= limit:
        return
    yield StandingCondition(
        name="elongated",
        forbids_mean=False,
        sentence=(
            f"Elongation {ratio:.2f}: one mean hides the shape; {three_digits(along)} "
            f"{unit} along and {three_digits(across)} {unit} across."
        ),
    )


def _duplex(kinds: Iterable[DuplexKind]) -> Iterator[StandingCondition]:
    for kind in kinds:
        if not kind.present:
            continue
        forbids = kind.name in {"bimodal", "banding"}
        consequence = (
            "no mean describes it; state each size with its share of the area"
            if forbids
            else "a mean is stated with this beside it"
        )
        yield StandingCondition(
            name="duplex",
            forbids_mean=forbids,
            sentence=(
                f"Duplex, {_DUPLEX_WORDS[kind.name]}: {consequence}. {kind.sentence}"
            ),
        )


def _few(equivalent: float | None, rules: CountingRules) -> Iterator[StandingCondition]:
    if equivalent is None or equivalent >= rules.minimum_grains:
        return
    yield StandingCondition(
        name="few_grains",
        forbids_mean=False,
        sentence=(
            f"{three_digits(equivalent)} grains in the area, fewer than about "
            f"{rules.minimum_grains:g}: the count scatters widely."
        ),
    )
