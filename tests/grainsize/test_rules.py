import pytest

from strandproof.errors import UnknownTableError
from strandproof.grainsize import counting_rules
from strandproof.tables import package_table


def test_rules_carry_options_and_thresholds() -> None:
    rules = counting_rules(
        frame_rule="half_and_quarter_corners", line_ends="whole_at_strand_edge"
    )
    assert rules.frame_rule == "half_and_quarter_corners"
    assert rules.line_ends == "whole_at_strand_edge"
    assert rules.minimum_grains == 50
    assert rules.minimum_grains_across == 10
    assert rules.minimum_intercept_px == 10
    assert rules.elongation_limit == 1.5


def test_a_table_without_a_threshold_is_refused() -> None:
    table = dict(package_table("grain_size_rules"))
    del table["strand.elongation"]
    with pytest.raises(UnknownTableError, match=r"strand\.elongation"):
        counting_rules(table=table)


def test_judgement_is_marked_as_judgement() -> None:
    table = package_table("grain_size_rules")
    assert table["intercept.minimum_pixels"].status == "judgement"
    assert table["strand.elongation"].status == "judgement"
    assert table["strand.minimum_grains_across"].status == "from memory"
    assert table["count.minimum_grains"].status == "read"
