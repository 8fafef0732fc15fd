import numpy as np

from strandproof.physical import diagonal_error, vickers_result
from strandproof.quantity import normal_input
from strandproof.records.physical import (
    HardnessMeasurement,
    HardnessResult,
    Indentation,
)


def result(
    *pairs: tuple[float, float],
    distance: float | None = 400.0,
    error_um: float = 0.2,
    block: bool = True,
) -> HardnessResult:
    return vickers_result(
        HardnessMeasurement(
            indentations=tuple(
                Indentation(
                    first_diagonal_um=one,
                    second_diagonal_um=two,
                    edge_um=distance,
                    next_um=distance,
                )
                for one, two in pairs
            ),
            force=normal_input("force", 25.0, 0.1, unit="gf"),
            diagonal_error=diagonal_error(error_um),
            block=normal_input("block", 1.0, 0.01, unit="1") if block else None,
        )
    )


def names(found: HardnessResult) -> list[str]:
    return [flag.name for flag in found.flags]


def test_soft_and_worked_copper_and_what_lies_between() -> None:
    soft = result((29.9, 30.1), (30.0, 30.0), (30.1, 30.1))
    hard = result((19.6, 19.6), (19.7, 19.5), (19.6, 19.7))
    middle = result((23.0, 23.1), (23.1, 23.0), (23.0, 23.0))
    assert (soft.state, middle.state, hard.state) == ("annealed", "between", "worked")
    assert "not how it was cast" in soft.sentence
    assert not soft.flags


def test_interval_across_an_end_is_undetermined() -> None:
    found = result((26.7, 26.7), (26.9, 26.9), (26.8, 26.8), error_um=1.0)
    assert found.state == "undetermined"
    assert "undetermined" in found.sentence


def test_shared_error_does_not_average_out() -> None:
    """Four times the indentations shrink the scatter only."""
    few = result((29.0, 29.0), (31.0, 31.0), error_um=1.0)
    many = result(*[(29.0, 29.0), (31.0, 31.0)] * 8, error_um=1.0)
    part = {
        line.name: line.component / found.hardness.value
        for found in (many,)
        for line in found.hardness.budget
    }
    np.testing.assert_allclose(
        part["reading of the diagonals"], 2 / np.sqrt(3) / 30, rtol=1e-6
    )
    assert many.hardness.standard_uncertainty < few.hardness.standard_uncertainty
    shared = next(
        line for line in few.hardness.budget if line.name == "reading of the diagonals"
    )
    np.testing.assert_allclose(
        shared.component / few.hardness.value, 2 / np.sqrt(3) / 30, rtol=1e-6
    )


def test_flags_of_what_was_not_given() -> None:
    found = result((30.0, 30.0), (30.2, 30.0), distance=None, block=False)
    assert names(found) == ["indentation_distances_not_given", "no_reference_block"]
    assert found.flags[0].detail == "2 of 2"


def test_flags_of_how_an_indentation_looks() -> None:
    found = result((18.0, 19.2), (18.5, 18.7))
    assert names(found) == ["unequal_diagonals", "short_diagonal"]
    assert found.flags[0].detail == "up to 6.5 %"


def test_one_indentation_is_flagged() -> None:
    found = result((30.0, 30.0))
    assert names(found) == ["incomplete_budget"]
    assert len(found.values_hv) == 1
