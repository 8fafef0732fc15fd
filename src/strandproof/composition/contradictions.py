"""Where a certificate contradicts itself, and which elements it lacks."""

from collections.abc import Mapping
from dataclasses import dataclass

from strandproof.composition.nines import nines_written, stated_nines
from strandproof.composition.totals import GASES, ImpurityTotal, impurity_total
from strandproof.errors import MissingMeasurementError
from strandproof.records.composition import Basis, Certificate
from strandproof.tables import TableRow, package_table, table_value

_OXYGEN_FREE = frozenset(
    {"c10100": "ofe", "cu_ofe": "ofe", "c10200": "of", "cu_of": "of"}.items()
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Contradiction:
    """A statement of a certificate that its own numbers do not bear out.

    Parameters
    ----------
    name : str
        Name of a flag in the registry.
    sentence : str
        What is stated and what the numbers say.
    """

    name: str
    sentence: str


@dataclass(frozen=True, slots=True, kw_only=True)
class MissingElement:
    """An element that matters and has no number and no limit.

    Parameters
    ----------
    symbol : str
        Chemical symbol.
    why : str
        Why it matters.
    """

    symbol: str
    why: str


def require_basis(certificate: Certificate) -> None:
    """Refuse nines or a copper content without the basis that they count on.

    Parameters
    ----------
    certificate : Certificate
        As entered.

    Raises
    ------
    MissingMeasurementError
        If nines or a copper content are stated and no basis is.

    Notes
    -----
    5 ppm of oxygen alone cap the purity with gases in at 99.9995 %, so "6N" and an
    oxygen figure can both be true on different bases.
    """
    stated = certificate.nines or (
        f"{certificate.copper_percent:g} % copper" if certificate.copper_percent else ""
    )
    if stated and certificate.basis is Basis.NOT_STATED:
        missing = f"The basis of {stated!r}"
        raise MissingMeasurementError(
            missing,
            reason="Nines count metals only, or everything with gases in, or are the "
            "rest of 100 % after the listed elements; without the basis nobody can "
            "say what they deny.",
            remedy="Ask the issuer and give the basis: metals_only, gases_in or "
            "by_difference; or leave the nines out and judge the list alone.",
        )


def contradictions(
    certificate: Certificate, *, rules: Mapping[str, TableRow] | None = None
) -> tuple[Contradiction, ...]:
    """Find what a certificate states against its own list.

    Numbers decide by the hard ends: a contradiction is named only where even the most
    favourable reading of the list (nothing below a detection limit present) breaks
    the statement; a statement that the list is too coarse to show is named so.

    Parameters
    ----------
    certificate : Certificate
        As entered.
    rules : Mapping from str to TableRow, optional
        Rows as in ``composition_rules``; None takes the package's table.

    Returns
    -------
    tuple of Contradiction
        In the order: nines, copper content, oxygen, thin list.

    Raises
    ------
    ParameterError
        If the stated nines cannot be read.

    Examples
    --------
    >>> from strandproof.records.composition import ElementContent
    >>> paper = Certificate(
    ...     item="rod", nines="6N", basis=Basis.METALS_ONLY,
    ...     contents=(ElementContent(symbol="Fe", state="value", ppm=8.0),),
    ... )
    >>> print(contradictions(paper)[0].sentence)
    States 6N, which allows 1 ppm in all; its own list adds up to 8 ppm (5N2) without \
anything below a detection limit.
    """
    table = package_table("composition_rules") if rules is None else rules
    total = impurity_total(certificate, basis=certificate.basis)
    return (
        *_about_nines(certificate, total),
        *_about_copper(certificate, total),
        *_about_oxygen(certificate, table),
        *_about_difference(certificate, table),
    )


def missing_elements(
    certificate: Certificate, *, rules: Mapping[str, TableRow] | None = None
) -> tuple[MissingElement, ...]:
    """Name the elements that matter and are not in the list.

    Parameters
    ----------
    certificate : Certificate
        As entered.
    rules : Mapping from str to TableRow, optional
        Rows as in ``composition_rules``; None takes the package's table.

    Returns
    -------
    tuple of MissingElement
        Of O, H, S, P and Ag, those without a number and a limit, with the reason.
    """
    table = package_table("composition_rules") if rules is None else rules
    listed = {one.symbol for one in certificate.measured}
    rows = {
        key.removeprefix("missing.").capitalize(): row.conditions
        for key, row in table.items()
        if key.startswith("missing.")
    }
    return tuple(
        MissingElement(symbol=symbol, why=why)
        for symbol, why in rows.items()
        if symbol not in listed
    )


def _about_nines(
    certificate: Certificate, total: ImpurityTotal
) -> tuple[Contradiction, ...]:
    if not certificate.nines:
        return ()
    stated = stated_nines(certificate.nines)
    allowed = stated.impurity_ppm
    says = f"States {stated.word}, which allows {allowed:g} ppm in all; its own list"
    if _exceeds(total.lowest_ppm, allowed):
        sentence = (
            f"{says} adds up to {total.lowest_ppm:.3g} ppm "
            f"({nines_written(total.lowest_ppm)}) without anything below a detection "
            "limit."
        )
        return (Contradiction(name="nines_contradicted", sentence=sentence),)
    if _exceeds(total.bound_ppm, allowed):
        sentence = (
            f"{says} shows at most {total.bound_ppm:.3g} ppm "
            f"({nines_written(total.bound_ppm)}): detection limits and uncertainty are "
            "too coarse to show the nines stated."
        )
        return (Contradiction(name="nines_not_shown", sentence=sentence),)
    return ()


def _about_copper(
    certificate: Certificate, total: ImpurityTotal
) -> tuple[Contradiction, ...]:
    copper = certificate.copper_percent
    if copper is None:
        return ()
    room = (100 - copper) * 1e4
    # A printed 99.99 stands for anything that rounds to it.
    rounding = 0.5e4 * 10.0 ** -_decimals(copper)
    if total.lowest_ppm <= room + rounding:
        return ()
    sentence = (
        f"States {copper:g} % copper, which leaves {room:.3g} ppm; the listed elements "
        f"add up to {total.lowest_ppm:.3g} ppm."
    )
    return (Contradiction(name="sum_above_whole", sentence=sentence),)


def _about_oxygen(
    certificate: Certificate, table: Mapping[str, TableRow]
) -> tuple[Contradiction, ...]:
    grade = certificate.grade.strip().lower().replace("-", "_")
    free = dict(_OXYGEN_FREE).get(grade)
    if free is None:
        # Words such as "oxygen-free" claim at least the wider of the two classes.
        free = "of" if "oxygen_free" in grade.replace(" ", "_") else None
    if free is None:
        return ()
    limit = table_value(table, f"oxygen.{free}_maximum")
    oxygen = certificate.content("O")
    if oxygen is None:
        sentence = (
            f"States {certificate.grade}, and oxygen is not reported: nothing on the "
            "paper shows it."
        )
        return (Contradiction(name="oxygen_not_reported", sentence=sentence),)
    if oxygen.state == "value" and _exceeds(oxygen.ppm or 0.0, limit):
        sentence = (
            f"States {certificate.grade}, which allows {limit:g} ppm of oxygen; it "
            f"lists {oxygen.ppm:g} ppm."
        )
        return (Contradiction(name="oxygen_contradicted", sentence=sentence),)
    return ()


def _about_difference(
    certificate: Certificate, table: Mapping[str, TableRow]
) -> tuple[Contradiction, ...]:
    few = table_value(table, "few_elements")
    count = len(certificate.measured)
    if certificate.basis is not Basis.BY_DIFFERENCE or count >= few:
        return ()
    looked = [one.symbol for one in certificate.measured]
    gases = ", no gas among them" if not set(looked) & set(GASES) else ""
    sentence = (
        f"Purity by difference from {count} elements only{gases}: whatever was not "
        "looked for counts as copper."
    )
    return (Contradiction(name="thin_difference", sentence=sentence),)


def _exceeds(ppm: float, allowed: float) -> bool:
    return ppm > allowed * (1 + 1e-9)


def _decimals(percent: float) -> int:
    return len(f"{percent:.12g}".partition(".")[2])
