"""What each hypothesis leads one to expect, and which test can show it, as data.

Every word in these tables is judgement; control data are to replace it.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from enum import IntEnum

from strandproof.errors import ParameterError
from strandproof.tables import RowStatus, TableRow, package_table

_NOT_AN_OBSERVATION = ("word",)


class Expectation(IntEnum):
    """Class of a prediction's word; only the two ends separate hypotheses."""

    NOT_EXPECTED = 0
    OPEN = 1
    EXPECTED = 2


class Rank(IntEnum):
    """In which place a test is offered."""

    FIRST = 1
    AFTER = 2
    PAPER = 3


@dataclass(frozen=True, slots=True, kw_only=True)
class Prediction:
    """What one hypothesis leads one to expect of one observation.

    Parameters
    ----------
    observation : str
        Key of what may be seen.
    statement : str
        The same in words.
    hypothesis : str
        Label, for example X1.
    word : str
        usual, yes, possible, lower, rare, only by blunder, no.
    because : str
        Qualification, for example "cells not resolved"; may be empty.
    expectation : Expectation
        Class of the word.
    status : str
        What the word rests on.
    source : str
        Where it comes from.
    """

    observation: str
    statement: str
    hypothesis: str
    word: str
    because: str
    expectation: Expectation
    status: RowStatus
    source: str


@dataclass(frozen=True, slots=True, kw_only=True)
class BenchTest:
    """A test that can be ticked, and what it can show.

    Parameters
    ----------
    key : str
        Key, for example ``"etched_section.long"``.
    name : str
        Name in a sentence.
    rank : Rank
        Offered first, after it, or a paper.
    shows : frozenset of str
        Keys of observations that it can show.
    """

    key: str
    name: str
    rank: Rank
    shows: frozenset[str]


def predictions(
    table: Mapping[str, TableRow] | None = None,
) -> tuple[Prediction, ...]:
    """All predictions of the table.

    Assumes nothing of hypotheses that a row does not name: a blank stays a
    blank and separates nothing.

    Parameters
    ----------
    table : Mapping from str to TableRow, optional
        None takes the package's table ``predictions``.

    Returns
    -------
    tuple of Prediction
        In the order of the table.

    Raises
    ------
    ParameterError
        If a word is not on the table's scale of words, its class differs from
        the scale's, or an observation has no statement.

    Examples
    --------
    >>> [each.word for each in predictions() if each.observation == "annealing_twins"]
    ['only by blunder', 'rare', 'usual', 'usual', 'usual', 'usual']
    """
    rows = package_table("predictions") if table is None else table
    return tuple(_predictions(rows))


def bench_tests(
    table: Mapping[str, TableRow] | None = None,
) -> Mapping[str, BenchTest]:
    """List tests by key, in the order of the table.

    Parameters
    ----------
    table : Mapping from str to TableRow, optional
        None takes the package's table ``test_abilities``.

    Returns
    -------
    Mapping from str to BenchTest
        What each can show.

    Examples
    --------
    >>> sorted(bench_tests()["as_polished"].shows)
    ['oxide_dots_in_lines']
    """
    rows = package_table("test_abilities") if table is None else table
    keys = [key.removesuffix(".name") for key in rows if key.endswith(".name")]
    return {key: _ability(key, rows) for key in keys}


def _predictions(rows: Mapping[str, TableRow]) -> Iterator[Prediction]:
    for key, row in rows.items():
        observation, _, hypothesis = key.rpartition(".")
        if observation in _NOT_AN_OBSERVATION or hypothesis == "statement":
            continue
        statement = rows.get(f"{observation}.statement")
        if statement is None:
            raise ParameterError(
                "table of predictions", key, allowed="observations with a statement"
            )
        word, because = _word_and_reason(row.conditions)
        yield Prediction(
            observation=observation,
            statement=statement.conditions,
            hypothesis=hypothesis.upper(),
            word=word,
            because=because,
            expectation=_expectation(row, word, rows),
            status=row.status,
            source=f"{row.source}, {row.locator}" if row.locator else row.source,
        )


def _word_and_reason(text: str) -> tuple[str, str]:
    word, _, reason = text.partition(" (")
    return word, reason.removesuffix(")")


def _expectation(row: TableRow, word: str, rows: Mapping[str, TableRow]) -> Expectation:
    scale = rows.get(f"word.{word.replace(' ', '_')}")
    if scale is None or scale.value != row.value:
        raise ParameterError(
            "word of a prediction",
            f"{row.key}: {word}, {row.printed}",
            allowed="a word of the table's scale, with the scale's value",
        )
    return Expectation(int(row.value))


def _ability(key: str, rows: Mapping[str, TableRow]) -> BenchTest:
    stem = f"{key}.shows."
    name = rows[f"{key}.name"]
    return BenchTest(
        key=key,
        name=name.conditions,
        rank=Rank(int(name.value)),
        shows=frozenset(row.removeprefix(stem) for row in rows if row.startswith(stem)),
    )
