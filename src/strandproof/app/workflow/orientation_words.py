"""What a table of orientations gave, in sentences that carry their basis."""

from strandproof.app.workflow.orientating import OrientationAnswer
from strandproof.app.workflow.orientation_figures import (
    amount,
    figures,
    length,
    percent,
    twin_rule,
)
from strandproof.app.workflow.orientation_match_words import match_in_words
from strandproof.records.orientation import OrientationRules, OrientationTable
from strandproof.records.orientation_results import (
    GrainListResult,
    OrientationMapResult,
)

_FEW_INDEXED = 0.9
_MANY_DOUBTFUL = 0.05
_FEW_STEPS = 5.0
# Three normal parts: with the median at 0.4 of an angle, 1 pair in 500 passes it.
_NOISE = 0.4

_NOT_SHOWN = (
    "Bears on the crystal state of the finished strand where it was mapped. Does not "
    "bear on the casting route, purity, oxygen, or any other length of the strand."
)
_OWN_THRESHOLD = (
    "The laboratory's own threshold made these grains; ask for it if it is not stated."
)
_TWIN_CAUTION = (
    "Twin-related is said of the orientations only; whether the boundary lies on the "
    "plane that the twins share was not looked at."
)


def orientations_in_words(answer: OrientationAnswer) -> tuple[str, ...]:
    """Say what a table of orientations gave.

    Parameters
    ----------
    answer : OrientationAnswer
        From `examine_orientations`.

    Returns
    -------
    tuple of str
        Sentences; each number comes with step, share indexed and threshold.
    """
    table, question = answer.table, answer.question
    lines = [f"{table.name} says: {note}" for note in table.notes]
    lines.append(
        f"The angles were read as {question.meaning} Bunge angles, as asked. If the "
        "laboratory did not say so, ask: the other meaning gives other boundaries."
    )
    basis = _basis(answer)
    if answer.found_in_map is not None:
        lines += _of_map(answer.found_in_map, basis)
    if answer.found_in_list is not None:
        lines += _of_list(answer.found_in_list, basis)
    if answer.match is not None:
        lines += match_in_words(answer.match, basis)
    lines.append(_NOT_SHOWN)
    return tuple(lines)


def _basis(answer: OrientationAnswer) -> str:
    limit = f"boundary from {answer.question.rules.boundary_deg:g}°"
    found = answer.found_in_map
    if found is not None and isinstance(answer.table, OrientationTable):
        covered = found.coverage
        step = f"step {covered.step_um:.4g} µm"
        if covered.row_step_um != covered.step_um:
            step += f", rows {covered.row_step_um:.4g} µm apart"
        share = f"{percent(covered.share_indexed)} of {covered.points} points indexed"
        grid = "line" if covered.grid == "line" else f"{covered.grid} grid"
        return f"({grid}, {step}, {share}, {limit})"
    step_um = answer.question.stated_step_um
    share_stated = answer.question.stated_share_indexed
    step = "step not stated" if step_um is None else f"step {step_um:g} µm as stated"
    share = (
        "share indexed not stated"
        if share_stated is None
        else f"{percent(share_stated)} indexed as stated"
    )
    return f"({step}, {share}, {limit})"


def _of_map(found: OrientationMapResult, basis: str) -> list[str]:
    mapped = (
        f"Mapped: {length(found.coverage.length_um)} along the strand, "
        f"{length(found.coverage.width_um)} across {basis}."
    )
    lines = [
        mapped,
        *_boundaries(found, basis),
        *_grains(found, basis),
        *_spread(found, basis),
        *_map_cautions(found),
    ]
    if found.boundaries.twin.edges:
        lines.append(f"Keep in mind: {_TWIN_CAUTION}")
    return lines


def _boundaries(found: OrientationMapResult, basis: str) -> list[str]:
    borders, rules = found.boundaries, found.rules
    at = f"{rules.boundary_deg:g}°"
    if borders.high.edges == 0:
        first = (
            f"No boundary of {at} or above was resolved over the "
            f"{length(found.coverage.length_um)} mapped {basis}. This does not show "
            "that there is none elsewhere, or one finer than the step."
        )
    else:
        first = (
            f"Boundaries of {at} and above: "
            f"{amount(borders.high.length_um, borders.high.edges)}; of these "
            f"{percent(borders.twin_share or 0.0)} twin-related, "
            f"{twin_rule()} {basis}."
        )
    small = amount(borders.small.length_um, borders.small.edges)
    lines = [
        first,
        f"Boundaries of {rules.small_deg:g}° up to {at}: {small} {basis}.",
    ]
    if borders.high_per_mm is not None and borders.twin_per_mm is not None:
        others = borders.high_per_mm - borders.twin_per_mm
        lines.append(
            f"Boundaries of {at} and above crossed per mm along the strand: "
            f"{_rate(borders.high_per_mm)}; without twin-related ones "
            f"{_rate(others)}; over {length(borders.judged_along_um)} of rows {basis}."
        )
    return lines


