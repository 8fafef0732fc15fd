"""A judged certificate in words for people and as data for programs."""

from collections.abc import Iterator
from dataclasses import asdict
from math import isfinite
from typing import Any

from strandproof.composition import (
    CertificateJudgement,
    GradeCheck,
    ImpurityTotal,
    LimitCheck,
    Range,
    purity_in_words,
    stated_nines,
)
from strandproof.quantity import format_quantity
from strandproof.records import FLAGS
from strandproof.records.composition import Certificate

_BEARS = (
    "It judges the paper by its own numbers. It cannot say that the item analysed is "
    "the metal of the product, and nothing about crystals or casting route."
)


def certificate_in_words(judgement: CertificateJudgement) -> tuple[str, ...]:
    """Say what a certificate allows to say.

    Parameters
    ----------
    judgement : CertificateJudgement
        From `judge_read_certificate`.

    Returns
    -------
    tuple of str
        Lines for people.
    """
    return (
        *_head(judgement.certificate),
        *_totals(judgement),
        *(f"Contradiction: {each.sentence}" for each in judgement.contradictions),
        *(f"Not reported: {one.symbol}, {one.why}." for one in judgement.missing),
        *(line for check in judgement.grades for line in _grade(check)),
        *_consequence(judgement),
        *_flags(judgement),
        _BEARS,
    )


def certificate_data(judgement: CertificateJudgement) -> dict[str, Any]:
    """Give what a certificate allows to say as plain data.

    Parameters
    ----------
    judgement : CertificateJudgement
        From `judge_read_certificate`.

    Returns
    -------
    dict
        JSON data; an unbounded end is null.
    """
    consequence = judgement.consequence
    return {
        "certificate": asdict(judgement.certificate),
        "totals": [_total_data(total) for total in judgement.totals],
        "contradictions": [asdict(each) for each in judgement.contradictions],
        "missing": [asdict(each) for each in judgement.missing],
        "grades": [
            {**asdict(check), "meets": check.meets, "sentence": check.sentence}
            for check in judgement.grades
        ],
        "residual_resistivity_nohm_m": _range_data(consequence.residual_nohm_m),
        "percent_iacs": _range_data(consequence.percent_iacs),
        "residual_ratio_273_over_4": _range_data(consequence.residual_ratio),
        "effect_unknown": list(consequence.unknown),
        "held_against": [
            {
                "name": held.name,
                "measured": held.measured.value,
                "standard_uncertainty": held.measured.standard_uncertainty,
                "agreement": held.agreement,
                "sentence": held.sentence,
            }
            for held in judgement.held_against
        ],
        "flags": [flag.name for flag in judgement.flags],
    }


def _head(certificate: Certificate) -> Iterator[str]:
    named = [certificate.item, certificate.lot, certificate.method]
    parts = ", ".join(part for part in named if part)
    issuer = certificate.issuer or "issuer not stated"
    accredited = certificate.accreditation or "no accreditation stated"
    yield f"Certificate of {parts}; {issuer}, {accredited}."
    limits = sum(one.state == "below" for one in certificate.contents)
    numbers = sum(one.state == "value" for one in certificate.contents)
    silent = len(certificate.contents) - limits - numbers
    yield (
        f"{len(certificate.measured)} elements: {numbers} with a number, {limits} "
        f"below a detection limit; {silent} named as not measured."
    )
    basis = certificate.basis.value.replace("_", " ")
    if certificate.nines:
        stated = stated_nines(certificate.nines)
        yield (
            f"States {stated.word} ({basis}): {stated.purity_percent:g} %, at most "
            f"{stated.impurity_ppm:g} ppm of whatever that basis counts."
        )
    if certificate.copper_percent is not None:
        yield f"States {certificate.copper_percent:g} % copper ({basis})."


def _totals(judgement: CertificateJudgement) -> Iterator[str]:
    metals, whole = judgement.totals
    yield from _total(metals)
    if metals.elements != whole.elements:
        yield from _total(whole)
    else:
        yield (
            "With gases in: no gas is listed, so the list says nothing about the "
            "purity with gases in."
        )


