"""What a table of orientations gave, as plain data."""

from dataclasses import asdict
from typing import Any

from strandproof.app.workflow.orientating import OrientationAnswer
from strandproof.app.workflow.orientation_words import orientations_in_words
from strandproof.records.orientation_results import (
    BoundaryClass,
    OrientationMapResult,
    PlaceMatch,
)

ORIENTATIONS_SCHEMA = "strandproof-orientations"
ORIENTATIONS_VERSION = 1


def orientations_data(answer: OrientationAnswer) -> dict[str, Any]:
    """Give what a table of orientations gave as plain data.

    Parameters
    ----------
    answer : OrientationAnswer
        From `examine_orientations`.

    Returns
    -------
    dict
        Schema ``strandproof-orientations``, version 1. Units stand in the names;
        what does not apply is None.
    """
    question = answer.question
    return {
        "schema": ORIENTATIONS_SCHEMA,
        "schema_version": ORIENTATIONS_VERSION,
        "file": answer.table.name,
        "notes": list(answer.table.notes),
        "angles": f"Bunge, {question.meaning}",
        "rules": asdict(question.rules),
        "stated_step_um": question.stated_step_um,
        "stated_share_indexed": question.stated_share_indexed,
        "map": None if answer.found_in_map is None else _map(answer.found_in_map),
        "grain_list": (
            None
            if answer.found_in_list is None
            else _without_rules(asdict(answer.found_in_list))
        ),
        "match": None if answer.match is None else _match(answer.match),
        "sentences": list(orientations_in_words(answer)),
    }


def _map(found: OrientationMapResult) -> dict[str, Any]:
    borders = found.boundaries
    return {
        "coverage": {
            **asdict(found.coverage),
            "share_indexed": found.coverage.share_indexed,
        },
        "boundaries": {
            "high": _class(borders.high),
            "twin": _class(borders.twin),
            "twin_share": borders.twin_share,
            "small": _class(borders.small),
            "not_judged": _class(borders.not_judged),
            "high_per_mm": borders.high_per_mm,
            "twin_per_mm": borders.twin_per_mm,
            "judged_along_um": borders.judged_along_um,
            "angle_edges_deg": list(borders.angle_edges_deg),
            "angle_share": list(borders.angle_share),
            "random_share": list(borders.random_share),
        },
        "grains": asdict(found.grains),
        "spread": {
            "within_deg": list(found.spread.within_deg),
            "share_within": list(found.spread.share_within),
            "stretches": [asdict(stretch) for stretch in found.spread.stretches],
        },
    }


def _class(found: BoundaryClass) -> dict[str, Any]:
    return asdict(found)


def _match(match: PlaceMatch) -> dict[str, Any]:
    return {
        "frame": match.frame,
        "tolerance_deg": match.tolerance_deg,
        "distance_um": match.distance_um,
        "matches": match.matches,
        "places": [
            {**asdict(place), "is_one_orientation": place.is_one_orientation}
            for place in match.places
        ],
        "chances": [asdict(chance) for chance in match.chances],
    }


def _without_rules(data: dict[str, Any]) -> dict[str, Any]:
    return {key: value for key, value in data.items() if key != "rules"}
