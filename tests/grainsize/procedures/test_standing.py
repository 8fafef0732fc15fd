import pytest

from strandproof.errors import ParameterError
from strandproof.grainsize.procedures.standing import (
    SeenStructure,
    grains_across_of,
    mean_standing,
)
from strandproof.records.structure_findings import DuplexKind, DuplexName


def _kind(name: DuplexName, *, present: bool = True) -> DuplexKind:
    return DuplexKind(
        name=name, present=present, figures=(), status="drawn", sentence="Drawn so."
    )


def test_an_even_structure_may_have_a_mean() -> None:
    found = mean_standing(
        SeenStructure(
            boundary_seen=True,
            grains_across=14.0,
            along_across=(8.5, 8.3, "um"),
            equivalent_grains=120.0,
        ),
        duplex=(_kind("bimodal", present=False),),
    )
    assert found.may_state_mean
    assert not found.needs_both_directions
    assert found.conditions == ()
    assert found.sentence.startswith("Nothing speaks against a mean")


@pytest.mark.parametrize(
    ("across", "name", "may"),
    [
        (1.6, "bamboo", False),
        (2.99, "bamboo", False),
        (3.0, "few_grains_across", True),
        (9.5, "few_grains_across", True),
    ],
)
def test_grains_across_decide_whether_a_mean_is_stated(
    across: float, name: str, *, may: bool
) -> None:
    found = mean_standing(SeenStructure(boundary_seen=True, grains_across=across))
    assert [condition.name for condition in found.conditions] == [name]
    assert found.may_state_mean is may
    assert found.sentence.lower().removeprefix("about ").startswith(f"{across:.1f} ")


def test_elongated_grains_need_both_directions() -> None:
    for along, across in ((50.0, 20.0), (20.0, 50.0)):
        found = mean_standing(
            SeenStructure(boundary_seen=True, along_across=(along, across, "um"))
        )
        assert found.may_state_mean
        assert found.needs_both_directions
        assert f"{along:g} um along and {across:g} um across" in found.sentence


@pytest.mark.parametrize(
    ("name", "may"),
    [
        ("bimodal", False),
        ("banding", False),
        ("isolated_coarse", True),
        ("wide_range", True),
        ("cross_section", True),
        ("necklace", True),
    ],
)
def test_duplex_kinds_are_said_and_two_sizes_forbid_a_mean(
    name: DuplexName, *, may: bool
) -> None:
    found = mean_standing(SeenStructure(boundary_seen=True), duplex=(_kind(name),))
    assert found.may_state_mean is may
    assert found.sentence.startswith("Duplex, ")
    assert found.sentence.endswith("Drawn so.")


def test_a_round_face_without_a_boundary_decides_nothing() -> None:
    found = mean_standing(SeenStructure(boundary_seen=False, is_round_face=True))
    assert not found.may_state_mean
    assert found.sentence == (
        "A round face without a boundary says nothing between X1 and X8."
    )


def test_none_resolved_is_never_none() -> None:
    found = mean_standing(SeenStructure(boundary_seen=False))
    assert not found.may_state_mean
    assert found.sentence.startswith("No boundary was resolved by this method here")


def test_few_grains_are_said() -> None:
    found = mean_standing(SeenStructure(boundary_seen=True, equivalent_grains=49.0))
    assert found.may_state_mean
    assert [condition.name for condition in found.conditions] == ["few_grains"]


def test_lengths_of_nothing_are_refused() -> None:
    with pytest.raises(ParameterError, match="two lengths above 0"):
        grains_across_of(50.0, 0.0)
