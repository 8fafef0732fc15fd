"""From the records of a case to what people read: sentences, figures, HTML, PDF.

Imports everything below it but `storage`: bytes and records in, bytes out.
"""

from strandproof.report.answer import Answer, answer_in_five_sentences
from strandproof.report.case_report import CaseReport, case_report
from strandproof.report.figures import MicrographPicture, scale_bar_um
from strandproof.report.html import case_report_html
from strandproof.report.paper import case_report_pdf
from strandproof.report.plain import findings_data
from strandproof.report.wording import result_in_words, value_in_words

__all__ = [
    "Answer",
    "CaseReport",
    "MicrographPicture",
    "answer_in_five_sentences",
    "case_report",
    "case_report_html",
    "case_report_pdf",
    "findings_data",
    "result_in_words",
    "scale_bar_um",
    "value_in_words",
]
