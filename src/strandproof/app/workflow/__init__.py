"""The use cases, one function each: every command and every button calls one.

May import every part below. Reads the clock through `Desk`, the disk through
`storage`; computes nothing about copper itself.
"""

from strandproof.app.workflow.bounding import enter_no_boundary
from strandproof.app.workflow.checking import (
    entry_headline,
    missing_parts,
    verification_data,
    verification_in_words,
    verify,
)
from strandproof.app.workflow.combining import ReadersAsked, combine_readings
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
from strandproof.app.workflow.reporting import WrittenReport, write_report
from strandproof.app.workflow.resisting import (
    TypedReadings,
    judge_resistance,
    resistance_data,
    resistance_in_words,
)

__all__ = [
    "CoreReadings",
    "Correction",
    "DemoOutcome",
    "Desk",
    "PictureMeasurement",
    "ReadersAsked",
    "TypedReadings",
    "Weighted",
    "WrittenReport",
    "combine_readings",
    "enter",
    "enter_claim",
    "enter_exhibit",
    "enter_gauge_check",
    "enter_micrograph",
    "enter_no_boundary",
    "enter_resistance",
    "entry_headline",
    "examine_micrograph",
    "judge_resistance",
    "likelihoods_of",
    "measure_picture",
    "measurement_document",
    "measurement_in_words",
    "missing_parts",
    "open_case",
    "pixel_size",
    "read_original",
    "resistance_data",
    "resistance_in_words",
    "run_demo",
    "start_case",
    "verification_data",
    "verification_in_words",
    "verify",
    "weigh_observation",
    "weighing_in_words",
    "write_measurement",
    "write_report",
]
