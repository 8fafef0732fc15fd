"""Values as text: digits follow the uncertainty, stored numbers stay untouched.

Rules, one for each kind of text (GUM 7.2.6 asks for two digits at most):

- a standard uncertainty u shows two significant digits;
- a half-width (plus-minus, or an interval's) shows two when it begins with 1 or
  2, else one; the value goes as far to the right as its uncertainty;
- a lone limit shows three when it begins with 1 or 2, else two.

All round to nearest, an exact half to the even digit.
"""

import re
from collections.abc import Sequence
from decimal import Context, Decimal
from math import isfinite
from types import MappingProxyType

from strandproof.errors import ParameterError
from strandproof.quantity._types import Interval, Quantity
from strandproof.quantity.coverage import (
    AS_GOOD_AS_NORMAL,
    whole_degrees_of_freedom,
)

_PLUS_MINUS = "\N{PLUS-MINUS SIGN}"
_TIMES = "\N{MULTIPLICATION SIGN}"
_MICRO = "\N{MICRO SIGN}"
_OHM = "\N{GREEK CAPITAL LETTER OMEGA}"
_SUPERSCRIPTS = str.maketrans("-0123456789", "⁻⁰¹²³⁴⁵⁶⁷⁸⁹")

_UNIT_SIGNS = MappingProxyType(
    {
        "um": f"{_MICRO}m",
        "uV": f"{_MICRO}V",
        "ohm": _OHM,
        "nohm": f"n{_OHM}",
        "uohm": f"{_MICRO}{_OHM}",
        "mohm": f"m{_OHM}",
        "degC": "\N{DEGREE SIGN}C",
    }
)


def last_decimal_place(uncertainty: float, significant_digits: int) -> int:
    """Return the power of ten of the last significant digit of an uncertainty.

    Parameters
    ----------
    uncertainty : float
        Above zero, finite.
    significant_digits : int
        How many digits count; 1 or more.

    Returns
    -------
    int
        -3 when the last digit shown stands for thousandths.

    Raises
    ------
    ParameterError
        If the uncertainty is not above zero or there is no digit to show.

    Examples
    --------
    >>> last_decimal_place(0.0711, 2)
    -3
    >>> last_decimal_place(0.0996, 2)
    -2
    """
    if not isfinite(uncertainty) or uncertainty <= 0:
        raise ParameterError(
            "uncertainty", uncertainty, allowed="a finite number above zero"
        )
    if significant_digits < 1:
        raise ParameterError(
            "significant_digits", significant_digits, allowed="1 or more"
        )
    behind = significant_digits - 1
    rounded = f"{_decimal(uncertainty):.{behind}e}"
    return int(rounded.partition("e")[2]) - behind


def format_quantity(quantity: Quantity, *, ascii_only: bool = False) -> str:
    """Return a quantity as text, with its standard uncertainty.

    Parameters
    ----------
    quantity : Quantity
        What to show; stays as it is.
    ascii_only : bool
        True for plain ASCII, with the unit as it is stored.

    Returns
    -------
    str
        Value, unit, u to two significant digits, and the degrees of freedom
        where they are finite.

    Examples
    --------
    >>> format_quantity(Quantity(127.7322, "ohm", 0.07107, 4.0), ascii_only=True)
    '127.732 ohm (u = 0.071 ohm, 4 degrees of freedom)'
    >>> format_quantity(Quantity(58.0, "MS/m"))
    '58 MS/m (no uncertainty stated)'
    """
    u = quantity.standard_uncertainty
    if u == 0:
        texts, power = _plain(quantity.value)
        text = _joined(texts, quantity.unit, power=power, ascii_only=ascii_only)
        return f"{text} (no uncertainty stated)"
    texts, power = _mantissas((quantity.value, u), last_decimal_place(u, 2))
    value, shown = (
        _joined([one], quantity.unit, power=power, ascii_only=ascii_only)
        for one in texts
    )
    freedom = whole_degrees_of_freedom(quantity.degrees_of_freedom)
    if freedom > AS_GOOD_AS_NORMAL:
        return f"{value} (u = {shown})"
    word = "degree" if freedom == 1 else "degrees"
    return f"{value} (u = {shown}, {freedom:.0f} {word} of freedom)"


def format_plus_minus(
    value: float, half_width: float, *, unit: str, ascii_only: bool = False
) -> str:
    """Return a value with a half-width as text.

    Say elsewhere what the half-width is: its confidence and its method.

    Parameters
    ----------
    value : float
        The value, in `unit`.
    half_width : float
        Half-width of its interval, in `unit`; zero or above.
    unit : str
        Unit of both; ``"1"`` prints nothing.
    ascii_only : bool
        True for plain ASCII, with the unit as it is given.

    Returns
    -------
    str
        Both to the digits that the half-width allows.

    Raises
    ------
    ParameterError
        If a number is not finite or the half-width is negative.

    Examples
    --------
    >>> format_plus_minus(8.444, 0.783, unit="um", ascii_only=True)
    '8.4 +/- 0.8 um'
    >>> format_plus_minus(1.7084e-8, 0.0152e-8, unit="ohm m", ascii_only=True)
    '(1.708 +/- 0.015) x 10^-8 ohm m'
    """
    if not isfinite(value):
        raise ParameterError("value", value, allowed="a finite number")
    if not isfinite(half_width) or half_width < 0:
        raise ParameterError(
            "half_width", half_width, allowed="a finite number, zero or above"
        )
    sign = "+/-" if ascii_only else _PLUS_MINUS
    if half_width == 0:
        texts, power = _plain(value)
        texts = [*texts, "0"]
    else:
        texts, power = _mantissas((value, half_width), _half_width_place(half_width))
    return _joined(texts, unit, power=power, between=f" {sign} ", ascii_only=ascii_only)


