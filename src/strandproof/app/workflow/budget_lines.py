"""A quantity and its sources of uncertainty, as words and as plain data."""

from collections.abc import Sequence
from typing import Any

from strandproof.quantity import Quantity
from strandproof.records import FLAGS, Flag
from strandproof.records.plain_data import as_plain_data


def budget_in_words(quantity: Quantity) -> tuple[str, ...]:
    """Give one line for each source of uncertainty, largest first.

    Parameters
    ----------
    quantity : Quantity
        With its budget.

    Returns
    -------
    tuple of str
        Sources without uncertainty are left out.
    """
    return tuple(
        f"  {line.name}: {line.component:.2g} {quantity.unit}"
        for line in quantity.budget
        if line.component > 0
    )


def flags_in_words(flags: Sequence[Flag]) -> tuple[str, ...]:
    """Say what has to be kept in mind.

    Parameters
    ----------
    flags : sequence of Flag
        Flags of a result.

    Returns
    -------
    tuple of str
        Meaning, figures and remedy of each.
    """
    return tuple(
        f"Keep in mind: {FLAGS[flag.name].meaning}"
        f"{f' ({flag.detail})' if flag.detail else ''} {FLAGS[flag.name].remedy}"
        for flag in flags
    )


def result_data(result: Any, quantity: Quantity) -> dict[str, Any]:  # noqa: ANN401
    """Give a result with its budget as plain data.

    Parameters
    ----------
    result : object
        A frozen record.
    quantity : Quantity
        The number in it whose budget is wanted.

    Returns
    -------
    dict
        JSON data; flags by name.
    """
    data = as_plain_data(result)
    budget = [
        {"name": line.name, "component": line.component} for line in quantity.budget
    ]
    flags = [flag.name for flag in result.flags]
    return {
        **(data if isinstance(data, dict) else {}),
        "budget": budget,
        "flags": flags,
    }
