"""Grooves are filled from their sides, and steps are measured in their height."""

import numpy as np
import pytest

from strandproof.micrograph.shades import (
    shade_outside_lines,
    step_height,
    weight_outside,
)

ROWS = np.indices((60, 40))[0]


def test_a_sharp_step_has_its_height_at_its_middle() -> None:
    lab = np.zeros((60, 40, 3), np.float32)
    lab[30:, :, 0], lab[30:, :, 1] = 6, 8
    height = step_height(lab)[:, 20]
    # Distance over the channels: 10. The middle lies between two pixels, and the
    # slope is a difference over two pixels: below 6 % less.
    assert height.max() == pytest.approx(10, rel=0.06)
    assert int(np.argmax(height)) in {29, 30}
    assert height[:18].max() < 0.01


def test_a_wide_groove_between_equal_sides_leaves_no_step() -> None:
    lab = np.full((60, 40, 1), 70, np.float32)
    lab[26:34] = 20
    ratio = np.where(np.abs(ROWS - 29.5) < 6, 3, 0).astype(np.float32)
    filled = shade_outside_lines(lab, weight_outside(ratio))
    assert filled == pytest.approx(np.full_like(lab, 70), abs=0.5)
    assert step_height(filled).max() < 0.5


def test_a_step_hidden_in_a_groove_is_kept() -> None:
    lab = np.where(ROWS[..., None] < 30, 50, 70).astype(np.float32)
    lab[28:32] = 10
    ratio = np.where(np.abs(ROWS - 29.5) < 4, 3, 0).astype(np.float32)
    filled = shade_outside_lines(lab, weight_outside(ratio))[:, 20, 0]
    assert filled[15] == pytest.approx(50, abs=0.5)
    assert filled[45] == pytest.approx(70, abs=0.5)
    assert step_height(np.repeat(filled[:, None, None], 40, axis=1)).max() > 10
