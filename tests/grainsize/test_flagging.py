from strandproof.grainsize import counting_rules
from strandproof.grainsize.flagging import (
    count_flags,
    scale_flags,
    strand_flags,
    without_repeats,
)
from strandproof.quantity import Quantity
from strandproof.records import (
    DirectionalIntercept,
    Estimate,
    Flag,
    GrainCount,
    InterceptCount,
    Strand,
)

RULES = counting_rules()


def _length(px: float | None) -> Estimate | None:
    if px is None:
        return None
    return Estimate(
        quantity=Quantity(px, "px"), interval95=None, relative_accuracy_percent=None
    )


def _intercepts(along: float | None, across: float | None) -> InterceptCount:
    directions = tuple(
        DirectionalIntercept(
            direction_deg=deg,
            lines=5,
            length=Quantity(1000.0, "px"),
            intercepts=1.0,
            mean_intercept=_length(mean),
        )
        for deg, mean in ((0.0, along), (45.0, along), (90.0, across), (135.0, along))
    )
    return InterceptCount(
        directions=directions,
        mean_intercept=_length(along or across),
        elongation=along / across if along and across else None,
        blocks=1,
        length=Quantity(4000.0, "px"),
        intercepts=4.0,
        traverses=(),
    )


def _names(
    equivalent: float, intercepts: InterceptCount, *, side_view: bool = True
) -> list[str]:
    count = GrainCount(
        inside=0, cut=0, equivalent=equivalent, area=Quantity(1.0, "px^2")
    )
    flags = count_flags(count, intercepts, rules=RULES, side_view=side_view)
    return [flag.name for flag in flags]


def _strand(shape: str, axis_deg: float | None) -> Strand:
    return Strand(
        number=3,
        area_px=1.0,
        centroid_px=(0.0, 0.0),
        length_px=1.0,
        width_px=1.0,
        axis_deg=axis_deg,
        shape=shape,  # type: ignore[arg-type]  # the parameters below are literals
        verdict="poly",
        verdict_reason="drawn",
    )


def test_plenty_of_even_grains_raise_nothing() -> None:
    assert _names(50.0, _intercepts(20.0, 20.0)) == []


def test_fewer_than_fifty_grains_are_flagged() -> None:
    assert _names(49.5, _intercepts(20.0, 20.0)) == ["few_grains"]


def test_small_grains_in_pixels_are_flagged() -> None:
    assert _names(99.0, _intercepts(9.9, 9.9)) == ["few_pixels_per_grain"]


def test_elongation_is_flagged_either_way_and_only_from_the_side() -> None:
    assert _names(99.0, _intercepts(32.0, 20.0)) == ["elongated_grains"]
    assert _names(99.0, _intercepts(20.0, 32.0)) == ["elongated_grains"]
    assert _names(99.0, _intercepts(29.0, 20.0)) == []
    assert _names(99.0, _intercepts(32.0, 20.0), side_view=False) == []


def test_a_direction_without_boundaries_is_elongated_once_enough_was_seen() -> None:
    # None in 1000 px: at least 334 px, against 20 px the other way.
    assert _names(99.0, _intercepts(20.0, None)) == ["elongated_grains"]
    assert _names(99.0, _intercepts(None, 20.0)) == ["elongated_grains"]
    # Against 300 px nothing is shown.
    assert _names(99.0, _intercepts(300.0, None)) == []
    assert _names(99.0, _intercepts(None, None)) == []


def test_the_scale_is_flagged_when_missing_or_half_known() -> None:
    assert [flag.name for flag in scale_flags(None)] == ["no_scale"]
    (flag,) = scale_flags(Quantity(0.2, "um"))
    assert (flag.name, flag.detail) == ("pixel_size_without_uncertainty", "0.2 um")
    assert list(scale_flags(Quantity(0.2, "um", 0.001))) == []


def test_grains_across_are_flagged_with_their_number() -> None:
    (flag,) = strand_flags(_strand("long", 0.0), 9.5, rules=RULES)
    assert (flag.name, flag.detail) == ("few_grains_across", "9.5 grains across")
    assert flag.strand == 3
    assert list(strand_flags(_strand("long", 0.0), 10.0, rules=RULES)) == []


def test_a_strand_without_a_boundary_across_is_flagged() -> None:
    (flag,) = strand_flags(_strand("round", None), None, rules=RULES)
    assert (flag.name, flag.detail) == ("few_grains_across", "no boundary crossed")


def test_an_assumed_axis_is_flagged_except_on_a_round_face() -> None:
    (flag,) = strand_flags(_strand("field", None), None, rules=RULES)
    assert flag.name == "axis_assumed"
    assert list(strand_flags(_strand("round", None), 20.0, rules=RULES)) == []


def test_the_first_flag_of_a_kind_is_kept() -> None:
    first, again = Flag("few_grains", "7"), Flag("few_grains", "8")
    other = Flag("few_grains", "9", strand=2)
    assert without_repeats([first, again, other]) == (first, other)
