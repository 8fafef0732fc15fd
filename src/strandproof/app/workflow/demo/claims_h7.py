"""What case H7 says, plans, observes and weighs: typed data, all invented."""

from strandproof.app.workflow.demo.telling import Fields, moment_of
from strandproof.app.workflow.plating import PlatedStrands, plating, plating_finding
from strandproof.records.physical import LayerReadings

CASE: Fields = {
    "id": "H7",
    "title": "The Tern earphone lead: which of its words hold?",
    "question": (
        "A maker and a shop say five things about one earphone lead. Which of them "
        "hold in the pieces examined, and which does nothing here test?"
    ),
    "owner": "R",
}

# Eight places round a drain strand's face, cut square; edges 0.36 um wide.
_DRAIN_READINGS = LayerReadings(
    readings_um=(1.7, 2.1, 1.9, 2.0, 1.8, 1.9, 2.0, 1.8),
    resolution_um=0.36,
    scale_uncertainty_percent=0.2,
)
_DRAIN = PlatedStrands(millimetres=(0.12, 0.0005), strands=7)

_PRODUCT = "Tern earphone lead"
_MAKER = {"speaker": "Wexcombe Twine Works", "speaker_role": "maker"}

CLAIMS_BEFORE_THE_PLAN: tuple[tuple[str, str, Fields, str], ...] = (
    (
        "R",
        "03-03 19:12",
        {
            "id": "K3",
            "words": "cores 26 AWG",
            "wordings": ["26 AWG"],
            "speaker": "Lantern Row",
            "speaker_role": "shop",
            "medium": "product page",
            "place": "product page of the Tern earphone lead",
            "kinds": ["build"],
            "readings": [
                {
                    "words": "Each core holds as much copper as 26 AWG: 0.1288 mm².",
                    "kind": "build",
                }
            ],
            "product": _PRODUCT,
        },
        "Tern earphone lead. Cores 26 AWG.\n",
    ),
    (
        "R",
        "03-04",
        {
            **_MAKER,
            "id": "K2",
            "words": "4N7 copper (99.997 %), drain tinned",
            "wordings": ["4N7", "drain tinned"],
            "medium": "data sheet",
            "place": "data sheet (PDF), revision B",
            "kinds": ["composition", "build"],
            "readings": [
                {
                    "words": "The metal is at least 99.997 % copper.",
                    "kind": "composition",
                },
                {
                    "words": "The strands of the drain carry a layer of tin.",
                    "kind": "build",
                },
            ],
            "product": _PRODUCT,
        },
        "Data sheet, revision B. 4N7 copper (99.997 %), drain tinned.\n",
    ),
    (
        "R",
        "03-06",
        {
            "id": "K4",
            "words": "its resistance is 8 to 13 % lower than ordinary copper's",
            "speaker": "engineer of Wexcombe Twine Works",
            "speaker_role": "maker",
            "medium": "recorded interview",
            "place": "interview with R, minute 14",
            "kinds": ["performance"],
            "readings": [
                {
                    "words": "The metal conducts at 108.7 to 114.9 % IACS.",
                    "kind": "performance",
                }
            ],
            "product": _PRODUCT,
        },
        "Its resistance is 8 to 13 % lower than ordinary copper's.\n",
    ),
)

TAG: tuple[str, str, Fields, str] = (
    "R",
    "04-02 11:00",
    {
        **_MAKER,
        "id": "K1",
        "words": "cast long-crystal copper, one crystal per 100 m",
        "wordings": ["one crystal per 100 m"],
        "medium": "hang tag",
        "place": "in the bag of exhibit E1",
        "kinds": ["crystal_state", "casting_route"],
        "readings": [
            {
                "words": "Each finished core strand is one crystal over 100 m.",
                "kind": "crystal_state",
            },
            {
                "words": "The rod was cast in a heated mould.",
                "kind": "casting_route",
            },
        ],
        "product": _PRODUCT,
    },
    "Cast long-crystal copper, one crystal per 100 m.\n",
)

INTERESTS: tuple[tuple[str, Fields], ...] = (
    (
        "own_statement",
        {
            "id": "K5",
            "words": "The cores are 26 AWG.",
            "place": "R's column for a musicians' cooperative",
            "said_at": moment_of("01-15"),
            "repeats_claim": "K3",
            "correction_due": True,
        },
    ),
    (
        "disclosure",
        {
            "id": "commission",
            "person": "R",
            "kind": "money",
            "statement": (
                "R's column linked to Lantern Row, whose claim K3 it repeated; "
                "61.40 commission from January to March, paid to a charity on 03-20."
            ),
            "amount": 61.40,
            "currency": "EUR",
            "declared_at": moment_of("03-20"),
        },
    ),
    (
        "cost",
        {
            "id": "laboratory",
            "purpose": "laboratory fee, Ostrea College Bench",
            "amount": 380.0,
            "currency": "EUR",
            "paid_by": "R",
            "spent_at": moment_of("03-20"),
        },
    ),
    (
        "disclosure",
        {
            "id": "no-gifts",
            "person": "R",
            "kind": "none_declared",
            "covers": ["gift", "relationship"],
            "statement": (
                "No gifts, loans or free pieces; no friendship or quarrel with, and "
                "no work for, a maker, a shop or a rival."
            ),
            "declared_at": moment_of("03-20"),
        },
    ),
)

