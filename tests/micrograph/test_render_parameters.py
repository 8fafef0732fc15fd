"""Parameters outside of their ranges are refused with the allowed range."""

from collections.abc import Callable

import pytest

from strandproof.errors import ParameterError
from strandproof.micrograph.render import (
    Camera,
    Etch,
    GrainPopulation,
    Groove,
    Preparation,
    ScaleBar,
    SectionParameters,
    StrandLayout,
    TwinHabit,
)

EQUIAXED = GrainPopulation(family="equiaxed", mean_intercept_um=10)


def population(**changed: object) -> GrainPopulation:
    given: dict[str, object] = {"family": "equiaxed", "mean_intercept_um": 10}
    return GrainPopulation(**(given | changed))  # type: ignore[arg-type]  # the point


def layout(**changed: object) -> StrandLayout:
    given: dict[str, object] = {"arrangement": "round", "width_um": 80}
    return StrandLayout(**(given | changed))  # type: ignore[arg-type]  # the point


CASES: list[tuple[str, Callable[[], object]]] = [
    ("family", lambda: population(family="cast")),
    ("mean_intercept_um", lambda: population(mean_intercept_um=None)),
    ("mean_intercept_um", lambda: population(family="single")),
    ("mean_intercept_um", lambda: population(mean_intercept_um=0)),
    ("mean_intercept_um", lambda: population(mean_intercept_um=float("nan"))),
    ("size_spread", lambda: population(size_spread=0.7)),
    ("elongation", lambda: population(elongation=0.5)),
    ("elongation", lambda: population(family="bamboo", elongation=2)),
    ("direction_deg", lambda: population(direction_deg=120)),
    ("waviness", lambda: population(waviness=0.5)),
    ("fine_fraction", lambda: population(fine_fraction=0)),
    ("fine_ratio", lambda: population(fine_ratio=20)),
    ("twins", lambda: population(family="twinned")),
    ("twins", lambda: population(family="drawn", twins=TwinHabit())),
    ("grain_fraction", lambda: TwinHabit(grain_fraction=1.2)),
    ("mean_lamellae", lambda: TwinHabit(mean_lamellae=0)),
    ("thickness_fraction", lambda: TwinHabit(thickness_fraction=(0.3, 0.1))),
    ("arrangement", lambda: layout(arrangement="heap")),
    ("width_um", lambda: layout(width_um=None)),
    ("width_um", lambda: layout(arrangement="field")),
    ("thickness_um", lambda: layout(arrangement="tape")),
    ("thickness_um", lambda: layout(thickness_um=5)),
    ("count", lambda: layout(count=2)),
    ("count", lambda: layout(arrangement="bundle", count=99)),
    ("roughness", lambda: layout(roughness=0.2)),
    ("width_px", lambda: Groove(width_px=20)),
    ("depth", lambda: Groove(depth=-0.1)),
    ("interior", lambda: Etch(interior="spotted")),  # type: ignore[arg-type]  # the point
    ("grey_contrast", lambda: Etch(grey_contrast=2)),
    ("stain_fraction", lambda: Preparation(stain_fraction=0.9)),
    ("blur_px", lambda: Camera(blur_px=-1)),
    ("jpeg_quality", lambda: Camera(jpeg_quality=0)),
    ("hollow", lambda: Groove(hollow=2)),
    ("offset_px", lambda: Groove(offset_px=3)),
    ("soft_transition_px", lambda: Etch(soft_transition_px=20)),
    ("film_unevenness", lambda: Etch(film_unevenness=-1)),
    ("shaped_end_fraction", lambda: TwinHabit(shaped_end_fraction=2)),
    ("thin_fraction", lambda: TwinHabit(thin_fraction=-1)),
    ("resin_brightness", lambda: Preparation(resin_brightness=1)),
    ("box", lambda: ScaleBar(box="grey")),  # type: ignore[arg-type]  # the point
    ("padding", lambda: ScaleBar(padding=0)),
    ("inset_px", lambda: ScaleBar(inset_px=-1)),
    ("corner", lambda: ScaleBar(corner="left")),  # type: ignore[arg-type]  # the point
    ("um_per_px", lambda: SectionParameters(population=EQUIAXED, um_per_px=0)),
    ("shape", lambda: SectionParameters(population=EQUIAXED, shape=(4, 400))),
]


@pytest.mark.parametrize(("name", "make"), CASES)
def test_bad_parameters_are_refused(name: str, make: Callable[[], object]) -> None:
    with pytest.raises(ParameterError, match=name) as caught:
        make()
    assert "allowed is" in str(caught.value)


def test_defaults_are_allowed() -> None:
    parameters = SectionParameters(population=EQUIAXED)
    assert parameters.layout == StrandLayout()
    assert parameters.scale_bar is None
