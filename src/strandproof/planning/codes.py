"""Meaningless codes with a check character, and what a mistyped one may have meant.

A code is three letters, a dash, two digits and a check digit, for example DQV-835. The
check character is that of ISO/IEC 7064, system MOD 37,36 (hybrid), from memory.
"""

from collections.abc import Collection, Iterable, Sequence

import numpy as np

from strandproof.errors import ParameterError

CHARACTERS = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ"
"""Characters of the system in order of their values, 0 to 35."""

CODE_LETTERS = "CDFHJKMNPQRTVWX"
"""No vowel (no words), and nothing that is taken for a digit (B, G, L, S, Z)."""

_DIGITS = "0123456789"
_LETTERS_IN_CODE = 3
_MODULUS = 36
MOST_CODES = 3000
"""Codes that may be in use together; they stay three typing errors apart."""

_ERRORS_APART = 3
_NEAR = 2
# One typing error changes at most two characters.
_FARTHEST_TO_COMPARE = 2 * (_ERRORS_APART - 1)


def check_character(characters: str) -> str:
    """Give the check character of a code without it.

    Parameters
    ----------
    characters : str
        Digits and capital letters; dashes and blanks are left out.

    Returns
    -------
    str
        The character that makes the code sound.

    Notes
    -----
    ISO/IEC 7064, system MOD 37,36: P starts at 36; for each character of value a,
    S = (P + a) mod 36, or 36 where that is 0, and P becomes 2 S mod 37. The check
    character c makes (P + c) mod 36 = 1.

    Examples
    --------
    >>> check_character("DQV83")
    '5'
    """
    return CHARACTERS[(1 - _product(plain_code(characters))) % _MODULUS]


def is_sound(code: str) -> bool:
    """Tell whether a code agrees with its check character.

    Parameters
    ----------
    code : str
        The code with its check character at the end.

    Returns
    -------
    bool
        False for a mistyped one.

    Examples
    --------
    >>> is_sound("DQV-835"), is_sound("DQV-853")
    (True, False)
    """
    plain = plain_code(code)
    return len(plain) > 1 and check_character(plain[:-1]) == plain[-1]


def plain_code(code: str) -> str:
    """Give a code without dashes and blanks, in capitals.

    Parameters
    ----------
    code : str
        As typed.

    Returns
    -------
    str
        Digits and capital letters.

    Raises
    ------
    ParameterError
        If anything else is in it.

    Examples
    --------
    >>> plain_code("dqv 835")
    'DQV835'
    """
    plain = "".join(code.split()).replace("-", "").upper()
    if not plain or any(each not in CHARACTERS for each in plain):
        raise ParameterError(
            "code", code, allowed="digits, letters from A to Z, a dash, blanks"
        )
    return plain


def draw_codes(
    number: int,
    generator: np.random.Generator,
    *,
    taken: Collection[str] = (),
) -> tuple[str, ...]:
    """Draw codes that say nothing and cannot be mistaken for each other.

    Parameters
    ----------
    number : int
        How many, 1 to 3000 with those taken.
    generator : numpy.random.Generator
        Source of chance.
    taken : collection of str
        Codes in use.

    Returns
    -------
    tuple of str
        Codes such as DQV-835. No single wrong character and no swap of two neighbours
        makes a sound code of any of them, and any two differ, taken ones included, by
        three typing errors or more.

    Raises
    ------
    ParameterError
        If the number does not fit.

    Notes
    -----
    The system finds every single wrong character but not quite every swap of
    neighbours (about 16 of 10 000 stay sound); codes with such a swap are not used.
    """
    if not 1 <= number <= MOST_CODES - len(taken):
        raise ParameterError(
            "number of codes",
            number,
            allowed=f"1 to {MOST_CODES - len(taken)} beside {len(taken)} in use",
        )
    used = [plain_code(each) for each in taken]
    drawn: list[str] = []
    while len(drawn) < number:
        code = _candidate(generator)
        if not code or not _far_from_all(code, used):
            continue
        used.append(code)
        drawn.append(f"{code[:_LETTERS_IN_CODE]}-{code[_LETTERS_IN_CODE:]}")
    return tuple(drawn)


def nearest_codes(typed: str, codes: Iterable[str]) -> tuple[str, ...]:
    """Give the codes that a mistyped one is nearest to.

    Parameters
    ----------
    typed : str
        What was typed.
    codes : iterable of str
        Codes in use.

    Returns
    -------
    tuple of str
        Those with the fewest typing errors between, if these are two or fewer; else
        none. A typing error is a wrong, missing or added character, or a swap of
        neighbours.

    Examples
    --------
    >>> nearest_codes("DQV-853", ["DQV-835", "ZJP-250"])
    ('DQV-835',)
    """
    plain = plain_code(typed)
    errors = {code: typing_errors(plain, plain_code(code)) for code in codes}
    fewest = min(errors.values(), default=_NEAR + 1)
    if fewest > _NEAR:
        return ()
    return tuple(code for code, count in errors.items() if count == fewest)


def typing_errors(first: str, second: str) -> int:
    """Count the typing errors that lead from one text to another.

    Parameters
    ----------
    first, second : str
        The texts.

    Returns
    -------
    int
        The fewest wrong, missing or added characters and swaps of neighbours.

    Notes
    -----
    Optimal string alignment distance by the usual table of beginnings; no character
    is touched twice.

    Examples
    --------
    >>> typing_errors("DQV853", "DQV835")
    1
    """
    rows = [list(range(len(second) + 1))]
    for i, one in enumerate(first, 1):
        row = [i]
        for j, other in enumerate(second, 1):
            best = min(rows[-1][j] + 1, row[-1] + 1, rows[-1][j - 1] + (one != other))
            if i > 1 and j > 1 and (one, first[i - 2]) == (second[j - 2], other):
                best = min(best, rows[-2][j - 2] + 1)
            row.append(best)
        rows.append(row)
    return rows[-1][-1]


def _product(characters: str) -> int:
    product = _MODULUS
    for each in characters:
        total = (product + CHARACTERS.index(each)) % _MODULUS or _MODULUS
        product = 2 * total % (_MODULUS + 1)
    return product


def _candidate(generator: np.random.Generator) -> str:
    """Draw one code; empty where its check is no digit or a swap would stay sound."""
    letters = generator.choice(list(CODE_LETTERS), _LETTERS_IN_CODE)
    body = "".join([*letters, *generator.choice(list(_DIGITS), 2)])
    code = body + check_character(body)
    return code if code[-1] in _DIGITS and _swaps_are_found(code) else ""


def _swaps_are_found(code: str) -> bool:
    swapped = (
        code[:at] + code[at + 1] + code[at] + code[at + 2 :]
        for at in range(len(code) - 1)
        if code[at] != code[at + 1]
    )
    return not any(map(is_sound, swapped))


def _far_from_all(code: str, used: Sequence[str]) -> bool:
    return all(
        sum(a != b for a, b in zip(code, each, strict=False)) > _FARTHEST_TO_COMPARE
        or typing_errors(code, each) >= _ERRORS_APART
        for each in used
    )
