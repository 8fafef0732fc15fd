"""What papers and analyses say about the metal: nines, limits, oxygen, adequacy.

Pure functions over records. It judges what a certificate states by its own numbers,
what it would mean for the resistivity, what a paper can bear on at all, and what is
known about oxygen. Imports `records`, `tables`, `quantity` and `errors`.
"""

from strandproof.composition.cell_reading import (
    content_from_words,
    contents_from_cells,
)
from strandproof.composition.consequence import (
    ElectricalConsequence,
    HeldAgainst,
    Range,
    electrical_consequence,
    held_against_conductivity,
    held_against_ratio,
)
from strandproof.composition.contradictions import (
    Contradiction,
    MissingElement,
    contradictions,
    missing_elements,
    require_basis,
)
from strandproof.composition.document_words import (
    JudgedDocument,
    claim_and_papers,
    judge_document,
    unsupported_kinds,
)
from strandproof.composition.grades import (
    GradeCheck,
    LimitCheck,
    LimitVerdict,
    grade_check,
    grade_key,
    grade_names,
)
from strandproof.composition.judging import CertificateJudgement, judge_certificate
from strandproof.composition.nines import (
    StatedNines,
    nines_number,
    nines_written,
    purity_in_words,
    stated_nines,
)
from strandproof.composition.oxygen import (
    CANNOT_SEE,
    InclusionOxygen,
    OxideField,
    inclusion_oxygen,
    oxygen_of_oxide_fraction,
)
from strandproof.composition.oxygen_evidence import (
    HYDROGEN_MEANINGS,
    HydrogenTest,
    OxygenClass,
    OxygenJudgement,
    OxygenStatement,
    gas_interval,
    judge_oxygen,
)
from strandproof.composition.papers import (
    Ability,
    PaperVerdict,
    adequacy_grid,
    kind_words,
    paper_adequacy,
    paper_kinds,
    paper_title,
)
from strandproof.composition.totals import (
    BASIS_WORDS,
    GASES,
    ImpurityTotal,
    LimitTreatment,
    impurity_total,
)

__all__ = [
    "BASIS_WORDS",
    "CANNOT_SEE",
    "GASES",
    "HYDROGEN_MEANINGS",
    "Ability",
    "CertificateJudgement",
    "Contradiction",
    "ElectricalConsequence",
    "GradeCheck",
    "HeldAgainst",
    "HydrogenTest",
    "ImpurityTotal",
    "InclusionOxygen",
    "JudgedDocument",
    "LimitCheck",
    "LimitTreatment",
    "LimitVerdict",
    "MissingElement",
    "OxideField",
    "OxygenClass",
    "OxygenJudgement",
    "OxygenStatement",
    "PaperVerdict",
    "Range",
    "StatedNines",
    "adequacy_grid",
    "claim_and_papers",
    "content_from_words",
    "contents_from_cells",
    "contradictions",
    "electrical_consequence",
    "gas_interval",
    "grade_check",
    "grade_key",
    "grade_names",
    "held_against_conductivity",
    "held_against_ratio",
    "impurity_total",
    "inclusion_oxygen",
    "judge_certificate",
    "judge_document",
    "judge_oxygen",
    "kind_words",
    "missing_elements",
    "nines_number",
    "nines_written",
    "oxygen_of_oxide_fraction",
    "paper_adequacy",
    "paper_kinds",
    "paper_title",
    "purity_in_words",
    "require_basis",
    "stated_nines",
    "unsupported_kinds",
]
