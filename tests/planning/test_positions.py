"""Random places: five on each long section, no overlap, drawn again by anyone."""

from random import Random

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import stats

from strandproof.errors import ParameterError
from strandproof.planning import draw_fields, drawn_by
from strandproof.records.entries import FieldDraw, PlannedField

STRANDS = [f"E{e}-s{s}" for e in (1, 2, 3) for s in (1, 2, 3)]
LONG = [f"{each}-L" for each in STRANDS]
FACES = [f"{each}-T" for each in STRANDS]


def a_draw(seed: int = 2031, **changes: float) -> FieldDraw:
    fields = {
        "fields_per_section": 5,
        "section_length_mm": 10.0,
        "field_width_mm": 0.31,
        **changes,
    }
    return FieldDraw.model_validate({"seed": seed, **fields})


def test_case_h7_has_54_fields() -> None:
    fields = draw_fields(LONG, FACES, draw=a_draw())
    assert len(fields) == 54
    assert sum(each.extent == "field" for each in fields) == 45
    assert sum(each.extent == "whole_face" for each in fields) == 9
    assert all(each.position_mm is None for each in fields[45:])


@given(seed=st.integers(0, 2**48), count=st.integers(1, 9))
def test_no_two_fields_overlap_and_all_lie_within(seed: int, count: int) -> None:
    draw = a_draw(seed, fields_per_section=count)
    places = [each.position_mm for each in draw_fields(["a"], [], draw=draw)]
    steps = np.diff(np.array(places, float))
    assert len(places) == count
    assert (steps >= 0.31 - 1e-9).all()
    assert min(np.array(places, float)) >= 0
    assert max(np.array(places, float)) + 0.31 <= 10.0 + 1e-9


def test_one_field_a_section_is_spread_evenly() -> None:
    draw = a_draw(5, fields_per_section=1)
    names = [f"s{number}" for number in range(2000)]
    places = [each.position_mm for each in draw_fields(names, [], draw=draw)]
    scaled = np.array(places, float) / (10 - 0.31)
    assert stats.kstest(scaled, "uniform").pvalue > 0.001


def test_places_follow_from_the_stated_rule() -> None:
    """As the page on plans writes it, with nothing but Python's own generator."""
    chance = Random(2031)  # noqa: S311 - the rule as written
    numbers = sorted(chance.random() for _ in range(5))
    free = 10_000 - 5 * 310
    expected = [(int(u * (free + 1)) + i * 310) / 1000 for i, u in enumerate(numbers)]
    first = draw_fields(LONG, FACES, draw=a_draw())[:5]
    assert [each.position_mm for each in first] == expected


def test_a_moved_field_is_noticed() -> None:
    fields = draw_fields(LONG, FACES, draw=a_draw())
    moved = fields[0].model_copy(update={"position_mm": 1.0})
    assert drawn_by(fields, a_draw())
    assert not drawn_by((moved, *fields[1:]), a_draw())
    assert not drawn_by(fields[1:], a_draw())
    assert not drawn_by(fields, a_draw(2032))


def test_fields_that_do_not_fit_are_refused() -> None:
    with pytest.raises(ParameterError, match="fit on 1 mm"):
        draw_fields(["a"], [], draw=a_draw(section_length_mm=1.0))


def test_a_name_twice_is_refused() -> None:
    with pytest.raises(ParameterError, match="each name once"):
        draw_fields(["a"], ["a"], draw=a_draw())


@pytest.mark.parametrize(("extent", "place"), [("field", None), ("whole_face", 1.0)])
def test_a_field_has_a_place_and_a_face_has_none(
    extent: str, place: float | None
) -> None:
    with pytest.raises(ValueError, match="a whole face has none"):
        PlannedField.model_validate(
            {"section": "a", "number": 1, "extent": extent, "position_mm": place}
        )
