"""Numbers in the sentences of this package."""


def three_digits(value: float) -> str:
    """Write a number with three significant digits, never as a power of ten.

    Parameters
    ----------
    value : float
        Finite.

    Returns
    -------
    str
        Without trailing zeros after the point.

    Examples
    --------
    >>> three_digits(1567.2), three_digits(0.45), three_digits(8.0)
    ('1570', '0.45', '8')
    """
    return f"{float(f'{value:.3g}'):.15g}"
