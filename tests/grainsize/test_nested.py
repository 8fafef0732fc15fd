"""Means by level: fields to strands to leads."""

import numpy as np
import pytest
from scipy import stats

from strandproof.errors import ParameterError
from strandproof.grainsize.nested import FieldCount, nested_means


def fields(lead: str, strand: str, intercepts: list[float]) -> list[FieldCount]:
    return [
        FieldCount(
            lead=lead,
            strand=strand,
            field=str(place),
            line_length_um=40 * intercept,
            boundaries=40,
            twins=20,
        )
        for place, intercept in enumerate(intercepts)
    ]


def test_levels_are_averaged_in_order_and_the_interval_is_by_lead() -> None:
    counts = (
        fields("E1", "E1-s1", [7.0, 9.0])
        + fields("E1", "E1-s2", [10.0])
        + fields("E2", "E2-s1", [6.0, 6.0, 6.0, 6.0])
    )
    means = nested_means(counts)
    assert dict(means.lead_means_um) == pytest.approx({"E1": 9.0, "E2": 6.0})
    assert means.by_lead.quantity.value == pytest.approx(7.5)
    expected = stats.t.ppf(0.975, 1) * np.std([9.0, 6.0], ddof=1) / np.sqrt(2)
    interval = means.by_lead.interval95
    assert interval is not None
    assert interval.half_width == pytest.approx(expected)
    assert (means.strands, means.fields) == (3, 7)


def test_twins_shorten_the_mean_by_their_share() -> None:
    counts = fields("E1", "a", [8.0]) + fields("E2", "b", [8.0])
    assert nested_means(counts).with_twins_um == pytest.approx(8.0 * 40 / 60)


def test_fields_taken_as_independent_look_better_than_they_are() -> None:
    counts = fields("E1", "a", [8.0, 8.1, 7.9]) + fields("E2", "b", [9.0, 9.1, 8.9])
    means = nested_means(counts)
    interval = means.by_lead.interval95
    assert interval is not None
    assert interval.half_width is not None
    assert means.interval_as_if_fields_um < interval.half_width


def test_one_lead_has_no_interval() -> None:
    with pytest.raises(ParameterError, match="two leads or more"):
        nested_means(fields("E1", "a", [8.0, 9.0]))


def test_sections_are_a_level_between_strand_and_field() -> None:
    counts = [
        FieldCount(
            lead=lead,
            strand="s1",
            section=section,
            field=str(field),
            line_length_um=1000.0,
            boundaries=boundaries,
        )
        for lead, section, field, boundaries in (
            ("E1", "L1", 1, 100),
            ("E1", "L1", 2, 125),
            ("E1", "L2", 1, 100),
            ("E2", "L3", 1, 80),
        )
    ]
    means = nested_means(counts)
    # L1 is 9 um, L2 10 um, so E1 9.5 um; E2 is 12.5 um.
    assert dict(means.lead_means_um) == pytest.approx({"E1": 9.5, "E2": 12.5})
    assert [(each.level, each.degrees_of_freedom) for each in means.levels] == [
        ("lead", 1),
        ("section", 1),
        ("field", 1),
    ]
    # One strand in each lead: the two levels cannot be told apart.
    assert [each.level for each in means.components.components] == [
        "lead and strand",
        "section",
        "field",
    ]


def test_the_outermost_level_is_the_interval_by_lead() -> None:
    counts = fields("E1", "a", [8.0, 8.1, 7.9]) + fields("E2", "b", [9.0, 9.1, 8.9])
    means = nested_means(counts)
    by_lead = means.levels[0].estimate
    assert by_lead.quantity.value == means.by_lead.quantity.value
    assert by_lead.quantity.standard_uncertainty == pytest.approx(
        means.by_lead.quantity.standard_uncertainty, rel=1e-12, abs=0
    )


def test_uncertain_marks_shorten_the_mean_by_their_share() -> None:
    counts = [
        FieldCount(
            lead=lead,
            strand=lead,
            field="1",
            line_length_um=800.0,
            boundaries=100,
            uncertain=uncertain,
        )
        for lead, uncertain in (("E1", 0), ("E2", 25))
    ]
    assert nested_means(counts).with_uncertain_um == pytest.approx((8.0 + 6.4) / 2)


@pytest.mark.parametrize(("length", "boundaries"), [(0.0, 5), (-1.0, 5), (10.0, 0)])
def test_impossible_counts_are_refused(length: float, boundaries: int) -> None:
    with pytest.raises(ParameterError, match="allowed is"):
        FieldCount(
            lead="E1",
            strand="a",
            field="1",
            line_length_um=length,
            boundaries=boundaries,
        )
