"""Split, kept parts, and the grain size without the given piece.

1.300 m and its parts: product brief, M7. 8.6 +- 3.0 (n = 2): product brief, S2, to
the digits printed there, from the counts that case H7 typed.
"""

from datetime import timedelta
from pathlib import Path

import pytest
from case_examples import FILE_SHA256
from workflow_examples import NOON, add, bench, contents, started

from strandproof.app.workflow import Desk, ReadersAsked, enter, open_case
from strandproof.app.workflow.entering import Correction
from strandproof.app.workflow.receiving.building import build_data, build_in_words
from strandproof.app.workflow.receiving.leaving_out import (
    grain_size_without_weak_pieces,
)
from strandproof.app.workflow.receiving.matching import (
    all_matches,
    match_data,
    match_in_words,
)
from strandproof.app.workflow.receiving.parting import (
    intake_in_words,
    keeping_in_words,
    portions_data,
    portions_in_words,
    split_piece,
    tolerances,
)
from strandproof.errors import (
    DuplicateLabelError,
    KeptPartError,
    ParameterError,
    UnknownLabelError,
)
from strandproof.records.entries import Portion
from strandproof.storage import Addition

LENGTHS = {"test": 0.600, "maker": 0.325, "referee": 0.325, "waste": 0.048}
DISPOSAL = {
    "id": "gone",
    "items": ["portion/E1-maker"],
    "fate": "consumed",
    "reason": "hardness",
    "at": NOON,
    "by": "R",
}
SPECIMEN = {
    "id": "E1-s9",
    "exhibit": "E1",
    "portion": "E1-referee",
    "taken_from": "end",
    "taken_at": NOON,
    "taken_by": "R",
}


@pytest.fixture
def desk(tmp_path: Path) -> Desk:
    """A case whose exhibit of 1.300 m was split three ways."""
    desk = started(tmp_path / "H7")
    entry = next(e for e in open_case(desk.folder).entries if e.kind == "exhibit")
    measured = {**entry.body.model_dump(), "length_m": 1.300, "mass_g": 8.84}
    enter(desk, "exhibit", measured, corrects=Correction(entry.number, "measured"))
    split_piece(desk, "E1", LENGTHS)
    return desk


def published(desk: Desk, *, window_days: int) -> None:
    letter = {
        "id": "L1",
        "to": "Wexcombe Twine Works",
        "role": "maker",
        "channels": ["post"],
        "sent_at": NOON - timedelta(days=14),
        "deadline": NOON + timedelta(days=window_days),
    }
    tag = desk.folder.parent / "report.txt"
    tag.write_text("report", encoding="utf-8")
    version = {
        "id": "v1",
        "version": "1.0",
        "published_at": NOON,
        "head_sha256": FILE_SHA256,
    }
    enter(desk, "letter_sent", letter)
    enter(desk, "published_version", version, files={"report_sha256": tag})


def test_split_balances_as_the_brief_says(desk: Desk) -> None:
    state = open_case(desk.folder)
    assert [portion.id for portion in state.records(Portion)] == [
        f"E1-{purpose}" for purpose in LENGTHS
    ]
    first, *_ = portions_in_words(state, tolerances())
    assert first == (
        "E1: length 1.300 m; test 0.600, maker 0.325, referee 0.325, waste 0.048 m: "
        "2 mm unexplained, within 5 mm."
    )
    (data,) = portions_data(state, tolerances(length_mm=1))
    assert data["length"]["balance"] == "beyond tolerance"
    assert data["length"]["unexplained"] == pytest.approx(0.002, rel=0, abs=1e-12)
    assert data["mass"]["unexplained"] is None


@pytest.mark.parametrize(
    ("lengths", "said"),
    [
        ({"test": 1.0, "maker": 0.1}, "referee part was given as None"),
        ({**LENGTHS, "spare": 0.1}, "purpose was given as 'spare'"),
    ],
)
def test_split_without_three_parts_or_with_another_is_refused(
    tmp_path: Path, lengths: dict[str, float], said: str
) -> None:
    desk = started(tmp_path / "H7")
    before = contents(desk.folder)
    with pytest.raises(ParameterError, match=said):
        split_piece(desk, "E1", lengths)
    assert contents(desk.folder) == before


def test_split_of_no_piece_and_second_split_are_refused(desk: Desk) -> None:
    before = contents(desk.folder)
    with pytest.raises(UnknownLabelError, match="no exhibit 'E9'"):
        split_piece(desk, "E9", LENGTHS)
    with pytest.raises(DuplicateLabelError, match="E1-test"):
        split_piece(desk, "E1", LENGTHS)
    assert contents(desk.folder) == before


@pytest.mark.parametrize(
    ("kind", "fields"), [("disposal", DISPOSAL), ("specimen", SPECIMEN)]
)
def test_kept_part_is_not_used_up_before_publication(
    desk: Desk, kind: str, fields: dict[str, object]
) -> None:
    before = contents(desk.folder)
    with pytest.raises(KeptPartError, match="kept whole .* nothing is published yet"):
        enter(desk, kind, fields)
    assert contents(desk.folder) == before


