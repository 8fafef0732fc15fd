"""Fields within strands within leads: means by level from counts on test lines."""

from collections.abc import Sequence
from dataclasses import dataclass

from strandproof.errors import ParameterError
from strandproof.grainsize.by_level import (
    LevelInterval,
    NestedValues,
    VarianceComponents,
    intervals_by_level,
    unit_means,
    variance_components,
)
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
    section : str
        Section of the strand; empty where each strand has one.
    uncertain : int
        Marks that may be boundaries, not counted among them.
    """

    lead: str
    strand: str
    field: str
    line_length_um: float
    boundaries: int
    twins: int = 0
    section: str = ""
    uncertain: int = 0

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

    def mean_intercept_um(
        self, *, with_twins: bool = False, with_uncertain: bool = False
    ) -> float:
        """Give the mean lineal intercept of this field.

        Parameters
        ----------
        with_twins : bool
            Count twin boundaries as boundaries too.
        with_uncertain : bool
            Count uncertain marks as boundaries too.

        Returns
        -------
        float
            Line length over crossings [um].
        """
        crossed = self.boundaries
        crossed += self.twins if with_twins else 0
        crossed += self.uncertain if with_uncertain else 0
        return self.line_length_um / crossed


@dataclass(frozen=True, slots=True, kw_only=True)
class NestedMeans:
    """Mean intercepts by level, with the interval of every level.

    Parameters
    ----------
    by_lead : Estimate
        Mean of the leads' means with its t interval over leads [um]: the one that
        speaks for the product.
    with_twins_um, with_uncertain_um : float
        The same mean with twin boundaries, or with uncertain marks, counted [um],
        for comparison only.
    lead_means_um : tuple of (str, float)
        Mean of each lead's strand means [um].
    strands, fields : int
        How many stand behind it.
    levels : tuple of LevelInterval
        By lead, strand, section and field, where the design shows scatter there;
        all but the first hold for the pieces examined only [um].
    components : VarianceComponents
        How much of the scatter sits at which level [um^2].
    interval_as_if_strands_um, interval_as_if_fields_um : float
        Half-widths that one would get by taking strands or fields for
        independent [um]; too narrow, shown as a warning.
    """

    by_lead: Estimate
    with_twins_um: float
    with_uncertain_um: float
    lead_means_um: tuple[tuple[str, float], ...]
    strands: int
    fields: int
    levels: tuple[LevelInterval, ...]
    components: VarianceComponents
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
        Means, intervals, components.

    Raises
    ------
    ParameterError
        If there are fewer than two leads, or one field is given twice.

    Notes
    -----
    Every section weighs the same within its strand, every strand within its lead,
    every lead in the mean, whatever the number of fields.
    """
    values = _nested(counts, [count.mean_intercept_um() for count in counts])
    leads = unit_means(values, 1)
    if len(leads) < 2:
        raise ParameterError(
            "counts", f"{len(leads)} lead(s)", allowed="fields of two leads or more"
        )
    strand_means = tuple(unit_means(values, 2).values())
    with_twins = [count.mean_intercept_um(with_twins=True) for count in counts]
    with_uncertain = [count.mean_intercept_um(with_uncertain=True) for count in counts]
    return NestedMeans(
        by_lead=mean_over_level(tuple(leads.values()), level="lead"),
        with_twins_um=unit_means(_nested(counts, with_twins), 0)[()],
        with_uncertain_um=unit_means(_nested(counts, with_uncertain), 0)[()],
        lead_means_um=tuple((name, mean) for (name,), mean in leads.items()),
        strands=len(strand_means),
        fields=len(values.values),
        levels=intervals_by_level(values, unit="um"),
        components=variance_components(values, unit="um"),
        interval_as_if_strands_um=_half_width(strand_means, "strand"),
        interval_as_if_fields_um=_half_width(values.values, "field"),
    )


def _nested(counts: Sequence[FieldCount], values: Sequence[float]) -> NestedValues:
    return NestedValues(
        levels=("lead", "strand", "section", "field"),
        places=tuple(
            (count.lead, count.strand, count.section, count.field) for count in counts
        ),
        values=tuple(values),
    )


def _half_width(values: Sequence[float], level: str) -> float:
    interval = mean_over_level(values, level=level).interval95
    return interval.half_width if interval and interval.half_width else 0.0
