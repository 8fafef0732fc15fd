"""Values with uncertainty: the GUM's arithmetic, exact limits, and showing digits.

Imports `errors` only. Results of every measuring part are built from the frozen
`Quantity` (value, standard uncertainty, unit, degrees of freedom, budget) and
`Interval` of this package.
"""

from strandproof.quantity._types import BudgetLine, Interval, Quantity

__all__ = ["BudgetLine", "Interval", "Quantity"]
