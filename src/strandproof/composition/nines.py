"""Nines: what "4N7" means, and how many nines a total of impurities leaves."""

import re
from dataclasses import dataclass
from math import isfinite, log10

from strandproof.errors import ParameterError

_NINES = re.compile(r"(?P<nines>[1-9])N(?P<digit>[1-9])?", re.IGNORECASE)
_MILLION = 1e6
# A total of exactly 10 ppm is 5N; binary fractions must not make it 4N9.
_DUST = 1e-9
_MOST_NINES = 9


@dataclass(frozen=True, slots=True, kw_only=True)
class StatedNines:
    """Nines as a trade word and what they allow.

    Parameters
    ----------
    word : str
        As the trade writes it, for example ``"4N7"``.
    purity_percent : float
        Lowest purity that the word names [% by mass].
    impurity_ppm : float
        Greatest total of impurities that it allows [ppm by mass].
    """

    word: str
    purity_percent: float
    impurity_ppm: float


def stated_nines(word: str) -> StatedNines:
    """Read nines as the trade writes them.

    Parameters
    ----------
    word : str
        ``"4N"``, ``"4N7"``, ``"6N"``: a count of nines, then the digit after them.

    Returns
    -------
    StatedNines
        Purity and the impurities that it allows, on whatever basis it counts.

    Raises
    ------
    ParameterError
        If it is no such word.

    Notes
    -----
    nN allows 10^(6 - n) ppm; nNd is n nines followed by the digit d, so it allows
    (10 - d) * 10^(5 - n) ppm. 4N5 is 99.995 %, 50 ppm (read on suppliers' pages).

    Examples
    --------
    >>> stated_nines("4N7").impurity_ppm, stated_nines("4N7").purity_percent
    (30.0, 99.997)
    """
    found = _NINES.fullmatch(word.strip())
    if found is None:
        raise ParameterError(
            "nines",
            word,
            allowed="a count of nines and a digit, for example 4N, 4N7 or 6N",
        )
    count = int(found["nines"])
    missing = 10 - int(found["digit"] or 0)
    ppm = round(missing * 10.0 ** (5 - count), 12)
    return StatedNines(
        word=word.strip().upper(),
        purity_percent=round(100 - ppm / 1e4, 12),
        impurity_ppm=ppm,
    )


def nines_written(impurity_ppm: float) -> str:
    """Write the nines that a total of impurities leaves; never rounded up.

    Parameters
    ----------
    impurity_ppm : float
        Total of impurities [ppm by mass], 0 to 1e6.

    Returns
    -------
    str
        For example ``"4N7"`` for 30 ppm; ``"no nine"`` below 90 %.

    Raises
    ------
    ParameterError
        If the total is outside of its range.

    Examples
    --------
    >>> nines_written(30.0), nines_written(31.0), nines_written(100.0)
    ('4N7', '4N6', '4N')
    >>> nines_written(5.0)
    '5N5'
    """
    _require_total(impurity_ppm)
    limit = impurity_ppm * (1 - _DUST)
    counts = [n for n in range(1, _MOST_NINES + 1) if limit <= 10.0 ** (6 - n)]
    if not counts:
        return "no nine"
    count = max(counts)
    if count == _MOST_NINES:
        return f"{count}N"
    digits = [d for d in range(1, 10) if limit <= (10 - d) * 10.0 ** (5 - count)]
    # Nine as next digit would be one nine more, which the count has excluded.
    digit = max((d for d in digits if d < 9), default=0)
    return f"{count}N{digit}" if digit else f"{count}N"


def nines_number(impurity_ppm: float) -> float:
    """Give the nines as a number with a fraction.

    It is not the written form: 99.95 % is written 3N5 and has the number 3.30.

    Parameters
    ----------
    impurity_ppm : float
        Total of impurities [ppm by mass], above 0 to 1e6.

    Returns
    -------
    float
        The number of nines.

    Raises
    ------
    ParameterError
        If the total is outside of its range, or zero.

    Notes
    -----
    N = -log10(1 - purity), read in an encyclopedia; the same rule is used for gases.

    Examples
    --------
    >>> round(nines_number(300.0), 2), round(nines_number(500.0), 2)
    (3.52, 3.3)
    """
    _require_total(impurity_ppm)
    if impurity_ppm == 0:
        raise ParameterError("impurities", impurity_ppm, allowed="above 0 ppm")
    return -log10(impurity_ppm / _MILLION)


def purity_in_words(impurity_ppm: float) -> str:
    """Say a purity with its nines.

    Parameters
    ----------
    impurity_ppm : float
        Total of impurities [ppm by mass], 0 to 1e6.

    Returns
    -------
    str
        For example ``"99.9966 % (4N6)"``.

    Examples
    --------
    >>> purity_in_words(34.0)
    '99.9966 % (4N6)'
    """
    written = nines_written(impurity_ppm)
    decimals = max(2, 4 - int(log10(impurity_ppm)) + 1) if impurity_ppm >= 1 else 6
    return f"{100 - impurity_ppm / 1e4:.{decimals}f} % ({written})"


def _require_total(impurity_ppm: float) -> None:
    if not isfinite(impurity_ppm) or not 0 <= impurity_ppm <= _MILLION:
        raise ParameterError("impurities", impurity_ppm, allowed="0 to 1e6 ppm by mass")