def format_interval(interval: Interval, *, ascii_only: bool = False) -> str:
    """Return an interval as text, with its confidence.

    Parameters
    ----------
    interval : Interval
        What to show; stays as it is.
    ascii_only : bool
        True for plain ASCII, with the unit as it is stored.

    Returns
    -------
    str
        ``from .. to ..``, ``at most ..`` or ``at least ..``.

    Examples
    --------
    >>> format_interval(
    ...     Interval(
    ...         lower=7.661, upper=9.227, unit="um", confidence=0.95, method="t"
    ...     ),
    ...     ascii_only=True,
    ... )
    '7.7 to 9.2 um (95 %)'
    >>> format_interval(
    ...     Interval(
    ...         lower=None, upper=0.0832, unit="1/mm", confidence=0.95, method="exact"
    ...     )
    ... )
    'at most 0.083 /mm (95 %, one-sided)'
    """
    confidence = f"{100 * interval.confidence:.6g} %"
    if interval.lower is not None and interval.upper is not None:
        texts, power = _both_ends(interval.lower, interval.upper)
        text = _joined(
            texts, interval.unit, power=power, between=" to ", ascii_only=ascii_only
        )
        return f"{text} ({confidence})"
    lone = interval.upper if interval.lower is None else interval.lower
    if lone is None:
        return f"no limit on either side ({confidence})"
    texts, power = _lone_limit(lone)
    text = _joined(texts, interval.unit, power=power, ascii_only=ascii_only)
    side = "at most" if interval.lower is None else "at least"
    return f"{side} {text} ({confidence}, one-sided)"


def unit_text(unit: str) -> str:
    """Return a unit with its typographic signs.

    Parameters
    ----------
    unit : str
        Unit as it is stored, for example ``"ohm g/m^2"``.

    Returns
    -------
    str
        The same with micro, ohm and degree signs and superscripts, and ``"/mm"``
        for ``"1/mm"``; words that are not known stay as they are.

    Examples
    --------
    >>> unit_text("mm^2")
    'mm²'
    """
    # "0.083 1/mm" would read as a list of two numbers.
    short = unit.removeprefix("1") if unit.startswith("1/") else unit
    signs = re.sub(r"[A-Za-z]+", lambda word: _UNIT_SIGNS.get(word[0], word[0]), short)
    return re.sub(r"\^(-?\d+)", lambda power: power[1].translate(_SUPERSCRIPTS), signs)


def _decimal(number: float) -> Decimal:
    # The shortest decimal text of a float, not its long binary expansion: 2.675
    # is what was written, 2.67499999999999982236431605997495353 is not.
    return Decimal(repr(float(number)))


def _half_width_place(half_width: float) -> int:
    first = _decimal(half_width).adjusted()
    return first - 1 if _begins_with_one_or_two(half_width) else first


def _begins_with_one_or_two(number: float) -> bool:
    return _decimal(number).as_tuple().digits[0] in (1, 2)


def _mantissas(numbers: Sequence[float], place: int) -> tuple[list[str], int]:
    """Return the numbers rounded to a place, and the power of ten taken out.

    A power is taken out when a digit left of the unit would be padded with
    zeros that nobody measured, or the numbers are very small or large.
    """
    # Enough digits for the largest float beside the smallest.
    exact = Context(prec=800)
    quantum = Decimal(1).scaleb(place, exact)
    rounded = [_decimal(number).quantize(quantum, context=exact) for number in numbers]
    leading = max((one.adjusted() for one in rounded if one), default=place)
    power = 0 if place <= 0 and -4 <= leading <= 8 else leading
    # A value that rounds to zero loses its sign, not its decimals.
    unsigned = (one or one.copy_abs() for one in rounded)
    return [f"{one.scaleb(-power, exact):f}" for one in unsigned], power


def _plain(number: float) -> tuple[list[str], int]:
    """Return a number without uncertainty, to at most twelve significant digits."""
    if number == 0:
        return ["0"], 0
    shortest = Decimal(f"{number:.11e}").normalize()
    place = int(shortest.as_tuple().exponent)
    fixed = place > 0 and shortest.adjusted() <= 8
    return _mantissas((number,), 0 if fixed else place)


def _both_ends(lower: float, upper: float) -> tuple[list[str], int]:
    half_width = 0.5 * (upper - lower)
    if half_width > 0:
        return _mantissas((lower, upper), _half_width_place(half_width))
    texts, power = _plain(lower)
    return [*texts, *texts], power


def _lone_limit(limit: float) -> tuple[list[str], int]:
    if limit == 0:
        return ["0"], 0
    behind = 2 if _begins_with_one_or_two(limit) else 1
    return _mantissas((limit,), _decimal(limit).adjusted() - behind)


def _joined(
    texts: Sequence[str],
    unit: str,
    *,
    power: int,
    between: str = "",
    ascii_only: bool,
) -> str:
    number = between.join(texts)
    if power:
        inner = f"({number})" if len(texts) > 1 else number
        number = (
            f"{inner} x 10^{power}"
            if ascii_only
            else f"{inner} {_TIMES} 10{str(power).translate(_SUPERSCRIPTS)}"
        )
    if unit == "1":
        return number
    return f"{number} {unit if ascii_only else unit_text(unit)}"