def _rate(per_mm: float) -> str:
    if per_mm <= 0.0:
        return "0"
    return f"{figures(per_mm)} ({length(1000.0 / per_mm)} apart on average)"


def _grains(found: OrientationMapResult, basis: str) -> list[str]:
    grains = found.grains
    area = ""
    if grains.mean_area_um2 is not None:
        area = f", mean area {figures(grains.mean_area_um2)} µm², frame grains cut"
    sentence = (
        f"Regions parted by such boundaries: {grains.grains}, of which "
        f"{grains.touching_frame} reach the frame{area}; "
        f"{grains.grains_twins_merged} if twin-related boundaries do not part; the "
        f"largest holds {percent(grains.largest_share)} of the map {basis}."
    )
    return [sentence]


def _spread(found: OrientationMapResult, basis: str) -> list[str]:
    spread = found.spread
    within = ", ".join(
        f"{percent(share)} within {limit:g}°"
        for limit, share in zip(spread.within_deg, spread.share_within, strict=True)
    )
    medians = [one.median_deg for one in spread.stretches if one.median_deg is not None]
    sentence = (
        f"Against the largest region's orientation, of all trusted points {within}; "
        f"along the strand the median departure runs from {min(medians):.1f}° to "
        f"{max(medians):.1f}° over {len(medians)} stretches {basis}."
    )
    return [sentence]


def _map_cautions(found: OrientationMapResult) -> list[str]:
    covered, rules = found.coverage, found.rules
    cautions = []
    if covered.share_indexed < _FEW_INDEXED:
        cautions.append(
            f"Only {percent(covered.share_indexed)} of the points were indexed; "
            "boundaries inside wide gaps are not seen."
        )
    if covered.isolated > 0:
        cautions.append(
            f"{covered.isolated} indexed points in islands of fewer than "
            f"{rules.smallest_grain_points} points were taken for misindexed; grains "
            "that small would be lost with them."
        )
    if covered.bridged > 0:
        cautions.append(
            f"{covered.bridged} points ({percent(covered.bridged / covered.points)}) "
            f"took the orientation of a point up to {rules.bridge_points} steps away; "
            "a boundary there is placed only to within that."
        )
    if found.boundaries.not_judged.edges > 0:
        left = amount(
            found.boundaries.not_judged.length_um, found.boundaries.not_judged.edges
        )
        cautions.append(
            f"{left} could not be judged, for want of an orientation on one side."
        )
    if covered.bridged + covered.isolated > _MANY_DOUBTFUL * covered.points:
        cautions.append("More than 5 % of the points are not the laboratory's own.")
    inside = found.boundaries.inside_deg
    if inside is not None and inside > _NOISE * rules.small_deg:
        cautions.append(
            f"Neighbours inside regions differ by {inside:.2f}° in the median, so "
            f"boundaries from {rules.small_deg:g}° may be noise."
        )
    per_mm = found.boundaries.high_per_mm
    if per_mm and 1000.0 / per_mm < _FEW_STEPS * covered.step_um:
        cautions.append(
            "The mean distance of boundaries is below five steps, so many are missed."
        )
    return [f"Keep in mind: {caution}" for caution in cautions]


def _of_list(found: GrainListResult, basis: str) -> list[str]:
    listed = (
        f"Grains listed: {found.grains}, together {figures(found.total_area_um2)} "
        f"µm², mean {figures(found.mean_area_um2)} µm²; the largest is "
        f"{percent(found.largest_share)} of it, and "
        f"{percent(found.share_near_largest)} lies within "
        f"{found.rules.boundary_deg:g}° of its orientation {basis}."
    )
    lines = [listed, _OWN_THRESHOLD]
    if found.pairs is None:
        lines.append(
            "The list names no neighbours, so nothing is said about boundaries."
        )
        return lines
    lines.append(_pairs_sentence(found, found.rules, basis))
    if found.twin:
        lines.append(f"Keep in mind: {_TWIN_CAUTION}")
    return lines


def _pairs_sentence(found: GrainListResult, rules: OrientationRules, basis: str) -> str:
    return (
        f"Pairs of neighbours: {found.pairs}; {found.high} at {rules.boundary_deg:g}° "
        f"and above, of these {found.twin} twin-related, {twin_rule()}; {found.small} "
        f"from {rules.small_deg:g}° up to that {basis}. Pairs are counted, no lengths."
    )
