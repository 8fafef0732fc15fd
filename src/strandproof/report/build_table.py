"""How a piece is built, and which kind of claim was tested on which conductor type.

Every conductor type is a target of its own: what was found on the cores says nothing
of the drain.
"""

from collections.abc import Iterator
from dataclasses import dataclass

from strandproof.records.case_state import CaseState
from strandproof.records.entries import (
    ClaimKind,
    ConductorType,
    Layer,
    Measurement,
    Reading,
    Specimen,
)
from strandproof.report.pieces import (
    exhibits_in_question,
    own_measurements,
    specimen_behind,
)
from strandproof.report.wording import as_sentence, value_in_words

_SHORT = {
    ClaimKind.COMPOSITION: "purity",
    ClaimKind.OXYGEN: "oxygen",
    ClaimKind.CASTING_ROUTE: "casting route",
    ClaimKind.CRYSTAL_STATE: "crystal state",
    ClaimKind.BUILD: "build",
    ClaimKind.PERFORMANCE: "electrical performance",
}
_OF_THE_METAL_BELOW = (ClaimKind.COMPOSITION, ClaimKind.PERFORMANCE)
_LOOKED = {"boundaries", "none_resolved"}
METAL_UNDER = "metal under"
"""How the phrase for the metal below a layer begins."""

SOUND_NOT_TESTED = "sound"
"""Nothing here tests what anybody hears."""


@dataclass(frozen=True, slots=True)
class BuildRow:
    """One layer or conductor type of a piece, in words.

    Parameters
    ----------
    exhibit, part, made_of, count, size : str
        Piece, name of the part, material, how many, dimension.
    """

    exhibit: str
    part: str
    made_of: str
    count: str
    size: str


@dataclass(frozen=True, slots=True)
class TargetCell:
    """One kind of claim on one target.

    Parameters
    ----------
    kind : ClaimKind
        The kind.
    tested_by : tuple of str
        What tested it, by short name of measurement or reading.
    exhibits : tuple of str
        Exhibits on which it was tested.
    """

    kind: ClaimKind
    tested_by: tuple[str, ...]
    exhibits: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Target:
    """A conductor type over all pieces that have it.

    Parameters
    ----------
    name : str
        Its description up to the first comma, for example ``"drain"``.
    exhibits : tuple of str
        Pieces that have it.
    plating : str
        Metal of the layer on its strands; empty where none is known.
    cells : tuple of TargetCell
        One for each kind of claim, in the usual order.
    """

    name: str
    exhibits: tuple[str, ...]
    plating: str
    cells: tuple[TargetCell, ...]

    def cell(self, kind: ClaimKind) -> TargetCell:
        """Give the cell of a kind.

        Parameters
        ----------
        kind : ClaimKind
            The kind.

        Returns
        -------
        TargetCell
            The cell.
        """
        return next(cell for cell in self.cells if cell.kind is kind)

    def untested_on(self, kind: ClaimKind) -> tuple[str, ...]:
        """Give the pieces on which a kind was not tested for this target.

        Parameters
        ----------
        kind : ClaimKind
            The kind.

        Returns
        -------
        tuple of str
            Short names of exhibits.
        """
        return tuple(e for e in self.exhibits if e not in self.cell(kind).exhibits)


def build_rows(state: CaseState) -> tuple[BuildRow, ...]:
    """Give the build table: layers from outside to inside, then conductor types.

    Parameters
    ----------
    state : CaseState
        State of the case.

    Returns
    -------
    tuple of BuildRow
        Exhibit by exhibit.
    """
    return tuple(
        row
        for exhibit in exhibits_in_question(state)
        for row in (*_layers(state, exhibit.id), *_types(state, exhibit.id))
    )


def targets(state: CaseState) -> tuple[Target, ...]:
    """Lay every conductor type beside every kind of claim.

    A measurement of a specimen, a section or a micrograph counts for the conductor
    type of its specimen. Crystals also count as looked at where a person read a
    section. A measurement of something else, for example of the whole lead, counts
    for no conductor type.

    Parameters
    ----------
    state : CaseState
        State of the case.

    Returns
    -------
    tuple of Target
        In the order of first entry.
    """
    groups: dict[str, list[ConductorType]] = {}
    asked = {exhibit.id for exhibit in exhibits_in_question(state)}
    for each in state.records(ConductorType):
        if each.exhibit in asked:
            groups.setdefault(_target_name(each), []).append(each)
    done = tuple(_tests(state))
    return tuple(
        Target(
            name,
            tuple(dict.fromkeys(each.exhibit for each in group)),
            next((each.plating for each in group if each.plating), ""),
            tuple(_cell(kind, group, done) for kind in ClaimKind),
        )
        for name, group in groups.items()
    )


def target_sentences(state: CaseState) -> tuple[str, ...]:
    """Say for every target which kinds were tested and which were not.

    Parameters
    ----------
    state : CaseState
        State of the case.

    Returns
    -------
    tuple of str
        One sentence for each target.
    """
    return tuple(_target_in_words(target) for target in targets(state))


