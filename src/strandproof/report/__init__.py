"""From the records of a case to what people read: sentences, figures, HTML, PDF.

Imports everything below it but `storage`: bytes and records in, bytes out.
"""

from strandproof.report.answer import Answer, answer_in_five_sentences
from strandproof.report.build_table import (
    build_rows,
    not_tested,
    target_sentences,
    targets,
)
from strandproof.report.case_report import CaseReport, case_report
from strandproof.report.figures import MicrographPicture, scale_bar_um
from strandproof.report.html import case_report_html
from strandproof.report.not_shown import readings_side_by_side
from strandproof.report.paper import case_report_pdf
from strandproof.report.plain import findings_data
from strandproof.report.portion_words import (
    Tolerances,
    all_portions,
    balance_in_words,
    usual_tolerances,
)
from strandproof.report.received import cost_total
from strandproof.report.wording import result_in_words, value_in_words

__all__ = [
    "Answer",
    "CaseReport",
    "MicrographPicture",
    "Tolerances",
    "all_portions",
    "answer_in_five_sentences",
    "balance_in_words",
    "build_rows",
    "case_report",
    "case_report_html",
    "case_report_pdf",
    "cost_total",
    "findings_data",
    "not_tested",
    "readings_side_by_side",
    "result_in_words",
    "scale_bar_um",
    "target_sentences",
    "targets",
    "usual_tolerances",
    "value_in_words",
]
