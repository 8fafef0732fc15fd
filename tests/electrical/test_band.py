import pytest

from strandproof.electrical import band_flags, judge_band
from strandproof.errors import UnitError
from strandproof.quantity import Interval, Quantity, expanded_interval
from strandproof.records.electrical import BandJudgement


def judged(value: float, u: float = 0.2) -> BandJudgement:
    quantity = Quantity(value, "% IACS", u)
    return judge_band(quantity, interval=expanded_interval(quantity))


@pytest.mark.parametrize(
    ("value", "verdict"),
    [
        (94.99, "below"),
        (95.0, "inside"),
        (100.9, "inside"),
        (103.3, "inside"),
        (103.31, "above"),
    ],
)
def test_the_value_alone_is_judged(value: float, verdict: str) -> None:
    assert judged(value, u=3.0).verdict == verdict


def test_words_of_the_brief() -> None:
    assert judged(110.0).sentence.endswith("above 103.3 %, probable error.")
    assert judged(64.0).sentence.endswith(
        "below 95 %, probable error, or another metal (clad cores are near 64 %)."
    )
    assert judged(100.9).sentence.endswith("within the band of copper, 95 to 103.3 %.")


def test_an_interval_that_only_touches_the_band_is_said() -> None:
    high = judged(103.0, u=0.3)
    assert high.verdict == "inside"
    assert high.crossed == ("ceiling",)
    assert "the interval reaches across 103.3 %" in high.sentence
    wide = judged(101.0, u=4.5)
    assert wide.crossed == ("floor", "ceiling")
    assert "across 95 % and 103.3 %" in wide.sentence
    assert judged(100.9).crossed == ()


def test_an_open_interval_reaches_across_everything_on_that_side() -> None:
    interval = Interval(
        lower=100.0, upper=None, unit="% IACS", confidence=0.95, method="one-sided"
    )
    band = judge_band(Quantity(101.0, "% IACS", 0.5), interval=interval)
    assert band.crossed == ("ceiling",)


@pytest.mark.parametrize(
    ("value", "u", "names"),
    [
        (100.9, 0.2, []),
        (104.0, 0.2, ["above_copper_ceiling"]),
        (94.0, 0.2, ["below_copper_band"]),
        (103.4, 0.2, ["above_copper_ceiling", "edge_of_copper_band"]),
        (103.2, 0.2, ["edge_of_copper_band"]),
    ],
)
def test_flags(value: float, u: float, names: list[str]) -> None:
    flags = band_flags(Quantity(value, "% IACS", u), judged(value, u))
    assert [flag.name for flag in flags] == names


def test_the_registry_has_the_words_of_the_brief() -> None:
    high, low = (
        band_flags(Quantity(value, "% IACS", 0.1), judged(value, 0.1))[0].definition
        for value in (110.0, 64.0)
    )
    assert "probable error" in high.meaning
    assert "probable error, or another metal (clad cores are near 64 %)" in low.meaning


def test_other_units_are_refused() -> None:
    percent = Quantity(100.0, "%", 0.1)
    with pytest.raises(UnitError, match="% IACS"):
        judge_band(percent, interval=expanded_interval(percent))
