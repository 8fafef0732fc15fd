"""Numbers and ratios as words; computes nothing but digits."""

from collections.abc import Sequence
from decimal import Decimal

from strandproof.tables import verbal_strength

_COUNT_WORDS = (
    *("no", "one", "two", "three", "four", "five", "six"),
    *("seven", "eight", "nine", "ten", "eleven", "twelve"),
)

# Below 1 every ratio has the same word; the scale itself takes no zero.
_SMALLEST_RATIO = 1e-12


def count_word(count: int) -> str:
    """Write a small count as a word, a larger one in digits.

    Parameters
    ----------
    count : int
        Zero or above.

    Returns
    -------
    str
        "no", "one" ... "twelve", then digits.

    Examples
    --------
    >>> count_word(9), count_word(24)
    ('nine', '24')
    """
    return _COUNT_WORDS[count] if count < len(_COUNT_WORDS) else str(count)


def plain_digits(value: float, significant_digits: int) -> str:
    """Write a number with so many significant digits, never as a power of ten.

    Parameters
    ----------
    value : float
        Finite.
    significant_digits : int
        1 or more.

    Returns
    -------
    str
        For example ``"299.6"`` or ``"0.083"``.

    Examples
    --------
    >>> plain_digits(0.08321, 2), plain_digits(299.57, 2)
    ('0.083', '300')
    """
    return format(Decimal(f"{value:.{significant_digits - 1}e}"), "f")


def short_digits(value: float, significant_digits: int = 2) -> str:
    """Write a number as `plain_digits` does, without trailing zeros.

    Parameters
    ----------
    value : float
        Finite.
    significant_digits : int
        1 or more.

    Returns
    -------
    str
        For example ``"3"`` for 2.996.

    Examples
    --------
    >>> short_digits(2.9957), short_digits(0.95)
    ('3', '0.95')
    """
    text = plain_digits(value, significant_digits)
    return text.rstrip("0").rstrip(".") if "." in text else text


def ratio_word(ratio: float) -> str:
    """Word of a likelihood ratio on the scale of the tables.

    Parameters
    ----------
    ratio : float
        Zero or above.

    Returns
    -------
    str
        For example ``"moderately strong"``.

    Examples
    --------
    >>> ratio_word(8.1), ratio_word(0)
    ('weak', 'no support')
    """
    return verbal_strength(max(ratio, _SMALLEST_RATIO)).word


def scale_name() -> str:
    """Name of the verbal scale, with the rule for its edges.

    Returns
    -------
    str
        To be printed once where its words are used.
    """
    return verbal_strength(1.0).scale


def ratio_digits(ratio: float) -> str:
    """Write a ratio with two digits below 10 and three from there on.

    Parameters
    ----------
    ratio : float
        Zero or above, finite.

    Returns
    -------
    str
        With more digits where fewer would round it into another band of the
        verbal scale: 99.96 is not shown as 100.

    Examples
    --------
    >>> ratio_digits(8.0973), ratio_digits(190.0), ratio_digits(99.96)
    ('8.1', '190', '99.96')
    """
    if ratio == 0:
        return "0"
    # 9.96 would become 10.0 and so gain a digit: take the size after rounding.
    digits, write = (
        (2, plain_digits) if float(f"{ratio:.1e}") < 10 else (3, short_digits)
    )
    while ratio_word(float(write(ratio, digits))) != ratio_word(ratio):
        digits += 1
    return write(ratio, digits)


def ratio_with_word(ratio: float) -> str:
    """Write a ratio and its word.

    Parameters
    ----------
    ratio : float
        Zero or above, finite.

    Returns
    -------
    str
        For example ``"8.1, weak"``.

    Examples
    --------
    >>> ratio_with_word(1.906)
    '1.9, no support'
    """
    return f"{ratio_digits(ratio)}, {ratio_word(ratio)}"


def of_hundred(probability: float) -> str:
    """Write a probability as a count of 100.

    Parameters
    ----------
    probability : float
        Between 0 and 1.

    Returns
    -------
    str
        For example ``"0.5 of 100"``.

    Examples
    --------
    >>> of_hundred(0.005), of_hundred(0.11735)
    ('0.5 of 100', '11.7 of 100')
    """
    return f"{short_digits(100 * probability, 3)} of 100"


def listed(words: Sequence[str], *, joined_by: str = "and") -> str:
    """Write several things as a list in a sentence.

    Parameters
    ----------
    words : sequence of str
        The things.
    joined_by : str
        Word before the last one.

    Returns
    -------
    str
        For example ``"a, b and c"``.

    Examples
    --------
    >>> listed(["a", "b", "c"], joined_by="or")
    'a, b or c'
    """
    if len(words) < 2:
        return "".join(words)
    return f"{', '.join(words[:-1])} {joined_by} {words[-1]}"
