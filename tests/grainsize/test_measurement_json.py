import json
from collections.abc import Callable
from dataclasses import replace

import numpy as np
import numpy.typing as npt
import pytest

from strandproof.grainsize import (
    SCHEMA_NAME,
    SCHEMA_VERSION,
    measure,
    measurement_as_plain_data,
)
from strandproof.quantity import Quantity
from strandproof.records import LabelledStructure

Labels = npt.NDArray[np.int32]
Squares = Callable[[int, int], Labels]
OneStrand = Callable[..., LabelledStructure]


def _plain(
    structure: LabelledStructure, pixel_size: Quantity | None
) -> dict[str, object]:
    measurement = measure(structure, pixel_size=pixel_size)
    # allow_nan=False refuses what JSON cannot hold.
    text = json.dumps(measurement_as_plain_data(measurement), allow_nan=False)
    data = json.loads(text)
    assert isinstance(data, dict)
    return data


def _part(data: object, *keys: str | int) -> object:
    for key in keys:
        assert isinstance(data, dict | list)
        data = data[key]  # type: ignore[index]  # JSON has no static type
    return data


def _scaled(squares: Squares, one_strand: OneStrand) -> dict[str, object]:
    return _plain(one_strand(squares(20, 12)), Quantity(0.2, "um", 0.002))


def test_schema_and_version_come_first(squares: Squares, one_strand: OneStrand) -> None:
    data = _scaled(squares, one_strand)
    assert (SCHEMA_NAME, SCHEMA_VERSION) == ("strandproof-measurement", 1)
    assert list(data)[:2] == ["schema", "schema_version"]
    assert data["schema"] == SCHEMA_NAME
    assert data["schema_version"] == 1


@pytest.mark.parametrize("place", [("picture",), ("strands", 0)])
def test_every_value_has_unit_uncertainty_and_interval(
    squares: Squares, one_strand: OneStrand, place: tuple[str | int, ...]
) -> None:
    values = _part(_scaled(squares, one_strand), *place)
    for key, unit in (
        ("grains_per_mm2", "1/mm^2"),
        ("mean_intercept", "um"),
        ("g_planimetric", "1"),
        ("g_intercept", "1"),
        ("crossings_per_mm", "1/mm"),
    ):
        entry = _part(values, key)
        assert isinstance(entry, dict)
        assert entry["unit"] == unit
        assert isinstance(entry["value"], float)
        assert isinstance(entry["standard_uncertainty"], float)
        interval = entry["interval95"]
        assert set(interval) == {"lower", "upper", "unit", "confidence", "method"}
        assert interval["lower"] < entry["value"] < interval["upper"]
        assert interval["unit"] == unit


def test_a_strand_says_what_was_found(squares: Squares, one_strand: OneStrand) -> None:
    strand = _part(_scaled(squares, one_strand), "strands", 0)
    assert _part(strand, "number") == 1
    assert _part(strand, "shape") == "field"
    assert _part(strand, "verdict") == "poly"
    assert _part(strand, "verdict_reason") == "drawn so"
    assert _part(strand, "n_grains") == 169
    assert _part(strand, "n_grains_inside") == 121
    assert _part(strand, "n_grains_cut") == 48
    assert _part(strand, "n_grains_equivalent") == 144.0


def test_without_a_scale_the_keys_name_pixels(
    squares: Squares, one_strand: OneStrand
) -> None:
    data = _plain(one_strand(squares(20, 12)), None)
    picture = _part(data, "picture")
    assert data["pixel_size"] is None
    assert _part(picture, "grains_per_mm2") is None
    assert _part(picture, "crossings_per_mm") is None
    assert _part(picture, "g_planimetric") is None
    assert _part(picture, "g_intercept") is None
    assert _part(picture, "grains_per_px2", "unit") == "1/px^2"
    assert _part(picture, "crossings_per_px", "unit") == "1/px"
    assert _part(picture, "mean_intercept", "unit") == "px"


def test_infinite_degrees_of_freedom_become_null(
    squares: Squares, one_strand: OneStrand
) -> None:
    data = _scaled(squares, one_strand)
    assert _part(data, "pixel_size", "degrees_of_freedom") is None


def test_flags_carry_meaning_and_remedy(
    squares: Squares, one_strand: OneStrand
) -> None:
    flag = _part(_scaled(squares, one_strand), "flags", 0)
    assert _part(flag, "name") == "one_field"
    assert str(_part(flag, "meaning")).startswith("The interval comes from places")
    assert str(_part(flag, "remedy")).startswith("Measure several")


def test_no_boundary_is_a_bound_with_its_sentence(one_strand: OneStrand) -> None:
    labels = np.pad(np.ones((40, 300), np.int32), ((10, 10), (0, 0)))
    structure = one_strand(labels, metal=labels > 0, shape="long")
    strand = _part(_plain(structure, Quantity(0.2, "um")), "strands", 0)
    assert _part(strand, "mean_intercept") is None
    assert _part(strand, "grains_per_mm2") is None
    assert _part(strand, "crossings_per_mm", "value") == 0.0
    assert _part(strand, "crossings_per_mm", "interval95", "lower") is None
    assert str(_part(strand, "axial_lines", "sentence")).startswith(
        "No boundary was resolved by this method over 0.06 mm"
    )


def test_a_round_face_has_null_for_the_axis(one_strand: OneStrand) -> None:
    structure = one_strand(np.ones((30, 30), np.int32), shape="round", axis_deg=None)
    strand = _part(_plain(structure, Quantity(0.2, "um")), "strands", 0)
    assert _part(strand, "crossings_per_mm") is None
    assert _part(strand, "axial_lines") is None


def test_a_picture_without_metal_is_null(one_strand: OneStrand) -> None:
    structure = one_strand(np.ones((5, 5), np.int32))
    empty = replace(structure, strands=(), strand_labels=np.zeros((5, 5), np.int32))
    assert _plain(empty, None)["picture"] is None
