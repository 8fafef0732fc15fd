"""A set as a reader gets it: synthetic, without answers, scored only when whole."""

import csv
import json
import zlib
from hashlib import sha256
from pathlib import Path

import numpy as np
import pytest

from strandproof.app.workflow.known_pieces import (
    WrittenPieces,
    draw_known_pieces,
    drawing,
    known_pieces_data,
    known_pieces_in_words,
    score_known_pieces,
    write_known_pieces_score,
)
from strandproof.app.workflow.known_pieces.answers import SealedAnswers
from strandproof.app.workflow.known_pieces.drawing import LIST_NAME, SHEET_NAME
from strandproof.app.workflow.known_pieces.kinds import PIECE_KINDS, SHAPE, UM_PER_PX
from strandproof.errors import MissingFileError, OutputExistsError, ParameterError
from strandproof.storage import read_picture

RIGHT = {
    "single_crystal": "none_resolved",
    "polycrystal": "boundaries",
    "not_readable": "not_readable",
}


@pytest.fixture(scope="module")
def drawn(tmp_path_factory: pytest.TempPathFactory) -> WrittenPieces:
    """One set of twelve; no test may change it."""
    place = tmp_path_factory.mktemp("known")
    return draw_known_pieces(place / "set", answers=place / "sealed.json", seed=4)


@pytest.fixture(scope="module")
def truth(drawn: WrittenPieces) -> SealedAnswers:
    return SealedAnswers.model_validate_json(drawn.answers.read_bytes())


def sheet(place: Path, truth: SealedAnswers, *wrong: str) -> Path:
    """Fill a sheet rightly but for the pieces named, which get the opposite."""
    turned = {"none_resolved": "boundaries", "boundaries": "none_resolved"}
    path = place / "sheet.csv"
    with path.open("w", encoding="utf-8", newline="") as file:
        rows = csv.writer(file)
        rows.writerow(["piece", "verdict", "twins", "scratches", "slip_traces"])
        for each in truth.pieces:
            verdict = RIGHT[each.structure]
            if each.piece in wrong:
                verdict = turned[verdict]
            traits = (each.twins, each.scratches, each.slip_traces)
            told = ["yes" if there else "no" for there in traits]
            rows.writerow([each.piece, verdict, *told])
    return path


def test_every_kind_is_drawn_once_in_an_order_that_tells_nothing(
    truth: SealedAnswers,
) -> None:
    kinds = [each.kind for each in truth.pieces]
    assert sorted(kinds) == sorted(PIECE_KINDS)
    assert kinds != list(PIECE_KINDS)


def test_answers_hold_what_was_drawn(truth: SealedAnswers) -> None:
    for each in truth.pieces:
        assert each.twins == ("twins" in each.kind)
        assert each.slip_traces == ("slip traces" in each.kind)
        if "scratch" in each.kind:
            assert each.scratches
        assert (each.boundary_crossings > 0) == (each.structure != "single_crystal")


def test_pictures_say_synthetic_on_their_face_and_in_the_file(
    drawn: WrittenPieces, truth: SealedAnswers
) -> None:
    for each in truth.pieces:
        picture = read_picture(drawn.folder / f"{each.piece}.png")
        assert picture.sha256 == each.picture_sha256
        assert "synthetic" in {flag.name for flag in picture.flags}
        assert picture.pixel_size is not None
        assert picture.pixel_size.value_um == pytest.approx(UM_PER_PX, rel=1e-6, abs=0)
        assert picture.pixels.shape == (*SHAPE, 3)
        # The box of the mark: black, with white letters.
        corner = picture.pixels[:14, :100]
        assert set(np.unique(corner[:3, :60])) == {0.0}
        assert corner.max() == 1.0


def test_nothing_that_the_reader_gets_tells_an_answer(
    drawn: WrittenPieces, truth: SealedAnswers
) -> None:
    files = sorted(drawn.folder.iterdir())
    assert drawn.answers not in files
    assert len(files) == 12 + 3
    kinds = [each.kind.encode() for each in truth.pieces]
    seeds = [str(each.seed).encode() for each in truth.pieces]
    for path in files:
        data = path.read_bytes()
        for tell_tale in (*kinds, *seeds, b"population", b"mean_intercept"):
            assert tell_tale not in data, path.name


def test_hash_beside_the_pictures_is_that_of_the_answers(drawn: WrittenPieces) -> None:
    listed = json.loads((drawn.folder / LIST_NAME).read_bytes())
    found = sha256(drawn.answers.read_bytes()).hexdigest()
    assert found == listed["answers_sha256"] == drawn.answers_sha256


