"""Axes by powers of ten."""

from strandproof.report.plots.canvas import Scale
from strandproof.report.plots.decades import (
    decade_axis,
    decade_lines,
    decades,
    plain_power,
)

SCALE = Scale(-1.0, 3.0, 50.0, 250.0)


def test_every_power_has_a_line_and_a_word() -> None:
    assert list(decades(SCALE)) == [-1, 0, 1, 2, 3]
    assert decade_lines(SCALE, (0.0, 10.0), upright=True).count("<line") == 5
    axis = decade_axis(SCALE, 100.0, label="ppm", named=plain_power)
    for text in (">0.1<", ">1<", ">10<", ">100<", ">1000<", ">ppm<"):
        assert text in axis


def test_lines_of_an_upright_scale_lie_across() -> None:
    up = Scale(0.0, 1.0, 200.0, 100.0)
    assert 'x1="5.0" y1="200.0" x2="9.0" y2="200.0"' in decade_lines(
        up, (5.0, 9.0), upright=False
    )
