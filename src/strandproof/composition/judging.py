"""A certificate judged as a whole: totals, contradictions, gaps, limits."""

from collections.abc import Sequence
from dataclasses import dataclass

from strandproof.composition.consequence import (
    ElectricalConsequence,
    HeldAgainst,
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
from strandproof.composition.grades import GradeCheck, grade_check
from strandproof.composition.totals import ImpurityTotal, impurity_total
from strandproof.quantity import Quantity
from strandproof.records.composition import Basis, Certificate
from strandproof.records.flags import Flag

_BASES = (Basis.METALS_ONLY, Basis.GASES_IN)


@dataclass(frozen=True, slots=True, kw_only=True)
class CertificateJudgement:
    """Everything that a certificate's own numbers allow to say.

    Parameters
    ----------
    certificate : Certificate
        As entered.
    totals : tuple of ImpurityTotal
        On metals basis and with gases in.
    contradictions : tuple of Contradiction
        What it states against its own list.
    missing : tuple of MissingElement
        Elements that matter and are not listed.
    grades : tuple of GradeCheck
        Against the grades asked for.
    consequence : ElectricalConsequence
        Resistivity and residual ratio by the list.
    held_against : tuple of HeldAgainst
        Measured values beside the prediction.
    flags : tuple of Flag
        Conditions that a reader must know.
    """

    certificate: Certificate
    totals: tuple[ImpurityTotal, ...]
    contradictions: tuple[Contradiction, ...]
    missing: tuple[MissingElement, ...]
    grades: tuple[GradeCheck, ...]
    consequence: ElectricalConsequence
    held_against: tuple[HeldAgainst, ...]
    flags: tuple[Flag, ...]


def judge_certificate(
    certificate: Certificate,
    *,
    grades: Sequence[str] = (),
    percent_iacs: Quantity | None = None,
    residual_ratio: Quantity | None = None,
) -> CertificateJudgement:
    """Judge a certificate by its own numbers.

    It judges what the paper says; whether the item analysed is the metal of the
    product is another question, see `paper_adequacy`.

    Parameters
    ----------
    certificate : Certificate
        As entered.
    grades : sequence of str
        Grades to check it against; the grade that it states is added where its limits
        are known here.
    percent_iacs : Quantity, optional
        Measured conductivity [% IACS].
    residual_ratio : Quantity, optional
        Measured R(273.15 K) / R(4.2 K), unit ``"1"``.

    Returns
    -------
    CertificateJudgement
        Totals, contradictions, gaps, limits, consequence.

    Raises
    ------
    MissingMeasurementError
        If it states nines or a copper content without their basis.
    ParameterError
        If the nines or a grade asked for cannot be read, or a measured value has
        another unit.

    Examples
    --------
    >>> from strandproof.records.composition import ElementContent
    >>> iron = ElementContent(symbol="Fe", state="value", ppm=8.0)
    >>> paper = Certificate(
    ...     item="rod", nines="6N", basis=Basis.METALS_ONLY, contents=(iron,)
    ... )
    >>> [one.name for one in judge_certificate(paper).contradictions]
    ['nines_contradicted']
    """
    require_basis(certificate)
    totals = tuple(impurity_total(certificate, basis=basis) for basis in _BASES)
    consequence = electrical_consequence(certificate)
    held = []
    if percent_iacs is not None:
        held.append(held_against_conductivity(consequence, percent_iacs))
    if residual_ratio is not None:
        held.append(held_against_ratio(consequence, residual_ratio))
    found = contradictions(certificate)
    missing = missing_elements(certificate)
    return CertificateJudgement(
        certificate=certificate,
        totals=totals,
        contradictions=found,
        missing=missing,
        grades=tuple(grade_check(certificate, each) for each in grades),
        consequence=consequence,
        held_against=tuple(held),
        flags=_flags(found, missing, totals, consequence),
    )


def _flags(
    found: Sequence[Contradiction],
    missing: Sequence[MissingElement],
    totals: Sequence[ImpurityTotal],
    consequence: ElectricalConsequence,
) -> tuple[Flag, ...]:
    flags = [Flag(each.name, each.sentence) for each in found]
    if missing:
        symbols = ", ".join(each.symbol for each in missing)
        flags.append(Flag("elements_not_reported", symbols))
    if any(total.uncertainty_assumed for total in totals):
        flags.append(Flag("certificate_uncertainty_assumed"))
    if consequence.unknown:
        flags.append(
            Flag("effect_on_resistivity_unknown", ", ".join(consequence.unknown))
        )
    return tuple(flags)