def _total(total: ImpurityTotal) -> Iterator[str]:
    yield total.sentence
    if not total.limits_ppm:
        return
    yield (
        f"  Hard ends: {total.lowest_ppm:.4g} ppm, nothing below a limit present "
        f"({purity_in_words(total.lowest_ppm)}), to {total.highest_ppm:.4g} ppm, "
        f"each at its limit ({purity_in_words(total.highest_ppm)})."
    )
    for each in total.treatments:
        interval = each.interval
        yield (
            f"  If {each.assumption} ({each.name}): {each.expected_ppm:.4g} ppm, "
            f"{interval.lower:.4g} to {interval.upper:.4g} ppm (95 %)."
        )


def _grade(check: GradeCheck) -> Iterator[str]:
    yield check.sentence
    for row in check.limits:
        yield f"  {row.name}: {_content(row)}; {_verdict(row)}"
    for origin in dict.fromkeys(map(_origin, check.limits)):
        names = [row.name for row in check.limits if _origin(row) == origin]
        which = "all" if len(names) == len(check.limits) else ", ".join(names)
        yield f"  Source of the limits ({which}): {origin}."


def _content(row: LimitCheck) -> str:
    word = "at least" if row.unit == "%" else "at most"
    limit = f"{word} {row.limit:g} {row.unit}"
    if row.highest is None or row.lowest is None:
        return f"limit {limit}"
    if row.lowest == row.highest:
        return f"{row.highest:g}, limit {limit}"
    return f"{row.lowest:g} to {row.highest:g}, limit {limit}"


def _verdict(row: LimitCheck) -> str:
    if row.unit == "%":
        words = {"within": "stated so", "above": "stated lower"}
        return words.get(row.verdict, "not stated")
    silent = "not measured" if row.lowest is None else "not all of it measured"
    return {
        "within": "within",
        "above": "ABOVE",
        "too_close": "too close to call",
        "cannot_tell": "cannot tell: the detection limit is above the limit",
        "not_measured": silent,
    }[row.verdict]


def _origin(row: LimitCheck) -> str:
    return f"{row.source} ({row.status})"


def _consequence(judgement: CertificateJudgement) -> Iterator[str]:
    found = judgement.consequence
    yield (
        "By the list alone, thick annealed metal: residual resistivity "
        f"{_range(found.residual_nohm_m)} nohm m; {_range(found.percent_iacs)} % IACS; "
        f"R(273 K)/R(4.2 K) {_range(found.residual_ratio)} (all dissolved to all "
        "precipitated; specific resistivities mostly from memory)."
    )
    shares = [f"{name} {share:.2g}" for name, share in found.shares[:3]]
    if shares:
        yield f"  Most of it, in nohm m: {', '.join(shares)}."
    if found.unknown:
        yield f"  Effect not known here, left out: {', '.join(found.unknown)}."
    for held in judgement.held_against:
        yield f"Measured {held.name} {format_quantity(held.measured)}. {held.sentence}"


def _flags(judgement: CertificateJudgement) -> Iterator[str]:
    shown = {each.name for each in judgement.contradictions}
    for name in dict.fromkeys(flag.name for flag in judgement.flags):
        if name not in shown:
            yield f"Keep in mind: {FLAGS[name].meaning} {FLAGS[name].remedy}"


def _range(found: Range) -> str:
    ends = [found.lowest, found.expected, found.highest]
    low, middle, high = (f"{end:.4g}" if isfinite(end) else "no end" for end in ends)
    return f"{middle} ({low} to {high})"


def _range_data(found: Range) -> dict[str, float | None]:
    return {
        name: value if isfinite(value) else None
        for name, value in asdict(found).items()
    }


def _total_data(total: ImpurityTotal) -> dict[str, Any]:
    return {
        "basis": total.basis.value,
        "elements": list(total.elements),
        "left_out": list(total.left_out),
        "lowest_ppm": total.lowest_ppm,
        "highest_ppm": total.highest_ppm,
        "bound_ppm": total.bound_ppm,
        "confidence": total.bound.confidence,
        "nines_at_bound": purity_in_words(min(total.bound_ppm, 1e6)),
        "treatments": [
            {
                "name": each.name,
                "expected_ppm": each.expected_ppm,
                "lower_ppm": each.interval.lower,
                "upper_ppm": each.interval.upper,
            }
            for each in total.treatments
        ],
    }
