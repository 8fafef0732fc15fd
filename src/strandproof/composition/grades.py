"""Limits of copper grades and cathodes, checked element by element."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from math import fsum, sqrt
from typing import Literal

from strandproof.errors import ParameterError
from strandproof.quantity import coverage_factor
from strandproof.records.composition import Certificate, ElementContent
from strandproof.tables import TableRow, package_table

LimitVerdict = Literal["within", "above", "too_close", "cannot_tell", "not_measured"]

_ONE_SIDED = 0.95


@dataclass(frozen=True, slots=True, kw_only=True)
class LimitCheck:
    """One limit of a grade against what a certificate lists.

    Parameters
    ----------
    name : str
        Element, group, total or copper, as it is printed.
    symbols : tuple of str
        Elements that the limit is about.
    limit : float
        The limit, in `unit`.
    unit : str
        ``"ppm"``, a greatest content by mass, or ``"%"``, a least content of copper.
    lowest, highest : float or None
        Range of the content by the certificate, in `unit`; None where an element of
        it was not measured.
    verdict : LimitVerdict
        ``"too_close"``: the stated uncertainty reaches across the limit;
        ``"cannot_tell"``: a detection limit lies above the limit.
    source : str
        Where the limit comes from, with edition and place.
    status : str
        Status of the limit: read, from memory ...
    """

    name: str
    symbols: tuple[str, ...]
    limit: float
    unit: str
    lowest: float | None
    highest: float | None
    verdict: LimitVerdict
    source: str
    status: str


@dataclass(frozen=True, slots=True, kw_only=True)
class GradeCheck:
    """A certificate against all limits of a grade.

    Parameters
    ----------
    grade : str
        Key of the grade, for example ``"c10100"``.
    title : str
        Grade in words.
    limits : tuple of LimitCheck
        One for each limit known here.
    """

    grade: str
    title: str
    limits: tuple[LimitCheck, ...]

    @property
    def meets(self) -> bool | None:
        """True if all known limits are met, False if one is broken, else None."""
        verdicts = {check.verdict for check in self.limits}
        if "above" in verdicts:
            return False
        return True if verdicts == {"within"} else None

    @property
    def sentence(self) -> str:
        """The outcome in one sentence."""
        broken = self._named("above")
        if broken:
            return f"Outside of the limits of {self.title}: {', '.join(broken)}."
        if self.meets:
            return (
                f"Within the limits of {self.title} that are known here "
                f"({len(self.limits)}), as far as this paper goes."
            )
        open_ones = [
            f"{', '.join(names)} {words}"
            for verdict, words in _OPEN_WORDS.items()
            if (names := self._named(verdict))
        ]
        if any(
            one.unit == "%" and one.verdict == "not_measured" for one in self.limits
        ):
            open_ones.append("copper not stated")
        return (
            f"Undecided for {self.title}: {'; '.join(open_ones)}; "
            "no listed limit is broken."
        )

    def _named(self, verdict: str) -> list[str]:
        # Copper that is not stated has words of its own.
        silent = verdict == "not_measured"
        return [
            one.name
            for one in self.limits
            if one.verdict == verdict and not (silent and one.unit == "%")
        ]


_OPEN_WORDS = {
    "not_measured": "not measured",
    "cannot_tell": "with a detection limit above the limit",
    "too_close": "too close to the limit for the stated uncertainty",
}


def grade_names(table: Mapping[str, TableRow] | None = None) -> tuple[str, ...]:
    """Give the grades whose limits are known here.

    Parameters
    ----------
    table : Mapping from str to TableRow, optional
        Rows as in ``copper_grades``; None takes the package's table.

    Returns
    -------
    tuple of str
        Keys, for example ``"c10100"``.
    """
    rows = _rows(table)
    return tuple(k.partition(".")[0] for k in rows if k.endswith(".title"))


def grade_key(word: str, *, table: Mapping[str, TableRow] | None = None) -> str:
    """Find a grade by how people write it.

    Parameters
    ----------
    word : str
        For example ``"C10100"``, ``"Cu-OFE"``, ``"Cu-CATH-1"``.
    table : Mapping from str to TableRow, optional
        Rows as in ``copper_grades``; None takes the package's table.

    Returns
    -------
    str
        Key of the grade.

    Raises
    ------
    ParameterError
        If its limits are not known here.

    Examples
    --------
    >>> grade_key("Cu-CATH-1"), grade_key("C10100")
    ('cu_cath_1', 'c10100')
    """
    key = word.strip().lower().replace("-", "_").replace(" ", "_")
    names = grade_names(table)
    if key not in names:
        raise ParameterError("grade", word, allowed="one of " + ", ".join(names))
    return key


def grade_check(
    certificate: Certificate,
    grade: str,
    *,
    table: Mapping[str, TableRow] | None = None,
) -> GradeCheck:
    """Check a certificate against the limits of a grade, element by element.

    An element that is not listed is not within its limit: nobody looked. Where the
    certificate states an uncertainty, a limit is met or broken only when the
    one-sided 95 % end of the content is (guard band 1.645 u, as JCGM 106 describes);
    without one the number itself is compared. It judges the paper, not the metal.

    Parameters
    ----------
    certificate : Certificate
        As entered.
    grade : str
        Grade as people write it.
    table : Mapping from str to TableRow, optional
        Rows as in ``copper_grades``; None takes the package's table.

    Returns
    -------
    GradeCheck
        Every limit with its verdict, source and status.

    Raises
    ------
    ParameterError
        If the limits of the grade are not known here.

    Examples
    --------
    >>> paper = Certificate(
    ...     item="rod",
    ...     contents=(ElementContent(symbol="O", state="value", ppm=12.0),),
    ... )
    >>> grade_check(paper, "C10200").limits[0].verdict
    'above'
    """
    rows = _rows(table)
    key = grade_key(grade, table=table)
    found = [
        *_element_checks(certificate, key, rows),
        *_group_checks(certificate, key, rows),
        *_copper_checks(certificate, key, rows),
    ]
    return GradeCheck(
        grade=key, title=rows[f"{key}.title"].conditions, limits=tuple(found)
    )


def _rows(table: Mapping[str, TableRow] | None) -> Mapping[str, TableRow]:
    return package_table("copper_grades") if table is None else table


def _below(rows: Mapping[str, TableRow], start: str) -> Iterator[tuple[str, TableRow]]:
    for key, row in rows.items():
        if key.startswith(start):
            yield key.removeprefix(start), row


def _element_checks(
    certificate: Certificate, key: str, rows: Mapping[str, TableRow]
) -> Iterator[LimitCheck]:
    for name, row in _below(rows, f"{key}.max."):
        symbol = name.capitalize()
        yield _check(symbol, (symbol,), row, certificate)


def _group_checks(
    certificate: Certificate, key: str, rows: Mapping[str, TableRow]
) -> Iterator[LimitCheck]:
    for _, row in _below(rows, f"{key}.group."):
        symbols = tuple(row.conditions.split(" + "))
        yield _check(row.conditions, symbols, row, certificate)
    for _, row in _below(rows, f"{key}.listed_total"):
        symbols = tuple(name.capitalize() for name, _ in _below(rows, f"{key}.max."))
        yield _check("total of the listed", symbols, row, certificate)
    for _, row in _below(rows, f"{key}.others_total"):
        out = {n.capitalize() for n, _ in _below(rows, f"{key}.others_without.")}
        symbols = tuple(c.symbol for c in certificate.measured if c.symbol not in out)
        name = f"others without {' and '.join(sorted(out))}"
        yield _check(name, symbols, row, certificate)


def _copper_checks(
    certificate: Certificate, key: str, rows: Mapping[str, TableRow]
) -> Iterator[LimitCheck]:
    """Check the least copper against the copper that the certificate states."""
    for _, row in _below(rows, f"{key}.copper_minimum"):
        stated = certificate.copper_percent
        verdict: LimitVerdict = "not_measured"
        if stated is not None:
            verdict = "within" if stated >= row.value else "above"
        yield LimitCheck(
            name="Cu as stated",
            symbols=("Cu",),
            limit=row.value,
            unit="%",
            lowest=stated,
            highest=stated,
            verdict=verdict,
            source=_source(row),
            status=row.status,
        )


def _check(
    name: str, symbols: tuple[str, ...], row: TableRow, certificate: Certificate
) -> LimitCheck:
    contents = [certificate.content(symbol) for symbol in symbols]
    known = [one for one in contents if one is not None]
    missing = len(known) < len(symbols) or not known
    lowest = fsum(one.ppm or 0.0 for one in known if one.state == "value")
    highest = fsum(one.ppm or 0.0 for one in known)
    guard = coverage_factor(2 * _ONE_SIDED - 1) * _uncertainty(known)
    return LimitCheck(
        name=name,
        symbols=symbols,
        limit=row.value,
        unit="ppm",
        lowest=lowest if known else None,
        highest=None if missing else highest,
        verdict=_verdict(row.value, lowest, highest, guard=guard, missing=missing),
        source=_source(row),
        status=row.status,
    )


def _uncertainty(contents: list[ElementContent]) -> float:
    return sqrt(fsum((one.standard_uncertainty or 0.0) ** 2 for one in contents))


def _verdict(
    limit: float, lowest: float, highest: float, *, guard: float, missing: bool
) -> LimitVerdict:
    # Sums of decimal ppm must not fail a limit by the dust of binary fractions.
    edge = limit * (1 + 1e-9)
    if lowest - guard > edge:
        return "above"
    if missing:
        return "not_measured"
    if highest + guard <= edge:
        return "within"
    return "cannot_tell" if lowest + guard <= edge else "too_close"


def _source(row: TableRow) -> str:
    return ", ".join(part for part in (row.source, row.edition, row.locator) if part)
