import pytest

from strandproof.electrical import layer_effect, require_one_conductor_type
from strandproof.errors import MixedConductorsError, ParameterError
from strandproof.quantity import normal_input
from strandproof.records.electrical import ParallelConductor

CORES = ParallelConductor(name="core", strands=76, metal="copper")
DRAIN = ParallelConductor(name="drain", strands=7, metal="copper", layer="tin")


def test_the_whole_lead_is_refused_in_the_words_of_the_brief() -> None:
    tin = layer_effect(
        normal_input("strand diameter", 0.12, 0.0005, unit="mm"),
        normal_input("tin thickness", 1.9, 0.15, unit="um"),
        strands=7,
    )
    with pytest.raises(MixedConductorsError) as refusal:
        require_one_conductor_type([CORES, DRAIN], layer_effect=tin)
    assert refusal.value.sentence == (
        "two conductor types in parallel (76 core strands + 7 tinned drain strands): "
        "this is not a resistivity of copper; the tin alone adds 5.6 % to each drain "
        "strand."
    )
    assert str(refusal.value).endswith("measure each type alone.")
    assert isinstance(refusal.value, ValueError)


def test_without_a_thickness_nothing_is_said_about_the_tin() -> None:
    with pytest.raises(MixedConductorsError, match=r"resistivity of copper\."):
        require_one_conductor_type([CORES, DRAIN])


def test_a_layer_that_no_conductor_has_is_not_mentioned() -> None:
    silver = layer_effect(
        normal_input("strand diameter", 0.12, 0.0005, unit="mm"),
        normal_input("silver thickness", 1.0, 0.1, unit="um"),
        layer="silver",
    )
    with pytest.raises(MixedConductorsError, match=r"resistivity of copper\."):
        require_one_conductor_type([CORES, DRAIN], layer_effect=silver)
    plated = ParallelConductor(
        name="screen", strands=40, metal="copper", layer="silver"
    )
    with pytest.raises(
        MixedConductorsError, match=r"the silver alone takes 0\.3 % from each screen"
    ):
        require_one_conductor_type([CORES, plated], layer_effect=silver)


def test_one_bare_type_passes() -> None:
    assert require_one_conductor_type([CORES]) == ()
    again = ParallelConductor(name="core", strands=19, metal="copper")
    assert require_one_conductor_type([CORES, again]) == ()


def test_one_coated_type_passes_with_a_flag() -> None:
    flags = require_one_conductor_type([DRAIN])
    assert [(flag.name, flag.detail) for flag in flags] == [
        ("coated_strands", "layer of tin")
    ]


@pytest.mark.parametrize(
    ("other", "words"),
    [
        (
            ParallelConductor(name="shield", strands=24, metal="copper"),
            r"\+ 24 shield strands\): this is not a resistivity of copper\.",
        ),
        (
            ParallelConductor(name="core", strands=1, metal="steel"),
            r"1 steel core strand\): this is not a resistivity of copper and steel",
        ),
        (
            ParallelConductor(name="core", strands=7, metal="copper", layer="zinc"),
            "7 zinc-coated core strands",
        ),
    ],
)
def test_any_unlikeness_is_refused(other: ParallelConductor, words: str) -> None:
    with pytest.raises(MixedConductorsError, match=words):
        require_one_conductor_type([CORES, other])


def test_three_types_are_counted() -> None:
    shield = ParallelConductor(name="shield", strands=24, metal="copper")
    with pytest.raises(MixedConductorsError, match="^three conductor types"):
        require_one_conductor_type([CORES, DRAIN, shield])


def test_no_conductor_is_a_wrong_call() -> None:
    with pytest.raises(ParameterError, match="one type of conductor or more"):
        require_one_conductor_type([])
    with pytest.raises(ParameterError, match="strands was given as 0"):
        ParallelConductor(name="core", strands=0, metal="copper")
    with pytest.raises(ParameterError, match="a name and a metal"):
        ParallelConductor(name="", strands=1, metal="copper")
