import pytest

from strandproof.errors import IndentationGeometryError, ParameterError, UnitError
from strandproof.physical import (
    diagonal_error,
    largest_force_newton,
    smallest_wire_um,
    vickers_hardness,
    vickers_result,
)
from strandproof.quantity import normal_input
from strandproof.records.physical import HardnessMeasurement, Indentation

FORCE = normal_input("force", 0.1 * 9.80665, 0.005, unit="N")


def measurement(*diagonals: float, **more: float) -> HardnessMeasurement:
    return HardnessMeasurement(
        indentations=tuple(
            Indentation(first_diagonal_um=d, second_diagonal_um=d) for d in diagonals
        ),
        force=FORCE,
        diagonal_error=diagonal_error(),
        **more,  # type: ignore[arg-type]
    )


def test_wire_too_thin_is_refused_with_a_force_that_fits() -> None:
    with pytest.raises(IndentationGeometryError, match="Use 0.068 N or less") as fault:
        vickers_result(measurement(60.9, wire_diameter_um=80.0))
    assert "Indentation 1: the wire is 80.0 um thick" in str(fault.value)


def test_wire_of_five_diagonals_is_taken() -> None:
    result = vickers_result(measurement(60.0, 61.0, wire_diameter_um=305.0))
    assert len(result.values_hv) == 2
    assert all(49 < value < 52 for value in result.values_hv)


def test_metal_thinner_than_the_rule_is_refused() -> None:
    with pytest.raises(IndentationGeometryError, match="91.5 um or more"):
        vickers_result(measurement(61.0, thickness_um=91.0))
    vickers_result(measurement(61.0, thickness_um=91.5))


def test_largest_force_and_smallest_wire_are_inverse() -> None:
    force = largest_force_newton(60.0, 120.0)
    assert smallest_wire_um(60.0, force) == pytest.approx(120.0, rel=1e-12)


@pytest.mark.parametrize("wrong", [0.0, -1.0, float("nan")])
def test_no_hardness_from_nothing(wrong: float) -> None:
    with pytest.raises(ParameterError, match="above zero"):
        vickers_hardness(1.0, wrong)
    with pytest.raises(ParameterError, match="above zero"):
        vickers_result(measurement(wrong))


def test_no_indentation_is_refused() -> None:
    with pytest.raises(ParameterError, match="one or more"):
        vickers_result(measurement())


def test_a_length_is_no_force() -> None:
    given = measurement(60.0)
    wrong = HardnessMeasurement(
        indentations=given.indentations,
        force=normal_input("force", 1.0, 0.1, unit="mm"),
        diagonal_error=given.diagonal_error,
    )
    with pytest.raises(UnitError, match="gf"):
        vickers_result(wrong)
