"""Single intercepts and areas of drawn structures with known ones."""

from collections.abc import Callable
from typing import Any

import numpy as np
import pytest

from strandproof.grainsize.procedures.settings import procedure_settings
from strandproof.grainsize.procedures.single_values import single_values
from strandproof.quantity import Quantity


def test_layers_across_a_strand_are_as_long_as_drawn(
    one_strand: Callable[..., Any],
) -> None:
    labels = np.ones((60, 400), np.int32) + np.arange(400) // 40
    structure = one_strand(labels.astype(np.int32))
    (pixels,) = single_values(structure, procedure_settings(None))
    # Lines along meet layers of 40 px; those at 45 deg of 40 sqrt(2) px.
    along = pixels.intercepts[np.abs(pixels.intercepts - 40.0) < 1.0]
    slanting = pixels.intercepts[np.abs(pixels.intercepts - 40.0 * 2**0.5) < 1.5]
    assert along.size + slanting.size == pixels.intercepts.size
    assert min(along.size, slanting.size) > 0
    # The frame cuts every layer, so that no grain is whole.
    assert pixels.areas.size == 0
    settings = procedure_settings(Quantity(0.5, "um", 0.001))
    (scaled,) = single_values(structure, settings)
    assert scaled.intercepts == pytest.approx(0.5 * pixels.intercepts, rel=1e-12)


def test_whole_squares_have_their_area(
    one_strand: Callable[..., Any], squares: Callable[..., Any]
) -> None:
    structure = one_strand(squares(20, 6))
    settings = procedure_settings(Quantity(0.5, "um", 0.001))
    (values,) = single_values(structure, settings)
    # Five by five squares of 20 px lie whole within; the frame halves the others.
    assert values.areas.size == 25
    assert values.areas.mean() == pytest.approx(100.0, rel=0.1, abs=0)


def test_one_crystal_has_no_intercept(one_strand: Callable[..., Any]) -> None:
    (values,) = single_values(
        one_strand(np.ones((40, 60), np.int32)), procedure_settings(None)
    )
    assert (values.intercepts.size, values.areas.size) == (0, 0)
