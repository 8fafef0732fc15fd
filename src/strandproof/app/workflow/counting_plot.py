"""The drawing of single intercepts or grain areas that a count rests on."""

from dataclasses import dataclass
from pathlib import Path
from typing import Literal

from markupsafe import Markup

from strandproof.app.workflow.counting import CountedPicture
from strandproof.errors import ParameterError
from strandproof.grainsize.procedures.single_values import SingleValues, single_values
from strandproof.quantity import reciprocal_interval
from strandproof.records.structure_findings import StrandCounts
from strandproof.report.plots import MeanWithInterval, histogram_svg
from strandproof.storage import write_output_file

PlotOf = Literal["intercepts", "areas"]


@dataclass(frozen=True, slots=True)
class CountPlots:
    """What was drawn of a count.

    Parameters
    ----------
    files : tuple of Path
        One SVG file for each piece of metal drawn.
    not_drawn : tuple of str
        Why a piece of metal has none, in sentences.
    """

    files: tuple[Path, ...]
    not_drawn: tuple[str, ...]


def write_count_plots(
    result: CountedPicture, target: Path, *, of: PlotOf = "intercepts"
) -> CountPlots:
    """Draw single intercepts or grain areas, one histogram for each piece of metal.

    A piece of metal whose mean may not be stated is not drawn.

    Parameters
    ----------
    result : CountedPicture
        A counted picture.
    target : Path
        The SVG file; with several pieces of metal each gets its number at the end.
    of : {"intercepts", "areas"}
        What to draw.

    Returns
    -------
    CountPlots
        Files and reasons.
    """
    files: list[Path] = []
    reasons: list[str] = []
    several = len(result.counts.strands) > 1
    for counts, values in zip(
        result.counts.strands,
        single_values(result.structure, result.settings),
        strict=True,
    ):
        drawing = _histogram(result, counts, values, of)
        if drawing is None:
            reason = _reason(counts)
            reasons.append(f"Strand {counts.number} is not drawn: {reason}")
            continue
        end = f"-{counts.number}" if several else ""
        files.append(target.with_name(f"{target.stem}{end}{target.suffix}"))
        write_output_file(files[-1], str(drawing).encode("utf-8"))
    return CountPlots(tuple(files), tuple(reasons))


def _histogram(
    result: CountedPicture, counts: StrandCounts, values: SingleValues, of: PlotOf
) -> Markup | None:
    """Draw one piece of metal; None where no mean may be stated of it."""
    if not counts.standing.may_state_mean:
        return None
    mean = _mean_intercept(counts) if of == "intercepts" else _mean_area(counts)
    single = values.intercepts if of == "intercepts" else values.areas
    if mean is None or not single.size:
        return None
    unit = "px" if result.settings.pixel_size is None else "um"
    whole = (
        "intercepts between two boundaries" if of == "intercepts" else "grains not cut"
    )
    return histogram_svg(
        single.tolist(),
        mean=mean,
        quantity="lineal intercept" if of == "intercepts" else "grain area",
        unit=unit if of == "intercepts" else f"{unit}^2",
        title=f"{result.name}, strand {counts.number}: {whole}. "
        "The mean counts cut ones too",
    )


def _reason(counts: StrandCounts) -> str:
    if not counts.standing.may_state_mean:
        return counts.standing.sentence
    return "too few boundaries were met for a mean."


def _mean_intercept(counts: StrandCounts) -> MeanWithInterval | None:
    """Give the mean of the lines in four directions, or of the first procedure.

    Raises
    ------
    ParameterError
        If no procedure with lines was asked for.
    """
    lines = sorted(counts.lines, key=lambda line: line.procedure != "heyn_lines")
    if not lines:
        raise ParameterError(
            "plot", "intercepts", allowed="intercepts with a procedure of lines"
        )
    found = lines[0].mean_intercept
    return None if found is None else MeanWithInterval.of_estimate(found)


def _mean_area(counts: StrandCounts) -> MeanWithInterval | None:
    """Give the area per grain over all metal, or by the first procedure.

    Raises
    ------
    ParameterError
        If no procedure with areas was asked for.
    """
    areas = sorted(counts.areas, key=lambda area: area.procedure != "whole_area")
    if not areas:
        raise ParameterError("plot", "areas", allowed="areas with a procedure of areas")
    density = areas[0].grains_per_area
    if density is None:
        return None
    # Grains are drawn in um^2, and counted by the mm^2.
    size = 1e6 if density.quantity.unit == "1/mm^2" else 1.0
    mean = size / density.quantity.value
    if density.interval95 is None:
        return MeanWithInterval(value=mean)
    ends = reciprocal_interval(density.interval95, unit="1")
    return MeanWithInterval(
        value=mean,
        lower=None if ends.lower is None else size * ends.lower,
        upper=None if ends.upper is None else size * ends.upper,
        confidence=ends.confidence,
    )
