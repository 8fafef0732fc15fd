"""Highest resistances of IEC 60228 classes 1, 2 and 5.

Source of the classes: IEC 60228, tables A.1 and A.2 and the table of class 5, as two
makers reprint them; the project's list of check values, section 2.3. Status: read
(secondary); the standard itself was not read. Printed digits as below; a limit is a
number of its own, so no tolerance. Class 6 is from memory and not held against
anything here.
"""

import numpy as np
import pytest

from strandproof.electrical import class_limit_ohm_per_km

PRINTED = """
0.5   36.0  36.7  36.0  36.7  39.0  40.1
0.75  24.5  24.8  24.5  24.8  26.0  26.7
1     18.1  18.2  18.1  18.2  19.5  20.0
1.5   12.1  12.2  12.1  12.2  13.3  13.7
2.5   7.41  7.56  7.41  7.56  7.98  8.21
4     4.61  4.70  4.61  4.70  4.95  5.09
6     3.08  3.11  3.08  3.11  3.30  3.39
10    1.83  1.84  1.83  1.84  1.91  1.95
16    1.15  1.16  1.15  1.16  1.21  1.24
25    0.727 -     0.727 0.734 0.780 0.795
"""
ROWS = [
    (float(cells[0]), conductor_class, coated, float(cells[place]))
    for cells in map(str.split, PRINTED.strip().splitlines())
    for place, (conductor_class, coated) in enumerate(
        [(1, False), (1, True), (2, False), (2, True), (5, False), (5, True)], start=1
    )
    if cells[place] != "-"
]


@pytest.mark.parametrize(("size", "conductor_class", "coated", "limit"), ROWS)
def test_class_limits(
    size: float, conductor_class: int, *, coated: bool, limit: float
) -> None:
    found = class_limit_ohm_per_km(conductor_class, nominal_mm2=size, coated=coated)
    assert found == limit


def test_a_limit_is_no_area() -> None:
    """36.0 ohm/km shows 0.479 mm2 only, not 0.5 (list of check values, 2.3)."""
    area = 1000 / 58 / class_limit_ohm_per_km(1, nominal_mm2=0.5)
    np.testing.assert_allclose(area, 0.479, rtol=0, atol=5e-4)
