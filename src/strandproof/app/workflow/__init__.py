"""The use cases, one function each: every command and every button calls one.

May import every part below. Reads the clock through `Desk`, the disk through
`storage`; computes nothing about copper itself.
"""

from strandproof.app.workflow.checking import (
    entry_headline,
    missing_parts,
    verification_data,
    verification_in_words,
    verify,
)
from strandproof.app.workflow.demo import DemoOutcome, run_demo
from strandproof.app.workflow.entering import (
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
from strandproof.app.workflow.reporting import write_report

__all__ = [
    "DemoOutcome",
    "Desk",
    "PictureMeasurement",
    "enter",
    "enter_claim",
    "enter_exhibit",
    "enter_micrograph",
    "entry_headline",
    "examine_micrograph",
    "measure_picture",
    "measurement_document",
    "measurement_in_words",
    "missing_parts",
    "open_case",
    "pixel_size",
    "read_original",
    "run_demo",
    "start_case",
    "verification_data",
    "verification_in_words",
    "verify",
    "write_measurement",
    "write_report",
]
