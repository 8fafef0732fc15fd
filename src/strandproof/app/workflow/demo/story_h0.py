"""Case H0: a rod sold as one crystal, and a pass reported as fully as a failure."""

from strandproof.app.workflow.bounding import enter_no_boundary
from strandproof.app.workflow.deciding import Weighted, weigh_observation
from strandproof.app.workflow.demo import pictures
from strandproof.app.workflow.demo.telling import Fields, Told, moment_of
from strandproof.app.workflow.entering import start_case
from strandproof.app.workflow.examining import examine_micrograph
from strandproof.records.entries import Likelihood

_SECTIONS = ("rod-a", "rod-b", "rod-c", "rod-d")
_FIELDS = [f"{section}-{field}" for section in _SECTIONS for field in (1, 2)]
_MICROGRAPHS = (*_FIELDS, "soft-1")
_LENGTH_SEEN_MM = 36.0
_SEED = 2032


def tell(told: Told) -> None:
    """Tell the whole case.

    Parameters
    ----------
    told : Told
        Where it is told.
    """
    start_case(told.desk("R", "02-01"), _CASE)
    told.claim("R", "02-02", _CLAIM, shown="1.0 mm rod, copper, one crystal.\n")
    told.entries("R", "02-05", _NO_INTERESTS)
    told.entries("R", "02-10", *_PIECES, *_HYPOTHESES)
    told.entries("A1", "02-20", *map(_section, (*_SECTIONS, "soft")))
    told.entries("A1", "02-20", _CALIBRATION, _CONTROL)
    told.progress(0.1, "micrographs are drawn")
    told.micrographs("A1", "02-21", map(_picture, _MICROGRAPHS))
    for done, micrograph in enumerate(_MICROGRAPHS):
        share = 0.3 + 0.5 * done / len(_MICROGRAPHS)
        told.progress(share, f"{micrograph} is measured by the program")
        examine_micrograph(told.desk("A1", "02-21 18:00"), micrograph)
    readings = [_reading(section, "none_resolved") for section in _SECTIONS]
    told.entries("A1", "02-22", *readings, _reading("soft", "boundaries"))
    desk = told.desk("A1", "02-23")
    enter_no_boundary(desk, "no-boundary", "rod", length_mm=_LENGTH_SEEN_MM)
    told.entries("A1", "02-24", _DIFFRACTION, _OBSERVATION)
    told.progress(0.9, "evidence is weighed")
    weighted = Weighted("O1", _LIKELIHOODS, "K1")
    weigh_observation(told.desk("R", "02-25"), "W1", weighted)


def _section(name: str) -> tuple[str, Fields]:
    fields = {
        "id": name,
        "specimen": "control" if name == "soft" else "rod",
        "direction": "longitudinal",
        "mount": "m1",
        "made_by": "A1",
    }
    return "section", fields


def _picture(micrograph: str) -> tuple[Fields, bytes]:
    section, _, field = micrograph.rpartition("-")
    fields = {
        "id": micrograph,
        "section": section,
        "calibration": "stage",
        "field": (
            "2 mm of control"
            if section == "soft"
            else f"field {field} of 2, 4.5 mm of rod"
        ),
        "chosen": "whole section",
        "light": "bright field",
        "etch_step": "etch step 2",
    }
    seed = _SEED + _MICROGRAPHS.index(micrograph)
    drawn = (
        pictures.rod_control(seed=seed)
        if section == "soft"
        else pictures.rod_section(seed=seed)
    )
    return fields, drawn


def _reading(section: str, verdict: str) -> tuple[str, Fields]:
    fields = {
        "id": f"{section}-A1",
        "reads": f"section/{section}",
        "reader": "A1",
        "blind": True,
        "verdict": verdict,
        "read_at": moment_of("02-22"),
    }
    return "reading", fields


