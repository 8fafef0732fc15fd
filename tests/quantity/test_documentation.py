"""The examples of the documentation pages run and give what they print."""

import doctest
from pathlib import Path

import pytest

DOCS = Path(__file__).parents[2] / "docs"


@pytest.mark.parametrize("page", ["uncertainty.md", "exact-limits.md"])
def test_the_page_shows_what_the_code_gives(page: str) -> None:
    outcome = doctest.testfile(str(DOCS / page), module_relative=False, encoding="utf8")
    assert outcome.attempted > 0
    assert outcome.failed == 0
