"""Two readers and the program side by side, in words."""

from strandproof.app.workflow.reading_by_people.comparison import (
    ReadersCompared,
    ThirdReading,
)
from strandproof.app.workflow.reading_by_people.program import ProgramOnField
from strandproof.app.workflow.reading_by_people.words import count_in_words
from strandproof.grainsize import ReaderAgreement
from strandproof.grainsize.marks import NOT_MARKED, MarkComparison
from strandproof.records.entries import Reading
from strandproof.report import value_in_words


def comparison_in_words(compared: ReadersCompared) -> tuple[str, ...]:
    """Say how two readers compare, with every difference side by side.

    Parameters
    ----------
    compared : ReadersCompared
        From `compare_readers`.

    Returns
    -------
    tuple of str
        Agreement; each verdict that differs with both reasons; marks; the
        program's reading.
    """
    first, second = compared.first, compared.second
    lines = [agreement_in_words(first, second, compared.verdicts)]
    for each in compared.differences:
        named = f"{each.code} ({each.reads})" if each.code else each.reads
        mine, theirs = _judged(first, each.first), _judged(second, each.second)
        lines.append(f"  {named}: {mine}; {theirs}")
    for field in compared.marked:
        lines.append(f"{field.reads}, marked on the same test lines:")
        for reader, count in ((first, field.first), (second, field.second)):
            lines += [f"  {reader}: {words}" for words in count_in_words(count)]
        lines += [
            f"  {words}" for words in marks_in_words(first, second, field.comparison)
        ]
    for anew in compared.classed_anew:
        reading = anew.reading
        lines.append(
            f"{reading.reader} classed marks of {reading.id} anew after the hint; "
            "compared is what was locked. Now:"
        )
        lines += [f"  {words}" for words in count_in_words(anew.count)]
    if compared.not_blind:
        lines.append(f"Not read blind: {', '.join(compared.not_blind)}.")
    lines += [_third_in_words(third) for third in compared.third]
    return tuple(lines)


def _judged(reader: str, reading: Reading) -> str:
    reason = f" ({reading.reason})" if reading.reason else " (no reason given)"
    return f"{reader} {_class(reading.verdict)}{reason}"


def _third_in_words(third: ThirdReading) -> str:
    found = {result.name: result for result in third.measurement.results}
    mean = found.get("mean_intercept")
    size = "mean intercept not stated"
    if mean is not None and mean.value is not None:
        size = f"mean intercept {value_in_words(mean.value)} within this picture"
    return (
        f"Program on {third.reads}: {third.measurement.verdict}, {size}. A third "
        "reading; it decides nothing."
    )


def agreement_in_words(first: str, second: str, found: ReaderAgreement) -> str:
    """Say how far two readers agree.

    Parameters
    ----------
    first, second : str
        The readers.
    found : ReaderAgreement
        From `reader_agreement`.

    Returns
    -------
    str
        Share alike with exact limits, Cohen's kappa with its interval.
    """
    kappa = "not defined (one category throughout)"
    if found.kappa is not None:
        kappa = f"{found.kappa:.2f}"
        kappa += (
            f" ({_limits(found.kappa95.lower, found.kappa95.upper)}, 95 %, rough for "
            "few pieces)"
            if found.kappa95 is not None
            else " (no interval: they never differ)"
        )
    share = _limits(found.share95.lower, found.share95.upper)
    return (
        f"{first} and {second} agree on {found.same} of {found.pieces} (95 % limits of "
        f"the share: {share}); Cohen's kappa {kappa}, not readable included."
    )


def marks_in_words(first: str, second: str, found: MarkComparison) -> tuple[str, ...]:
    """Say how far two readers' marks on the same lines agree.

    Parameters
    ----------
    first, second : str
        The readers.
    found : MarkComparison
        From `compare_marks`.

    Returns
    -------
    tuple of str
        A summary, then every difference with its line and place.
    """
    same = sum(pair.same for pair in found.pairs)
    summary = (
        f"{len(found.pairs)} marks: {same} set by both and classed alike, "
        f"{len(found.matched) - same} classed differently, "
        f"{len(found.pairs) - len(found.matched)} set by one only. Marks within "
        f"{found.tolerance_px:g} px are the same mark; chance alone would pair about "
        f"{found.matched_by_chance:.1f}."
    )
    lines = [summary]
    for pair in found.differences:
        mine = NOT_MARKED if pair.first is None else _class(pair.first.feature)
        theirs = NOT_MARKED if pair.second is None else _class(pair.second.feature)
        lines.append(
            f"  line {pair.line}, {pair.along_px:.0f} px along: "
            f"{first} {mine}; {second} {theirs}"
        )
    return tuple(lines)


def program_in_words(
    compared: ReadersCompared, seen: ProgramOnField
) -> tuple[str, ...]:
    """Say what the program sees on the lines that two readers marked.

    Parameters
    ----------
    compared : ReadersCompared
        The two readers.
    seen : ProgramOnField
        From `program_beside_readers`.

    Returns
    -------
    tuple of str
        Boundaries that the program shares with each reader.
    """
    found = sum(
        mark.feature == "boundary" for line in seen.lines for mark in line.marks
    )
    noun = "boundary" if found == 1 else "boundaries"
    lines = [f"Program on the same lines of {seen.reads}: {found} {noun}."]
    for reader, against in (
        (compared.first, seen.against_first),
        (compared.second, seen.against_second),
    ):
        marked = sum(
            p.first is not None and p.first.feature == "boundary" for p in against.pairs
        )
        shared = sum(
            pair.same and pair.first is not None and pair.first.feature == "boundary"
            for pair in against.pairs
        )
        lines.append(
            f"  {shared} of the {marked} that {reader} marked as boundaries; chance "
            f"alone would pair about {against.matched_by_chance:.1f} marks."
        )
    lines.append(
        "  A third reading; it decides nothing, and it knows no twins, scratches or "
        "slip traces."
    )
    return tuple(lines)


def _class(feature: str) -> str:
    return feature.replace("_", " ")


def _limits(lower: float | None, upper: float | None) -> str:
    return f"{lower or 0.0:.2f} to {upper or 0.0:.2f}"
