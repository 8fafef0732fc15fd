"""The drain's layer, and strand areas, as the product brief works them out.

Source: product brief, Appendix A, "Drain" and "Area", and section 2.3. Status: computed
there; the metals' constants that enter are from memory (tin) or second-hand. The eight
readings of the layer are made up so that their mean and scatter give what the brief
states, 1.9 +- 0.3 um; what follows from the thickness is the brief's own arithmetic.
Tolerance: half a unit of the last printed digit.
"""

import numpy as np

from strandproof.app.workflow.plating import PlatedStrands, plating
from strandproof.physical import section_from_readings
from strandproof.quantity import Quantity, expanded_interval
from strandproof.records.physical import LayerReadings

READINGS = LayerReadings(
    readings_um=(1.7, 2.1, 1.9, 2.0, 1.8, 1.9, 2.0, 1.8),
    resolution_um=0.36,
    scale_uncertainty_percent=0.2,
)
DRAIN = PlatedStrands(millimetres=(0.12, 0.0), strands=7)


def printed(found: float | None, text: str) -> None:
    assert found is not None
    decimals = len(text.partition(".")[2])
    np.testing.assert_allclose(found, float(text), rtol=0, atol=0.5 * 10.0**-decimals)


def ends(quantity: Quantity, *texts: str) -> None:
    interval = expanded_interval(quantity)
    for found, text in zip(
        (quantity.value, interval.lower, interval.upper), texts, strict=True
    ):
        printed(found, text)


def test_layer_of_the_drain() -> None:
    found = plating(READINGS, name="tin", strands=DRAIN)
    printed(found.thickness.thickness.value, "1.9")
    printed(found.thickness.interval.lower, "1.6")
    printed(found.thickness.interval.upper, "2.2")
    printed(found.thickness.interval.half_width, "0.3")


def test_what_the_layer_is_worth() -> None:
    effect = plating(READINGS, name="tin", strands=DRAIN).effect
    assert effect is not None
    ends(effect.volume_percent, "6.2", "5.3", "7.2")
    ends(effect.mass_percent, "5.2", "4.4", "6.0")
    ends(effect.resistance_change_percent, "5.6", "4.7", "6.5")
    printed(effect.core_diameter.value, "0.1162")
    printed(effect.core_area.value, "0.0742")
    printed(effect.strand_area.value, "0.0792")


def test_area_of_the_core() -> None:
    found = section_from_readings(((80.0, 80.0),) * 19, instrument_uncertainty_um=0.5)
    printed(found.total_area.value, "0.0955")


def test_area_of_the_drain() -> None:
    found = section_from_readings(((120.0, 120.0),) * 7, instrument_uncertainty_um=0.5)
    printed(found.total_area.value, "0.0792")
