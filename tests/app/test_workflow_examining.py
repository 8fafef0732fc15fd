"""A micrograph of a case measured: the record carries the measurement's own numbers."""

import json
from pathlib import Path

import numpy as np
import pytest
from workflow_examples import add, contents, started

from strandproof.app.workflow import (
    Desk,
    enter_micrograph,
    examine_micrograph,
    open_case,
    verify,
)
from strandproof.errors import NotCalibratedError, UnknownLabelError
from strandproof.micrograph.render import (
    GrainPopulation,
    SectionParameters,
    mark_synthetic,
    render_section,
)
from strandproof.records import FLAGS
from strandproof.records.entries import ClaimKind, Entry, Measurement, Micrograph
from strandproof.storage import SYNTHETIC_KEY, encode_png, original_file


@pytest.fixture(scope="module")
def desk(tmp_path_factory: pytest.TempPathFactory) -> Desk:
    """A case with a calibrated and an uncalibrated synthetic micrograph."""
    folder = tmp_path_factory.mktemp("examining")
    desk = started(folder / "H7")
    section = {"id": "L", "specimen": "E1-s1", "direction": "longitudinal"}
    add(desk, [("section", section)])
    for name, calibration, seed in (("f1", "stage", 5), ("f2", None, 6)):
        fields = {"id": name, "section": "L", "calibration": calibration}
        path = drawn(folder / f"{name}.png", seed)
        enter_micrograph(desk, fields, picture=path)
    return desk


def drawn(path: Path, seed: int) -> Path:
    parameters = SectionParameters(
        population=GrainPopulation(family="equiaxed", mean_intercept_um=6.0),
        um_per_px=0.1726,
        shape=(240, 320),
    )
    picture = mark_synthetic(render_section(parameters, seed=seed).picture).picture
    assert np.asarray(picture).shape[:2] == (240, 320)
    path.write_bytes(encode_png(picture, text={SYNTHETIC_KEY: "yes"}))
    return path


@pytest.fixture(scope="module")
def examined(desk: Desk) -> tuple[Entry, list[tuple[float, str]]]:
    told: list[tuple[float, str]] = []
    entry = examine_micrograph(
        desk, "f1", progress=lambda done, words: told.append((done, words))
    )
    return entry, told


def body_of(entry: Entry) -> Measurement:
    assert isinstance(entry.body, Measurement)
    return entry.body


def test_entered_as_a_measurement_of_the_micrograph(
    desk: Desk, examined: tuple[Entry, object]
) -> None:
    body = body_of(examined[0])
    assert open_case(desk.folder).record(Measurement, "f1-grains") == body
    assert body.measures == "micrograph/f1"
    assert body.measured_by == "Strandproof, started by A1"
    assert verify(desk.folder).sound


def test_record_holds_the_numbers_of_the_full_data_unrounded(
    desk: Desk, examined: tuple[Entry, object]
) -> None:
    body = body_of(examined[0])
    state = open_case(desk.folder)
    assert body.data_sha256 is not None
    path = original_file(desk.folder, state, body.data_sha256)
    data = json.loads(path.read_bytes())
    results = {each.name: each.value for each in body.results}
    size = results["mean_intercept"]
    assert size is not None
    told = data["picture"]["mean_intercept"]
    assert (size.value, size.unit) == (told["value"], told["unit"])
    assert size.standard_uncertainty == told["standard_uncertainty"]
    limits = told["interval95"]
    assert (size.lower, size.upper) == (limits["lower"], limits["upper"])
    micrograph = state.record(Micrograph, "f1")
    assert data["file"]["sha256"] == micrograph.file_sha256


def test_bears_on_crystals_only_and_keeps_its_flags(
    examined: tuple[Entry, object],
) -> None:
    body = body_of(examined[0])
    assert body.bears_on == (ClaimKind.CRYSTAL_STATE,)
    assert set(body.does_not_bear_on) == set(ClaimKind) - set(body.bears_on)
    assert "synthetic" in body.flags
    assert set(body.flags) <= set(FLAGS)
    assert len(set(body.flags)) == len(body.flags)


def test_progress_goes_up_to_the_end(
    examined: tuple[Entry, list[tuple[float, str]]],
) -> None:
    shares = [share for share, _ in examined[1]]
    assert shares == sorted(shares)
    assert shares[-1] == 1.0


def test_uncalibrated_micrograph_is_refused_and_changes_nothing(desk: Desk) -> None:
    before = contents(desk.folder)
    with pytest.raises(NotCalibratedError, match="f2 has no calibration"):
        examine_micrograph(desk, "f2")
    assert contents(desk.folder) == before


def test_unknown_micrograph_is_refused_and_changes_nothing(desk: Desk) -> None:
    before = contents(desk.folder)
    with pytest.raises(UnknownLabelError, match="no micrograph 'f9'; it has: f1, f2"):
        examine_micrograph(desk, "f9")
    assert contents(desk.folder) == before


def test_cancelling_enters_nothing(desk: Desk) -> None:
    class CancelledError(Exception):
        pass

    def cancel(_: float, __: str) -> None:
        raise CancelledError

    before = contents(desk.folder)
    with pytest.raises(CancelledError):
        examine_micrograph(desk, "f1", name="again", progress=cancel)
    assert contents(desk.folder) == before