LATER_COSTS: tuple[tuple[str, Fields], ...] = (
    (
        "cost",
        {
            "id": "leads",
            "purpose": "two Tern leads",
            "amount": 214.90,
            "currency": "EUR",
            "paid_by": "R",
            "spent_at": moment_of("04-02"),
        },
    ),
    (
        "cost",
        {
            "id": "hours",
            "purpose": "work on the case",
            "hours": 31,
            "paid_by": "R",
            "spent_at": moment_of("06-25"),
        },
    ),
)

_STRUCTURES = {
    "X1": "The finished strand has crystals as long as claimed.",
    "X2": "Rod cast in a heated mould, drawn, not recrystallised.",
    "X3": "Rod cast in a heated mould, drawn and annealed.",
    "X4": "Ordinary oxygen-free copper, drawn and annealed.",
    "X5": "Tough-pitch copper, drawn and annealed.",
    "X8": "Ordinary oxygen-free copper, annealed hot: grains as wide as the strand.",
}
_LEFT_OUT = {
    "X6": (
        "Clad, plated or alloyed core strands.",
        "the conductivity is that of ordinary good copper",
    ),
    "X7": (
        "Not the maker's product.",
        "two leads were bought sealed at two shops; the maker is asked",
    ),
}

HYPOTHESES_OF_THE_PLAN: tuple[tuple[str, Fields], ...] = tuple(
    (
        "hypothesis",
        {"id": name, "statement": words, "kind": kind, "speaks_for": claims},
    )
    for name, words, kind, claims in (
        ("T1", "The drain's strands are tinned.", "build", ["K2"]),
        ("T2", "The drain's strands carry no tin.", "build", []),
        ("G1", "A core holds 0.1288 mm² of copper (26 AWG).", "build", ["K3"]),
        ("G2", "A core holds 19 strands of 0.08 mm: 0.0955 mm².", "build", []),
        ("R1", "The metal's resistance is 8 to 13 % lower.", "performance", ["K4"]),
        ("R2", "The metal conducts like ordinary good copper.", "performance", []),
    )
)

STRUCTURE_HYPOTHESES: tuple[tuple[str, Fields], ...] = (
    *(
        (
            "hypothesis",
            {
                "id": name,
                "statement": words,
                "kind": "crystal_state",
                "speaks_for": ["K1"] if name == "X1" else [],
            },
        )
        for name, words in _STRUCTURES.items()
    ),
    *(
        (
            "hypothesis",
            {
                "id": name,
                "statement": words,
                "kind": "crystal_state",
                "left_out_because": reason,
            },
        )
        for name, (words, reason) in _LEFT_OUT.items()
    ),
)

CONTROLS_CAME: tuple[str, Fields] = (
    "exhibit",
    {
        "id": "controls",
        "description": "known pieces of wire; no part of the product",
        "provenance": "laboratory supplier, with papers",
        "received_at": moment_of("04-03"),
        "received_by": "C",
        "condition": "sealed tubes",
    },
)


def preparation(sections: list[str]) -> tuple[tuple[str, Fields], ...]:
    """Give calibration and preparation steps of the first bench.

    Parameters
    ----------
    sections : list of str
        Sections prepared.

    Returns
    -------
    tuple
        Kinds and fields.
    """
    common = {"sections": sections, "at": moment_of("05-10"), "by": "A1"}
    steps = (
        ("polishing", "polish", "ground and polished, by the laboratory's procedure"),
        ("as-polished", "look", "looked at before etching: no lines"),
        ("etch-1", "etch", "first step, by the laboratory's own procedure"),
        ("etch-2", "etch", "second step, by the laboratory's own procedure"),
    )
    calibration = {
        "id": "stage",
        "pixel_size": {"value": 0.1726, "unit": "um", "standard_uncertainty": 0.0004},
        "method": "stage scale, ten divisions of 10 µm marked five times",
        "made_at": moment_of("05-10"),
        "made_by": "A1",
    }
    return (
        ("calibration", calibration),
        *(
            (
                "preparation_step",
                {"id": n, "step": kind, "order": k, "description": words, **common},
            )
            for k, (n, kind, words) in enumerate(steps, start=1)
        ),
    )


def drain_layer() -> tuple[tuple[str, Fields], ...]:
    """Give the layer measured on the drains' sections.

    Returns
    -------
    tuple
        Kinds and fields.
    """
    found = plating(_DRAIN_READINGS, name="tin", strands=_DRAIN)
    finding = plating_finding(found)
    thickness, *shares = finding.results
    return (
        (
            "measurement",
            {
                "id": "drain-layer",
                "measures": "specimen/E1-d",
                "method": "layer thickness on a section, identified there by EDS",
                "method_version": "laboratory procedure 7",
                "results": [
                    {
                        **thickness.model_dump(mode="json"),
                        "words": f"{thickness.words}. One drain section per exhibit; "
                        "typed demo data.",
                    },
                    *(share.model_dump(mode="json") for share in shares),
                ],
                "bears_on": list(finding.bears_on),
                "does_not_bear_on": list(finding.does_not_bear_on),
                "measured_at": moment_of("05-29"),
                "measured_by": "A1",
                "note": "what lies under the tin was not tested",
            },
        ),
    )
