"""Levels: every field drawn, the means where they are, warnings told as such."""

from dataclasses import replace

import pytest
from svg_reading import described, numbers, parsed, shapes, written

from strandproof.errors import ParameterError
from strandproof.report.plots import (
    CableValues,
    LevelMean,
    MeanWithInterval,
    StrandValues,
    level_scatter_svg,
)
from strandproof.report.plots.canvas import RANGE

# Strand means of the running case (product brief, Appendix A); the fields about them
# are made up.
MEANS = {"E1": (8.1, 8.6, 8.3), "E2": (8.9, 8.5, 9.0), "E3": (8.0, 8.2, 8.4)}
CABLES = tuple(
    CableValues(
        name=name,
        strands=tuple(
            StrandValues(name=f"s{k}", values=(mean - 0.5, mean + 0.5), mean=mean)
            for k, mean in enumerate(means, start=1)
        ),
        mean=sum(means) / 3,
    )
    for name, means in MEANS.items()
)
BY_CABLE = LevelMean(
    units="cables",
    count=3,
    mean=MeanWithInterval(value=8.444, lower=7.661, upper=9.227),
    holds=True,
)
BY_FIELD = LevelMean(
    units="fields",
    count=18,
    mean=MeanWithInterval(value=8.444, lower=8.157, upper=8.731),
    holds=False,
)


def drawn(
    cables: tuple[CableValues, ...] = CABLES,
    levels: tuple[LevelMean, ...] = (BY_CABLE, BY_FIELD),
) -> str:
    return level_scatter_svg(
        cables, levels=levels, quantity="mean intercept", unit="um", title="H7"
    )


def test_every_field_is_a_dot_and_every_strand_has_its_mean() -> None:
    svg = parsed(drawn())
    assert len([c for c in shapes(svg, "circle") if c.get("r") == "3.5"]) == 18
    assert len([s for s in shapes(svg, "line") if s.get("stroke-width") == "3"]) == 9
    assert [w for w in written(svg) if w in MEANS] == list(MEANS)


def test_interval_by_cable_is_the_only_thick_bar() -> None:
    svg = parsed(drawn())
    bars = [s for s in shapes(svg, "line") if s.get("stroke") == RANGE]
    assert len(bars) == 1
    assert "3 cables: 8.4 ± 0.8 µm (95 %)" in written(svg)
    assert "18 fields: 8.44 ± 0.29 µm (95 %): does not hold" in written(svg)


def test_description_tells_means_counts_and_the_warning() -> None:
    _, told = described(parsed(drawn()))
    assert "E1 8.33 µm from 3 strands and 6 fields" in told
    assert "18 fields: 8.44 ± 0.29 µm (95 %): does not hold." in told


def test_no_levels_need_no_warning() -> None:
    text = " ".join(written(parsed(drawn(levels=()))))
    assert "Dashed" not in text
    assert "Thick bar" not in text


def test_all_stays_within_the_drawing() -> None:
    far = replace(BY_CABLE, mean=MeanWithInterval(value=8, lower=-500, upper=None))
    for x in numbers(parsed(drawn(levels=(far,))), "x1", "x2", "cx"):
        assert 0 <= x <= 390


def test_equal_values_can_be_drawn() -> None:
    one = StrandValues(name="s1", values=(8.0,), mean=8.0)
    cable = CableValues(name="E1", strands=(one,), mean=8.0)
    _, told = described(parsed(drawn((cable,), ())))
    assert "from 1 strand and 1 field" in told


@pytest.mark.parametrize(
    "cables",
    [
        (),
        (CableValues(name="E1", strands=(), mean=8.0),),
        (
            CableValues(
                name="E1",
                strands=(StrandValues(name="s1", values=(), mean=8.0),),
                mean=8.0,
            ),
        ),
        (
            CableValues(
                name="E1",
                strands=(StrandValues(name="s1", values=(float("nan"),), mean=8.0),),
                mean=8.0,
            ),
        ),
    ],
)
def test_levels_without_values_are_refused(cables: tuple[CableValues, ...]) -> None:
    with pytest.raises(ParameterError, match="allowed is"):
        drawn(cables)
