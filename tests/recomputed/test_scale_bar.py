"""The bar of a micrograph against the project's own arithmetic.

Source: product brief, Appendix A, line "Bar", and its rule that a bar of the series
1-2-5 is 12.4 to 31 % of the picture's width. Status: computed there, recomputed
here from the definition; no published source. Printed digits: 0.1 px, 0.1 um.
"""

import re

import pytest

from strandproof.report import MicrographPicture, scale_bar_um
from strandproof.report.figures import micrograph_svg

PIXEL_SIZE_UM = 0.1726


def test_bar_of_the_example_picture_is_50_um_and_289_7_px() -> None:
    assert scale_bar_um(1800 * PIXEL_SIZE_UM) == pytest.approx(50, rel=1e-12, abs=0)
    svg = str(
        micrograph_svg(
            MicrographPicture(b"", 1800, 1200),
            pixel_size_um=PIXEL_SIZE_UM,
            alt="a field",
            mark="DQV-835",
        )
    )
    black = re.search(r'width="([\d.]+)" height="[\d.]+" fill="#000"', svg)
    assert black is not None
    assert float(black[1]) == pytest.approx(289.7, rel=0, abs=0.05)
    assert "50 µm" in svg


def test_shares_at_the_ends_of_the_series() -> None:
    """From one step of 1-2-5 to the next the share falls from 31 % to 12.4 %."""
    just_enough = 50 / 0.31
    assert scale_bar_um(just_enough) == pytest.approx(50, rel=1e-12, abs=0)
    just_below = just_enough * 0.99999
    share = scale_bar_um(just_below) / just_below
    assert share == pytest.approx(0.124, rel=0, abs=5e-5)