_CASE: Fields = {
    "id": "H0",
    "title": "A 1.0 mm copper rod sold as one crystal: does that hold?",
    "question": "Is the rod one crystal over the length that was looked at?",
    "owner": "R",
}
_CLAIM: Fields = {
    "id": "K1",
    "words": "1.0 mm rod, copper, one crystal",
    "speaker": "a laboratory supplier",
    "speaker_role": "maker",
    "medium": "catalogue",
    "place": "catalogue page of the rod",
    "kinds": ["crystal_state"],
    "readings": [
        {"words": "The rod is one crystal over its length.", "kind": "crystal_state"}
    ],
    "product": "copper rod 1.0 mm",
}
_NO_INTERESTS: tuple[str, Fields] = (
    "disclosure",
    {
        "id": "none",
        "person": "R",
        "kind": "none_declared",
        "statement": "No interest in the supplier or in a rival.",
        "declared_at": moment_of("02-05"),
    },
)
_PIECES: tuple[tuple[str, Fields], ...] = (
    (
        "exhibit",
        {
            "id": "E1",
            "description": "copper rod, 1.0 mm, 100 mm long",
            "provenance": "bought from the supplier",
            "received_at": moment_of("02-10"),
            "received_by": "R",
            "condition": "tube closed",
        },
    ),
    (
        "exhibit",
        {
            "id": "controls",
            "description": "soft oxygen-free copper wire; no part of the rod",
            "provenance": "laboratory supplier, with papers",
            "received_at": moment_of("02-10"),
            "received_by": "C",
            "condition": "tube closed",
        },
    ),
    (
        "specimen",
        {
            "id": "rod",
            "exhibit": "E1",
            "taken_from": "36 mm from the middle, in four pieces",
            "taken_at": moment_of("02-15"),
            "taken_by": "R",
        },
    ),
    (
        "specimen",
        {
            "id": "control",
            "exhibit": "controls",
            "taken_from": "soft copper wire",
            "taken_at": moment_of("02-15"),
            "taken_by": "C",
        },
    ),
)
_LIKE_X4 = "annealed after drawing, it would show grains just as X4 would"
_HYPOTHESES: tuple[tuple[str, Fields], ...] = tuple(
    (
        "hypothesis",
        {
            "id": name,
            "statement": words,
            "kind": "crystal_state",
            "speaks_for": ["K1"] if name == "X1" else [],
            "left_out_because": reason,
        },
    )
    for name, words, reason in (
        ("X1", "The rod is one crystal over the length claimed.", ""),
        ("X4", "Ordinary oxygen-free copper, drawn and annealed.", ""),
        (
            "X8",
            "Ordinary oxygen-free copper, annealed hot: grains as wide as the rod.",
            "",
        ),
        ("X3", "Rod cast in a heated mould, drawn and annealed.", _LIKE_X4),
        ("X5", "Tough-pitch copper, drawn and annealed.", _LIKE_X4),
    )
)
_CALIBRATION: tuple[str, Fields] = (
    "calibration",
    {
        "id": "stage",
        "pixel_size": {
            "value": pictures.ROD_PIXEL_SIZE_UM,
            "unit": "um",
            "standard_uncertainty": 0.012,
        },
        "method": "stage scale, ten divisions of 100 µm marked five times",
        "made_at": moment_of("02-20"),
        "made_by": "A1",
    },
)
_CONTROL: tuple[str, Fields] = (
    "control",
    {
        "id": "soft",
        "specimen": "control",
        "kind": "polycrystal",
        "known_by": "papers; boundaries seen before",
        "informs": ["missed_boundary"],
        "mount": "m1",
        "described_as": "soft-copper",
    },
)
_DIFFRACTION: tuple[str, Fields] = (
    "measurement",
    {
        "id": "diffraction",
        "measures": "specimen/rod",
        "method": "X-ray back-reflection at 5 points, Fellwater Diffraction Room",
        "method_version": "laboratory procedure 3",
        "results": [
            {
                "name": "orientation_spread",
                "value": {"value": 2.0, "unit": "deg"},
                "words": "one orientation within 2° at 5 points; typed demo data",
            }
        ],
        "verdict": "single",
        "bears_on": ["crystal_state"],
        "does_not_bear_on": ["composition", "oxygen", "performance"],
        "measured_at": moment_of("02-24"),
        "measured_by": "Fellwater Diffraction Room",
    },
)
_OBSERVATION: tuple[str, Fields] = (
    "observation",
    {
        "id": "O1",
        "statement": (
            "No boundary resolved in 36 mm of long section, beside a soft-copper "
            "control that showed its own; one orientation within 2° at 5 points."
        ),
        "evidence": ["measurement/no-boundary", "measurement/diffraction"],
        "cables": 1,
        "strands": 1,
        "sections": 4,
        "fields": 8,
        "method": "etched long sections read blind; X-ray back-reflection",
        "reading_outcome": "none_resolved",
        "bears_on": ["crystal_state"],
        "does_not_bear_on": ["composition", "oxygen"],
    },
)
_LIKELIHOODS = tuple(
    Likelihood(
        hypothesis=name,
        best=best,
        lower=lower,
        upper=upper,
        status="judgement",
        source=source,
    )
    for name, best, lower, upper, source in (
        ("X1", 0.95, 0.90, 0.99, "of 100 such rods, about 95 would look like this"),
        ("X4", 0.005, 0.0, 0.12, "only by a blunder in two methods"),
        ("X8", 0.005, 0.0, 0.12, "grains of 1 mm would show in 36 mm; else a blunder"),
    )
)
