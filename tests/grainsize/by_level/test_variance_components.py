"""Components by level: what the design tells apart, and its corners."""

from math import inf

import numpy as np
import pytest

from strandproof.errors import ParameterError
from strandproof.grainsize.by_level import NestedValues, variance_components


def balanced(
    seed: int, sizes: tuple[int, ...], deviations: tuple[float, ...]
) -> NestedValues:
    source = np.random.default_rng(seed)
    levels = ("cable", "strand", "section", "field")[-len(sizes) :]
    offsets: dict[tuple[str, ...], float] = {}
    places, values = [], []
    for numbers in np.ndindex(*sizes):
        place = tuple(str(number) for number in numbers)
        total = 8.0
        for depth, deviation in enumerate(deviations, start=1):
            if place[:depth] not in offsets:
                offsets[place[:depth]] = deviation * source.standard_normal()
            total += offsets[place[:depth]]
        places.append(place)
        values.append(total)
    return NestedValues(levels=levels, places=tuple(places), values=tuple(values))


def test_a_balanced_design_gives_the_analysis_of_variance() -> None:
    values = balanced(1, (6, 5, 4), (1.0, 0.7, 0.5))
    found = variance_components(values, unit="um")
    table = np.array(values.values).reshape(6, 5, 4)
    strands = table.mean(axis=2)
    within = table.var(axis=2, ddof=1).mean()
    between_strands = 4 * strands.var(axis=1, ddof=1).mean()
    between_cables = 20 * strands.mean(axis=1).var(ddof=1)
    expected = [
        (between_cables - between_strands) / 20,
        (between_strands - within) / 4,
        within,
    ]
    assert all(each > 0 for each in expected)
    for component, variance in zip(found.components, expected, strict=True):
        assert component.anova_variance == pytest.approx(variance, rel=1e-9, abs=0)
        assert component.variance == pytest.approx(variance, rel=1e-4, abs=0)
    assert [each.degrees_of_freedom for each in found.components] == [5, 24, 90]
    assert found.mean.value == pytest.approx(table.mean(), rel=1e-12, abs=0)
    assert found.mean.standard_uncertainty == pytest.approx(
        np.sqrt(between_cables / 120), rel=1e-4, abs=0
    )
    # Satterthwaite's number is the cables less 1 when the design is balanced.
    assert found.mean.degrees_of_freedom == pytest.approx(5.0, rel=1e-6, abs=0)


def test_levels_that_the_design_cannot_tell_apart_are_joined() -> None:
    found = variance_components(
        balanced(2, (3, 4, 1, 5), (1.0, 0.5, 0.5, 0.3)), unit="um"
    )
    assert [each.level for each in found.components] == [
        "cable",
        "strand and section",
        "field",
    ]
    one_each = variance_components(
        balanced(2, (5, 1, 1, 1), (1.0, 0.5, 0.5, 0.3)), unit="um"
    )
    assert [each.level for each in one_each.components] == [
        "cable and strand and section and field"
    ]


def test_one_cable_has_no_component_between_cables() -> None:
    found = variance_components(
        balanced(3, (1, 4, 2, 3), (1.0, 0.5, 0.4, 0.3)), unit="um"
    )
    assert [each.level for each in found.components] == ["strand", "section", "field"]


def test_a_component_is_never_below_zero() -> None:
    values = NestedValues(
        levels=("cable", "field"),
        places=(("a", "1"), ("a", "2"), ("b", "1"), ("b", "2")),
        values=(8.0, 10.0, 10.0, 8.1),
    )
    cable, field = variance_components(values, unit="um").components
    assert cable.anova_variance < 0
    assert cable.variance == 0.0
    # With nothing between cables the four fields are one sample.
    assert field.variance == pytest.approx(
        np.var([8.0, 10.0, 10.0, 8.1], ddof=1), rel=1e-6, abs=0
    )


def test_values_without_scatter_have_no_components() -> None:
    values = NestedValues(
        levels=("cable", "field"),
        places=(("a", "1"), ("a", "2"), ("b", "1")),
        values=(8.4, 8.4, 8.4),
    )
    found = variance_components(values, unit="um")
    assert [each.variance for each in found.components] == [0.0, 0.0]
    assert (found.mean.value, found.mean.standard_uncertainty) == (8.4, 0.0)
    assert found.mean.degrees_of_freedom == inf


def test_components_scale_with_the_square_of_the_unit() -> None:
    values = balanced(4, (4, 3, 3), (1.0, 0.6, 0.5))
    in_nm = NestedValues(
        levels=values.levels,
        places=values.places,
        values=tuple(1000 * value for value in values.values),
    )
    small = variance_components(values, unit="um")
    large = variance_components(in_nm, unit="nm")
    for one, other in zip(small.components, large.components, strict=True):
        assert other.variance == pytest.approx(1e6 * one.variance, rel=1e-5, abs=0)
    assert large.mean.degrees_of_freedom == pytest.approx(
        small.mean.degrees_of_freedom, rel=1e-5, abs=0
    )


def test_one_value_is_refused() -> None:
    values = NestedValues(levels=("field",), places=(("a",),), values=(8.0,))
    with pytest.raises(ParameterError, match="read more fields"):
        variance_components(values, unit="um")
