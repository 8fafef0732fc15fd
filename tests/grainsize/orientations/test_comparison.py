import numpy as np
import pytest

from strandproof.errors import ParameterError
from strandproof.grainsize.orientations import PlaceComparison, place_chances
from strandproof.records.orientation_results import FibreTexture


def test_chances_name_random_both_fibres_and_what_was_given() -> None:
    texture = FibreTexture(share_111=0.7, share_100=0.3, tilt_deg=8.0)
    chances = place_chances(
        PlaceComparison(texture=texture), places=2, generator=np.random.default_rng(1)
    )
    assert [chance.texture for chance in chances] == [
        "random orientations",
        "100 % <111> fibre, no tilt",
        "100 % <100> fibre, no tilt",
        "70 % <111> fibre and 30 % <100> fibre, 8° tilt",
    ]
    assert chances[3].chance < chances[1].chance


def test_only_what_lies_along_the_strand_when_the_twist_is_lost() -> None:
    texture = FibreTexture(share_111=1.0, share_100=0.0)
    comparison = PlaceComparison(frame="axis", texture=texture)
    chances = place_chances(comparison, places=3, generator=np.random.default_rng(1))
    assert [chance.places for chance in chances] == [3, 3]
    assert chances[0].chance < 0.02
    assert chances[1].chance == 1.0


@pytest.mark.parametrize("frame", ["shared", "axis"])
def test_a_comparison_of_one_place_is_none(frame: str) -> None:
    comparison = PlaceComparison(frame=frame)  # type: ignore[arg-type]
    with pytest.raises(ParameterError, match="2 or more"):
        place_chances(comparison, places=1, generator=np.random.default_rng(1))
