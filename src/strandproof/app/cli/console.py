"""Printing: words for people, JSON for programs, progress on the error stream."""

import json
from collections.abc import Callable, Iterable, Iterator
from contextlib import contextmanager
from typing import Any

import typer
from rich.console import Console
from rich.progress import BarColumn, Progress, TextColumn, TimeElapsedColumn

from strandproof.records.entries import Entry, kind_in_words

_PEOPLE = Console(soft_wrap=True, highlight=False)
_ERRORS = Console(stderr=True, soft_wrap=True, highlight=False)

Report = Callable[[float, str], None]


def say(text: str = "") -> None:
    """Print words for people.

    Parameters
    ----------
    text : str
        Plain words; nothing in them is taken for markup.
    """
    _PEOPLE.print(text, markup=False)


def complain(text: str) -> None:
    """Print a paragraph on the error stream.

    Parameters
    ----------
    text : str
        Plain words.
    """
    _ERRORS.print(text, markup=False)


def print_json(data: Any) -> None:  # noqa: ANN401 - any JSON data
    """Print data for programs.

    Parameters
    ----------
    data : object
        JSON data.
    """
    typer.echo(json.dumps(data, indent=2, ensure_ascii=False, allow_nan=False))


@contextmanager
def progress(title: str) -> Iterator[Report]:
    """Show a bar on the error stream while long work goes on.

    Parameters
    ----------
    title : str
        What is being done.

    Yields
    ------
    callable
        To be called with a fraction and words.
    """
    columns = (TextColumn("{task.description}"), BarColumn(), TimeElapsedColumn())
    with Progress(*columns, console=_ERRORS, transient=True) as bar:
        task = bar.add_task(title, total=1.0)

        def report(fraction: float, words: str) -> None:
            bar.update(task, completed=fraction, description=f"{title}: {words}")

        yield report


def tell_entries(entries: Iterable[Entry], *, as_json: bool) -> None:
    """Print entries just made, and the head that they lead to.

    Parameters
    ----------
    entries : iterable of Entry
        One or more, in order.
    as_json : bool
        True for programs.
    """
    done = list(entries)
    if as_json:
        print_json([entry.to_json_data() for entry in done])
        return
    for entry in done:
        say(f"Entry {entry.number}: {kind_in_words(entry.kind)} {entry.body.id}.")
    say(f"Head: {done[-1].sha256}")
