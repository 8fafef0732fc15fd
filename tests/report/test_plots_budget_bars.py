import re

import pytest
from electrical_examples import strand

from strandproof.electrical import conductivity_by_mass
from strandproof.errors import ParameterError
from strandproof.quantity import BudgetLine, Quantity
from strandproof.report.plots import budget_bars_svg


def line(name: str, component: float) -> BudgetLine:
    return BudgetLine(
        name=name,
        standard_uncertainty=component,
        unit="1",
        sensitivity=1.0,
        component=component,
    )


def result(*components: float) -> Quantity:
    total = sum(one**2 for one in components) ** 0.5
    budget = tuple(line(f"source {k}", one) for k, one in enumerate(components))
    return Quantity(100.0, "% IACS", total, budget=budget)


def widths(drawing: str) -> list[float]:
    return [float(one) for one in re.findall(r'<rect [^>]*width="([\d.]+)"', drawing)]


def test_bars_are_sorted_and_the_total_comes_last() -> None:
    drawing = budget_bars_svg(result(0.1, 0.4, 0.3), title="Uncertainty")
    *bars, total = widths(drawing)
    assert bars == sorted(bars, reverse=True)
    assert total == max(widths(drawing))
    # In proportion: 0.1 to 0.4, and 0.4 to the root of 0.26.
    assert bars[2] / bars[0] == pytest.approx(0.25, abs=0.005)
    assert bars[0] / total == pytest.approx(0.4 / 0.26**0.5, abs=0.005)
    assert drawing.index("source 1") < drawing.index("source 2")
    assert drawing.index("source 2") < drawing.index("source 0")


def test_many_small_ones_are_taken_together_in_squares() -> None:
    drawing = budget_bars_svg(result(1.0, *[0.03] * 12), title="Uncertainty")
    assert len(widths(drawing)) == 10
    assert "5 smaller ones together" in drawing
    # 0.03 times the root of five.
    assert ">0.067<" in drawing


def test_the_strand_of_the_brief_shows_its_budget() -> None:
    drawing = budget_bars_svg(conductivity_by_mass(strand()).percent_iacs, title="T")
    assert "mass of the strand" in drawing
    assert "together 0.2" in drawing
    assert "correlated" not in drawing


def test_correlation_is_said() -> None:
    correlated = Quantity(1.0, "1", 0.2, budget=(line("a", 0.1), line("b", 0.1)))
    assert "correlated" in budget_bars_svg(correlated, title="T")


def test_words_are_escaped() -> None:
    odd = Quantity(1.0, "1", 0.1, budget=(line("<b>", 0.1),))
    assert "<b>" not in budget_bars_svg(odd, title="a & b")


@pytest.mark.parametrize("empty", [Quantity(1.0, "1"), result(0.0)])
def test_nothing_to_draw_is_refused(empty: Quantity) -> None:
    with pytest.raises(ParameterError, match="one source of uncertainty"):
        budget_bars_svg(empty, title="T")