def not_tested(state: CaseState) -> tuple[str, ...]:
    """List what no test of the case touches, target by target.

    A kind that was tested on no target stands once. A kind tested on some targets
    only stands with each of the others. On a plated target, purity and performance
    are those of the metal under the layer, which then stands once for both.

    Parameters
    ----------
    state : CaseState
        State of the case.

    Returns
    -------
    tuple of str
        Short phrases; sound is always among them.
    """
    found = targets(state)
    nowhere = _tested_nowhere(found)
    phrases = [_SHORT[kind] for kind in nowhere]
    return (*phrases, *_gaps(found, nowhere), SOUND_NOT_TESTED)


def target_gaps(state: CaseState) -> tuple[str, ...]:
    """List what is tested on some targets and not on others, target by target.

    Parameters
    ----------
    state : CaseState
        State of the case.

    Returns
    -------
    tuple of str
        Short phrases, for example ``"crystal state of the drain"``; empty where
        nothing was tested yet.
    """
    found = targets(state)
    nowhere = _tested_nowhere(found)
    if len(nowhere) == len(ClaimKind):
        return ()
    return _gaps(found, nowhere)


def _tested_nowhere(found: tuple[Target, ...]) -> list[ClaimKind]:
    return [
        kind
        for kind in ClaimKind
        if found and not any(target.cell(kind).tested_by for target in found)
    ]


def _gaps(found: tuple[Target, ...], nowhere: list[ClaimKind]) -> tuple[str, ...]:
    return tuple(phrase for each in found for phrase in _not_tested_on(each, nowhere))


def _not_tested_on(target: Target, nowhere: list[ClaimKind]) -> Iterator[str]:
    bare = [kind for kind in ClaimKind if not target.cell(kind).tested_by]
    below = [k for k in bare if target.plating and k in _OF_THE_METAL_BELOW]
    for kind in bare:
        if kind not in nowhere and kind not in below:
            yield f"{_SHORT[kind]} of the {target.name}"
    if below:
        yield f"{METAL_UNDER} the {target.plating} of the {target.name}"
    for kind in ClaimKind:
        some = target.untested_on(kind)
        if some and kind not in bare and kind is ClaimKind.CRYSTAL_STATE:
            yield f"{_SHORT[kind]} of the {target.name} of {', '.join(some)}"


def _target_in_words(target: Target) -> str:
    tested = [cell for cell in target.cells if cell.tested_by]
    open_kinds = [_SHORT[cell.kind] for cell in target.cells if not cell.tested_by]
    if target.plating:
        open_kinds.append(f"the metal under the {target.plating}")
    done = ", ".join(
        f"{_SHORT[cell.kind]} ({', '.join(cell.exhibits)})" for cell in tested
    )
    return (
        f"{as_sentence(target.name)}: tested: {done or 'nothing'}; not tested: "
        f"{', '.join(open_kinds) or 'nothing of the usual kinds'}."
    )


def _tests(state: CaseState) -> Iterator[tuple[str, ClaimKind, str]]:
    """Give short name, kind and conductor type of every test that has one."""
    for measurement in own_measurements(state):
        target = _conductor_type(state, measurement)
        if target:
            for kind in measurement.bears_on:
                yield measurement.id, kind, target
    for reading in state.records(Reading):
        target = _conductor_type(state, reading)
        if target and reading.verdict in _LOOKED:
            yield f"reading {reading.id}", ClaimKind.CRYSTAL_STATE, target


def _conductor_type(state: CaseState, tested: Measurement | Reading) -> str:
    of = tested.measures if isinstance(tested, Measurement) else tested.reads
    specimen = specimen_behind(state, of)
    if not specimen:
        return ""
    return state.record(Specimen, specimen).conductor_type or ""


def _cell(
    kind: ClaimKind,
    group: list[ConductorType],
    done: tuple[tuple[str, ClaimKind, str], ...],
) -> TargetCell:
    exhibit_of = {each.id: each.exhibit for each in group}
    found = [(name, t) for name, about, t in done if about is kind and t in exhibit_of]
    return TargetCell(
        kind,
        tuple(dict.fromkeys(name for name, _ in found)),
        tuple(dict.fromkeys(exhibit_of[target] for _, target in found)),
    )


def _target_name(conductor: ConductorType) -> str:
    return conductor.description.partition(",")[0].strip()


def _layers(state: CaseState, exhibit: str) -> Iterator[BuildRow]:
    layers = [each for each in state.records(Layer) if each.exhibit == exhibit]
    for layer in sorted(layers, key=lambda each: each.position):
        size = value_in_words(layer.dimension) if layer.dimension else "not measured"
        yield BuildRow(exhibit, f"layer {layer.position}", layer.material, "1", size)


def _types(state: CaseState, exhibit: str) -> Iterator[BuildRow]:
    for each in state.records(ConductorType):
        if each.exhibit != exhibit:
            continue
        diameter = each.strand_diameter
        size = value_in_words(diameter) if diameter else "not measured"
        yield BuildRow(
            exhibit,
            each.description,
            f"plated with {each.plating}" if each.plating else "",
            f"{each.conductors} × {each.strands} strands",
            f"{size}{f'; lay {each.lay}' if each.lay else ''}",
        )
