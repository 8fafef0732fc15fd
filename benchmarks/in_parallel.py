"""Work of a benchmark shared among processes, its results in order."""

import os
from collections.abc import Callable, Iterator, Sequence
from concurrent.futures import ProcessPoolExecutor
from multiprocessing import get_context
from typing import TypeVar
from unittest.mock import patch

Item = TypeVar("Item")
Result = TypeVar("Result")

PROCESSES = int(os.environ.get("BENCHMARK_PROCESSES", "1"))
"""Processes at once; set the variable BENCHMARK_PROCESSES for more than one."""


def each_in_order(
    function: Callable[[Item], Result], items: Sequence[Item]
) -> Iterator[Result]:
    """Apply a function to every item, by several processes where wanted.

    Parameters
    ----------
    function : callable
        A function of a module, so that it can be sent.
    items : sequence
        What it is applied to.

    Yields
    ------
    object
        Results in the order of the items.
    """
    if PROCESSES == 1:
        yield from map(function, items)
        return
    context = get_context("spawn")
    with ProcessPoolExecutor(PROCESSES, context, _single_threaded) as pool:
        yield from pool.map(function, items)


def _single_threaded() -> None:
    """Let each process run the network by one thread: the cores are taken."""
    patch("strandproof.micrograph.learned.network._MOST_THREADS", 1).start()
