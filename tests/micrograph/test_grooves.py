"""Lines answer, steps and spots do not; the closed form of a Gaussian groove."""

from typing import Any

import numpy as np
import numpy.typing as npt
import pytest

from strandproof.micrograph.grooves import RESPONSE_PER_DEPTH, line_response

Plane = npt.NDArray[np.float32]
CENTRE = 40
ROWS, COLS = np.indices((81, 81)) - CENTRE
SCALE = 2.4


def plane(values: npt.NDArray[np.floating[Any]]) -> Plane:
    return (60 + values).astype(np.float32)


@pytest.mark.parametrize("turn_deg", [0, 45, 90, 135])
def test_a_gaussian_groove_answers_with_its_depth(turn_deg: int) -> None:
    turn = np.radians(turn_deg)
    across = ROWS * np.cos(turn) - COLS * np.sin(turn)
    groove = plane(-20 * np.exp(-(across**2) / (2 * SCALE**2)))
    found = line_response(groove, scale_px=SCALE)
    # Smoothed by its own width: depth / sqrt(2), width sqrt(2) s; so the second
    # derivative times s^2 is depth / sqrt(8). The grid takes some of it: the error of
    # the differences is f'''' / 12 upright, 5/48 of it and 1/16 for the silencing
    # on the diagonal, with f'''' / f'' = -3 / (2 s^2): 2.2 % and 4.3 %.
    expected = 20 * RESPONSE_PER_DEPTH
    lost = {0: 0.022, 90: 0.022, 45: 0.043, 135: 0.043}[turn_deg]
    assert found.dark[CENTRE, CENTRE] == pytest.approx(expected * (1 - lost), rel=0.005)
    assert found.bright[CENTRE, CENTRE] == 0


def test_a_bright_line_is_the_negative_of_a_dark_one() -> None:
    groove = 15 * np.exp(-(ROWS**2) / 8)
    dark = line_response(plane(-groove), scale_px=SCALE)
    bright = line_response(plane(groove), scale_px=SCALE)
    assert bright.bright == pytest.approx(dark.dark, abs=1e-3)


def test_a_step_answers_far_less_than_a_groove_of_its_height() -> None:
    step = line_response(plane(np.where(ROWS > 0, 20.0, 0.0)), scale_px=SCALE)
    inside = np.s_[20:-20, 20:-20]
    strongest = max(step.dark[inside].max(), step.bright[inside].max())
    assert strongest < 0.1 * 20 * RESPONSE_PER_DEPTH


def test_a_spot_answers_as_spot_and_not_as_line_at_its_centre() -> None:
    spot = line_response(plane(-20 * np.exp(-(ROWS**2 + COLS**2) / 8)), scale_px=SCALE)
    assert spot.spot[CENTRE, CENTRE] > 3 * spot.dark[CENTRE, CENTRE]


def test_a_slow_change_of_light_does_not_answer() -> None:
    slope = line_response(plane(0.2 * ROWS), scale_px=SCALE)
    inside = np.s_[12:-12, 12:-12]
    assert slope.dark[inside].max() == 0
    assert slope.bright[inside].max() == 0
