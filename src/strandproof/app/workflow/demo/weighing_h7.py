"""What case H7 observes and weighs: typed data, all invented."""

from strandproof.app.workflow.demo.telling import Fields
from strandproof.records.entries import Likelihood

Rows = tuple[tuple[str, tuple[float, float, float], str], ...]


def _observation(name: str, statement: str, **more: object) -> tuple[str, Fields]:
    return "observation", {"id": name, "statement": statement, "cables": 3, **more}


OBSERVATIONS: tuple[tuple[str, Fields], ...] = (
    _observation(
        "O-structure",
        "Very many equiaxed grains with annealing twins on every long section.",
        evidence=["measurement/grain-size"],
        strands=9,
        sections=18,
        fields=53,
        method="etched sections, read blind by two readers",
        reading_outcome="boundaries",
        dependence_group="first bench: one mount, one etch batch, the same readers",
        bears_on=["crystal_state"],
        does_not_bear_on=["casting_route", "composition", "oxygen"],
    ),
    _observation(
        "O-K2",
        "A layer of tin of 1.9 ± 0.3 µm on the drain's strands.",
        evidence=["measurement/drain-layer"],
        strands=3,
        sections=3,
        method="EDS on a section",
        bears_on=["build"],
    ),
    _observation(
        "O-K3",
        "A core of 19 strands of 0.08 mm holds 0.0955 mm² of copper.",
        evidence=["measurement/core-area"],
        strands=19,
        method="diameter and count, and by mass",
        bears_on=["build"],
    ),
    _observation(
        "O-K4",
        "The strand conducts at 100.9 ± 0.4 % IACS.",
        evidence=["measurement/resistance"],
        strands=1,
        method="four-wire resistance and mass",
        bears_on=["performance"],
    ),
)

_SEEN_95 = "of 100 such strands, about 95 would look like this"
_BLUNDER = "false reading 0.3, mix-up 0.1, batch fault 0.1 of 100"
_BLUNDER_ONLY = ((0.005, 0.0, 0.12), _BLUNDER)

STRUCTURE: Rows = (
    ("X1", *_BLUNDER_ONLY),
    ("X2", (0.05, 0.01, 0.20), "drawn metal shows stretched cells, rarely grains"),
    ("X3", (0.95, 0.90, 0.99), _SEEN_95),
    ("X4", (0.95, 0.90, 0.99), _SEEN_95),
    ("X5", (0.95, 0.90, 0.99), _SEEN_95),
    ("X8", (0.05, 0.01, 0.20), "grains would span the strand"),
)
OTHER_WEIGHINGS: dict[str, Rows] = {
    "K2": (("T1", (0.95, 0.90, 0.99), _SEEN_95), ("T2", *_BLUNDER_ONLY)),
    "K3": (("G2", (0.95, 0.90, 0.99), _SEEN_95), ("G1", *_BLUNDER_ONLY)),
    "K4": (("R2", (0.95, 0.90, 0.99), _SEEN_95), ("R1", *_BLUNDER_ONLY)),
}


def likelihoods(rows: Rows) -> tuple[Likelihood, ...]:
    """Give typed rows as likelihoods, all of them judgement.

    Parameters
    ----------
    rows : tuple
        Hypothesis, best estimate with range, and source.

    Returns
    -------
    tuple of Likelihood
        In order.
    """
    return tuple(
        Likelihood(
            hypothesis=name,
            best=best,
            lower=lower,
            upper=upper,
            status="judgement",
            source=source,
        )
        for name, (best, lower, upper), source in rows
    )
