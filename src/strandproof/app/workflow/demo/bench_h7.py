"""Case H7 at the bench: handed over, mounted cold, looked at before etching."""

from collections.abc import Sequence

from strandproof.app.workflow.demo import claims_h7, pictures, pieces_h7
from strandproof.app.workflow.demo.telling import Fields, Told, moment_of
from strandproof.app.workflow.keeping.custody import explain_gap, hand_over
from strandproof.app.workflow.keeping.handling import handle
from strandproof.app.workflow.keeping.preparing import prepare

_SEED = 2131
_CONTROLS = [f"specimen/{name}" for name in pieces_h7.FIRST_CONTROLS]
_PIECES = [*(f"specimen/{name}" for name in pieces_h7.STRAND_MEANS), *_CONTROLS]

_CONTROLS_TO_R: Fields = {
    "id": "controls-to-R",
    "items": _CONTROLS,
    "giver": "C",
    "receiver": "R",
    "given_at": moment_of("05-06 10:00"),
    "received_at": moment_of("05-06 10:00"),
    "carrier": "hand to hand",
    "condition": "coded tubes, closed",
}
_TO_BENCH: Fields = {
    "id": "to-bench",
    "items": _PIECES,
    "giver": "R",
    "receiver": "A1",
    "given_at": moment_of("05-06 16:40"),
    "received_at": moment_of("05-08 09:15"),
    "carrier": "parcel service",
    "condition": "seal intact",
}
_MOUNTING: Fields = {
    "id": "cold-mount",
    "items": _PIECES,
    "event": "cold mounting",
    "highest_temperature_c": 42.0,
    "duration_s": 3600,
}


def tell_bench(told: Told) -> None:
    """Tell hand-over, mounting, sections, preparation and controls.

    Parameters
    ----------
    told : Told
        Where it is told.
    """
    hand_over(told.desk("R", "05-06 10:00"), _CONTROLS_TO_R)
    hand_over(told.desk("A1", "05-08 09:15"), _TO_BENCH)
    handle(told.desk("A1", "05-09"), _MOUNTING)
    first = [row for row in pieces_h7.section_rows() if not pieces_h7.is_late(row)]
    told.entries(
        "A1", "05-09 15:00", *(("section", pieces_h7.section(row)) for row in first)
    )
    sections = [row["section"] for row in first]
    calibration, *steps = claims_h7.preparation(sections)
    told.entries("A1", "05-10", calibration)
    _prepare(told, "05-10", steps)
    told.entries(
        "C",
        "05-10",
        *(("control", pieces_h7.control(n)) for n in pieces_h7.FIRST_CONTROLS),
    )
    explain_gap(
        told.desk("R", "05-10 18:00"),
        "G1",
        "sent by parcel; the service kept it over a holiday and signs for nothing",
    )


def tell_late_preparation(told: Told, sections: list[str]) -> None:
    """Tell how the controls that were added later were handed over and prepared.

    Parameters
    ----------
    told : Told
        Where it is told.
    sections : list of str
        Their sections.
    """
    known = {row["section"]: row["specimen"] for row in pieces_h7.section_rows()}
    given = {
        **_CONTROLS_TO_R,
        "id": "late-controls-to-bench",
        "items": [f"specimen/{known[each]}" for each in sections],
        "receiver": "A1",
        "given_at": moment_of("06-11"),
        "received_at": moment_of("06-11"),
    }
    hand_over(told.desk("C", "06-11"), given)
    _, *steps = claims_h7.preparation(sections)
    late = {"at": moment_of("06-12")}
    _prepare(
        told,
        "06-12",
        [(kind, {**f, **late, "id": f"late-{f['id']}"}) for kind, f in steps],
    )


def _prepare(told: Told, day: str, steps: Sequence[tuple[str, Fields]]) -> None:
    polishing, *looks = steps
    desk = told.desk("A1", day)
    prepare(desk, polishing[1])
    drawn = pictures.preparation(seed=_SEED)
    for (_, fields), png in zip(looks, drawn, strict=True):
        path = told.file(f"{fields['id']}.png", png)
        prepare(desk, fields, picture=path)
