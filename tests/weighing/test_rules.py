from types import MappingProxyType

import pytest

from strandproof.errors import UnknownTableError
from strandproof.tables import package_table
from strandproof.weighing import error_prior, weighing_rules


def test_rules_come_from_the_table() -> None:
    rules = weighing_rules()
    assert (rules.minimum_ratio, rules.near_zero, rules.confidence) == (100, 1e-3, 0.95)
    assert rules.prior.name == "uniform"


def test_priors_are_named_and_remembered_not_read() -> None:
    assert (error_prior("jeffreys").wrong, error_prior("jeffreys").right) == (0.5, 0.5)
    rows = package_table("weighing_rules")
    priors = {row.status for key, row in rows.items() if key.startswith("prior.")}
    assert priors == {"from memory"}


def test_an_unknown_prior_is_refused() -> None:
    with pytest.raises(UnknownTableError, match=r"no row named 'prior.flat.wrong'"):
        weighing_rules(prior="flat")


def test_another_table_gives_other_rules() -> None:
    rows = dict(package_table("weighing_rules"))
    rows["result.minimum_ratio"] = rows["bound.confidence"]
    assert weighing_rules(table=MappingProxyType(rows)).minimum_ratio == 0.95
