"""A report as plain data: for the paper version, and as findings for programs."""

from typing import Any

from strandproof.records.entries import Cost, WeighingPair
from strandproof.report.case_report import CaseReport, SaidClaim
from strandproof.report.findings import Finding
from strandproof.report.keeping import CUSTODY_DRAWING
from strandproof.report.plan import plan_lines
from strandproof.report.weighings import WeighedClaim

FINDINGS_SCHEMA = "strandproof-findings"
FINDINGS_VERSION = 1


def findings_data(report: CaseReport) -> dict[str, Any]:
    """Give what a report found as JSON data, unrounded, with units.

    Parameters
    ----------
    report : CaseReport
        A report.

    Returns
    -------
    dict
        Schema ``strandproof-findings``, version 1.
    """
    return {
        "schema": FINDINGS_SCHEMA,
        "schema_version": FINDINGS_VERSION,
        "case": report.case.model_dump(mode="json"),
        "head": report.head,
        "entries": report.entries,
        "made_at": report.made_at.isoformat(),
        "program": report.program,
        "synthetic_pictures": report.synthetic,
        "disclosure": report.disclosure,
        "answer": list(report.answer.sentences()),
        "claim_grid": {
            "places": list(report.said_where.columns),
            "rows": [list(row) for row in report.said_where.rows],
        },
        "claims": [said.claim.model_dump(mode="json") for said in report.claims],
        "measurements": [
            {"sentence": found.sentence, **found.measurement.model_dump(mode="json")}
            for found in report.findings
        ],
        "third_readings": [
            reading.measurement.model_dump(mode="json")
            for reading in report.third_readings
        ],
        "weighings": [
            weighed.weighing.model_dump(mode="json") for weighed in report.weighed
        ],
        "papers": [
            {"document": each.document.id, "judged": each.paragraph}
            for each in report.papers.papers
        ],
        "coverage": [
            {
                "claim": row.claim.id,
                "kind": row.kind.value,
                "tested_by": list(row.tested_by),
            }
            for row in report.coverage
        ],
        "open_points": list(report.open_points),
        "not_shown": list(report.not_shown),
        "plan": _plan(report),
    }


def paper_data(report: CaseReport) -> dict[str, Any]:
    """Give the words of a report as plain data for the paper template.

    Parameters
    ----------
    report : CaseReport
        A report.

    Returns
    -------
    dict
        Texts only; numbers are already words.
    """
    return {
        **_cover(report),
        **_interests(report),
        **_received(report),
        "claims": [_claim(said) for said in report.claims],
        "coverage": _coverage(report),
        "papers": [
            f"{each.document.id}: {each.paragraph}" for each in report.papers.papers
        ],
        "papers_on_claims": list(report.papers.on_claims),
        "pieces": _pieces(report),
        "custody": _custody(report),
        "keeping": _keeping(report),
        "plan": _plan(report),
        "findings": [_finding(found) for found in report.findings],
        "readings": [
            [
                each.micrograph,
                each.mean_intercept,
                each.g,
                each.grains,
                each.measurement.verdict,
            ]
            for each in report.third_readings
        ],
        "readings_flags": _reading_flags(report),
        "weighed": [_weighed(each) for each in report.weighed],
        "figures": [
            {"name": f"figure-{number}.svg", "alt": each.alt, "caption": each.caption}
            for number, each in enumerate(report.figures)
        ],
        "open_points": list(report.open_points),
        "not_shown": list(report.not_shown),
    }


def _cover(report: CaseReport) -> dict[str, Any]:
    return {
        "id": report.case.id,
        "title": report.case.title,
        "question": report.case.question,
        "owner": report.case.owner,
        "language": report.case.language,
        "head": report.head,
        "entries": str(report.entries),
        "made_at": report.made_at.strftime("%Y-%m-%d %H:%M UTC"),
        "program": report.program,
        "synthetic": report.synthetic,
        "answer": list(report.answer.sentences()),
    }


def _interests(report: CaseReport) -> dict[str, Any]:
    return {
        "disclosures": [each.statement for each in report.interests.disclosures],
        "own": [
            {"words": each.words, "place": each.place, "due": each.correction_due}
            for each in report.interests.own_statements
        ],
        "costs": [_cost(each) for each in report.interests.costs],
    }


def _received(report: CaseReport) -> dict[str, Any]:
    built = report.built
    return {
        "disclosure": report.disclosure,
        "cost_total": report.cost_total,
        "grid_head": ["Words", *report.said_where.columns],
        "grid_rows": [list(row) for row in report.said_where.rows],
        "grid_sentences": list(report.said_where.sentences),
        "received": [
            " ".join((came, *further)) for came, further in report.received.pieces
        ],
        "built": [
            [
                each.exhibit,
                each.part,
                each.made_of or "not identified",
                each.count,
                each.size,
            ]
            for each in built.rows
        ],
        "targets": [
            *built.targets,
            *([f"Not tested: {'; '.join(built.not_tested)}."] if built.rows else []),
        ],
    }


def _coverage(report: CaseReport) -> list[list[str]]:
    return [
        [
            row.claim.id,
            row.kind.value.replace("_", " "),
            "; ".join(row.readings) or "no reading of this kind",
            ", ".join(row.tested_by) or "not tested",
        ]
        for row in report.coverage
    ]


def _pieces(report: CaseReport) -> list[list[str]]:
    return [
        [
            f"{piece.exhibit.id}: {piece.exhibit.description}",
            piece.exhibit.provenance,
            piece.exhibit.lot_mark or "none",
            str(len(piece.specimens)),
            str(len(piece.sections)),
        ]
        for piece in report.pieces
    ]


