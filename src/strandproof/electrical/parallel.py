"""Unlike conductors in parallel: refused as a resistivity."""

from collections.abc import Sequence

from strandproof.errors import MixedConductorsError, ParameterError
from strandproof.records import Flag
from strandproof.records.electrical import LayerEffect, ParallelConductor

_COATED = {
    "tin": "tinned",
    "silver": "silver-plated",
    "nickel": "nickel-plated",
    "gold": "gold-plated",
}
_NUMBERS = {2: "two", 3: "three", 4: "four", 5: "five", 6: "six"}


def require_one_conductor_type(
    conductors: Sequence[ParallelConductor], *, layer_effect: LayerEffect | None = None
) -> tuple[Flag, ...]:
    """Refuse a resistivity of unlike conductors in parallel.

    Conductors are unlike when name, metal or layer differ: two of one metal still
    differ in length and lay, which nobody took apart. Several bundles of one type
    are one entry with all their strands.

    Parameters
    ----------
    conductors : sequence of ParallelConductor
        Everything that the current ran through; one or more.
    layer_effect : LayerEffect, optional
        Effect of the layer, to be named in the refusal.

    Returns
    -------
    tuple of Flag
        Empty for one bare type; ``coated_strands`` for one type with a layer.

    Raises
    ------
    ParameterError
        If there is no conductor.
    MixedConductorsError
        If there is more than one type.

    Examples
    --------
    >>> core = ParallelConductor(name="core", strands=76, metal="copper")
    >>> require_one_conductor_type([core])
    ()
    """
    if not conductors:
        raise ParameterError(
            "conductors", conductors, allowed="one type of conductor or more"
        )
    types = {(one.name, one.metal, one.layer) for one in conductors}
    if len(types) > 1:
        raise MixedConductorsError(mixed_sentence(conductors, layer_effect))
    layer = conductors[0].layer
    return (Flag("coated_strands", f"layer of {layer}"),) if layer else ()


def mixed_sentence(
    conductors: Sequence[ParallelConductor], layer_effect: LayerEffect | None = None
) -> str:
    """Say which conductors lie in parallel and what follows.

    Parameters
    ----------
    conductors : sequence of ParallelConductor
        Conductors of more than one type.
    layer_effect : LayerEffect, optional
        Effect of a layer on the coated ones.

    Returns
    -------
    str
        One sentence.

    Examples
    --------
    >>> core = ParallelConductor(name="core", strands=76, metal="copper")
    >>> drain = ParallelConductor(
    ...     name="drain", strands=7, metal="copper", layer="tin"
    ... )
    >>> print(mixed_sentence([core, drain]))
    two conductor types in parallel (76 core strands + 7 tinned drain strands): \
this is not a resistivity of copper.
    """
    count = len({(one.name, one.metal, one.layer) for one in conductors})
    listed = " + ".join(_words(one) for one in conductors)
    metals = " and ".join(dict.fromkeys(one.metal for one in conductors))
    sentence = (
        f"{_NUMBERS.get(count, str(count))} conductor types in parallel ({listed}): "
        f"this is not a resistivity of {metals}"
    )
    return f"{sentence}{_words_of_layer(conductors, layer_effect)}."


def _words(conductor: ParallelConductor) -> str:
    layer = conductor.layer
    coated = _COATED.get(layer, f"{layer}-coated") + " " if layer else ""
    metal = "" if conductor.metal == "copper" else f"{conductor.metal} "
    noun = "strand" if conductor.strands == 1 else "strands"
    return f"{conductor.strands} {coated}{metal}{conductor.name} {noun}"


def _words_of_layer(
    conductors: Sequence[ParallelConductor], effect: LayerEffect | None
) -> str:
    names = [one.name for one in conductors if effect and one.layer == effect.layer]
    if effect is None or not names:
        return ""
    change = effect.resistance_change_percent
    verb = "adds" if change.value > 0 else "takes"
    preposition = "to" if change.value > 0 else "from"
    return (
        f"; the {effect.layer} alone {verb} {abs(change.value):.1f} % {preposition} "
        f"each {' and '.join(names)} strand"
    )
