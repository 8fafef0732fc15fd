"""Rival explanations as named data, and the check that the usual ones are in."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Literal, get_args

from strandproof.errors import ParameterError, TooFewHypothesesError
from strandproof.records.entries import ClaimKind, Hypothesis
from strandproof.tables import TableRow, package_table
from strandproof.weighing.wording import count_word

Structure = Literal["single_crystal", "polycrystal"]

_STRUCTURES: tuple[Structure, ...] = get_args(Structure)


@dataclass(frozen=True, slots=True, kw_only=True)
class UsualHypothesis:
    """An explanation that comes up with every claim of this sort.

    Parameters
    ----------
    label : str
        X1, X2 ...
    statement : str
        The explanation as a full sentence.
    short : str
        A few words for lists.
    kinds : tuple of ClaimKind
        Kinds of claim it is about, the main one first.
    structure : {"single_crystal", "polycrystal"} or None
        Which controls inform the reading errors under it; None where no
        control of the usual sorts does (cells, bamboo, another metal).
    usual_rival : bool
        True when it has to be weighed, or left out with a reason.
    """

    label: str
    statement: str
    short: str
    kinds: tuple[ClaimKind, ...]
    structure: Structure | None
    usual_rival: bool

    def as_record(
        self, *, speaks_for: tuple[str, ...] = (), left_out_because: str = ""
    ) -> Hypothesis:
        """Make the entry of a case for this explanation.

        Parameters
        ----------
        speaks_for : tuple of str
            Claims that hold if it is true.
        left_out_because : str
            Why it is not weighed; empty when it is.

        Returns
        -------
        Hypothesis
            Under its usual label.
        """
        return Hypothesis(
            id=self.label,
            statement=self.statement,
            kind=self.kinds[0],
            speaks_for=speaks_for,
            left_out_because=left_out_because,
        )


def usual_hypotheses(
    table: Mapping[str, TableRow] | None = None,
) -> Mapping[str, UsualHypothesis]:
    """Usual explanations by label, in the order of the table.

    Parameters
    ----------
    table : Mapping from str to TableRow, optional
        None takes the package's table ``hypotheses``.

    Returns
    -------
    Mapping from str to UsualHypothesis
        X1 to X8 in the package's table.

    Raises
    ------
    ParameterError
        If an explanation of the table lacks its short words or its kind.

    Examples
    --------
    >>> usual_hypotheses()["X5"].short
    'tough-pitch'
    """
    rows = package_table("hypotheses") if table is None else table
    stems = [key.removesuffix(".statement") for key in rows if _is_statement(key)]
    return {stem.upper(): _usual(stem, rows) for stem in stems}


def stands_for(hypothesis: Hypothesis) -> str:
    """Label of the usual explanation that a hypothesis of a case is.

    Parameters
    ----------
    hypothesis : Hypothesis
        Of a case, under whatever name.

    Returns
    -------
    str
        Its `stands_for` where stated, else its own name.
    """
    return hypothesis.stands_for or hypothesis.id


def structure_of(
    hypothesis: Hypothesis, usual: Mapping[str, UsualHypothesis]
) -> Structure | None:
    """Structure that decides which controls inform a hypothesis.

    Parameters
    ----------
    hypothesis : Hypothesis
        Of a case.
    usual : Mapping from str to UsualHypothesis
        From `usual_hypotheses`.

    Returns
    -------
    {"single_crystal", "polycrystal"} or None
        None for a hypothesis that stands for no usual one.
    """
    known = usual.get(stands_for(hypothesis))
    return known.structure if known else None


def weighed_hypotheses(
    hypotheses: Sequence[Hypothesis],
) -> tuple[Hypothesis, ...]:
    """Hypotheses that are weighed: all but those left out with a reason.

    Parameters
    ----------
    hypotheses : sequence of Hypothesis
        Of a case.

    Returns
    -------
    tuple of Hypothesis
        Two or more, in the order given.

    Raises
    ------
    TooFewHypothesesError
        If fewer than two are left.
    ParameterError
        If two have the same name.
    """
    left = tuple(each for each in hypotheses if not each.left_out_because.strip())
    names = tuple(each.id for each in left)
    if len(set(names)) < len(names):
        raise ParameterError("hypotheses", names, allowed="each name once")
    if len(left) < 2:
        raise TooFewHypothesesError(names)
    return left


@dataclass(frozen=True, slots=True, kw_only=True)
class RivalCheck:
    """Which usual rivals are missing, and what has to be said about it.

    Parameters
    ----------
    missing : tuple of str
        Labels of usual rivals neither weighed nor left out with a reason.
    sentence : str
        What to show to the person who plans; empty when nothing is missing.
    report_lines : tuple of str
        One line for each usual rival not weighed, with the reason or its
        absence, for the report.
    """

    missing: tuple[str, ...]
    sentence: str
    report_lines: tuple[str, ...]


def usual_rivals_missing(
    hypotheses: Sequence[Hypothesis],
    *,
    usual: Mapping[str, UsualHypothesis] | None = None,
) -> RivalCheck:
    """Check that the usual rivals are weighed, or left out with a reason.

    Knows only what the tables list; that a list is near exhaustive remains a
    judgement of the person who weighs.

    Parameters
    ----------
    hypotheses : sequence of Hypothesis
        Of a case, with those left out and their reasons.
    usual : Mapping from str to UsualHypothesis, optional
        None takes those of the package.

    Returns
    -------
    RivalCheck
        Missing labels, the sentence, and the lines for the report.

    Raises
    ------
    ParameterError
        If a table entry is incomplete.

    Examples
    --------
    >>> known = usual_hypotheses()
    >>> given = [known["X1"].as_record(), known["X4"].as_record()]
    >>> print(usual_rivals_missing(given).sentence)  # doctest: +NORMALIZE_WHITESPACE
    Two more are usual: heated-mould rod drawn and annealed (X3); tough-pitch (X5).
    Add, or say why not.
    """
    known = usual_hypotheses() if usual is None else usual
    given = {stands_for(each): each for each in hypotheses}
    rivals = [each for each in known.values() if each.usual_rival]
    missing = [each for each in rivals if each.label not in given]
    lines = [_report_line(each, given.get(each.label)) for each in rivals]
    return RivalCheck(
        missing=tuple(each.label for each in missing),
        sentence=_offer(missing),
        report_lines=tuple(line for line in lines if line),
    )


def one_sided(hypotheses: Sequence[Hypothesis], claim: str) -> str:
    """Say when all hypotheses stand on one side of a claim.

    Parameters
    ----------
    hypotheses : sequence of Hypothesis
        Those weighed.
    claim : str
        Name of the claim.

    Returns
    -------
    str
        A sentence; empty when both sides are there.
    """
    for_claim = sum(claim in each.speaks_for for each in hypotheses)
    if for_claim == 0:
        return f"No hypothesis weighed speaks for {claim}; nothing can be said of it."
    if for_claim == len(hypotheses):
        return f"Every hypothesis weighed speaks for {claim}; add a rival to it."
    return ""


def _is_statement(key: str) -> bool:
    return key.count(".") == 1 and key.endswith(".statement")


def _usual(stem: str, rows: Mapping[str, TableRow]) -> UsualHypothesis:
    kinds = [kind for kind in ClaimKind if f"{stem}.kind.{kind}" in rows]
    if not kinds or f"{stem}.offer" not in rows:
        raise ParameterError(
            "table of hypotheses",
            stem,
            allowed="entries with statement, offer and kind",
        )
    kinds.sort(key=lambda kind: rows[f"{stem}.kind.{kind}"].value)
    return UsualHypothesis(
        label=stem.upper(),
        statement=rows[f"{stem}.statement"].conditions,
        short=rows[f"{stem}.offer"].conditions,
        kinds=tuple(kinds),
        structure=next(
            (each for each in _STRUCTURES if f"{stem}.structure.{each}" in rows), None
        ),
        usual_rival=f"{stem}.usual_rival" in rows,
    )


def _offer(missing: Sequence[UsualHypothesis]) -> str:
    if not missing:
        return ""
    names = "; ".join(f"{each.short} ({each.label})" for each in missing)
    verb = "is" if len(missing) == 1 else "are"
    number = count_word(len(missing)).capitalize()
    return f"{number} more {verb} usual: {names}. Add, or say why not."


def _report_line(rival: UsualHypothesis, given: Hypothesis | None) -> str:
    name = f"{rival.short} ({rival.label})"
    if given is None:
        return f"Not weighed, and no reason given: {name}."
    if given.left_out_because.strip():
        return f"Not weighed: {name}; reason given: {given.left_out_because.strip()}"
    return ""
