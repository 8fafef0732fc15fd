"""What each package offers is pinned, and each says what lives in it."""

import importlib
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[1]
PINNED = Path(__file__).parent / "public_names.txt"
PACKAGES = sorted(
    ".".join(path.parent.relative_to(ROOT / "src").parts)
    for path in (ROOT / "src").rglob("__init__.py")
)


def offered() -> list[str]:
    return [
        f"{package}.{name}"
        for package in PACKAGES
        for name in sorted(getattr(importlib.import_module(package), "__all__", []))
    ]


def test_public_names_are_those_pinned() -> None:
    """A name that comes or goes is a decision: change the list with it."""
    assert offered() == PINNED.read_text("utf-8").split()


@pytest.mark.parametrize("package", PACKAGES)
def test_every_package_says_what_lives_in_it(package: str) -> None:
    text = importlib.import_module(package).__doc__
    assert text is not None
    assert len(text.split()) >= 8


@pytest.mark.parametrize("package", PACKAGES)
def test_every_name_offered_is_there(package: str) -> None:
    module = importlib.import_module(package)
    for name in getattr(module, "__all__", []):
        assert hasattr(module, name)
