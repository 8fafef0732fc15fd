"""The table of effects before anything is measured."""

import pytest

from strandproof.app.workflow.effects import (
    TypedPlan,
    effects_data,
    effects_in_words,
    planned_effects,
)
from strandproof.errors import MissingMeasurementError

STRAND = TypedPlan(
    micrometres=8.444,
    millimetres=0.08,
    milligrams=(22.28, 0.0285),
    metres=(0.5, 0.0003),
    ratio_percent=0.2,
)


def test_table_and_sentence_of_the_brief() -> None:
    lines = effects_in_words(planned_effects(STRAND))
    crossed = next(line for line in lines if "per boundary crossed" in line)
    assert "0.092-0.27" in crossed
    assert "330-980" in crossed
    words = " ".join(lines)
    assert "cannot tell crystals: expected 0.1-0.3 %, your uncertainty 0.4 %" in words
    assert "Ratio in liquid nitrogen: boundaries lower it by 0.73-2.2 %" in words
    assert "none of them alone can tell crystals" in words


def test_columns_line_up() -> None:
    found = planned_effects(STRAND)
    lines = effects_in_words(found)
    table = lines[1 : 2 + len(found.effects)]
    assert len({len(line) for line in table}) == 1


def test_without_means_it_says_what_to_give() -> None:
    lines = effects_in_words(planned_effects(TypedPlan(micrometres=20.0)))
    assert any(line.startswith("Give mass and length") for line in lines)
    plain = effects_in_words(planned_effects(TypedPlan(ratio_percent=0.2)))
    assert any(
        "Ratio in liquid nitrogen: your uncertainty 0.39 %" in one for one in plain
    )


def test_data_hold_every_effect() -> None:
    data = effects_data(planned_effects(STRAND))
    assert {one["subject"] for one in data["effects"]} == {
        "boundaries",
        "surface",
        "purity",
        "cold work",
    }
    assert data["interior_ratio"] == 430.0


def test_mass_without_length_is_refused() -> None:
    with pytest.raises(MissingMeasurementError, match="Mass or length"):
        planned_effects(TypedPlan(milligrams=(22.0, 0.1)))