def _claim(said: SaidClaim) -> dict[str, Any]:
    claim = said.claim
    when = claim.said_at.strftime("%Y-%m-%d %H:%M UTC")
    return {
        "id": claim.id,
        "words": claim.words,
        "translation": claim.translation,
        "by": f"{claim.speaker} ({claim.speaker_role.value}), {claim.medium}, {when}",
        "kinds": "; ".join(said.kinds),
        "readings": "; ".join(f"“{reading.words}”" for reading in claim.readings),
        "not_said": "; ".join(said.not_said) or "no place was searched and had none",
        "not_looked_at": "; ".join(said.not_looked_at),
    }


def _cost(cost: Cost) -> str:
    amount = "" if cost.amount is None else f": {cost.amount:.2f} {cost.currency}"
    hours = "" if cost.hours is None else f": {cost.hours:g} hours"
    return f"{cost.purpose}{amount}{hours}, paid by {cost.paid_by}."


def _reading_flags(report: CaseReport) -> list[str]:
    readings = report.third_readings
    standing = [f"Open flag. {line}" for each in readings for line in each.standing]
    meanings = [flag.meaning for each in readings for flag in each.flags]
    return list(dict.fromkeys((*standing, *meanings)))


def _custody(report: CaseReport) -> list[str]:
    custody = report.custody
    lines = [
        f"{each.giver} to {each.receiver}, {each.given_at:%Y-%m-%d %H:%M} to "
        + (f"{each.received_at:%Y-%m-%d %H:%M}" if each.received_at else "under way")
        + f" UTC, {each.condition}."
        + (f" Note: {each.note}." if each.note else "")
        for each in custody.hand_overs
    ]
    lines += [
        f"{each.event}: "
        + (
            "temperature not recorded"
            if each.highest_temperature_c is None
            else f"at most {each.highest_temperature_c:g} °C"
        )
        for each in custody.handling
    ]
    lines += [f"{each.step}: {each.description}" for each in custody.preparation]
    return lines


def _plan(report: CaseReport) -> dict[str, Any]:
    told = report.plan
    return {
        "plans": [
            {
                "name": f"{plan.id}, for {', '.join(plan.claims)}",
                "locked": (
                    f"Locked by {plan.locked_by} on {plan.locked_at:%Y-%m-%d %H:%M} "
                    f"UTC. SHA-256 of the plan {plan.plan_sha256}"
                ),
                "rows": [list(row) for row in plan_lines(plan)],
            }
            for plan in told.plans
        ],
        "changes": [
            f"{each.words} {each.by_record}"
            + ("" if each.agrees else f" {each.by_word} Word and record differ.")
            for each in told.changes
        ],
        "fields": list(told.account.lines) if told.account.fields else [],
        "field_rows": [list(row) for row in told.field_rows],
        "blinding": list(told.blinding),
    }


def _keeping(report: CaseReport) -> dict[str, Any]:
    kept = report.keeping
    return {
        "drawings": [
            {"name": CUSTODY_DRAWING, "alt": drawing.alt, "caption": drawing.caption}
            for drawing in (kept.drawing,)
            if drawing is not None
        ],
        "custody": [
            *([kept.without_gap] if kept.without_gap else ()),
            *(" ".join((each.line, *each.beside)) for each in kept.gaps),
            *kept.seals,
        ],
        "times": kept.times if kept.gaps else "",
        "flags": [" ".join((each.line, *each.beside)) for each in kept.flags],
        "ledger": [list(row) for row in kept.ledger],
        "preparation": [list(row) for row in kept.preparation],
        "caution": kept.caution,
        "controls": list(kept.controls),
        "ceiling": list(kept.ceiling),
    }


def _finding(found: Finding) -> dict[str, Any]:
    measurement = found.measurement
    return {
        "id": measurement.id,
        "sentence": found.sentence,
        "method": (
            f"{measurement.method}; {measurement.measured_by}, "
            f"{measurement.measured_at:%Y-%m-%d}"
            + (
                f"; resolved structure: {measurement.verdict}"
                if measurement.verdict
                else ""
            )
        ),
        "rows": [list(row) for row in found.rows],
        "drawings": _drawings(found),
        "bears_on": "; ".join(found.bears_on) or "none of the kinds of claim",
        "does_not": "; ".join(found.does_not_bear_on),
        "standing": list(found.standing),
        "flags": [flag.meaning for flag in found.flags],
    }


def _drawings(found: Finding) -> list[dict[str, str]]:
    """Give the drawing of a finding, if it has one."""
    return [
        {
            "name": f"drawing-{found.measurement.id}.svg",
            "alt": drawing.alt,
            "caption": drawing.caption,
        }
        for drawing in (found.drawing,)
        if drawing is not None
    ]


def _weighed(each: WeighedClaim) -> dict[str, Any]:
    return {
        "id": each.claim.id,
        "words": each.claim.words,
        "about": each.about,
        "result": each.weighing.result,
        "observation": each.observation.statement,
        "hypotheses": [f"{h.id}: {h.statement}" for h in each.hypotheses],
        "left_out": [
            f"{h.id}: {h.statement} Left out: {h.left_out_because}."
            for h in each.left_out
        ],
        "deciding": _pair(each.deciding) if each.deciding else "",
        "no_help": [_pair(pair) for pair in each.no_help],
        "note": each.weighing.note.splitlines(),
        "bars": f"bars-{each.claim.id}.svg",
        "earlier": list(each.earlier),
    }


def _pair(pair: WeighingPair) -> str:
    return f"{pair.first} against {pair.second}: {pair.words}"
