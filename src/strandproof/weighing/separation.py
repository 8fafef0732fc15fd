"""Which hypotheses the tests on a list can tell apart, and by what."""

from collections.abc import Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass
from itertools import combinations

from strandproof.errors import ParameterError, UnknownTableError
from strandproof.weighing.predictions import (
    BenchTest,
    Expectation,
    Prediction,
    Rank,
    bench_tests,
    predictions,
)
from strandproof.weighing.wording import listed

_TRANSVERSE = "etched_section.transverse"
_LONG = "etched_section.long"


@dataclass(frozen=True, slots=True, kw_only=True)
class Separator:
    """An observation that one of two hypotheses expects and the other does not.

    Parameters
    ----------
    test : str
        Key of the test that can show it.
    expected, not_expected : Prediction
        The two predictions.
    """

    test: str
    expected: Prediction
    not_expected: Prediction


@dataclass(frozen=True, slots=True, kw_only=True)
class PairSeparation:
    """Whether the tests on the list tell two hypotheses apart.

    Parameters
    ----------
    first, second : str
        Labels.
    by : tuple of Separator
        What tests on the list can show.
    not_on_list : tuple of Separator
        What other known tests could show.
    words : str
        The line of the separation table.
    """

    first: str
    second: str
    by: tuple[Separator, ...]
    not_on_list: tuple[Separator, ...]
    words: str

    @property
    def separated(self) -> bool:
        """True when a test on the list tells them apart."""
        return bool(self.by)


@dataclass(frozen=True, slots=True, kw_only=True)
class SeparationTable:
    """Every pair of hypotheses against the tests on the list.

    Parameters
    ----------
    tests : tuple of str
        Keys of the tests on the list.
    pairs : tuple of PairSeparation
        All pairs; those that nothing separates are as visible as the others.
    warnings : tuple of str
        Sentences to show above it.
    """

    tests: tuple[str, ...]
    pairs: tuple[PairSeparation, ...]
    warnings: tuple[str, ...]

    def pair(self, first: str, second: str) -> PairSeparation:
        """One pair, in either order.

        Parameters
        ----------
        first, second : str
            Labels.

        Returns
        -------
        PairSeparation
            As the table holds it.

        Raises
        ------
        ParameterError
            If the table has no such pair.
        """
        for each in self.pairs:
            if {each.first, each.second} == {first, second}:
                return each
        raise ParameterError("pair", (first, second), allowed="a pair of the table")


def separation_table(
    ticked: Iterable[str],
    *,
    hypotheses: Sequence[str],
    expected: Sequence[Prediction] | None = None,
    tests: Mapping[str, BenchTest] | None = None,
) -> SeparationTable:
    """Which pairs the ticked tests can tell apart.

    Assumes that a test shows what the table says it can show. Says what could
    separate, never how strongly: that is for likelihoods.

    Parameters
    ----------
    ticked : iterable of str
        Keys of tests, or the first part of such a key for all of its kind:
        ``"etched_section"`` stands for both directions.
    hypotheses : sequence of str
        Labels of the hypotheses, for example X1.
    expected : sequence of Prediction, optional
        None takes those of the package.
    tests : Mapping from str to BenchTest, optional
        None takes those of the package.

    Returns
    -------
    SeparationTable
        Derived from the predictions alone.

    Raises
    ------
    UnknownTableError
        If a ticked test is unknown.
    ParameterError
        If a table is inconsistent.

    Notes
    -----
    An observation separates two hypotheses when one expects it (usual, yes) and
    the other does not (rare, only by blunder, no). The words in between
    (possible, lower) separate from nothing: the cautious choice.

    Examples
    --------
    >>> table = separation_table(
    ...     ["etched_section", "resistance"], hypotheses=["X1", "X3", "X4", "X8"]
    ... )
    >>> table.pair("X1", "X8").words
    'X1-X8: long section only'
    """
    known = bench_tests() if tests is None else tests
    words = predictions() if expected is None else tuple(expected)
    keys = _ticked_keys(ticked, known)
    pairs = tuple(
        _pair(first, second, keys, words, known)
        for first, second in combinations(hypotheses, 2)
    )
    return SeparationTable(
        tests=keys, pairs=pairs, warnings=_warnings(keys, pairs, known)
    )


