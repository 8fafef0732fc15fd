"""The use case that measures a micrograph of a case and enters the result."""

import json

from strandproof.app.workflow.entering import Desk, open_case
from strandproof.app.workflow.keeping.gate import refuse_unprepared
from strandproof.app.workflow.measuring import (
    PictureMeasurement,
    Progress,
    measure_picture,
    measurement_document,
)
from strandproof.errors import NotCalibratedError
from strandproof.records.case_facts.interests import STARTED_BY
from strandproof.records.entries import (
    Calibration,
    ClaimKind,
    Entry,
    Measurement,
    MeasurementResult,
    Micrograph,
)
from strandproof.records.entries.numbers import measured_value, quantity_of
from strandproof.records.measurement import Estimate, GrainMeasurement
from strandproof.records.preparation import preparation_flags
from strandproof.storage import Addition, Original, original_file

_BEARS_ON = (ClaimKind.CRYSTAL_STATE,)
_MISSING = "not stated: see what is to be kept in mind"


def examine_micrograph(
    desk: Desk, label: str, *, name: str = "", progress: Progress | None = None
) -> Entry:
    """Measure the grains on a micrograph of the case and enter the result.

    Parameters
    ----------
    desk : Desk
        Folder and person.
    label : str
        Short name of the micrograph.
    name : str
        Short name of the measurement; made from the micrograph's when empty.
    progress : callable or None
        Called with a fraction and words.

    Returns
    -------
    Entry
        The measurement as entered; its full data are kept as a file.

    Raises
    ------
    NotCalibratedError
        If no calibration holds for the micrograph.
    """
    state = open_case(desk.folder)
    micrograph = state.record(Micrograph, label)
    if micrograph.calibration is None:
        raise NotCalibratedError(label)
    refuse_unprepared(state, micrograph)
    calibration = state.record(Calibration, micrograph.calibration)
    result = measure_picture(
        original_file(desk.folder, state, micrograph.file_sha256),
        pixel_size=quantity_of(calibration.pixel_size),
        page=micrograph.page,
        progress=progress,
    )
    data = Original(
        json.dumps(measurement_document(result), indent=2).encode("utf-8"),
        f"{label}-measurement.json",
        "application/json",
    )
    body = _measurement(desk, micrograph, result, name or f"{label}-grains")
    flags = (*body.flags, *preparation_flags(state, [micrograph.section]))
    found = {"data_sha256": data.sha256, "flags": flags}
    return desk.add(Addition(body.model_copy(update=found), (data,)))[0]


def _measurement(
    desk: Desk, micrograph: Micrograph, result: PictureMeasurement, name: str
) -> Measurement:
    found = result.measurement
    values = found.picture
    verdicts = {strand.verdict for strand in found.strands}
    return Measurement(
        id=name,
        measures=f"micrograph/{micrograph.id}",
        method=f"automatic grain measurement ({found.method})",
        method_version=found.method_version,
        results=() if values is None else _results(values),
        verdict=verdicts.pop() if len(verdicts) == 1 else "undecided",
        flags=tuple(dict.fromkeys(flag.name for flag in found.flags)),
        bears_on=_BEARS_ON,
        does_not_bear_on=tuple(kind for kind in ClaimKind if kind not in _BEARS_ON),
        measured_at=desk.clock(),
        measured_by=f"{STARTED_BY}{desk.person}",
    )


def _results(values: GrainMeasurement) -> tuple[MeasurementResult, ...]:
    crossings = values.axial_crossings
    estimates = {
        "mean_intercept": values.intercepts.mean_intercept,
        "g_intercept": values.g_intercept,
        "grains_per_mm2": values.grains_per_area,
        "g_planimetric": values.g_planimetric,
        "crossings_per_mm": None if crossings is None else crossings.rate,
    }
    words = {"crossings_per_mm": "" if crossings is None else crossings.sentence}
    count = values.count
    seen = f"{count.grains}, of which {count.cut} are cut by the frame"
    return (
        *(
            _result(key, estimate, words.get(key, ""))
            for key, estimate in estimates.items()
        ),
        MeasurementResult(name="grains", value=None, words=seen),
    )


def _result(name: str, estimate: Estimate | None, words: str) -> MeasurementResult:
    if estimate is None:
        return MeasurementResult(name=name, value=None, words=words or _MISSING)
    value = measured_value(estimate.quantity, estimate.interval95)
    return MeasurementResult(name=name, value=value, words=words)