def test_kept_part_is_not_used_up_while_the_reply_window_is_open(desk: Desk) -> None:
    published(desk, window_days=3)
    with pytest.raises(KeptPartError, match="Wexcombe Twine Works may answer until"):
        enter(desk, "disposal", DISPOSAL)
    assert "must stay whole" in keeping_in_words(open_case(desk.folder), now=NOON)
    later = Desk(desk.folder, "R", lambda: NOON + timedelta(days=4))
    entry = enter(later, "disposal", {**DISPOSAL, "at": NOON + timedelta(days=4)})
    assert entry.kind == "disposal"


def test_moment_written_into_a_disposal_opens_no_back_door(desk: Desk) -> None:
    published(desk, window_days=3)
    for days in (-30, 30):
        moment = NOON + timedelta(days=days)
        with pytest.raises(KeptPartError):
            enter(desk, "disposal", {**DISPOSAL, "at": moment})


def test_no_way_in_goes_round_the_kept_parts(desk: Desk) -> None:
    """Neither adding directly, nor a portion made in the same step, nor a rename."""
    with pytest.raises(KeptPartError):
        add(desk, [("specimen", SPECIMEN)])
    fresh = {
        "id": "E1-maker-2",
        "exhibit": "E1",
        "purpose": "maker",
        "cut_at": NOON,
        "cut_by": "R",
    }
    with pytest.raises(KeptPartError):
        add(
            desk,
            [
                ("portion", fresh),
                ("specimen", {**SPECIMEN, "portion": "E1-maker-2"}),
            ],
        )
    state = open_case(desk.folder)
    held = state.entry(Portion, "E1-maker")
    as_test = Portion.model_validate({**held.body.model_dump(), "purpose": "test"})
    with pytest.raises(KeptPartError):
        desk.add(Addition(as_test, supersedes=held.number, reason="for a test"))


def test_loss_of_a_kept_part_can_be_told_and_the_test_part_used(desk: Desk) -> None:
    enter(desk, "disposal", {**DISPOSAL, "fate": "lost"})
    enter(desk, "specimen", {**SPECIMEN, "portion": "E1-test"})
    used = {**DISPOSAL, "id": "used", "items": ["portion/E1-test"]}
    assert enter(desk, "disposal", used).body.id == "used"


def with_purchases(desk: Desk) -> None:
    for name, obtained in (("E1", "bought_anonymously"), ("E2", "bought_openly")):
        purchase(desk, name, obtained)
    purchase(desk, "E3", "given")


def purchase(desk: Desk, name: str, obtained: str) -> None:
    bought = {"id": f"P-{name}", "obtained": obtained, "seller": "x", "product": "y"}
    enter(desk, "purchase", bought)
    entry = open_case(desk.folder).current["exhibit"][name]
    fields = {**entry.body.model_dump(), "purchase": f"P-{name}"}
    enter(desk, "exhibit", fields, corrects=Correction(entry.number, "purchase"))


def test_grain_size_without_the_given_piece_is_that_of_the_brief(
    tmp_path: Path,
) -> None:
    desk = bench(tmp_path / "H7")
    with_purchases(desk)
    readers = ReadersAsked(counter="A1", second="A2", calibration="stage")
    assert grain_size_without_weak_pieces(open_case(desk.folder), readers) == (
        "With all pieces: 8.4 ± 0.8 µm (n = 3). Without E3: 8.6 ± 3.0 µm (n = 2)."
    )


def test_with_one_bought_piece_there_is_no_interval(tmp_path: Path) -> None:
    desk = bench(tmp_path / "H7")
    purchase(desk, "E1", "bought_openly")
    readers = ReadersAsked(counter="A1", second="A2", calibration="stage")
    words = grain_size_without_weak_pieces(open_case(desk.folder), readers)
    assert words.endswith(
        "fewer than two pieces are left: no interval for the product."
    )


def test_matches_leave_controls_out_unless_asked_for(tmp_path: Path) -> None:
    desk = bench(tmp_path / "H7")
    with_purchases(desk)
    state = open_case(desk.folder)
    assert all_matches(state) == ()
    assert match_in_words(state, ()) == (
        "No piece with a purchase, or no claim, is entered yet.",
    )
    assert match_data(state, ()) == []
    with pytest.raises(UnknownLabelError, match="no claim 'K9'"):
        all_matches(state, exhibit="controls", claim="K9")


def test_build_tells_targets_and_what_is_not_tested(tmp_path: Path) -> None:
    state = open_case(bench(tmp_path / "H7").folder)
    data = build_data(state)
    (core,) = data["targets"]
    assert core["kinds"]["crystal_state"]["exhibits"] == ["E1", "E2", "E3"]
    assert "oxygen" in data["not_tested"]
    assert build_in_words(state)[-1].startswith("Not tested: purity; oxygen;")
    assert build_in_words(open_case(started(tmp_path / "bare").folder)) == (
        "No layer and no conductor type is entered yet.",
    )


def test_intake_asks_for_pictures_and_printed_words(tmp_path: Path) -> None:
    desk = started(tmp_path / "H7")
    entry = open_case(desk.folder).current["exhibit"]["E1"]
    fields = {**entry.body.model_dump(), "printed_words": ["one crystal per 100 m"]}
    enter(desk, "exhibit", fields, corrects=Correction(entry.number, "printed"))
    lines = intake_in_words(open_case(desk.folder), "E1")
    assert lines[-1].startswith(
        "E1: printed words, not yet a claim: “one crystal per 100 m”."
    )
