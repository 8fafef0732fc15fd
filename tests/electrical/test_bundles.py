"""Where strands lie: known packings."""

import numpy as np
import pytest

from strandproof.electrical.bundles import packed_diameter_mm, strand_places
from strandproof.errors import ParameterError
from strandproof.records.electrical import ConductingMetal, RoundWire, StrandBundle

WIRE = RoundWire(
    diameter_mm=0.1, core=ConductingMetal(name="c", resistivity_ohm_m=1.7e-8)
)


@pytest.mark.parametrize(
    ("strands", "diameters"),
    [(1, 1.0), (2, 2.0), (3, 1 + 2 / np.sqrt(3)), (7, 3.0), (19, 5.0), (37, 7.0)],
)
def test_known_packings(strands: int, diameters: float) -> None:
    bundle = StrandBundle(wire=WIRE, strands=strands)
    np.testing.assert_allclose(
        packed_diameter_mm(bundle), 0.1 * diameters, rtol=1e-12, atol=0
    )


@pytest.mark.parametrize("strands", [4, 12, 76, 500])
def test_no_two_strands_overlap(strands: int) -> None:
    places = strand_places(strands)
    away = np.linalg.norm(places[:, None] - places, axis=2)
    np.fill_diagonal(away, np.inf)
    assert places.shape == (strands, 2)
    assert away.min() > 1 - 1e-9


def test_a_given_diameter_is_kept() -> None:
    bundle = StrandBundle(wire=WIRE, strands=19, diameter_mm=0.6)
    assert packed_diameter_mm(bundle) == 0.6


def test_no_strand() -> None:
    with pytest.raises(ParameterError, match="strands"):
        strand_places(0)