def _ticked_keys(
    ticked: Iterable[str], known: Mapping[str, BenchTest]
) -> tuple[str, ...]:
    chosen: set[str] = set()
    for name in ticked:
        keys = {key for key in known if key == name or key.startswith(f"{name}.")}
        if not keys:
            raise UnknownTableError("test", name, known=", ".join(known))
        chosen |= keys
    return tuple(key for key in known if key in chosen)


def _pair(
    first: str,
    second: str,
    keys: Collection[str],
    words: Sequence[Prediction],
    known: Mapping[str, BenchTest],
) -> PairSeparation:
    found = _separators(first, second, words, known)
    by = tuple(each for each in found if each.test in keys)
    others = tuple(each for each in found if each.test not in keys)
    blanks = [
        label
        for label in (first, second)
        if not any(each.hypothesis == label for each in words)
    ]
    line = _line_by(by, keys, known) if by else _line_without(others, blanks, known)
    return PairSeparation(
        first=first,
        second=second,
        by=by,
        not_on_list=others,
        words=f"{first}-{second}: {line}",
    )


def _separators(
    first: str,
    second: str,
    words: Sequence[Prediction],
    known: Mapping[str, BenchTest],
) -> list[Separator]:
    of_first = {each.observation: each for each in words if each.hypothesis == first}
    of_second = {each.observation: each for each in words if each.hypothesis == second}
    shared = [key for key in of_first if key in of_second]
    return [
        Separator(test=test.key, expected=higher, not_expected=lower)
        for test in known.values()
        for key in shared
        if key in test.shows
        for lower, higher in [_by_expectation(of_first[key], of_second[key])]
        if lower.expectation is Expectation.NOT_EXPECTED
        and higher.expectation is Expectation.EXPECTED
    ]


def _by_expectation(one: Prediction, other: Prediction) -> tuple[Prediction, ...]:
    return tuple(sorted((one, other), key=lambda each: each.expectation))


def _names(
    separators: Iterable[Separator], known: Mapping[str, BenchTest], *, rank: Rank
) -> list[str]:
    keys = dict.fromkeys(each.test for each in separators)
    return [known[key].name for key in keys if known[key].rank is rank]


def _line_by(
    by: Sequence[Separator], keys: Collection[str], known: Mapping[str, BenchTest]
) -> str:
    names = [name for rank in Rank for name in _names(by, known, rank=rank)]
    only = " only" if len(names) == 1 < len(keys) else ""
    return listed(names, joined_by="or") + only


def _line_without(
    others: Sequence[Separator], blanks: Sequence[str], known: Mapping[str, BenchTest]
) -> str:
    first = _names(others, known, rank=Rank.FIRST)
    after = _names(others, known, rank=Rank.AFTER)
    papers = _names(others, known, rank=Rank.PAPER)
    if first:
        also = f"; also {listed(after)}" if after else ""
        return f"{listed(first, joined_by='or')} (not on your list){also}"
    line = "nothing on your list separates these"
    if after or papers:
        line += f"; outside of it: {listed([*after, *papers], joined_by='or')}"
    if blanks:
        line += f"; no prediction on record for {listed(blanks)}"
    return line


def _warnings(
    keys: Sequence[str],
    pairs: Sequence[PairSeparation],
    known: Mapping[str, BenchTest],
) -> tuple[str, ...]:
    return tuple(
        text
        for text in (_transverse_only(keys, pairs), _idle(keys, pairs, known))
        if text
    )


def _transverse_only(keys: Sequence[str], pairs: Sequence[PairSeparation]) -> str:
    if _TRANSVERSE not in keys or _LONG in keys:
        return ""
    still_open = [
        f"{pair.first}-{pair.second}"
        for pair in pairs
        if not pair.by and any(each.test == _LONG for each in pair.not_on_list)
    ]
    if not still_open:
        return ""
    return (
        "Transverse sections only: in a wire one grain wide every transverse section "
        f"looks like one crystal. A long section would separate {listed(still_open)}."
    )


def _idle(
    keys: Sequence[str],
    pairs: Sequence[PairSeparation],
    known: Mapping[str, BenchTest],
) -> str:
    at_work = {each.test for pair in pairs for each in pair.by}
    idle = [known[key].name for key in keys if key not in at_work]
    if not idle:
        return ""
    return f"On your list, but separating no pair of these: {listed(idle)}."