def test_same_seed_draws_the_same_set_and_another_seed_another(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    few = {name: PIECE_KINDS[name] for name in list(PIECE_KINDS)[4:6]}
    monkeypatch.setattr(drawing, "PIECE_KINDS", few)
    hashes = []
    for place, seed in (("a", 7), ("b", 7), ("c", 8)):
        folder = tmp_path / place
        sealed = tmp_path / f"{place}.json"
        draw_known_pieces(folder, answers=sealed, seed=seed)
        hashes.append([path.read_bytes() for path in sorted(folder.iterdir())])
    assert hashes[0] == hashes[1]
    assert hashes[0] != hashes[2]


def test_several_sets_hold_every_kind_as_often(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    name = "one crystal, clean"
    monkeypatch.setattr(drawing, "PIECE_KINDS", {name: PIECE_KINDS[name]})
    steps: list[float] = []
    written = draw_known_pieces(
        tmp_path / "set",
        answers=tmp_path / "a.json",
        seed=1,
        sets=3,
        progress=lambda done, _words: steps.append(done),
    )
    assert written.pieces == len(list(written.folder.glob("piece-*.png"))) == 3
    assert steps == sorted(steps)
    assert steps[-1] == 1


def test_reader_without_an_error_gets_the_bounds_of_six_and_five(
    drawn: WrittenPieces, truth: SealedAnswers, tmp_path: Path
) -> None:
    """None of 6 leaves 39.3, none of 5 45.1 of 100 (product brief, Appendix A)."""
    score = score_known_pieces(
        drawn.folder, answers=drawn.answers, reader="A1", sheet=sheet(tmp_path, truth)
    )
    words = " ".join(known_pieces_in_words(score))
    assert "False boundaries: 0 of 6 pieces of one crystal read wrongly" in words
    assert "at most 39.3 of 100 (95 % bound), expected 12.5 of 100" in words
    assert "Missed boundaries: 0 of 5 pieces of many crystals read wrongly" in words
    assert "at most 45.1 of 100" in words
    assert "the reading 'boundaries' supports a ratio of at most 2.5, weak" in words
    assert "the reading 'none resolved' supports a ratio of at most 2.2, weak" in words
    assert "Not readable: 1 of 1 unreadable pieces called so." in words
    assert "wrong." not in words
    assert all(each.seen == each.present for each in score.traits)
    assert all(each.named == 0 for each in score.traits)


def test_wrong_verdicts_are_named_and_the_limits_of_the_score_are_said(
    drawn: WrittenPieces, truth: SealedAnswers, tmp_path: Path
) -> None:
    single = next(p for p in truth.pieces if p.structure == "single_crystal")
    score = score_known_pieces(
        drawn.folder,
        answers=drawn.answers,
        reader="A1",
        sheet=sheet(tmp_path, truth, single.piece),
    )
    words = known_pieces_in_words(score)
    assert words[-1] == f"{single.piece}: {single.kind}; said boundaries: wrong."
    text = " ".join(words)
    assert "Open training is kinder than blind casework" in text
    assert "say nothing of mix-ups, mounts, etch batches or custody" in text
    data = known_pieces_data(score)
    assert set(data["item_level"]) == {"false_boundary", "missed_boundary"}
    assert data["item_level"]["false_boundary"]["wrong"] == 1
    assert data["synthetic"] is True
    target = tmp_path / "score.json"
    write_known_pieces_score(score, target)
    assert json.loads(target.read_text("utf-8")) == json.loads(json.dumps(data))
    with pytest.raises(OutputExistsError):
        write_known_pieces_score(score, target)


def test_blank_sheet_leaves_the_seal_closed(drawn: WrittenPieces) -> None:
    """The file of answers is not even looked for."""
    with pytest.raises(ParameterError, match="stay closed until then"):
        score_known_pieces(
            drawn.folder, answers=drawn.folder / "not-there.json", reader="A1"
        )


def test_changed_answers_are_refused(
    drawn: WrittenPieces, truth: SealedAnswers, tmp_path: Path
) -> None:
    forged = tmp_path / "forged.json"
    forged.write_bytes(drawn.answers.read_bytes().replace(b"clean", b"CLEAN"))
    filled = sheet(tmp_path, truth)
    with pytest.raises(ParameterError, match="SHA-256 of the sealed answers"):
        score_known_pieces(drawn.folder, answers=forged, reader="A1", sheet=filled)


def test_missing_files_and_other_bytes_are_refused(
    drawn: WrittenPieces, tmp_path: Path
) -> None:
    with pytest.raises(MissingFileError):
        score_known_pieces(tmp_path, answers=drawn.answers, reader="A1")
    odd = tmp_path / "odd.csv"
    odd.write_bytes(zlib.compress(b"piece,verdict"))
    with pytest.raises(ParameterError, match="text in UTF-8"):
        score_known_pieces(drawn.folder, answers=drawn.answers, reader="A1", sheet=odd)


@pytest.mark.parametrize(
    ("seed", "sets", "words"),
    [(-1, 1, "seed"), (2**62, 1, "seed"), (1, 0, "sets"), (1, 21, "sets")],
)
def test_numbers_that_do_not_fit_are_refused(
    tmp_path: Path, seed: int, sets: int, words: str
) -> None:
    with pytest.raises(ParameterError, match=words):
        draw_known_pieces(
            tmp_path / "set", answers=tmp_path / "a.json", seed=seed, sets=sets
        )
    assert not list(tmp_path.iterdir())


def test_answers_never_lie_with_the_pictures(tmp_path: Path) -> None:
    with pytest.raises(ParameterError, match="must not hold the answers"):
        draw_known_pieces(
            tmp_path / "set", answers=tmp_path / "set" / "in" / "a.json", seed=1
        )


def test_nothing_is_drawn_over_something(drawn: WrittenPieces, tmp_path: Path) -> None:
    with pytest.raises(OutputExistsError, match="no empty folder"):
        draw_known_pieces(drawn.folder, answers=tmp_path / "a.json", seed=1)
    with pytest.raises(OutputExistsError, match="there already"):
        draw_known_pieces(tmp_path / "set", answers=drawn.answers, seed=1)
    assert (drawn.folder / SHEET_NAME).exists()
