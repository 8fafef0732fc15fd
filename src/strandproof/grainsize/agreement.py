"""Agreement of two readers who put the same pieces into categories."""

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from math import sqrt
from types import MappingProxyType

from strandproof.errors import ParameterError
from strandproof.quantity import Interval, binomial_interval, coverage_factor

_CONFIDENCE = 0.95


@dataclass(frozen=True, slots=True, kw_only=True)
class ReaderDifference:
    """A piece that two readers put into different categories.

    Parameters
    ----------
    place : int
        Place of the piece in both lists, counted from 0.
    first, second : str
        Category by each reader.
    """

    place: int
    first: str
    second: str


@dataclass(frozen=True, slots=True, kw_only=True)
class ReaderAgreement:
    """How far two readers agree.

    Parameters
    ----------
    pieces : int
        Pieces that both read.
    same : int
        Pieces put into the same category by both.
    share95 : Interval
        Exact 95 % limits of the share of pieces put alike.
    kappa : float or None
        Cohen's kappa; None when both readers used one and the same category
        throughout, since chance alone then gives full agreement.
    kappa95 : Interval or None
        Its 95 % interval for many pieces; None without kappa, and where the readers
        never differ: the formula then gives no width, which says nothing.
    table : mapping of (str, str) to int
        Pieces by the categories of the first and of the second reader.
    differences : tuple of ReaderDifference
        The pieces that they put differently, in order.
    """

    pieces: int
    same: int
    share95: Interval
    kappa: float | None
    kappa95: Interval | None
    table: Mapping[tuple[str, str], int]
    differences: tuple[ReaderDifference, ...]


def reader_agreement(first: Sequence[str], second: Sequence[str]) -> ReaderAgreement:
    """Compare two readers, piece by piece; "not readable" is a category too.

    Parameters
    ----------
    first, second : sequence of str
        Categories by the first and the second reader, in the same order.

    Returns
    -------
    ReaderAgreement
        Counts, Cohen's kappa with its interval, and what they put differently.

    Raises
    ------
    ParameterError
        If the readers read different numbers of pieces, or none.

    Notes
    -----
    kappa = (p_o - p_e) / (1 - p_e), with p_o the share of pieces read alike and
    p_e the share expected by chance from each reader's own frequencies.

    Its interval is kappa +- 1.96 s, with s the large-sample standard error of
    Fleiss, Cohen and Everitt, cut at -1 and 1. It holds for many pieces; with some
    ten pieces or few differences it is rough, and the exact limits of the share
    alike are the safer statement.

    References
    ----------
    J. Cohen, A coefficient of agreement for nominal scales, Educational and
    Psychological Measurement 20 (1960) 37-46 (formula from memory).

    J. L. Fleiss, J. Cohen, B. S. Everitt, Large sample standard errors of kappa and
    weighted kappa, Psychological Bulletin 72 (1969) 323-327 (formula read in the
    source of statsmodels 0.15, which names no paper; the paper from memory).

    Examples
    --------
    >>> agreement = reader_agreement(["yes", "no", "no"], ["yes", "no", "yes"])
    >>> agreement.kappa, agreement.differences[0].place
    (0.4, 2)
    """
    pieces = len(first)
    if pieces == 0 or pieces != len(second):
        raise ParameterError(
            "second",
            len(second),
            allowed=f"as many categories as the first reader's ({pieces}), 1 or more",
        )
    both = list(zip(first, second, strict=True))
    differences = tuple(
        ReaderDifference(place=place, first=one, second=other)
        for place, (one, other) in enumerate(both)
        if one != other
    )
    same = pieces - len(differences)
    table = Counter(both)
    kappa = _kappa(table)
    return ReaderAgreement(
        pieces=pieces,
        same=same,
        share95=binomial_interval(same, pieces, confidence=_CONFIDENCE),
        kappa=kappa,
        kappa95=_kappa_interval(table, kappa) if differences else None,
        table=MappingProxyType(dict(sorted(table.items()))),
        differences=differences,
    )


def _margins(table: Counter[tuple[str, str]]) -> tuple[Counter[str], Counter[str]]:
    mine: Counter[str] = Counter()
    theirs: Counter[str] = Counter()
    for (one, other), count in table.items():
        mine[one] += count
        theirs[other] += count
    return mine, theirs


def _kappa(table: Counter[tuple[str, str]]) -> float | None:
    pieces = table.total()
    mine, theirs = _margins(table)
    same = sum(count for (one, other), count in table.items() if one == other)
    by_chance = sum(count * theirs[word] for word, count in mine.items())
    if by_chance == pieces**2:
        return None
    return (same * pieces - by_chance) / (pieces**2 - by_chance)


def _kappa_interval(
    table: Counter[tuple[str, str]], kappa: float | None
) -> Interval | None:
    if kappa is None:
        return None
    pieces = table.total()
    mine, theirs = _margins(table)
    by_chance = sum(count * theirs[word] for word, count in mine.items()) / pieces**2
    # The three terms of the variance: pieces alike, pieces not alike, mean squared.
    alike = sum(
        count * (1 - (mine[one] + theirs[one]) / pieces * (1 - kappa)) ** 2
        for (one, other), count in table.items()
        if one == other
    )
    unlike = sum(
        count * ((theirs[one] + mine[other]) / pieces) ** 2
        for (one, other), count in table.items()
        if one != other
    )
    spread = (alike + (1 - kappa) ** 2 * unlike) / pieces
    spread -= (kappa - by_chance * (1 - kappa)) ** 2
    error = sqrt(max(0.0, spread) / pieces) / (1 - by_chance)
    half = coverage_factor(_CONFIDENCE) * error
    return Interval(
        lower=max(-1.0, kappa - half),
        upper=min(1.0, kappa + half),
        unit="1",
        confidence=_CONFIDENCE,
        method=f"large-sample standard error of kappa, {pieces} pieces",
    )
