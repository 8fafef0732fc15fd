"""Agreement of two readers who put the same pieces into categories."""

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass

from strandproof.errors import ParameterError


@dataclass(frozen=True, slots=True)
class ReaderAgreement:
    """How far two readers agree.

    Parameters
    ----------
    pieces : int
        Pieces that both read.
    same : int
        Pieces put into the same category by both.
    kappa : float or None
        Cohen's kappa; None when both readers used one and the same category
        throughout, since chance alone then gives full agreement.
    """

    pieces: int
    same: int
    kappa: float | None


def reader_agreement(first: Sequence[str], second: Sequence[str]) -> ReaderAgreement:
    """Compare two readers, piece by piece; "not readable" is a category too.

    Parameters
    ----------
    first, second : sequence of str
        Categories by the first and the second reader, in the same order.

    Returns
    -------
    ReaderAgreement
        Counts and Cohen's kappa.

    Raises
    ------
    ParameterError
        If the readers read different numbers of pieces, or none.

    Notes
    -----
    kappa = (p_o - p_e) / (1 - p_e), with p_o the share of pieces read alike and
    p_e the share expected by chance from each reader's own frequencies.

    References
    ----------
    J. Cohen, A coefficient of agreement for nominal scales, Educational and
    Psychological Measurement 20 (1960) 37-46 (formula from memory).

    Examples
    --------
    >>> reader_agreement(["yes", "no", "no"], ["yes", "no", "yes"]).kappa
    0.4
    """
    pieces = len(first)
    if pieces == 0 or pieces != len(second):
        raise ParameterError(
            "second",
            len(second),
            allowed=f"as many categories as the first reader's ({pieces}), 1 or more",
        )
    same = sum(one == other for one, other in zip(first, second, strict=True))
    theirs = Counter(second)
    by_chance = sum(count * theirs[word] for word, count in Counter(first).items())
    if by_chance == pieces**2:
        return ReaderAgreement(pieces, same, None)
    kappa = (same * pieces - by_chance) / (pieces**2 - by_chance)
    return ReaderAgreement(pieces, same, kappa)
