"""The grain size once without the pieces that may not speak for the product alone."""

from strandproof.app.workflow.combining import ReadersAsked, field_counts
from strandproof.grainsize import NestedMeans, nested_means
from strandproof.quantity import format_plus_minus
from strandproof.records.case_facts.purchase_match import may_speak_for_product
from strandproof.records.case_state import CaseState

_FEWEST_LEADS = 2


def grain_size_without_weak_pieces(state: CaseState, readers: ReadersAsked) -> str:
    """Say the mean intercept with and without given, lent and unknown pieces.

    Parameters
    ----------
    state : CaseState
        State of the case.
    readers : ReadersAsked
        Whose counts, and by which scale.

    Returns
    -------
    str
        Both means with their 95 % interval by lead. Where fewer than two pieces
        are left there is no interval, and the sentence says so.

    Raises
    ------
    ParameterError
        If the reader counted nothing, or on fewer than two leads in all.
    """
    counts = field_counts(state, readers)
    weak = tuple(
        name
        for name in dict.fromkeys(count.lead for count in counts)
        if may_speak_for_product(state, (name,))
    )
    every = _mean(nested_means(counts))
    if not weak:
        return f"Every piece counted may speak for the product: {every}."
    left = tuple(count for count in counts if count.lead not in weak)
    names = ", ".join(weak)
    if len({count.lead for count in left}) < _FEWEST_LEADS:
        return (
            f"With all pieces: {every}. Without {names} fewer than two pieces are "
            "left: no interval for the product."
        )
    return f"With all pieces: {every}. Without {names}: {_mean(nested_means(left))}."


def _mean(means: NestedMeans) -> str:
    value, interval = means.by_lead.quantity.value, means.by_lead.interval95
    leads = f"(n = {len(means.lead_means_um)})"
    if interval is None or interval.lower is None or interval.upper is None:
        return f"{value:.2g} µm, no interval {leads}"
    half = (interval.upper - interval.lower) / 2
    return f"{format_plus_minus(value, half, unit='um')} {leads}"
