"""Recipes: every usual hypothesis once, drawn at the scene's scale or not at all."""

from dataclasses import replace
from math import sqrt

import pytest
from hypothesis import given
from hypothesis import strategies as st

from strandproof.app.workflow.expected_looks.recipes import Look, looks
from strandproof.app.workflow.expected_looks.scene import FEWEST_PX, Direction, Scene
from strandproof.weighing import bench_tests, predictions, usual_hypotheses

LONG = Scene(
    shape=(560, 800),
    um_per_px=0.1726,
    direction="longitudinal",
    strand_um=80.0,
    axis_deg=0.0,
    mean_intercept_um=8.4,
    colour=True,
)
ROUND = replace(LONG, direction="transverse", shape=(560, 560))


def by_label(scene: Scene) -> dict[str, Look]:
    return {label: look for look in looks(scene) for label in look.labels}


@pytest.mark.parametrize("scene", [LONG, ROUND, replace(LONG, strand_um=None)])
def test_every_usual_hypothesis_has_one_look_or_a_reason(scene: Scene) -> None:
    labels = [label for look in looks(scene) for label in look.labels]
    assert sorted(labels) == sorted(usual_hypotheses())
    assert all(look.words for look in looks(scene))


def test_what_the_tables_cannot_tell_apart_shares_a_look() -> None:
    """X3, X4, X5 have the same words for all that an etched section shows."""
    shown = bench_tests()["etched_section.long"].shows
    expected = {
        label: [
            each.word
            for each in predictions()
            if each.hypothesis == label and each.observation in shown
        ]
        for label in ("X3", "X4", "X5", "X8")
    }
    assert expected["X3"] == expected["X4"] == expected["X5"] != expected["X8"]
    found = by_label(LONG)
    assert found["X3"] is found["X4"] is found["X5"]
    assert "nothing on an etched section tells X3 from X4" in found["X3"].words[1]


def test_hypotheses_without_a_look_say_so_and_come_last() -> None:
    assert [look.labels for look in looks(LONG)][-2:] == [("X6",), ("X7",)]
    for look in looks(LONG)[-2:]:
        assert look.parameters is None
        assert look.words[0].startswith("No look of its own")


@pytest.mark.parametrize("scene", [LONG, ROUND])
def test_drawings_have_the_size_and_scale_of_the_picture(scene: Scene) -> None:
    for look in looks(scene):
        if look.parameters is not None:
            assert look.parameters.shape == scene.shape
            assert look.parameters.um_per_px == scene.um_per_px
            assert look.parameters.layout.width_um == 80.0
            assert look.parameters.scale_bar is None


def test_bamboo_needs_the_width_of_the_strand() -> None:
    look = by_label(replace(LONG, strand_um=None))["X8"]
    assert look.parameters is None
    assert "Give it" in look.words[0]
    drawn = by_label(LONG)["X8"].parameters
    assert drawn is not None
    assert drawn.population.mean_intercept_um == 160


def test_bamboo_on_a_round_face_is_the_look_of_one_crystal() -> None:
    found = by_label(ROUND)
    assert found["X8"].parameters == found["X1"].parameters
    assert "says nothing between X1 and X8" in found["X8"].words[1]


def test_twins_are_drawn_only_where_copper_recrystallised() -> None:
    for label, look in by_label(LONG).items():
        if look.parameters is not None:
            twinned = look.parameters.population.twins is not None
            assert twinned == (label in {"X3", "X4", "X5"})


@given(
    st.floats(FEWEST_PX, 400),
    st.floats(0.02, 20),
    st.sampled_from(("longitudinal", "transverse")),
)
def test_drawn_out_grains_keep_their_volume_and_can_be_seen(
    mean_px: float, um_per_px: float, direction: Direction
) -> None:
    scene = replace(
        LONG,
        um_per_px=um_per_px,
        mean_intercept_um=mean_px * um_per_px * 1.0001,
        direction=direction,
    )
    drawn = by_label(scene)["X2"].parameters
    assert drawn is not None
    population = drawn.population
    assert population.mean_intercept_um is not None
    thickness_um = population.mean_intercept_um
    if direction == "longitudinal":
        thickness_um /= sqrt(population.elongation)
        assert population.mean_intercept_um == scene.mean_intercept_um
    assert thickness_um / um_per_px > 2.9
