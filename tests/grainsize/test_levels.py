import pytest

from strandproof.errors import ParameterError
from strandproof.grainsize import mean_over_level


def test_the_level_is_named_with_the_interval() -> None:
    estimate = mean_over_level((8.0, 9.0, 10.0), level="strand")
    assert estimate.quantity.value == pytest.approx(9.0, rel=1e-12, abs=0)
    assert estimate.quantity.degrees_of_freedom == 2
    assert estimate.interval95 is not None
    assert estimate.interval95.method.startswith("mean intercepts by strand")


def test_one_unit_has_no_scatter() -> None:
    with pytest.raises(ParameterError, match="two readings or more"):
        mean_over_level((8.0,), level="lead")
