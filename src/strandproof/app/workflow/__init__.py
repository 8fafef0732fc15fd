"""The use cases, one function each: every command and every button calls one.

May import every part below. Reads the clock through `Desk`, the disk through
`storage`; computes nothing about copper itself.
"""

from strandproof.app.workflow.bounding import enter_no_boundary
from strandproof.app.workflow.calibrating import (
    TypedScale,
    calibrate_by_marks,
    calibrate_from_metadata,
    calibrate_on_bar,
    calibrate_on_stage_scale,
    calibration_in_words,
)
from strandproof.app.workflow.checking import (
    entry_headline,
    missing_parts,
    verification_data,
    verification_in_words,
    verify,
)
from strandproof.app.workflow.combining import (
    ReadersAsked,
    combine_readings,
    known_pieces_of,
)
from strandproof.app.workflow.conducting import (
    CoreReadings,
    enter_gauge_check,
    enter_resistance,
)
from strandproof.app.workflow.deciding import (
    Weighted,
    likelihoods_of,
    weigh_observation,
    weighing_in_words,
)
from strandproof.app.workflow.demo import DemoOutcome, run_demo
from strandproof.app.workflow.editing import measured_with_edits, read_edits
from strandproof.app.workflow.entering import (
    Correction,
    Desk,
    enter,
    enter_claim,
    enter_exhibit,
    enter_micrograph,
    open_case,
    read_original,
    start_case,
)
from strandproof.app.workflow.examining import examine_micrograph
from strandproof.app.workflow.measuring import (
    PictureMeasurement,
    measure_picture,
    measurement_document,
    measurement_in_words,
    pixel_size,
    write_measurement,
)
from strandproof.app.workflow.orientating import (
    OrientationAnswer,
    OrientationQuestion,
    examine_orientations,
    write_example_orientations,
)
from strandproof.app.workflow.orientation_data import orientations_data
from strandproof.app.workflow.orientation_words import orientations_in_words
from strandproof.app.workflow.reading_by_people import (
    compare_readers,
    comparison_data,
    comparison_in_words,
    direction_hint,
    enter_reading,
    give_test_lines,
    lock_reading,
    program_beside_readers,
    program_in_words,
    re_class,
    reading_in_words,
    write_reading_sheet,
    write_test_lines,
)
from strandproof.app.workflow.reporting import WrittenReport, write_report
from strandproof.app.workflow.resistance_readings import (
    Lay,
    TypedReadings,
    by_specification,
    series_of_table,
    typed_series,
)
from strandproof.app.workflow.resistance_words import (
    resistance_data,
    resistance_in_words,
)
from strandproof.app.workflow.resisting import (
    ResistanceAnswer,
    judge_resistance,
    resistance_finding,
    write_budget_plot,
)
from strandproof.app.workflow.resize_guarding import resized_copies

__all__ = [
    "CoreReadings",
    "Correction",
    "DemoOutcome",
    "Desk",
    "Lay",
    "OrientationAnswer",
    "OrientationQuestion",
    "PictureMeasurement",
    "ReadersAsked",
    "ResistanceAnswer",
    "TypedReadings",
    "TypedScale",
    "Weighted",
    "WrittenReport",
    "by_specification",
    "calibrate_by_marks",
    "calibrate_from_metadata",
    "calibrate_on_bar",
    "calibrate_on_stage_scale",
    "calibration_in_words",
    "combine_readings",
    "compare_readers",
    "comparison_data",
    "comparison_in_words",
    "direction_hint",
    "enter",
    "enter_claim",
    "enter_exhibit",
    "enter_gauge_check",
    "enter_micrograph",
    "enter_no_boundary",
    "enter_reading",
    "enter_resistance",
    "entry_headline",
    "examine_micrograph",
    "examine_orientations",
    "give_test_lines",
    "judge_resistance",
    "known_pieces_of",
    "likelihoods_of",
    "lock_reading",
    "measure_picture",
    "measured_with_edits",
    "measurement_document",
    "measurement_in_words",
    "missing_parts",
    "open_case",
    "orientations_data",
    "orientations_in_words",
    "pixel_size",
    "program_beside_readers",
    "program_in_words",
    "re_class",
    "read_edits",
    "read_original",
    "reading_in_words",
    "resistance_data",
    "resistance_finding",
    "resistance_in_words",
    "resized_copies",
    "run_demo",
    "series_of_table",
    "start_case",
    "typed_series",
    "verification_data",
    "verification_in_words",
    "verify",
    "weigh_observation",
    "weighing_in_words",
    "write_budget_plot",
    "write_example_orientations",
    "write_measurement",
    "write_reading_sheet",
    "write_report",
    "write_test_lines",
]
