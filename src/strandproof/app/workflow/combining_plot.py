"""The drawing of a grain size that was combined from many fields."""

from math import isclose
from pathlib import Path

from markupsafe import Markup

from strandproof.app.workflow.combining import ReadersAsked, field_counts
from strandproof.app.workflow.entering import open_case
from strandproof.errors import ParameterError
from strandproof.grainsize import FieldCount, NestedMeans, nested_means
from strandproof.records.case_state import CaseState
from strandproof.records.entries import Calibration, Measurement
from strandproof.report.figures import Drawing
from strandproof.report.plots import level_scatter_plot
from strandproof.storage import write_output_file

# This mean stands in the entry as it was computed, without any correction.
_KNOWN_AGAIN_BY = "mean_intercept_with_twins"
_SAME_NUMBER = 1e-9
_CAPTION = (
    "Every field counted, the means of strands and leads, and the interval that each "
    "level gives. Only the one by lead speaks for more than the pieces examined; it is "
    "drawn with the scatter of the leads alone."
)


def write_combined_plot(folder: Path, readers: ReadersAsked, target: Path) -> None:
    """Draw what a combined grain size is made of, and write it as SVG.

    Parameters
    ----------
    folder : Path
        Folder of the case.
    readers : ReadersAsked
        Whose counts, and by which scale.
    target : Path
        The SVG file; it must not be there.
    """
    counts = field_counts(open_case(folder), readers)
    drawing = _drawn(counts, nested_means(counts))
    write_output_file(target, str(drawing).encode("utf-8"))


def combined_drawings(state: CaseState) -> dict[str, Drawing]:
    """Draw the combined grain sizes of a case for its report.

    The drawing is made anew from the readings. It is left out where the numbers do
    not come out as they were entered, for example because readings came later.

    Parameters
    ----------
    state : CaseState
        State of the case.

    Returns
    -------
    dict of str to Drawing
        By short name of the measurement.
    """
    found = {
        measurement.id: _redrawn(state, measurement)
        for measurement in state.records(Measurement)
    }
    return {label: drawing for label, drawing in found.items() if drawing is not None}


def _redrawn(state: CaseState, measurement: Measurement) -> Drawing | None:
    entered = {result.name: result.value for result in measurement.results}
    known = entered.get(_KNOWN_AGAIN_BY)
    if known is None or not measurement.measures.startswith("case/"):
        return None
    for calibration in state.records(Calibration):
        readers = ReadersAsked(measurement.measured_by, "", calibration.id)
        try:
            counts = field_counts(state, readers)
            means = nested_means(counts)
        except ParameterError:
            # Later readings that cannot be combined take no report away.
            return None
        if isclose(means.with_twins_um, known.value, rel_tol=_SAME_NUMBER):
            return Drawing(_drawn(counts, means), _alt(means), _CAPTION)
    return None


def _drawn(counts: tuple[FieldCount, ...], means: NestedMeans) -> Markup:
    title = "Mean lineal intercepts of fields, strands and leads"
    return level_scatter_plot(counts, means, title=title)


def _alt(means: NestedMeans) -> str:
    leads = "; ".join(f"{lead} {mean:.2f} µm" for lead, mean in means.lead_means_um)
    return (
        f"Mean lineal intercepts of {means.fields} fields on {means.strands} strands. "
        f"Means by lead: {leads}. The intervals by level stand in the table."
    )
