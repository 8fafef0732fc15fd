"""Drawn structures of each kind, and random cells that are none of them."""

from collections.abc import Callable

import numpy as np
import numpy.typing as npt

from strandproof.grainsize.patch import MetalPatch, metal_patch
from strandproof.grainsize.procedures.duplex import duplex_kinds
from strandproof.grainsize.procedures.statistics import whole_grains
from strandproof.records.structure_findings import DuplexKind

Labels = npt.NDArray[np.int32]
AsPatch = Callable[[npt.NDArray[np.integer]], MetalPatch]


def _squares(rows: int, cols: int, side: int, start: int) -> Labels:
    row, col = np.indices((rows, cols)) // side
    return (start + row * (cols // side + 1) + col).astype(np.int32)


def _kinds(
    patch: MetalPatch, *, axis_deg: float | None = None
) -> dict[str, DuplexKind]:
    found = duplex_kinds(patch, whole_grains(patch), axis_deg=axis_deg)
    return {kind.name: kind for kind in found}


def _present(patch: MetalPatch, *, axis_deg: float | None = None) -> set[str]:
    return {
        name for name, kind in _kinds(patch, axis_deg=axis_deg).items() if kind.present
    }


def test_random_cells_are_no_duplex(
    voronoi: Callable[..., Labels], as_patch: AsPatch
) -> None:
    for seed in range(10):
        patch = as_patch(voronoi(seed, expected_grains=150, side=400))
        assert _present(patch) == set()


def test_two_sizes_in_bands_are_bimodal_and_banded(as_patch: AsPatch) -> None:
    labels = _squares(480, 480, 6, 1)
    labels[80:160] = _squares(80, 480, 40, 20_000)
    labels[320:400] = _squares(80, 480, 40, 40_000)
    kinds = _kinds(as_patch(labels))
    assert kinds["bimodal"].present
    assert kinds["banding"].present
    assert not kinds["isolated_coarse"].present
    assert dict(kinds["bimodal"].figures)["distance_g"] > 5.0
    assert kinds["bimodal"].status == "from memory"


def test_two_sizes_in_a_chequer_are_no_bands(as_patch: AsPatch) -> None:
    labels = _squares(480, 480, 6, 1)
    coarse = _squares(480, 480, 48, 20_000)
    row, col = np.indices(labels.shape) // 48
    labels = np.where((row + col) % 2 == 0, coarse, labels)
    kinds = _kinds(as_patch(labels))
    assert kinds["bimodal"].present
    assert not kinds["banding"].present


def test_a_few_large_grains_are_isolated_and_ringed_by_fine_ones(
    as_patch: AsPatch,
) -> None:
    labels = _squares(480, 480, 8, 1)
    for number, (row, col) in enumerate(((80, 80), (240, 320), (360, 160))):
        labels[row : row + 48, col : col + 48] = 20_000 + number
    kinds = _kinds(as_patch(labels))
    assert kinds["isolated_coarse"].present
    assert dict(kinds["isolated_coarse"].figures)["grains"] == 3.0
    assert kinds["necklace"].present
    assert not kinds["bimodal"].present


def test_sizes_over_a_wide_range_are_said(as_patch: AsPatch) -> None:
    # Four equal fields of squares of 4, 8, 20 and 60 px: no two sizes, but a range.
    sides = (4, 8, 20, 60)
    labels = np.hstack(
        [
            _squares(480, 120, side, 1 + 20_000 * number)
            for number, side in enumerate(sides)
        ]
    )
    assert "wide_range" in _present(as_patch(labels))


def test_fine_grains_at_the_edge_of_a_strand_are_a_gradient() -> None:
    labels = np.zeros((242, 600), np.int32)
    labels[1:61] = _squares(60, 600, 10, 1)
    labels[61:181] = _squares(120, 600, 40, 20_000)
    labels[181:241] = _squares(60, 600, 10, 40_000)
    patch = metal_patch(labels, labels > 0)
    kind = _kinds(patch, axis_deg=0.0)["cross_section"]
    assert kind.present
    # 40 px against 10 px: 16 times the area, 4 in G.
    assert 2.0 < dict(kind.figures)["edge_minus_middle_g"] <= 4.2
    assert not _kinds(patch)["cross_section"].present


def test_too_few_grains_give_no_answer(as_patch: AsPatch) -> None:
    patch = as_patch(_squares(60, 60, 20, 1))
    assert duplex_kinds(patch, whole_grains(patch), axis_deg=None) == ()


def test_grains_of_one_size_are_one_class(as_patch: AsPatch) -> None:
    # A cut into two classes leaves one of them empty.
    kinds = _kinds(as_patch(_squares(240, 320, 20, 1)))
    assert dict(kinds["bimodal"].figures)["distance_g"] == 0
    assert not any(kind.present for kind in kinds.values())
