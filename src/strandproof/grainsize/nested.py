"""Fields within strands within leads: means by level from counts on test lines."""

from collections.abc import Sequence
from dataclasses import dataclass
from statistics import fmean

from strandproof.errors import ParameterError
from strandproof.grainsize.levels import mean_over_level
from strandproof.records.measurement import Estimate


@dataclass(frozen=True, slots=True, kw_only=True)
class FieldCount:
    """What one reader counted on the test lines of one field.

    Parameters
    ----------
    lead, strand, field : str
        Where the field lies; strands of different leads have different names.
    line_length_um : float
        Total length of the test lines in metal [um]; above 0.
    boundaries : int
        Grain boundaries crossed; 1 or more.
    twins : int
        Twin boundaries crossed, not counted among the boundaries.
    """

    lead: str
    strand: str
    field: str
    line_length_um: float
    boundaries: int
    twins: int = 0

    def __post_init__(self) -> None:
        if not self.line_length_um > 0:
            raise ParameterError(
                "line_length_um", self.line_length_um, allowed="a length above zero"
            )
        if self.boundaries < 1:
            raise ParameterError(
                "boundaries",
                self.boundaries,
                allowed="1 or more",
                remedy="Without a boundary state a bound on the rate instead.",
            )

    def mean_intercept_um(self, *, with_twins: bool = False) -> float:
        """Give the mean lineal intercept of this field.

        Parameters
        ----------
        with_twins : bool
            Count twin boundaries as boundaries too.

        Returns
        -------
        float
            Line length over crossings [um].
        """
        crossed = self.boundaries + (self.twins if with_twins else 0)
        return self.line_length_um / crossed


@dataclass(frozen=True, slots=True, kw_only=True)
class NestedMeans:
    """Mean intercepts by level, and the interval by lead.

    Parameters
    ----------
    by_lead : Estimate
        Mean of the leads' means with its t interval over leads [um].
    with_twins_um : float
        The same mean with twin boundaries counted [um], for comparison only.
    lead_means_um : tuple of (str, float)
        Mean of each lead's strand means [um].
    strands, fields : int
        How many stand behind it.
    interval_as_if_strands_um, interval_as_if_fields_um : float
        Half-widths that one would get by taking strands or fields for
        independent [um]; too narrow, shown as a warning.
    """

    by_lead: Estimate
    with_twins_um: float
    lead_means_um: tuple[tuple[str, float], ...]
    strands: int
    fields: int
    interval_as_if_strands_um: float
    interval_as_if_fields_um: float


def nested_means(counts: Sequence[FieldCount]) -> NestedMeans:
    """Average fields to strands, strands to leads, and give the interval by lead.

    Parameters
    ----------
    counts : sequence of FieldCount
        Two leads or more.

    Returns
    -------
    NestedMeans
        Means and intervals.

    Raises
    ------
    ParameterError
        If there are fewer than two leads.

    Notes
    -----
    Every strand weighs the same within its lead, every lead the same in the
    mean, whatever the number of fields.
    """
    leads = _lead_means(counts, with_twins=False)
    if len(leads) < 2:
        raise ParameterError(
            "counts", f"{len(leads)} lead(s)", allowed="fields of two leads or more"
        )
    strand_means = [
        mean
        for lead in leads
        for mean in _strand_means(counts, lead, with_twins=False).values()
    ]
    fields = [count.mean_intercept_um() for count in counts]
    return NestedMeans(
        by_lead=mean_over_level(tuple(leads.values()), level="lead"),
        with_twins_um=fmean(_lead_means(counts, with_twins=True).values()),
        lead_means_um=tuple(leads.items()),
        strands=len(strand_means),
        fields=len(fields),
        interval_as_if_strands_um=_half_width(strand_means, "strand"),
        interval_as_if_fields_um=_half_width(fields, "field"),
    )


def _lead_means(counts: Sequence[FieldCount], *, with_twins: bool) -> dict[str, float]:
    leads = dict.fromkeys(count.lead for count in counts)
    return {
        lead: fmean(_strand_means(counts, lead, with_twins=with_twins).values())
        for lead in leads
    }


def _strand_means(
    counts: Sequence[FieldCount], lead: str, *, with_twins: bool
) -> dict[str, float]:
    values: dict[str, list[float]] = {}
    for count in counts:
        if count.lead == lead:
            intercept = count.mean_intercept_um(with_twins=with_twins)
            values.setdefault(count.strand, []).append(intercept)
    return {strand: fmean(intercepts) for strand, intercepts in values.items()}


def _half_width(values: Sequence[float], level: str) -> float:
    interval = mean_over_level(values, level=level).interval95
    return interval.half_width if interval and interval.half_width else 0.0
