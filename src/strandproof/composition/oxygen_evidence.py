"""Three kinds of evidence on oxygen beside each other: section, hydrogen test, gas."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from itertools import combinations
from typing import Literal

from strandproof.composition.oxygen import InclusionOxygen
from strandproof.errors import MissingMeasurementError, ParameterError
from strandproof.quantity import Interval, Quantity, expanded_interval
from strandproof.tables import TableRow, package_table, table_value

HydrogenOutcome = Literal["pass", "fail"]
ClassVerdict = Literal["within", "above", "cannot_tell"]

HYDROGEN_MEANINGS: Mapping[HydrogenOutcome, str] = {
    "pass": "No embrittlement: no oxide that hydrogen could reach and that this test "
    "could show. It is no number, and phosphorus-deoxidised copper passes as well, so "
    "it belongs beside a conductivity of 100 % IACS or more.",
    "fail": "Embrittlement: hydrogen found oxide inside of the metal, so it is not "
    "oxygen-free. It is no number.",
}
"""What each outcome of a hydrogen-embrittlement test means."""


@dataclass(frozen=True, slots=True, kw_only=True)
class HydrogenTest:
    """Outcome of a hydrogen-embrittlement test made by a laboratory.

    Parameters
    ----------
    outcome : {"pass", "fail"}
        As reported.
    method : str
        Standard and method as reported, for example ``"ASTM B577 method B"``.

    Raises
    ------
    ParameterError
        If the outcome is neither, or no method is named.
    """

    outcome: HydrogenOutcome
    method: str

    def __post_init__(self) -> None:
        if self.outcome not in HYDROGEN_MEANINGS:
            raise ParameterError("hydrogen test", self.outcome, allowed="pass or fail")
        if not self.method.strip():
            raise ParameterError(
                "method of the hydrogen test",
                self.method,
                allowed="its name, for example ASTM B577 method B or ISO 2626",
            )

    @property
    def meaning(self) -> str:
        """What the outcome means, in words."""
        return HYDROGEN_MEANINGS[self.outcome]


@dataclass(frozen=True, slots=True, kw_only=True)
class OxygenStatement:
    """One comparison in words.

    Parameters
    ----------
    consistent : bool or None
        None where the two say nothing about each other.
    sentence : str
        The comparison with its reason.
    """

    consistent: bool | None
    sentence: str


@dataclass(frozen=True, slots=True, kw_only=True)
class OxygenClass:
    """Evidence against one class of oxygen content.

    Parameters
    ----------
    name : str
        For example ``"C10200 (at most 10 ppm)"``.
    limit_ppm : float
        Greatest oxygen [ppm by mass].
    verdict : {"within", "above", "cannot_tell"}
        Over all the evidence; one that is above decides.
    reason : str
        Which evidence decides, in words.
    """

    name: str
    limit_ppm: float
    verdict: ClassVerdict
    reason: str


@dataclass(frozen=True, slots=True, kw_only=True)
class OxygenJudgement:
    """Evidence on oxygen, compared.

    Parameters
    ----------
    section : InclusionOxygen or None
        Oxide on a polished section.
    hydrogen : HydrogenTest or None
        Hydrogen-embrittlement test.
    gas : Quantity or None
        Gas analysis [ppm by mass].
    statements : tuple of OxygenStatement
        Comparisons, one for each pair.
    classes : tuple of OxygenClass
        C10100 and C10200.
    notes : tuple of str
        What limits the evidence.
    """

    section: InclusionOxygen | None
    hydrogen: HydrogenTest | None
    gas: Quantity | None
    statements: tuple[OxygenStatement, ...]
    classes: tuple[OxygenClass, ...]
    notes: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class _Known:
    """What one kind of evidence says: a range in ppm, or an outcome."""

    name: str
    lower: float
    upper: float | None
    outcome: HydrogenOutcome | None = None


def judge_oxygen(
    *,
    section: InclusionOxygen | None = None,
    hydrogen: HydrogenTest | None = None,
    gas: Quantity | None = None,
    rules: Mapping[str, TableRow] | None = None,
) -> OxygenJudgement:
    """Compare what is known about oxygen and hold it against the classes.

    Assumes that all evidence is of the same metal; where it is not, disagreement means
    nothing.

    Parameters
    ----------
    section : InclusionOxygen, optional
        Oxide on a polished section.
    hydrogen : HydrogenTest, optional
        Outcome of a hydrogen-embrittlement test.
    gas : Quantity, optional
        Oxygen by gas analysis [ppm by mass], unit ``"ppm"``.
    rules : Mapping from str to TableRow, optional
        Limits as in ``composition_rules``; None takes the package's table.

    Returns
    -------
    OxygenJudgement
        Comparisons, classes, notes.

    Raises
    ------
    MissingMeasurementError
        If nothing is given.
    ParameterError
        If the gas analysis has another unit or is negative.

    Examples
    --------
    >>> judged = judge_oxygen(gas=Quantity(250.0, "ppm", 10.0))
    >>> judged.classes[1].verdict
    'above'
    """
    table = package_table("composition_rules") if rules is None else rules
    known = tuple(_known(section, hydrogen, gas, table))
    if not known:
        raise MissingMeasurementError(
            "Evidence on oxygen",
            reason="Etched grains and resistance do not show oxygen.",
            remedy="Give fields of a polished section, the outcome of a hydrogen "
            "test, or a gas analysis.",
        )
    return OxygenJudgement(
        section=section,
        hydrogen=hydrogen,
        gas=gas,
        statements=tuple(
            _compared(one, two, table) for one, two in combinations(known, 2)
        ),
        classes=tuple(
            _class(name, table_value(table, key), known)
            for name, key in (
                ("C10100", "oxygen.ofe_maximum"),
                ("C10200", "oxygen.of_maximum"),
            )
        ),
        notes=tuple(_notes(section, hydrogen, gas, table)),
    )


def _known(
    section: InclusionOxygen | None,
    hydrogen: HydrogenTest | None,
    gas: Quantity | None,
    table: Mapping[str, TableRow],
) -> Iterator[_Known]:
    if section is not None:
        interval = section.oxygen_interval
        dissolved = table_value(table, "oxygen.dissolved")
        upper = None if interval.upper is None else interval.upper + dissolved
        yield _Known("the section", interval.lower or 0.0, upper)
    if hydrogen is not None:
        yield _Known("the hydrogen test", 0.0, None, hydrogen.outcome)
    if gas is not None:
        if gas.unit != "ppm" or gas.value < 0:
            raise ParameterError(
                "gas analysis", f"{gas.value:g} {gas.unit}", allowed="0 ppm or above"
            )
        interval = gas_interval(gas)
        yield _Known("the gas analysis", interval.lower or 0.0, interval.upper)


def gas_interval(gas: Quantity) -> Interval:
    """Give the 95 % interval of a gas analysis, its lower end not below zero.

    Parameters
    ----------
    gas : Quantity
        Oxygen [ppm by mass].

    Returns
    -------
    Interval
        In ppm by mass.
    """
    found = expanded_interval(gas)
    return Interval(
        lower=max(0.0, found.lower or 0.0),
        upper=found.upper,
        unit=found.unit,
        confidence=found.confidence,
        method=found.method,
    )


def _compared(
    one: _Known, two: _Known, table: Mapping[str, TableRow]
) -> OxygenStatement:
    if one.outcome is None and two.outcome is None:
        return _two_ranges(one, two)
    outcome, other = (one, two) if one.outcome else (two, one)
    return _outcome_and_range(outcome, other, table)


def _two_ranges(section: _Known, gas: _Known) -> OxygenStatement:
    if gas.upper is not None and gas.upper < section.lower:
        return OxygenStatement(
            consistent=False,
            sentence=f"Inconsistent: the section shows {section.lower:.3g} ppm or more "
            f"as oxide, the gas analysis at most {gas.upper:.3g} ppm. Pores or stains "
            "taken for oxide, or another piece of metal.",
        )
    if section.upper is not None and gas.lower > section.upper:
        return OxygenStatement(
            consistent=False,
            sentence=f"Inconsistent: the gas analysis shows {gas.lower:.3g} ppm or "
            f"more, the section at most {section.upper:.3g} ppm with what may be "
            "dissolved. Oxide on the surface of the piece analysed (much on fine "
            "strands), oxide too fine to see, or torn out in polishing.",
        )
    return OxygenStatement(
        consistent=True,
        sentence="Consistent: the intervals of section and gas analysis overlap.",
    )


def _outcome_and_range(
    test: _Known, other: _Known, table: Mapping[str, TableRow]
) -> OxygenStatement:
    free = table_value(table, "oxygen.of_maximum")
    if test.outcome == "pass" and other.lower > free:
        return OxygenStatement(
            consistent=False,
            sentence=f"Inconsistent: the hydrogen test was passed, and {other.name} "
            f"shows {other.lower:.3g} ppm or more. Oxygen bound to phosphorus or on "
            "the surface, something else taken for oxide, or a test that did not "
            "reach the core.",
        )
    least = table_value(table, "oxygen.ofe_maximum")
    if test.outcome == "fail" and other.upper is not None and other.upper <= least:
        return OxygenStatement(
            consistent=False,
            sentence=f"Inconsistent: the hydrogen test failed, and {other.name} shows "
            f"at most {other.upper:.3g} ppm. Cracks from another cause, or another "
            "piece of metal.",
        )
    return OxygenStatement(
        consistent=True,
        sentence=f"Consistent: nothing in {other.name} speaks against the outcome of "
        "the hydrogen test.",
    )


def _class(name: str, limit: float, known: tuple[_Known, ...]) -> OxygenClass:
    title = f"{name} (at most {limit:g} ppm)"
    for one in known:
        if one.outcome == "fail" or one.lower > limit:
            reason = (
                "the hydrogen test failed"
                if one.outcome
                else f"{one.name} shows {one.lower:.3g} ppm or more"
            )
            return OxygenClass(
                name=title, limit_ppm=limit, verdict="above", reason=reason
            )
    # A section misses oxide that it cannot resolve: it refutes, it does not confirm.
    gas = next((one for one in known if one.name == "the gas analysis"), None)
    if gas is not None and gas.upper is not None and gas.upper <= limit:
        reason = f"the gas analysis shows at most {gas.upper:.3g} ppm"
        return OxygenClass(name=title, limit_ppm=limit, verdict="within", reason=reason)
    return OxygenClass(
        name=title,
        limit_ppm=limit,
        verdict="cannot_tell",
        reason="a section or a passed hydrogen test does not put a number below the "
        "limit"
        if gas is None
        else "the interval of the gas analysis reaches across the limit",
    )


def _notes(
    section: InclusionOxygen | None,
    hydrogen: HydrogenTest | None,
    gas: Quantity | None,
    table: Mapping[str, TableRow],
) -> Iterator[str]:
    if section is not None:
        yield section.cannot_see
        if section.oxygen_interval.upper is None:
            yield (
                "No oxide was seen, and no upper end can be given without the area of "
                "the largest particle that would be expected."
            )
    if hydrogen is not None:
        yield f"{hydrogen.method}: {hydrogen.meaning}"
    if gas is not None:
        low = table_value(table, "oxygen.gas_analysis_lowest")
        high = table_value(table, "oxygen.gas_analysis_highest")
        if not low <= gas.value <= high:
            yield (
                f"{gas.value:g} ppm lies outside of {low:g} to {high:g} ppm, the scope "
                "of ASTM E2575: ask how the laboratory reached it."
            )
        yield (
            "A gas analysis takes in the oxide on the surface; on fine strands that is "
            "much unless it was removed first."
        )
