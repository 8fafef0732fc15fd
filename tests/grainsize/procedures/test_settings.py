import pytest

from strandproof.errors import ParameterError, UnitError
from strandproof.grainsize.procedures.settings import procedure_settings
from strandproof.quantity import Quantity


def test_what_is_left_out_is_the_packages_own() -> None:
    settings = procedure_settings(None)
    assert settings.rules.frame_rule == "half_and_quarter_corners"
    assert settings.scoring.tangent.option == "half"
    assert settings.relations.form == "e112"
    assert settings.print_size_px(79.8) is None


def test_a_print_gives_sizes_in_pixels() -> None:
    settings = procedure_settings(Quantity(0.5, "um", 0.001), magnification=100.0)
    assert settings.print_size_px(79.8) == 1596.0


@pytest.mark.parametrize("given", [0.0, -100.0, float("nan")])
def test_a_magnification_is_above_zero(given: float) -> None:
    with pytest.raises(ParameterError, match="magnification was given as"):
        procedure_settings(None, magnification=given)


def test_a_pixel_size_is_in_micrometres() -> None:
    with pytest.raises(UnitError, match="um"):
        procedure_settings(Quantity(0.5, "mm", 0.001))


def test_at_least_one_circle_is_laid() -> None:
    with pytest.raises(ParameterError, match="1 or more"):
        procedure_settings(None, placements=0)
