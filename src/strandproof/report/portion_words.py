"""Parts beside the whole, in words: what an exhibit was split into."""

from dataclasses import dataclass

from strandproof.errors import ParameterError
from strandproof.records.case_facts.portions import (
    BalanceWord,
    ExhibitPortions,
    PortionBalance,
    exhibit_portions,
    portions_of,
)
from strandproof.records.case_state import CaseState
from strandproof.records.entries import Exhibit
from strandproof.tables import package_table, table_value

_MM_PER_M = 1000


@dataclass(frozen=True, slots=True)
class Tolerances:
    """What a balance of parts may leave unexplained.

    Parameters
    ----------
    length_m : float
        Length [m], 0 or more.
    mass_g : float
        Mass [g], 0 or more.

    Raises
    ------
    ParameterError
        If one of them is below zero.
    """

    length_m: float
    mass_g: float

    def __post_init__(self) -> None:
        for name, value in (("length_m", self.length_m), ("mass_g", self.mass_g)):
            if value < 0:
                raise ParameterError(name, value, allowed="0 or more")


def usual_tolerances() -> Tolerances:
    """Give the tolerances of the table; working rules without a source.

    Returns
    -------
    Tolerances
        5 mm and 0.05 g.
    """
    table = package_table("case_rules")
    return Tolerances(
        table_value(table, "portions.length_tolerance") / _MM_PER_M,
        table_value(table, "portions.mass_tolerance"),
    )


def all_portions(
    state: CaseState, tolerances: Tolerances
) -> tuple[ExhibitPortions, ...]:
    """Give the portions of every piece that came with a purchase or was cut.

    Parameters
    ----------
    state : CaseState
        State of the case.
    tolerances : Tolerances
        What may stay unexplained.

    Returns
    -------
    tuple of ExhibitPortions
        Known pieces that were bought for control, neither purchased as the product
        nor cut, are left out.
    """
    return tuple(
        exhibit_portions(
            state,
            exhibit.id,
            tolerance_m=tolerances.length_m,
            tolerance_g=tolerances.mass_g,
        )
        for exhibit in state.records(Exhibit)
        if exhibit.purchase or portions_of(state, exhibit.id)
    )


def balance_in_words(balance: PortionBalance) -> str:
    """Say whole, parts, waste and what stays unexplained.

    Parameters
    ----------
    balance : PortionBalance
        By length or mass.

    Returns
    -------
    str
        For example ``"1.300 m; test 0.600, maker 0.325, referee 0.325, waste
        0.048 m: 2 mm unexplained, within 5 mm."``; a size not entered is named.
    """
    parts = [f"{name} {_size(balance, size)}" for name, size in balance.parts]
    parts += [f"waste {_size(balance, size)}" for size in balance.waste]
    if not balance.waste:
        parts.append("waste not entered")
    whole = _size(balance, balance.whole)
    head = f"{whole} {balance.unit}" if balance.whole is not None else whole
    return (
        f"{balance.quantity} {head}; {', '.join(parts)} {balance.unit}: "
        f"{_unexplained(balance)}."
    )


def _unexplained(balance: PortionBalance) -> str:
    left = balance.unexplained
    if left is None:
        missing = balance.unknown
        sizes = "one size is" if missing == 1 else f"{missing} sizes are"
        return f"the balance cannot be told, {sizes} not entered"
    if balance.word is BalanceWord.UNKNOWN:
        return "not split yet"
    amount = f"{_small(balance, abs(left))} " + (
        "unexplained" if left >= 0 else "more in the parts than in the whole"
    )
    limit = _small(balance, balance.tolerance)
    if balance.word is BalanceWord.WITHIN:
        return f"{amount}, within {limit}"
    return f"{amount}, BEYOND {limit}: find out before anything is used"


def _size(balance: PortionBalance, size: float | None) -> str:
    if size is None:
        return "not entered"
    return f"{size:.3f}" if balance.unit == "m" else f"{size:.2f}"


def _small(balance: PortionBalance, size: float) -> str:
    if balance.unit == "m":
        return f"{size * _MM_PER_M:.3g} mm"
    return f"{size:.2g} g"
